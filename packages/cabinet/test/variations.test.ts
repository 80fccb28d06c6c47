import { variations } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { cabinetOf, circuit, file, load, midpoint, motor, supply } from "./support/files.ts";

const ranged = file(
  supply({ frequency: "60 Hz +- 1 Hz", impedance: { r: "0.08 ohm .. 0.12 ohm", x: "0.1 ohm" } }),
  midpoint({ impedance: "4.5 % +- 20 %", xOverR: "0.4 .. 0.6" }),
  { name: "relay", is: "delay relay", fedBy: "midpoint", delay: "6 s +- 10 %", reset: "100 ms" },
  motor({
    fedBy: "relay",
    circuit: circuit({ startCapacitor: "180 uF +- 10 %", switchOpens: "0.7 .. 0.8" }),
  }),
  load({ fedBy: "midpoint", power: "400 W" }),
);

const fixed = (f: string, r: string, z: string, q: number, d: string, c: string, s: number) =>
  file(
    supply({ frequency: f, impedance: { r, x: "0.1 ohm" } }),
    midpoint({ impedance: z, xOverR: q }),
    { name: "relay", is: "delay relay", fedBy: "midpoint", delay: d, reset: "100 ms" },
    motor({ fedBy: "relay", circuit: circuit({ startCapacitor: c, switchOpens: s }) }),
    load({ fedBy: "midpoint", power: "400 W" }),
  );

describe("the ranges of a cabinet", () => {
  const cabinet = cabinetOf(ranged);

  it("are listed with the part that they belong to", () => {
    expect(cabinet.ranges.map(({ path, part, unit }) => [path, part, unit])).toEqual([
      ["parts[0].frequency", "panel", "Hz"],
      ["parts[0].impedance.r", "panel", "ohm"],
      ["parts[1].impedance", "midpoint", ""],
      ["parts[1].xOverR", "midpoint", ""],
      ["parts[2].delay", "relay", "s"],
      ["parts[3].circuit.startCapacitor", "motor", "F"],
      ["parts[3].circuit.switchOpens", "motor", ""],
    ]);
    expect(cabinet.ranges[5]).toMatchObject({ nominal: 180e-6 });
    expect(cabinet.ranges[5]!.low).toBeCloseTo(162e-6, 12);
    expect(cabinet.ranges[5]!.high).toBeCloseTo(198e-6, 12);
  });

  it("are empty when everything is stated exactly", () => {
    expect(cabinetOf(file(supply(), load())).ranges).toEqual([]);
  });
});

describe("a variation", () => {
  const cabinet = cabinetOf(ranged);
  const vary = variations(cabinet);
  const varied = (values: readonly number[]) => {
    const read = vary(values);
    if ("issues" in read) throw new Error(JSON.stringify(read.issues));
    return read.cabinet;
  };

  it("is the cabinet itself at the nominal values", () => {
    const same = varied(cabinet.ranges.map((range) => range.nominal));
    expect(same.circuit).toEqual(cabinet.circuit);
    expect(same.assumptions).toEqual(cabinet.assumptions);
  });

  it("is what a file with these values would be, to the last digit", () => {
    const values = [60, 0.11, 0.05, 0.55, 6.5, 190e-6, 0.72];
    const read = cabinetOf(fixed("60 Hz", "0.11 ohm", "5 %", 0.55, "6.5 s", "190 uF", 0.72));
    expect(varied(values).circuit).toEqual(read.circuit);
    expect(varied(values).relays).toEqual(read.relays);
  });

  it("keeps a circuit's ohms as stated for the nominal frequency, from which the circuit scales them", () => {
    const values = cabinet.ranges.map((range) => range.nominal);
    const other = varied([61, ...values.slice(1)]);
    expect(other.circuit.parts[0]).toMatchObject({ frequency_Hz: 61 });
    expect(other.circuit.parts[3]).toEqual(cabinet.circuit.parts[3]);
  });

  it("works out what a changed frequency reaches: the reactance of a wire grows with it (closed form)", () => {
    const wired = cabinetOf(
      file(
        supply({ frequency: "50 Hz .. 60 Hz" }),
        { name: "feeder", is: "cable", fedBy: "panel", conductor: "12 AWG Cu", length: "30 m" },
        load({ fedBy: "feeder" }),
      ),
    );
    const x_ohm = (frequency: number) => {
      const read = variations(wired)([frequency]);
      if ("issues" in read) throw new Error(JSON.stringify(read.issues));
      return (read.cabinet.circuit.parts[1] as { x_ohm: number }).x_ohm;
    };
    expect(x_ohm(60) / x_ohm(50)).toBeCloseTo(1.2, 12);
  });

  it("takes as many values as there are ranges, each within its own", () => {
    const values = cabinet.ranges.map((range) => range.nominal);
    expect(() => vary(values.slice(1))).toThrow(RangeError);
    expect(() => vary([70, ...values.slice(1)])).toThrow("invalid value for parts[0].frequency: 70");
    expect(() => vary([Number.NaN, ...values.slice(1)])).toThrow(RangeError);
  });
});
