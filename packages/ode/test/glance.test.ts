import { describe, expect, it } from "vitest";
import { type Event, type Plant, run } from "../src/index.ts";
import { random, turning } from "./plants.ts";

const start = { t: 0, y: [0, 1], mode: 0 };
const interior = { interior: true, sample: () => {} };
const listed = (events: readonly Event[]): string[] => events.map(({ name }) => name);

const compare = (plant: Plant<number>, tEnd: number, tolerance: number) => {
  const options = { tolerance, initialStep: tEnd };
  return [run(plant, start, tEnd, options), run(plant, start, tEnd, { ...options, recorder: interior })];
};

describe("a touch and a return inside one long step (closed form)", () => {
  it.each([0.5, 0.9, 0.99])("of a sine past %d is found without a recorder", (at) => {
    const plant = turning(1, [{ at, direction: "rising" }]);
    const { events, count } = run(plant, start, 3, { tolerance: 1e-5, initialStep: 3 });
    expect(listed(events)).toEqual(["mark 1"]);
    expect(Math.abs(events[0].t - Math.asin(at))).toBeLessThan(1e-3);
    expect(count.steps).toBeLessThan(20);
  });

  it.each([
    [0.98, 1],
    [0.995, 0.93],
    [0.997, 0.9],
  ])("of a sine past %d is found in nearly every length of step", (at, share) => {
    // Past 0.997 it stays for 0.155, a tenth of the longer steps here.
    const plant = turning(1, [{ at, direction: "rising" }]);
    const ends = Array.from({ length: 130 }, (_, k) => 2 + k * 0.02);
    const found = ends.filter(
      (tEnd) => run(plant, start, tEnd, { tolerance: 1e-4, initialStep: tEnd }).events.length === 1,
    );
    expect(found.length).toBeGreaterThanOrEqual(share * ends.length);
  });

  it("a passage that the step before heads for is not stepped over first (regression: 1.90, was 2.16)", () => {
    const options = { tolerance: 1e-6, initialStep: 0.05 };
    const marks = Array.from({ length: 40 }, (_, k) => 0.3 + k * 0.015);
    const spent = marks.map((at) => run(turning(1, [{ at, direction: "rising" }]), start, 1.5, options));
    const free = run(turning(1, []), start, 1.5, options).count.evaluations;
    const mean = spent.reduce((sum, { count }) => sum + count.evaluations, 0) / marks.length;
    for (const { events } of spent) expect(events).toHaveLength(1);
    expect(mean / free).toBeLessThan(2);
  });

  it("a guard that stays beyond for long does not hold the steps down", () => {
    const plant = turning(1, [{ at: -0.9, direction: "rising" }]);
    const { events, count } = run(plant, start, 6, { tolerance: 1e-6, initialStep: 6 });
    const free = run(turning(1, []), start, 6, { tolerance: 1e-6, initialStep: 6 });
    expect(events).toHaveLength(1);
    expect(count.steps).toBeLessThan(6 * free.count.steps);
  });

  it("both ways: down through a mark and up again", () => {
    const plant = turning(1, [
      { at: -0.98, direction: "falling" },
      { at: -0.98, direction: "rising" },
    ]);
    const { events } = run(plant, start, 6, { tolerance: 1e-10, initialStep: 6 });
    expect(listed(events)).toEqual(["mark 1", "mark 2"]);
    expect(Math.abs(events[0].t - Math.PI - Math.asin(0.98))).toBeLessThan(1e-9);
    expect(Math.abs(events[1].t - 2 * Math.PI + Math.asin(0.98))).toBeLessThan(1e-9);
  });

  it("that stays short of the mark is no event", () => {
    for (const at of [1.0001, 1.01, 1.2]) {
      const plant = turning(1, [{ at, direction: "rising" }]);
      for (const { events } of compare(plant, 12, 1e-9)) expect(events).toEqual([]);
    }
  });
});

describe("long steps glanced at against steps watched closely (independent code: interior recorder)", () => {
  it("two hundred random sets of marks give the same events within 1e-9 s", () => {
    const next = random(5);
    let events = 0;
    for (let k = 0; k < 200; k++) {
      const marks = Array.from({ length: 1 + Math.floor(4 * next()) }, () => ({
        at: 1.98 * next() - 0.99,
        direction: next() < 0.5 ? ("rising" as const) : ("falling" as const),
      }));
      const [glanced, watched] = compare(turning(0.5 + 3 * next(), marks), 2 + 4 * next(), 1e-12);
      expect(listed(glanced.events)).toEqual(listed(watched.events));
      glanced.events.forEach(({ t }, i) => {
        expect(Math.abs(t - watched.events[i].t)).toBeLessThan(1e-9);
      });
      events += glanced.events.length;
    }
    expect(events).toBeGreaterThan(400);
  });

  it("at the tolerance of a quick look the events agree to that tolerance", () => {
    const next = random(9);
    for (let k = 0; k < 200; k++) {
      const marks = [{ at: 1.9 * next() - 0.95, direction: "rising" as const }];
      const [glanced, watched] = compare(turning(1 + next(), marks), 6, 1e-6);
      expect(listed(glanced.events)).toEqual(listed(watched.events));
      glanced.events.forEach(({ t }, i) => {
        expect(Math.abs(t - watched.events[i].t)).toBeLessThan(1e-4);
      });
    }
  });

  it("saves work where nothing passes", () => {
    const plant = turning(1, [{ at: 3, direction: "rising" }]);
    const [glanced, watched] = compare(plant, 50, 1e-8);
    expect(glanced.count.evaluations).toBeLessThan(watched.count.evaluations);
  });
});

describe("known times under a glance", () => {
  it("are reached to the last digit though a guard nearly passes just before them", () => {
    for (let k = 1; k <= 300; k++) {
      const tEnd = Math.PI / 2 + k * 0.0037;
      const plant = turning(1, [{ at: 0.9999 + (k % 7) * 2e-5, direction: "rising" }]);
      const { end } = run(plant, start, tEnd, { tolerance: 1e-3, initialStep: 2 });
      expect(end.t).toBe(tEnd);
    }
  });
});
