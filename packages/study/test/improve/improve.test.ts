import { type Cabinet, examples, parseCabinet, readCabinet } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { check } from "../../src/check.ts";
import { type ImproveReport, improve, isFailure } from "../../src/index.ts";

function cabinetNamed(key: string): Cabinet {
  const read = parseCabinet(examples.find((example) => example.key === key)?.text ?? "");
  if ("issues" in read) throw new Error("bad example");
  return read.cabinet;
}

function improved(cabinet: Cabinet): ImproveReport {
  const report = improve(cabinet, { delayStep_s: 0.5 });
  if (isFailure(report)) throw new Error(report.failed);
  return report;
}

const names = ({ changes }: ImproveReport): string[] =>
  changes.map(({ part, to, from }) => `${part}: ${from} to ${to}`);

describe("single changes of the ice shed", () => {
  const shed = cabinetNamed("ice-shed");
  const report = improved(shed);

  it("are every cable's next two sizes, every transformer's next rating, every leg and the supply", () => {
    expect(names(report).sort()).toEqual([
      "contactor: the first leg to the second leg",
      "control transformer: 40 VA to 75 VA",
      "control transformer: the first leg to the second leg",
      "feeder: 12 AWG Cu to 10 AWG Cu",
      "feeder: 12 AWG Cu to 8 AWG Cu",
      "midpoint transformer: 3 kVA to 5 kVA",
      "panel: 1.8 kA to 3.6 kA of fault current",
      "receptacles: the second leg to the first leg",
    ]);
  });

  it("are told as a check of the file changed by hand tells them (independent)", () => {
    const text = JSON.stringify(shed.file).replace("12 AWG Cu", "8 AWG Cu");
    const read = parseCabinet(text);
    if ("issues" in read) throw new Error("bad change");
    const told = check(read.cabinet, { delayStep_s: 0.5 });
    if (isFailure(told)) throw new Error(told.failed);
    const found = report.changes.find(({ to }) => to === "8 AWG Cu");
    const motors = told.report.cases
      .filter((one) => one.case !== "together")
      .flatMap((one) => one.motors.map(({ lowestVoltage_V }) => lowestVoltage_V ?? Number.POSITIVE_INFINITY));
    expect(found?.lowestMotor_percent).toBeCloseTo((100 * Math.min(...motors)) / 115, 9);
    expect(found?.shortest_s).toBe(told.report.delay.shortest_s);
    expect(found?.fails).toBe(0);
  });

  it("put what helps first: fewer fails, then fewer cautions, and never at the voltage's cost", () => {
    const lowest = (one: ImproveReport["asItIs"]): number =>
      Math.min(one.lowestMotor_percent ?? 100, one.lowestPoint_percent ?? 100);
    const helping = report.changes.filter(({ helps }) => helps);
    expect(report.changes.slice(0, helping.length)).toEqual(helping);
    expect(helping.length).toBeGreaterThan(1);
    helping.forEach((one, i) => {
      expect(one.fails).toBeLessThanOrEqual(report.asItIs.fails);
      expect(lowest(one)).toBeGreaterThan(lowest(report.asItIs) - 1);
      const before = helping[i - 1];
      if (before !== undefined) expect(before.cautions).toBeLessThanOrEqual(one.cautions);
    });
    const crowded = report.changes.find(({ part }) => part === "receptacles");
    expect(crowded?.helps).toBe(false);
  });

  it("leave the cabinet as it was", () => {
    expect(improved(shed)).toEqual(report);
    expect(shed.file).toEqual(cabinetNamed("ice-shed").file);
  });
});

it("a feeder of half the resistance loses half the volts (closed form: two heaters, no reactance)", () => {
  const heaters = (conductor: string) => ({
    startgap: 1,
    title: "two heaters",
    parts: [
      {
        name: "panel",
        is: "supply",
        voltage: "240 V",
        frequency: "60 Hz",
        impedance: { r: "0 ohm", x: "0 ohm" },
      },
      { name: "feeder", is: "cable", fedBy: "panel", conductor, length: "100 ft", temperature: "75 degC" },
      { name: "heaters", is: "load", fedBy: "feeder", power: "4 kW" },
    ],
  });
  const read = readCabinet(heaters("12 AWG Cu"));
  if ("issues" in read) throw new Error("bad file");
  const { asItIs, changes } = improved(read.cabinet);
  const cable = (of: Cabinet): { r: number; x: number } => {
    const p = of.circuit.parts[1];
    return p.is === "cable" ? { r: p.r_ohm, x: p.x_ohm } : { r: Number.NaN, x: Number.NaN };
  };
  const left = (of: Cabinet): number => {
    const { r, x } = cable(of);
    const heater = 240 ** 2 / 4000;
    return (100 * heater) / Math.hypot(heater + r, x);
  };
  expect(asItIs.lowestPoint_percent).toBeCloseTo(left(read.cabinet), 9);
  for (const { to, lowestPoint_percent } of changes) {
    const other = readCabinet(heaters(to));
    if ("issues" in other) throw new Error("bad file");
    expect(lowestPoint_percent).toBeCloseTo(left(other.cabinet), 9);
  }
  expect(changes.map(({ to }) => to)).toEqual(["8 AWG Cu", "10 AWG Cu"]);
});

it("a cabinet that is stated outright leaves nothing to try", () => {
  expect(improved(cabinetNamed("quarter-horse")).changes).toEqual([]);
});

it("ends when it is cancelled", () => {
  const cancelled = improve(cabinetNamed("ice-shed"), { signal: { aborted: true } });
  expect(isFailure(cancelled)).toBe(true);
});
