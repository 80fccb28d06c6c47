import { type Cabinet, examples, parseCabinet, readCabinet } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { isFailure, type VaryOptions, type VaryReport, vary } from "../../src/index.ts";

function cabinetOf(file: unknown): Cabinet {
  const read = readCabinet(file);
  if ("issues" in read) throw new Error(JSON.stringify(read.issues));
  return read.cabinet;
}

function varied(cabinet: Cabinet, options: VaryOptions): VaryReport {
  const report = vary(cabinet, options);
  if (report === null || isFailure(report)) throw new Error("nothing varied");
  return report;
}

/** A heater of 14.4 ohm behind a supply of 0.5 to 1.5 ohm, and a lamp that takes next to nothing of it. */
const heater = cabinetOf({
  startgap: 1,
  title: "heater",
  parts: [
    {
      name: "panel",
      is: "supply",
      voltage: "240 V",
      frequency: "60 Hz",
      impedance: { r: "0.5 ohm .. 1.5 ohm", x: "0 ohm" },
    },
    { name: "heater", is: "load", fedBy: "panel", power: "4 kW" },
    { name: "lamp", is: "load", fedBy: "panel", power: "0.01 W +- 50 %" },
  ],
});

describe("a heater behind a rough supply (closed form: V = 240 R/(R + r), r even over its range)", () => {
  const report = varied(heater, { draws: 400 });
  const [spread] = report.spreads;
  const volts = (r: number): number => (240 * 14.4) / (14.4 + r);

  it("has its quantiles where those of the resistance lie", () => {
    expect(spread).toMatchObject({ part: "heater", quantity: "lowest voltage", known: 400 });
    expect(spread.nominal).toBeCloseTo(volts(1), 2);
    // Within a slice of the hypercube, 1 ohm/400, at 15.6 V an ohm.
    expect(Math.abs((spread.low ?? 0) - volts(1.45))).toBeLessThan(0.05);
    expect(Math.abs((spread.median ?? 0) - volts(1))).toBeLessThan(0.05);
    expect(Math.abs((spread.high ?? 0) - volts(0.55))).toBeLessThan(0.05);
  });

  it("is decided by the resistance alone", () => {
    expect(report.influences[0]).toMatchObject({ part: "panel", path: "parts[0].impedance.r", unit: "ohm" });
    expect(report.influences[0].correlation).toBeCloseTo(-1, 2);
    expect(Math.abs(report.influences[1].correlation)).toBeLessThan(0.2);
  });

  it("comes out the same from the same seed and otherwise from another", () => {
    expect(varied(heater, { draws: 400 })).toEqual(report);
    expect(varied(heater, { draws: 400, seed: 2 }).spreads).not.toEqual(report.spreads);
  });
});

it("a weak feeder fails in the share of draws that its range puts beyond the limit (constructed)", () => {
  const pair = (length: string): Cabinet => {
    const read = parseCabinet(examples.find(({ key }) => key === "pump-pair")?.text ?? "");
    if ("issues" in read) throw new Error("bad example");
    const parts = (read.cabinet.file.parts as Record<string, unknown>[]).map((p) =>
      p.is === "cable" ? { ...p, length, temperature: "20 degC" } : p,
    );
    return cabinetOf({ ...read.cabinet.file, parts });
  };
  const report = varied(pair("80 m .. 400 m"), { draws: 60 });
  expect(report.passes).toBeGreaterThan(0);
  expect(report.passes).toBeLessThan(60);
  expect(report.fails.length).toBeGreaterThan(0);
  expect(report.influences[0]).toMatchObject({ part: "garden cable" });
  expect(report.influences[0].correlation).toBeLessThan(-0.95);
  const short = varied(pair("20 m .. 30 m"), { draws: 30 });
  expect(short.passes).toBe(30);
});

it("nothing is varied in a file without a range", () => {
  const read = parseCabinet(examples.find(({ key }) => key === "quarter-horse")?.text ?? "");
  if ("issues" in read) throw new Error("bad example");
  expect(vary(read.cabinet)).toBeNull();
});

it("refuses a number of draws that is none, and ends when it is cancelled", () => {
  expect(() => vary(heater, { draws: 1 })).toThrow(RangeError);
  expect(() => vary(heater, { draws: 2.5 })).toThrow(RangeError);
  const cancelled = vary(heater, { signal: { aborted: true } });
  expect(cancelled !== null && isFailure(cancelled)).toBe(true);
});
