import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type CableSpec, cableImpedance } from "../src/cable/cable.ts";
import { conductorNamed, conductorNames } from "../src/cable/conductor.ts";
import { runs } from "../src/cable/reactance.ts";
import { issueText } from "../src/issue.ts";

const found = (spec: CableSpec) => {
  const result = cableImpedance(spec, "feeder");
  if (Array.isArray(result)) throw new Error(result.map(issueText).join("\n"));
  return result;
};

const problems = (spec: unknown) => {
  const result = cableImpedance(spec as CableSpec);
  return Array.isArray(result) ? result.map(issueText) : [];
};

const feet = 0.3048;

describe("cableImpedance", () => {
  it("gives 100 ft of 10 AWG copper at 75 degC a loop of twice 0.124 ohm (published: NEC Chapter 9 Table 8, 0.5 %)", () => {
    const { value } = found({
      conductor: "10 AWG Cu",
      length_m: 100 * feet,
      temperature_C: 75,
      run: "metal conduit",
    });
    expect(value.r_ohm / (2 * 0.124)).toBeCloseTo(1, 2);
    expect(value.x_ohm).toBeCloseTo(2 * 0.0063, 12);
  });

  it("doubles with the length, out and back (invariant, fixed seed)", () => {
    const spec = fc.record({
      conductor: fc.constantFrom(...conductorNames),
      length_m: fc.double({ min: 0.01, max: 5000, noNaN: true }),
      temperature_C: fc.double({ min: -40, max: 150, noNaN: true }),
      run: fc.constantFrom(...runs),
      frequency_Hz: fc.constantFrom(50, 60),
    });
    fc.assert(
      fc.property(spec, (cable) => {
        const [once, twice] = [found(cable).value, found({ ...cable, length_m: 2 * cable.length_m }).value];
        expect(twice.r_ohm / once.r_ohm).toBeCloseTo(2, 12);
        expect(twice.x_ohm / once.x_ohm).toBeCloseTo(2, 12);
        expect(once.r_ohm).toBeGreaterThan(0);
        expect(once.x_ohm).toBeGreaterThan(0);
      }),
      { seed: 20261, numRuns: 300 },
    );
  });

  it("falls from each size to the next thicker one of the same system and metal (invariant)", () => {
    for (const run of runs) {
      for (const kind of ["AWG Cu", "mm2 Cu", "AWG Al", "mm2 Al"]) {
        const ohms = conductorNames
          .filter((name) => name.endsWith(kind))
          .map((conductor) => found({ conductor, length_m: 1, temperature_C: 20, run }).value.r_ohm);
        expect(ohms.length).toBeGreaterThan(12);
        for (let k = 1; k < ohms.length; k++) expect(ohms[k]!).toBeLessThan(ohms[k - 1]!);
      }
    }
  });

  it("puts reactance in proportion to the frequency and leaves resistance alone (invariant)", () => {
    const at = (frequency_Hz: number) =>
      found({ conductor: "8 AWG Cu", length_m: 30, temperature_C: 30, run: "cord", frequency_Hz }).value;
    expect(at(60).x_ohm / at(50).x_ohm).toBeCloseTo(1.2, 12);
    expect(at(60).r_ohm).toBe(at(50).r_ohm);
  });

  it("gives the wires of a cord, which lie closest, the least reactance (invariant)", () => {
    for (const conductor of conductorNames) {
      const [plastic, steel, cord] = runs.map((run) => found({ conductor, length_m: 1, run }).value.x_ohm);
      expect(steel!).toBeGreaterThan(plastic!);
      expect(cord!).toBeLessThan(plastic!);
    }
  });

  it("gives a cord the inductance of two bundles of filaments, by their mean distances (independent code, 1 %)", () => {
    const { value } = found({ conductor: "12 AWG Cu", length_m: 1, run: "cord", frequency_Hz: 60 });
    const r = 1.02625e-3;
    const D = 2 * (r + 0.8e-3);
    const h = r / 10;
    const wire: [number, number][] = [];
    for (let x = -r + h / 2; x < r; x += h) {
      for (let y = -r + h / 2; y < r; y += h) if (Math.hypot(x, y) <= r) wire.push([x, y]);
    }
    // A square filament is at a mean distance of 0.44705 of its side from itself.
    const mean = (apart: number) => {
      let sum = 0;
      for (const [x, y] of wire) {
        for (const [u, v] of wire) sum += Math.log(Math.hypot(x - u - apart, y - v) || 0.44705 * h);
      }
      return sum / wire.length ** 2;
    };
    const loop_HPerM = 2 * 2e-7 * (mean(D) - mean(0));
    expect(Math.abs((2 * Math.PI * 60 * loop_HPerM) / value.x_ohm - 1)).toBeLessThan(0.01);
  });

  it("lists what was assumed and what came from a table", () => {
    const { assumptions } = found({ conductor: "2.5 mm2 Cu", length_m: 12 });
    expect(assumptions.map(({ what, grade }) => `${what}: ${grade}`)).toEqual([
      "wire temperature: assumed",
      "how the wires run: assumed",
      "frequency: assumed",
      "resistance of one 2.5 mm2 Cu wire: table",
      "reactance of one 2.5 mm2 Cu wire, plastic conduit: assumed",
    ]);
    expect(assumptions[3]).toMatchObject({ part: "feeder", value: "7.7 ohm/km" });
    expect(assumptions[3]!.basis).toContain("(from memory)");
  });

  it("assumes nothing that was said", () => {
    const spec: CableSpec = {
      conductor: "12 AWG Cu",
      length_m: 12,
      temperature_C: 25,
      run: "plastic conduit",
      frequency_Hz: 60,
    };
    expect(found(spec).assumptions.every(({ grade }) => grade === "table")).toBe(true);
  });

  it("reports everything wrong at once", () => {
    expect(
      problems({ conductor: "11 AWG Cu", length_m: -3, temperature_C: 400, run: "plastik conduit" }),
    ).toEqual([
      'conductor: expected a wire size and its metal, as "12 AWG Cu" or "2.5 mm2 Cu" (18 to 4/0 AWG, 0.75 to 95 mm2, Cu or Al); received "11 AWG Cu"; did you mean "12 AWG Cu"?',
      'length: expected a length above 0 to 10000 m, as "40 ft"; received -3 m',
      'temperature: expected a temperature from -40 to 150 degC, as "30 degC"; received 400 degC',
      'run: expected how the wires run: "plastic conduit", "metal conduit" or "cord"; received "plastik conduit"; did you mean "plastic conduit"?',
    ]);
  });

  it("refuses what is no number", () => {
    for (const length_m of [Number.NaN, Number.POSITIVE_INFINITY, "12", null, undefined, 0]) {
      expect(problems({ conductor: "12 AWG Cu", length_m })).toHaveLength(1);
    }
  });
});

