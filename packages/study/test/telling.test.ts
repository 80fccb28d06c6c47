import { type Circuit, plantOf } from "@startgap/circuit";
import { describe, expect, it } from "vitest";
import { isFailure, type StudyFailure } from "../src/failure.ts";
import { caseReport } from "../src/judge/case.ts";
import type { CaseReport } from "../src/results.ts";
import { scriptFor, staggerOf } from "../src/stagger.ts";
import { durationOf, type Telling, tellBranch, tellTrunk, tellTrunkOn, tellWhole } from "../src/telling.ts";
import {
  cable,
  circuit,
  coil,
  contactor,
  fuse,
  load,
  motor,
  pair,
  relay,
  slowMelt,
  supply,
} from "./build.ts";

const PACE = { tolerance: 1e-9 };

function sound<T extends object>(value: T | StudyFailure): T {
  if (isFailure(value)) throw new Error(value.failed);
  return value;
}

/** The same stagger told on from a trunk, and told from the beginning. */
function bothWays(of: Circuit, delay_s: number, duration_s = 12): [branch: Telling, whole: Telling] {
  const plant = plantOf(of);
  const stagger = staggerOf(of);
  const trunk = sound(tellTrunk(plant, stagger, duration_s, [delay_s], PACE));
  const branch = sound(tellBranch(trunk, stagger, delay_s, duration_s, PACE));
  return [branch, sound(tellWhole(plant, scriptFor(stagger, delay_s), delay_s, duration_s, PACE))];
}

/** Every number of a report with its place. */
function numbers(report: CaseReport): Map<string, number> {
  const found = new Map<string, number>();
  const visit = (value: unknown, path: string): void => {
    if (typeof value === "number") found.set(path, value);
    else if (typeof value === "object" && value !== null) {
      for (const [key, one] of Object.entries(value)) visit(one, `${path}.${key}`);
    }
  };
  visit(report, "");
  return found;
}

/** The share of the sags' times that the spacing of the samples is known to cost. */
const COARSE = /below90_s|\.worst/;

function compare([branch, whole]: [Telling, Telling], tolerance: number): void {
  const [told, expected] = [branch, whole].map((one) => numbers(caseReport(one, "staggered")));
  expect([...told.keys()]).toEqual([...expected.keys()]);
  for (const [path, value] of expected) {
    const allowed = COARSE.test(path) ? 1e-3 : tolerance;
    const off = Math.abs((told.get(path) ?? Number.NaN) - value) / (1 + Math.abs(value));
    expect(off, `${path}: ${told.get(path)} against ${value}`).toBeLessThan(allowed);
  }
}

const eventsOf = (told: Telling): string[] => told.events.map(({ name }) => name);

