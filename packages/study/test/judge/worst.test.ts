import { type Circuit, plantOf } from "@startgap/circuit";
import { describe, expect, it } from "vitest";
import { isFailure } from "../../src/failure.ts";
import { worstMoment } from "../../src/judge/worst.ts";
import type { WorstMoment } from "../../src/results.ts";
import { scriptFor, staggerOf } from "../../src/stagger.ts";
import { tellWhole } from "../../src/telling.ts";
import {
  autotransformer,
  cable,
  circuit,
  fuse,
  load,
  motor,
  pair,
  slowMelt,
  supply,
  transformer,
} from "../build.ts";
import { tellingOf } from "../invented.ts";

function worstOf(of: Circuit, delay_s: number): WorstMoment {
  const stagger = staggerOf(of);
  const told = tellWhole(plantOf(of), scriptFor(stagger, delay_s), delay_s, 8, { tolerance: 1e-7 });
  if (isFailure(told)) throw new Error(told.failed);
  const worst = worstMoment(told);
  if (worst === null) throw new Error("nothing is live");
  return worst;
}

const total = (worst: WorstMoment): number => worst.shares.reduce((sum, share) => sum + share.lost_V, 0);

describe("where the volts of the worst moment went", () => {
  const legs = circuit(
    supply(240, 0.3, 0.2),
    cable("feeder", "panel", 0.4, 0.1),
    autotransformer("midpoint", "feeder"),
    cable("branch", "midpoint", 0.1),
    motor("pump 1", "branch"),
    { ...motor("pump 2", "midpoint"), leg: "second" },
    { ...load("lamp", "midpoint"), leg: "second" },
  );
  const control = circuit(
    supply(240, 0.3, 0.2),
    transformer("step-down", "panel", [240, 120], 0.5),
    motor("pump", "step-down"),
    load("lamp", "step-down"),
  );

  for (const [name, of] of [
    ["a plain feeder", pair()],
    ["two legs", legs],
    ["a transformer", control],
  ] as const) {
    it(`the shares sum to what is missing from the no-load voltage: ${name} (invariant, 1e-9)`, () => {
      const worst = worstOf(of, 0);
      expect(total(worst)).toBeCloseTo(worst.nominal_V - worst.voltage_V, 9);
      expect(worst.voltage_V).toBeLessThan(worst.nominal_V);
    });
  }

  it("names every part from the supply to the point, in that order, and no other", () => {
    expect(worstOf(pair(), 2).shares.map((share) => share.part)).toEqual(["panel", "feeder", "fuse"]);
    expect(worstOf(legs, 0).shares.map((share) => share.part)).toEqual(["panel", "feeder", "midpoint"]);
  });

  it("sums to nothing at no load (closed form)", () => {
    const idle = circuit(supply(), cable("feeder", "panel", 1), load("lamp", "feeder", 0));
    const told = tellingOf(plantOf(idle), [{ t: 0, volts: { lamp: 120 } }]);
    const worst = worstMoment(told);
    expect(worst).toMatchObject({ nominal_V: 120, voltage_V: 120 });
    for (const share of worst?.shares ?? []) expect(share.lost_V).toBeCloseTo(0, 12);
    expect(worst?.shares.map((share) => share.part)).toEqual(["panel", "feeder"]);
  });

  it("splits between two resistances as they are to each other (closed form)", () => {
    const simple = circuit(
      supply(100, 1, 0),
      cable("feeder", "panel", 3),
      load("heater", "feeder", 1000, 100),
    );
    const told = tellingOf(plantOf(simple), [{ t: 0, volts: { heater: (100 * 10) / 14 } }]);
    const shares = worstMoment(told)?.shares.map((share) => share.lost_V) ?? [];
    expect(shares[0]).toBeCloseTo(100 / 14, 9);
    expect(shares[1]).toBeCloseTo(300 / 14, 9);
  });

  it("looks at receptacles where there are any, else at motors, and never at what is dead", () => {
    expect(worstOf(pair(), 2).point).toBe("lamp");
    const bare = circuit(supply(), fuse("fuse", "panel", slowMelt(20)), motor("pump", "fuse"));
    expect(worstOf(bare, 0).point).toBe("pump");
    const dead = tellingOf(plantOf(bare), [{ t: 0, dead: ["pump"] }]);
    expect(worstMoment(dead)).toBeNull();
  });
});
