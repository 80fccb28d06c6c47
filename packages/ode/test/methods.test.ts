import { describe, expect, it } from "vitest";
import { type Event, run } from "../src/index.ts";
import { METHODS, type Method, random, smooth, turning } from "./plants.ts";

const start = { t: 0, y: [0, 1], mode: 0 };
const names = (events: readonly Event[]): string[] => events.map(({ name }) => name);

describe("events by one method against the other (independent code)", () => {
  const dense = Array.from({ length: 2000 }, (_, k) => 0.003 * (k + 1));
  const late = dense.filter((t) => t > 2);
  it.each([
    ["not read at all", []],
    ["read throughout", dense],
    ["read late", late],
  ])("fall within 1e-9 s of each other where the run is %s", (_, snapshots) => {
    const next = random(3);
    let events = 0;
    for (let k = 0; k < 40; k++) {
      const marks = Array.from({ length: 1 + Math.floor(4 * next()) }, () => ({
        at: 1.98 * next() - 0.99,
        direction: next() < 0.5 ? ("rising" as const) : ("falling" as const),
      }));
      const plant = turning(0.5 + 3 * next(), marks);
      const tell = (method: Method) => {
        let worst = 0;
        let taken = 0;
        const told = run(plant, start, 4, {
          tolerance: 1e-12,
          method,
          maxStep: 0.7,
          snapshots: snapshots.filter((t) => t <= 4),
          onSnapshot: (t, y) => {
            taken++;
            worst = Math.max(worst, Math.abs(y[0] ** 2 + y[1] ** 2 - 1) + (t > 4 ? 1 : 0));
          },
        });
        expect(taken).toBe(snapshots.filter((t) => t <= 4).length);
        expect(worst).toBeLessThan(1e-9);
        return told;
      };
      const [one, other] = METHODS.map(tell);
      expect(names(other.events)).toEqual(names(one.events));
      other.events.forEach(({ t }, i) => {
        expect(Math.abs(t - one.events[i].t)).toBeLessThan(1e-9);
      });
      events += one.events.length;
    }
    expect(events).toBeGreaterThan(80);
  });
});

describe.each(METHODS)("a run by %s", (method) => {
  it("reaches its end to the last digit (closed form)", () => {
    const plant = turning(1, []);
    for (let k = 1; k <= 200; k++) {
      const tEnd = 0.01 + k * 0.0137;
      const { end, outcome } = run(plant, start, tEnd, { method, tolerance: 1e-8 });
      expect(outcome.ending).toBe("finished");
      expect(end.t).toBe(tEnd);
      expect(Math.abs(end.y[0] - Math.sin(tEnd))).toBeLessThan(1e-6);
    }
  });

  it("names the state that is not finite", () => {
    const plant = smooth(["calm", "wild"], (t, _, rate) => {
      rate[0] = 1;
      rate[1] = t > 0.3 ? Number.NaN : 1;
    });
    const { outcome } = run(plant, { t: 0, y: [0, 0], mode: null }, 1, { method });
    expect(outcome.ending).toBe("not finite");
    expect(outcome.says).toContain("wild");
  });

  it("gives up on steps without end, and says where", () => {
    const plant = smooth(["slow", "stiff"], (t, y, rate) => {
      rate[0] = 1;
      rate[1] = -1e9 * (y[1] - Math.cos(t));
    });
    const { outcome, end } = run(plant, { t: 0, y: [0, 0], mode: null }, 1, { method, maxSteps: 500 });
    expect(outcome.ending).toBe("too many steps");
    expect(outcome.says).toContain("stiff");
    expect(end.t).toBeLessThan(1);
  });

  it("ends where it is cancelled", () => {
    let asked = 0;
    const signal = {
      get aborted() {
        return ++asked > 3;
      },
    };
    const { outcome } = run(turning(1, []), start, 100, { method, signal });
    expect(outcome.ending).toBe("cancelled");
    expect(outcome.t).toBeLessThan(100);
  });

  it("does not change what it was given", () => {
    const y = Object.freeze([0, 1]);
    run(turning(1, [{ at: 0.5, direction: "rising" }]), { t: 0, y, mode: 0 }, 10, { method });
    expect(y).toEqual([0, 1]);
  });
});