describe("a branch from the trunk", () => {
  for (const delay_s of [0.05, 0.3, 0.7351, 2, 6.5]) {
    it(`after ${delay_s} s is the story told from the beginning (invariant, scaled 1e-6)`, () => {
      compare(bothWays(pair(), delay_s), 1e-6);
    });
  }

  it("has the same events at the same times, each once", () => {
    const [branch, whole] = bothWays(pair(), 2);
    expect(eventsOf(branch)).toEqual(eventsOf(whole));
    branch.events.forEach(({ t }, i) => {
      expect(Math.abs(t - whole.events[i].t)).toBeLessThan(1e-6);
    });
  });

  it("holds also where motors have contacts of their own", () => {
    const free = circuit(supply(), motor("a", "panel"), motor("b", "panel"), load("lamp", "panel"));
    compare(bothWays(free, 1.25), 1e-6);
  });

  it("holds while the trunk's contactor chatters", () => {
    const chatters = circuit(
      supply(120, 1.6, 0.3),
      fuse("fuse", "panel", slowMelt(30)),
      contactor("contactor", "fuse", coil("fuse", { dropOut_V: 100, pullIn_V: 110 })),
      motor("pump 1", "contactor"),
      relay("relay", "contactor", 4),
      motor("pump 2", "relay"),
      load("lamp", "fuse"),
    );
    const [branch, whole] = bothWays(chatters, 0.31, 2);
    const chatter = branch.events.filter(({ name, t }) => name === "contactor: opens" && t < 0.31);
    expect(chatter.length).toBeGreaterThan(2);
    expect(eventsOf(branch)).toEqual(eventsOf(whole));
    compare([branch, whole], 1e-5);
  });

  it("has an event that falls on its very moment once", () => {
    // No motor is behind the lamp's relay, so it keeps its own 0.25 s: just when the second motor starts.
    const late = circuit(
      supply(),
      motor("pump 1", "panel"),
      relay("lamp relay", "panel", 0.25),
      load("lamp", "lamp relay"),
      relay("relay", "panel", 4),
      motor("pump 2", "relay"),
    );
    const [branch, whole] = bothWays(late, 0.25, 4);
    expect(eventsOf(branch).filter((name) => name === "lamp relay: closes")).toHaveLength(1);
    expect(eventsOf(branch)).toEqual(eventsOf(whole));
    compare([branch, whole], 1e-6);
  });

  it("that the trunk did not reach is told from the beginning", () => {
    const plant = plantOf(pair());
    const stagger = staggerOf(pair());
    const short = sound(tellTrunk(plant, stagger, 1, [3], PACE));
    expect(short.moments.has(3)).toBe(false);
    const branch = sound(tellBranch(short, stagger, 3, 12, PACE));
    compare([branch, sound(tellWhole(plant, scriptFor(stagger, 3), 3, 12, PACE))], 1e-12);
  });
});

describe("a trunk", () => {
  it("never starts what is held back", () => {
    const trunk = sound(tellTrunk(plantOf(pair()), staggerOf(pair()), 12, [], PACE));
    const [first, second] = caseReport(trunk, "one").motors;
    expect(first.outcome).toBe("running");
    expect(second).toMatchObject({ outcome: "off", closed_s: null, peakCurrent_A: 0 });
  });

  it("goes on from one of its moments to the state of a longer one (independent: told at once)", () => {
    const circuit = pair();
    const moments = [0.3, 0.35];
    const trunk = sound(tellTrunk(plantOf(circuit), staggerOf(circuit), 0.35, moments, PACE));
    const on = sound(tellTrunkOn(trunk, 0.3, 0.35, PACE) ?? { failed: "no moment", at_s: 0 });
    expect([...on.moments.keys()]).toEqual([0.35]);
    const [found, expected] = [on, trunk].map((one) => one.moments.get(0.35));
    expected?.y.forEach((value, i) => {
      expect(Math.abs((found?.y[i] ?? Number.NaN) - value)).toBeLessThan(1e-7 * (1 + Math.abs(value)));
    });
    expect(on.events).toEqual(trunk.events);
    expect(on.recording.at(on.recording.rows - 1, 0)).toBe(0.35);
    expect(tellTrunkOn(trunk, 0.2, 0.35, PACE)).toBeNull();
  });

  it("hands out the state at every moment asked for", () => {
    const asked = [0, 0.1, 0.2, 5];
    const trunk = sound(tellTrunk(plantOf(pair()), staggerOf(pair()), 5, asked, PACE));
    expect([...trunk.moments.keys()]).toEqual(asked);
    for (const [t, standing] of trunk.moments) expect(standing.t).toBe(t);
  });

  it("that is cancelled says so", () => {
    const told = tellTrunk(plantOf(pair()), staggerOf(pair()), 5, [], { ...PACE, signal: { aborted: true } });
    expect(told).toMatchObject({ failed: expect.stringContaining("Cancelled") });
  });
});

describe("length of a story", () => {
  const stagger = staggerOf(
    circuit(supply(), cable("c", "panel", 1), motor("a", "c"), motor("b", "c"), motor("d", "c")),
  );

  it("is 15 s, or 9 s more than the last start, or what was asked for", () => {
    expect(durationOf(stagger, 2, undefined)).toBe(15);
    expect(durationOf(stagger, 5, undefined)).toBe(19);
    expect(durationOf(stagger, Number.POSITIVE_INFINITY, undefined)).toBe(15);
    expect(durationOf(stagger, 5, 3)).toBe(3);
  });
});
