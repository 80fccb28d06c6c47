import { type Cabinet, examples, parseCabinet, transformerFrom } from "@startgap/cabinet";
import type { Circuit, PartParameters } from "@startgap/circuit";
import { type FailureInstant, type FailureReport, type FailureRow, failures } from "@startgap/study";
import { describe, expect, it } from "vitest";
import { type Complex, size } from "../nodal/complex.ts";
import { nodal, type Setting } from "../nodal/nodal.ts";
import { loneWinding } from "./lone.ts";

function cabinetOf(key: string): Cabinet {
  const read = parseCabinet(examples.find((one) => one.key === key)?.text ?? "");
  if ("issues" in read) throw new Error(key);
  return read.cabinet;
}

function reportOf(cabinet: Cabinet): FailureReport {
  const report = failures(cabinet);
  if ("failed" in report) throw new Error(report.failed);
  return report;
}

/** What a row says has failed, as a thing that is missing from the drawing with both wires. */
function brokenIn(row: FailureRow): Setting["broken"] {
  if (row.kind === "midpoint open") return "midpoint";
  if (row.kind !== "winding open") return undefined;
  if (row.failure.includes("start winding")) return "auxiliary winding";
  const which = ["first winding", "second winding", "main winding"] as const;
  return which.find((winding) => row.failure.includes(`the ${winding} of`));
}

const syncRpm = (p: PartParameters, circuit: Circuit): number => {
  const [supply] = circuit.parts;
  if (p.is !== "motor" || supply.is !== "supply") return Number.NaN;
  return (120 * supply.frequency_Hz) / p.machine.poles;
};

/** The sound cabinet with that one thing missing, its contacts and speeds as the row tells them. */
function settingsOf(circuit: Circuit, row: FailureRow, now: FailureInstant, lone?: Complex): Setting[] {
  return circuit.parts.map((p): Setting => {
    const broken = p.name === row.part ? brokenIn(row) : undefined;
    const open = now.open.includes(p.name) || (p.is === "transformer" && broken === "first winding");
    const motor = now.motors.find(({ part }) => part === p.name);
    if (motor === undefined) return { open, broken, lone };
    return {
      open,
      broken,
      slip: 1 - motor.speed_rpm / syncRpm(p, circuit),
      switchClosed: motor.startSwitchClosed,
    };
  });
}

/** Voltage between the two wires of whatever a row tells of. */
function voltages(circuit: Circuit, settings: readonly Setting[], now: FailureInstant): number[] {
  const { outputs } = nodal(circuit, settings);
  const at = (feeder: string, leg: string): number => {
    const i = circuit.parts.findIndex(({ name }) => name === feeder);
    const out = outputs[i] ?? [];
    return size(out.length === 3 ? out[["first", "second", "both"].indexOf(leg)] : out[0]);
  };
  return now.points.map(({ part }) => {
    const p = circuit.parts.find(({ name }) => name === part);
    if (p?.is === "contactor" && p.coil !== null) return at(p.coil.fedBy, p.coil.leg);
    return p === undefined || p.is === "supply" ? Number.NaN : at(p.fedBy, p.leg);
  });
}

/** Its voltage and admittance settle together: by bisection on the voltage, a dense solve at every step. */
function settledLone(circuit: Circuit, row: FailureRow, now: FailureInstant): Complex {
  const p = circuit.parts.find(({ name }) => name === row.part);
  if (p?.is !== "autotransformer") throw new Error(row.part);
  const usual = transformerFrom({ is: p.is, windings_V: p.windings_V, rating_VA: p.rating_VA });
  if (!("value" in usual)) throw new Error(row.part);
  const { conductance_S: g, susceptance_S: b } = usual.value.excitation;
  const input_V = p.windings_V[0] + p.windings_V[1];
  // Equal windings: half the voltage, the same watts and volt-amperes in the core.
  const law = loneWinding({
    nominal_V: input_V / 2,
    rating_VA: p.rating_VA,
    idle_W: g * input_V ** 2,
    magnetising_VA: b * input_V ** 2,
    frequency_Hz: 60,
  });
  const leg = row.failure.includes("first") ? 1 : 0;
  const i = circuit.parts.indexOf(p);
  let [low, high] = [1, 400];
  for (let n = 0; n < 44; n++) {
    const middle = (low + high) / 2;
    const { outputs } = nodal(circuit, settingsOf(circuit, row, now, law(middle)));
    if (middle < size(outputs[i][leg])) low = middle;
    else high = middle;
  }
  return law(high);
}

const isLone = (circuit: Circuit, row: FailureRow): boolean =>
  row.kind === "winding open" &&
  circuit.parts.some(({ name, is }) => name === row.part && is === "autotransformer");

/** A tenth of a microvolt; and a millionth of the voltage where the core's current is integrated in two ways. */
const CLOSE_V = 1e-7;
const CORE = 1e-6;

describe("every row of the ice shed's failures (independent code: dense nodal solve with both wires)", () => {
  const { circuit } = cabinetOf("ice-shed");
  const report = reportOf(cabinetOf("ice-shed"));

  it("has every fuse, conductor, winding, midpoint, contact, relay and start switch of the cabinet", () => {
    expect(report.rows.map(({ failure }) => failure).sort()).toEqual(
      [
        "one conductor of feeder is open",
        "one of the two fuses of line fuses is open",
        "the first winding of midpoint transformer is open",
        "the second winding of midpoint transformer is open",
        "the midpoint wire of midpoint transformer is open",
        "the first winding of control transformer is open",
        "the second winding of control transformer is open",
        "contactor does not close",
        "the contacts of contactor are welded",
        "delay relay does not close",
        "delay relay is stuck closed and holds nothing back",
        ...["compressor 1", "compressor 2"].flatMap((motor) => [
          `the main winding of ${motor} is open`,
          `the start winding or a capacitor of ${motor} is open`,
          `the start switch of ${motor} is stuck closed`,
        ]),
      ].sort(),
    );
  });

  for (const row of report.rows) {
    for (const { moment, first, last } of row.moments) {
      it(`${row.failure}, ${moment}: the voltage at every motor, load and coil, at once and in the end`, () => {
        for (const now of [first, last]) {
          const lone = isLone(circuit, row);
          const settings = settingsOf(circuit, row, now, lone ? settledLone(circuit, row, now) : undefined);
          const want = voltages(circuit, settings, now);
          now.points.forEach(({ part, voltage_V }, k) => {
            const room = CLOSE_V + (lone ? CORE * want[k] : 0);
            expect(Math.abs(voltage_V - want[k]), `${part}: ${voltage_V} V, dense ${want[k]} V`).toBeLessThan(
              room,
            );
          });
        }
      });
    }
  }
});
