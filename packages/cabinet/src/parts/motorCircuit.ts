import type { Auxiliary, Impedance, Machine } from "@startgap/circuit";
import type { Issue } from "../issue.ts";
import type { Range } from "../quantity.ts";
import { textOrRecord } from "../shape/choices.ts";
import { may, need, type RecordOf, record } from "../shape/record.ts";
import { number, oneOf, quantity } from "../shape/scalars.ts";
import { impedance, ohms, reactance, resistance } from "./common.ts";

const turns = number({ a: "a ratio of turns, auxiliary over main", from: 0.1, to: 10, example: 1.18 });
const speed = (example: number) =>
  number({ a: "a fraction of synchronous speed", from: 0.05, to: 0.98, example });

const branch = record(
  "a capacitor branch",
  {
    r: need(resistance, "Resistance in series."),
    x: need(reactance, "Reactance at the supply's frequency; a capacitive one is written positive here."),
  },
  { example: `{ "r": "3 ohm", "x": "14.5 ohm" }` },
);

const capacitor = textOrRecord(
  quantity("capacitance", { from: "0.1 uF", to: "5000 uF", example: "400 uF" }),
  branch,
);

const auxiliary = record(
  "an auxiliary winding",
  {
    r: need(resistance, "Resistance of the auxiliary winding."),
    x: need(reactance, "Leakage reactance of the auxiliary winding."),
    turnsRatio: need(turns, "Effective turns, auxiliary over main."),
  },
  { example: `{ "r": "7.14 ohm", "x": "3.22 ohm", "turnsRatio": 1.18 }` },
);

/** The keys of a motor's equivalent circuit, ohms at the supply's frequency, referred to the main winding. */
const fields = {
  poles: need(oneOf("a number of poles", [2, 4, 6, 8, 10, 12]), "Number of poles."),
  voltage: need(quantity("voltage", { from: "20 V", to: "600 V", example: "110 V" }), "Rated voltage."),
  main: need(impedance, "Main winding: resistance and leakage reactance."),
  rotor: need(impedance, "Rotor at running slip."),
  rotorAtStandstill: may(impedance, "Rotor at standstill, where it differs: as at running when silent."),
  magnetising: need(
    quantity("resistance", { a: "a reactance", from: "0.1 ohm", to: "100 kohm", example: "66.8 ohm" }),
    "Magnetising reactance.",
  ),
  auxiliary: may(auxiliary, "Auxiliary winding; none when silent."),
  startCapacitor: may(capacitor, "In series with the auxiliary winding until the start switch opens."),
  runCapacitor: may(capacitor, "In series with the auxiliary winding for good."),
  switchOpens: may(speed(0.75), "Speed at which the start switch opens, as a fraction of synchronous."),
  switchCloses: may(speed(0.45), "Speed below which it closes again: 0.45 when silent."),
  inertia: need(
    quantity("inertia", { from: "1e-6 kg m2", to: "100 kg m2", example: "0.0146 kg m2" }),
    "Inertia of the rotor.",
  ),
  core: may(
    quantity("resistance", {
      a: "a core-loss resistance",
      from: "1 ohm",
      to: "1000 kohm",
      example: "800 ohm",
    }),
    "Core loss as a resistance across the terminals; none when silent.",
  ),
  rotationalLoss: may(
    quantity("power", { from: "0 W", to: "5 kW", example: "13 W" }),
    "Windage and friction at synchronous speed; none when silent.",
  ),
} as const;

export type MotorCircuit = RecordOf<typeof fields>;

export const motorCircuit = record("an equivalent circuit", fields);

/** Speed at which a start switch closes again, as a fraction of synchronous. Common practice: 0.3 to 0.6. */
export const USUAL_SWITCH_CLOSES = 0.45;

/** What a circuit says that cannot be together. Paths are relative to the part. */
export function circuitIssues(circuit: MotorCircuit): Issue[] {
  const issues: Issue[] = [];
  const report = (key: string, expected: string, received: string): void => {
    issues.push({ path: `circuit.${key}`, expected, received });
  };
  for (const key of ["startCapacitor", "runCapacitor", "switchOpens"] as const) {
    if (circuit[key] !== null && circuit.auxiliary === null) {
      report(
        key,
        `"auxiliary" beside "${key}", for it works in the auxiliary winding`,
        "no auxiliary winding",
      );
    }
  }
  if (circuit.startCapacitor !== null && circuit.switchOpens === null) {
    report(
      "switchOpens",
      `the speed at which the start switch opens, as 0.75, beside "startCapacitor"`,
      "nothing",
    );
  }
  checkSwitch(circuit, report);
  for (const key of ["main", "rotor", "rotorAtStandstill", "auxiliary"] as const) {
    if (circuit[key]?.r.low === 0) report(`${key}.r`, `a resistance above 0, as "2.02 ohm"`, "0 ohm");
  }
  return issues;
}

function checkSwitch(
  circuit: MotorCircuit,
  report: (key: string, expected: string, received: string) => void,
): void {
  const { switchOpens: opens, switchCloses: closes } = circuit;
  if (closes !== null && opens === null)
    report("switchOpens", `"switchOpens" beside "switchCloses"`, "nothing");
  if (opens === null) return;
  const highest = closes?.high ?? USUAL_SWITCH_CLOSES;
  if (opens.low > highest) return;
  if (closes === null)
    report(
      "switchCloses",
      `a speed below switchOpens (${opens.low}), for it is not above the usual 0.45`,
      "nothing",
    );
  else report("switchCloses", `a speed below switchOpens (${opens.low})`, `${highest}`);
}

/** A capacitor of C farad is a reactance of 1/(2 pi f C); stated so, it has no resistance. */
function capacitorOf(read: Range | { r: Range; x: Range } | null, frequency_Hz: number): Impedance | null {
  if (read === null) return null;
  return "r" in read ? ohms(read) : { r_ohm: 0, x_ohm: 1 / (2 * Math.PI * frequency_Hz * read.nominal) };
}

function auxiliaryOf(circuit: MotorCircuit): Auxiliary | null {
  const aux = circuit.auxiliary;
  return aux === null ? null : { ...ohms(aux), turnsRatio: aux.turnsRatio.nominal };
}

/** The machine that a circuit states outright: nothing is added that it does not say. */
export function machineOf(circuit: MotorCircuit, frequency_Hz: number): Machine {
  const rotor = ohms(circuit.rotor);
  const opens = circuit.switchOpens?.nominal;
  return {
    poles: circuit.poles,
    frequency_Hz,
    voltage_V: circuit.voltage.nominal,
    main: ohms(circuit.main),
    rotor,
    rotorAtStandstill: circuit.rotorAtStandstill === null ? rotor : ohms(circuit.rotorAtStandstill),
    magnetising_ohm: circuit.magnetising.nominal,
    core_ohm: circuit.core?.nominal ?? Number.POSITIVE_INFINITY,
    rotationalLoss_W: circuit.rotationalLoss?.nominal ?? 0,
    auxiliary: auxiliaryOf(circuit),
    startCapacitor: capacitorOf(circuit.startCapacitor, frequency_Hz),
    runCapacitor: capacitorOf(circuit.runCapacitor, frequency_Hz),
    startSwitch:
      opens === undefined ? null : { opens, closes: circuit.switchCloses?.nominal ?? USUAL_SWITCH_CLOSES },
  };
}
