import type { Impedance } from "@startgap/circuit";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { issueText } from "../src/issue.ts";
import { lineThrough } from "../src/supply/line.ts";
import type { MeterReading, ReadingsSupply } from "../src/supply/spec.ts";
import { supplyFrom } from "../src/supply/supply.ts";

const base = { from: "readings", voltage_V: 240, frequency_Hz: 60 } as const;
const heater = { loadPowerFactor: 1, xOverR: 0 } as const;

const derive = (spec: Partial<ReadingsSupply>) => supplyFrom({ ...base, ...spec } as ReadingsSupply, "panel");

const found = (spec: Partial<ReadingsSupply>) => {
  const result = derive(spec);
  if (Array.isArray(result)) throw new Error(result.map(issueText).join("\n"));
  return result.value;
};

const problems = (spec: unknown) => {
  const result = derive(spec as ReadingsSupply);
  return Array.isArray(result) ? result.map(issueText) : [];
};

const read = (...pairs: [number, number][]): MeterReading[] =>
  pairs.map(([voltage_V, current_A]) => ({ voltage_V, current_A }));

/** Voltage at a load behind an impedance, found by bisection on |V + Z I| = E: another way than the fit's. */
function voltageAt(open_V: number, z: Impedance, current_A: number, powerFactor: number): number {
  const sine = Math.sqrt(1 - powerFactor ** 2);
  const behind = (V: number) =>
    Math.hypot(
      V + current_A * (z.r_ohm * powerFactor + z.x_ohm * sine),
      current_A * (z.x_ohm * powerFactor - z.r_ohm * sine),
    );
  let [low, high] = [0, open_V];
  for (let k = 0; k < 200; k++) {
    const middle = (low + high) / 2;
    if (behind(middle) > open_V) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}

const perfect = { voltage_percent: 0, voltageCounts: 0, current_percent: 0, currentCounts: 0 } as const;

describe("supply from readings", () => {
  it("takes a drop of 5 V at 8 A as 0.625 ohm (common practice)", () => {
    const value = found({ ...base, voltage_V: 120, readings: read([120, 0], [115, 8]), ...heater });
    expect(value.r_ohm).toBeCloseTo(0.625, 12);
    expect(value.voltage_V).toBe(120);
  });

  it("comes back to the impedance that made the readings, at the line (invariant, fixed seed)", () => {
    const z = fc.record({
      r_ohm: fc.double({ min: 0.01, max: 1, noNaN: true }),
      xOverR: fc.double({ min: 0, max: 3, noNaN: true }),
      loadPowerFactor: fc.double({ min: 0.5, max: 1, noNaN: true }),
      drift_V: fc.double({ min: -0.5, max: 0.5, noNaN: true }),
    });
    fc.assert(
      fc.property(z, ({ r_ohm, xOverR, loadPowerFactor, drift_V }) => {
        const impedance = { r_ohm, x_ohm: xOverR * r_ohm };
        const readings = [0, 20, 0, 20, 0].map((current_A, k) => ({
          voltage_V: voltageAt(240, impedance, current_A, loadPowerFactor) + k * drift_V,
          current_A,
        }));
        const value = found({ readings, xOverR, loadPowerFactor, meter: perfect });
        expect(Math.abs(value.r_ohm / r_ohm - 1)).toBeLessThan(drift_V === 0 ? 1e-9 : 0.02);
        expect(Math.abs(value.x_ohm - xOverR * r_ohm)).toBeLessThan(0.02 * xOverR * r_ohm + 1e-12);
      }),
      { seed: 20267, numRuns: 200 },
    );
  });

  it("is exact without drift, with any number of loads (invariant, fixed seed)", () => {
    const loads = fc.array(fc.double({ min: 0, max: 30, noNaN: true }), { minLength: 1, maxLength: 6 });
    const z = fc.tuple(
      fc.double({ min: 0.01, max: 1, noNaN: true }),
      fc.double({ min: 0, max: 3, noNaN: true }),
    );
    fc.assert(
      fc.property(loads, z, (more, [r_ohm, xOverR]) => {
        const impedance = { r_ohm, x_ohm: xOverR * r_ohm };
        const readings = [0, 25, ...more].map((current_A) => ({
          voltage_V: voltageAt(240, impedance, current_A, 1),
          current_A,
        }));
        const value = found({ readings, xOverR, loadPowerFactor: 1, meter: perfect });
        expect(Math.abs(value.r_ohm / r_ohm - 1)).toBeLessThan(1e-7);
        expect(Math.abs(value.voltage_V - 240)).toBeLessThan(1e-6);
      }),
      { seed: 20268, numRuns: 200 },
    );
  });

  it("comes back to it from a leg too, with the transformer taken off (invariant, fixed seed)", () => {
    const ohm = fc.double({ min: 0.02, max: 0.6, noNaN: true });
    fc.assert(
      fc.property(ohm, ohm, ohm, fc.double({ min: 60, max: 180, noNaN: true }), (r_ohm, lr, lx, first_V) => {
        const [k1, k2] = [first_V / 240, 1 - first_V / 240];
        const leg = { r_ohm: k1 ** 2 * r_ohm + k2 ** 2 * lr, x_ohm: k1 ** 2 * 0.5 * r_ohm + k2 ** 2 * lx };
        const readings = [0, 25, 0].map((current_A) => ({
          voltage_V: voltageAt(first_V, leg, current_A, 1),
          current_A,
        }));
        const at = { windings_V: [first_V, 240 - first_V] as const, leakage: { r_ohm: lr, x_ohm: lx } };
        const value = found({ readings, at, xOverR: 0.5, loadPowerFactor: 1, meter: perfect });
        expect(Math.abs(value.r_ohm / r_ohm - 1)).toBeLessThan(1e-7);
        expect(value.voltage_V).toBeCloseTo(240, 6);
      }),
      { seed: 20269, numRuns: 200 },
    );
  });

  it("does not take a steady drift for a drop when the load is taken off again (closed form)", () => {
    const drifting = read([240, 0], [236, 12], [238, 0]);
    expect(found({ readings: drifting, ...heater }).r_ohm).toBeCloseTo(3 / 12, 12);
    expect(found({ readings: drifting.slice(0, 2), ...heater }).r_ohm).toBeCloseTo(4 / 12, 12);
  });

  it("reaches the truth in its range 19 times in 20 with random meters, and not always (fixed seed)", () => {
    const truth = { r_ohm: 0.2, x_ohm: 0 };
    let seed = 1;
    const random = () => {
      seed = (seed * 48271) % 2147483647;
      return (2 * seed) / 2147483647 - 1;
    };
    let inside = 0;
    const runs = 4000;
    for (let k = 0; k < runs; k++) {
      const [volts, amperes] = [1 + 0.007 * random(), 1 + 0.02 * random()];
      const readings = [0, 12, 0].map((current_A) => ({
        voltage_V: voltageAt(240, truth, current_A, 1) * volts + 0.2 * random(),
        current_A: Math.max(0, current_A * amperes + 0.3 * random()),
      }));
      const [low, high] = found({ readings, ...heater }).range!.r_ohm;
      if (low <= 0.2 && high >= 0.2) inside += 1;
    }
    expect(inside / runs).toBeGreaterThan(0.94);
    expect(inside / runs).toBeLessThan(0.999);
  });

  it("says how good it is, better with more repeats and with a better meter", () => {
    const once = read([240, 0], [237, 12.5]);
    expect(found({ readings: once, ...heater }).quality).toBe(
      "fair: good to +-15 % if the supply did not drift; read unloaded, loaded, unloaded to be sure",
    );
    const often = read([240, 0], [237, 12.5], [240, 0], [237, 12.5], [240, 0], [237, 12.5], [240, 0]);
    expect(found({ readings: often, ...heater }).quality).toBe("good: good to +-7 %");
    const small = read([240, 0], [239.2, 6.3], [240, 0]);
    expect(found({ readings: small, ...heater }).quality).toBe("rough: good to +-40 %");
    expect(found({ readings: once, meter: perfect, ...heater }).quality).toContain("good: good to +-0 %");
  });

  it("takes a meter that says nothing as the usual one (invariant)", () => {
    const readings = read([240, 0], [237, 12.5], [240, 0]);
    const silent = { voltage_percent: undefined, voltageCounts: undefined, oneMeter: undefined };
    expect(found({ readings, meter: silent })).toEqual(found({ readings }));
    expect(found({ readings, meter: {} })).toEqual(found({ readings }));
  });

  it("holds the nominal inside its range (invariant, fixed seed)", () => {
    const volt = fc.double({ min: 230, max: 238, noNaN: true });
    fc.assert(
      fc.property(volt, fc.double({ min: 0.3, max: 1, noNaN: true }), (voltage_V, loadPowerFactor) => {
        const { range, r_ohm, x_ohm } = found({
          readings: read([240, 0.2], [voltage_V, 15], [240, 0.2]),
          loadPowerFactor,
        });
        expect(range!.r_ohm[0]).toBeLessThan(r_ohm);
        expect(range!.r_ohm[1]).toBeGreaterThan(r_ohm);
        expect(range!.x_ohm[0]).toBeLessThan(x_ohm);
        expect(range!.x_ohm[1]).toBeGreaterThan(x_ohm);
        expect(range!.r_ohm[0]).toBeGreaterThanOrEqual(0);
      }),
      { seed: 20270, numRuns: 200 },
    );
  });

  it("widens the range for a leakage that is only assumed, and for voltages of two meters (invariant)", () => {
    const width = (spec: Partial<ReadingsSupply>) => {
      const { r_ohm } = found(spec).range!;
      return r_ohm[1] - r_ohm[0];
    };
    const leakage = { r_ohm: 0.19, x_ohm: 0.1 };
    const windings_V = [120, 120] as const;
    const readings = read([120, 0], [115, 20], [120, 0]);
    const known = width({ readings, at: { windings_V, leakage } });
    const leakageRange = { r_ohm: [0.1, 0.3], x_ohm: [0.05, 0.2] } as const;
    expect(width({ readings, at: { windings_V, leakage, leakageRange } })).toBeGreaterThan(1.1 * known);
    const line = { readings: read([240, 0], [230, 20], [240, 0]) };
    expect(width({ ...line, meter: { oneMeter: false } })).toBeGreaterThan(2 * width(line));
  });

  it("refuses readings that rise, that say nothing and that are too close, each with its reason", () => {
    expect(problems({ readings: read([239, 0], [240, 12]) })).toEqual([
      "readings: expected a lower voltage under load than without; read unloaded, loaded, unloaded again; received 239 V at 0 A and 240 V at 12 A",
    ]);
    expect(problems({ readings: read([240, 0], [239.8, 12]) })[0]).toContain(
      "use a larger load, more repeats or a better meter; received 0.0167 ohm, known to +-",
    );
    expect(problems({ readings: read([240, 12], [238, 12.3]) })).toEqual([
      "readings: expected readings with clearly different load, 0.5 A apart or more; received 0.3 A apart",
    ]);
    expect(problems({ readings: read([120, 0], [117, 12]) })[0]).toContain("voltages near 240 V at the line");
    const at = { windings_V: [120, 120], leakage: { r_ohm: 0.9, x_ohm: 0.1 } };
    expect(problems({ readings: read([120, 0], [118, 12], [120, 0]), at })[0]).toContain(
      "a drop above what the transformer's own 0.226 ohm at the leg cause; received 0.167 ohm",
    );
    const senseless = read([82.4, 89.7], [341.5, 0], [37.9, 67.4]);
    expect(problems({ readings: senseless, xOverR: 8.5 })[0]).toContain(
      "a drop that leaves most of the voltage",
    );
  });

  it("reports everything wrong with a description at once", () => {
    const readings = [{ voltage_V: -1, current_A: 0 }, { voltage_V: 240, current_A: Number.NaN }, {}];
    const paths = (spec: unknown) => problems(spec).map((text) => text.split(": ")[0]);
    expect(
      paths({
        readings,
        xOverR: -1,
        loadPowerFactor: 0,
        meter: { voltage_percent: -1, currentCount_A: 1000 },
      }),
    ).toEqual([
      "meter.voltage",
      "meter.currentCount",
      "readings[0].voltage",
      "readings[1].current",
      "readings[2].voltage",
      "readings[2].current",
      "xOverR",
      "loadPowerFactor",
    ]);
    for (const few of [undefined, [], read([240, 0]), "240 V"])
      expect(paths({ readings: few })).toEqual(["readings"]);
    expect(
      paths({
        readings: read([120, 0], [117, 12]),
        at: { windings_V: [120], leakage: { r_ohm: -1, x_ohm: 0 } },
      }),
    ).toEqual(["at.windings[1]", "at.leakage.r"]);
    expect(paths({ readings: read([120, 0], [117, 12]), at: "leg" })).toHaveLength(4);
  });
});

describe("lineThrough", () => {
  it("weighs a pair by the change of current, and repeats by their number (closed form)", () => {
    expect(lineThrough([0, 10], [240, 238]).weight_perA).toBeCloseTo(Math.SQRT2 / 10, 12);
    expect(lineThrough([0, 10, 0], [240, 238, 240]).weight_perA).toBeCloseTo(Math.sqrt(1.5) / 10, 12);
  });

  it("finds slope, drift and scatter that were put in (closed form)", () => {
    const currents = [0, 10, 0, 10, 0, 10];
    const volts = currents.map((I, k) => 240 - 0.3 * I - 0.1 * k);
    const line = lineThrough(currents, volts);
    expect(line.drop_ohm).toBeCloseTo(0.3, 12);
    expect(line.scatter_V).toBeLessThan(1e-12);
    expect(lineThrough([0, 0, 10, 10], [240.1, 239.9, 237.1, 236.9]).scatter_V).toBeCloseTo(
      Math.sqrt(0.04 / 2),
      12,
    );
  });
});