describe("conductorNamed", () => {
  it("reads every name that it lists, and other spellings of it", () => {
    for (const name of conductorNames) expect(conductorNamed(name)).toMatchObject({ name });
    for (const text of ["#12 awg copper", "12AWG cu", " 12 AWG Cu "]) {
      expect(conductorNamed(text)).toMatchObject({ name: "12 AWG Cu" });
    }
    expect(conductorNamed("2,5 mm2 Cu")).toMatchObject({ path: "conductor", nearest: "2.5 mm2 Cu" });
    expect(conductorNamed("1/0 AWG aluminum")).toMatchObject({ name: "1/0 AWG Al" });
    expect(conductorNamed("2.50 mm\u00b2 Cu")).toMatchObject({ name: "2.5 mm2 Cu" });
  });

  it("names the nearest size it knows", () => {
    const nearest = (text: unknown) => {
      const read = conductorNamed(text);
      return "path" in read ? read.nearest : "known";
    };
    expect(nearest("12 AWG")).toBe("12 AWG Cu");
    expect(nearest("3 mm2 Cu")).toBe("2.5 mm2 Cu");
    expect(nearest("20 AWG Al")).toBe("18 AWG Al");
    expect(nearest("5/0 AWG Cu")).toBe("4/0 AWG Cu");
    expect(nearest("0 mm2 Cu")).toBe("0.75 mm2 Cu");
    expect(nearest("12 AWG Fe")).toBe("12 AWG Cu");
    expect(nearest("thick")).toBeUndefined();
    for (const text of ["", undefined, null, 12, "x".repeat(1000)]) expect(nearest(text)).toBeUndefined();
  });
});
