import { describe, expect, it } from "vitest";
import { type Plant, run } from "../src/index.ts";
import { ball, smooth } from "./plants.ts";

describe("bouncing ball (closed form)", () => {
  it("locates twelve bounces within 1e-10 s", () => {
    const [g, h, e] = [9.81, 1, 0.8];
    const result = run(ball(g, e), { t: 0, y: [h, 0], mode: 0 }, 3.8, { tolerance: 1e-9 });
    const first = Math.sqrt((2 * h) / g);
    let expected = first;
    let flight = 2 * first;
    for (let n = 0; n < 12; n++) {
      expect(Math.abs(result.events[n].t - expected)).toBeLessThan(1e-10);
      flight *= e;
      expected += flight;
    }
    expect(result.outcome.ending).toBe("finished");
  });

  it("ends the endless bounces before their limit as chatter, with a sentence", () => {
    const result = run(ball(9.81, 0.8), { t: 0, y: [1, 0], mode: 0 }, 5, { maxEvents: 60 });
    expect(result.outcome.ending).toBe("endless chatter");
    expect(result.outcome.says).toMatch(/^Gave up at 4\.06\d* s: 60 events, the last "bounce"/);
    expect(result.end.t).toBeLessThan(4.063712768871579);
  });
});

describe("decay (closed form)", () => {
  const decay = smooth(["charge"], (_, y, rate) => {
    rate[0] = -y[0];
  });
  it("cuts the error at least threefold for every tenfold tighter tolerance", () => {
    const errors = [1e-4, 1e-6, 1e-8, 1e-10].map((tolerance) => {
      const { end } = run(decay, { t: 0, y: [1], mode: null }, 2, { tolerance });
      return Math.abs(end.y[0] - Math.exp(-2));
    });
    for (let i = 1; i < errors.length; i++) expect(errors[i]).toBeLessThan(errors[i - 1] / 9);
    expect(errors[3]).toBeLessThan(1e-10);
  });
  it("hands out snapshots off the dense output", () => {
    const seen: number[] = [];
    run(decay, { t: 0, y: [1], mode: null }, 2, {
      tolerance: 1e-9,
      snapshots: [0.3, 0.30001, 1.7],
      onSnapshot: (t, y) => seen.push(Math.abs(y[0] - Math.exp(-t))),
    });
    expect(seen).toHaveLength(3);
    expect(Math.max(...seen)).toBeLessThan(1e-8);
  });
});

describe("driven oscillator (closed form)", () => {
  it("y'' + y = cos 2t from rest is (cos t - cos 2t)/3", () => {
    const oscillator = smooth(["place", "speed"], (t, y, rate) => {
      rate[0] = y[1];
      rate[1] = Math.cos(2 * t) - y[0];
    });
    const { end } = run(oscillator, { t: 0, y: [0, 0], mode: null }, 10, { tolerance: 1e-10 });
    expect(end.y[0]).toBeCloseTo((Math.cos(10) - Math.cos(20)) / 3, 8);
  });
});

/** Two marks passed by one moving point; `apart` is the distance between them. */
function marks(order: readonly ("a" | "b")[], apart: number): Plant<string> {
  const at = { a: 1, b: 1 + apart };
  return {
    stateNames: ["place"],
    derivative(_, __, ___, rate) {
      rate[0] = 1;
    },
    guards: (seen) =>
      order
        .filter((name) => !seen.includes(name))
        .map((name) => ({ name, direction: "rising" as const, level: false })),
    guardValues(_, y, seen, values) {
      const left = order.filter((name) => !seen.includes(name));
      left.forEach((name, i) => {
        values[i] = y[0] - at[name];
      });
    },
    scheduled: () => [],
    reduce: (event, y, seen) => ({ y, mode: seen + event.name }),
  };
}

describe("events", () => {
  it("takes several inside one step in their order of time", () => {
    const { events } = run(marks(["b", "a"], 0.01), { t: 0, y: [0], mode: "" }, 5, { initialStep: 5 });
    expect(events.map(({ name }) => name)).toEqual(["a", "b"]);
    expect(Math.abs(events[0].t - 1)).toBeLessThan(1e-9);
    expect(Math.abs(events[1].t - 1.01)).toBeLessThan(1e-9);
  });

  it("gives the same answer for simultaneous events in either order of declaration", () => {
    const one = run(marks(["a", "b"], 0), { t: 0, y: [0], mode: "" }, 5);
    const other = run(marks(["b", "a"], 0), { t: 0, y: [0], mode: "" }, 5);
    expect(one.end.mode).toBe("ab");
    expect(other).toEqual(one);
  });

  it("reaches known times exactly and records both sides of the jump", () => {
    const step: Plant<number> = {
      stateNames: ["place"],
      guards: () => [],
      guardValues: () => {},
      scheduled: (n) => (n === 0 ? [{ name: "step", t: 0.7 }] : []),
      reduce: (_, y, n) => ({ y: [y[0] + 10], mode: n + 1 }),
      derivative: (_, __, ___, rate) => {
        rate[0] = 1;
      },
    };
    const seen: [number, number][] = [];
    const recorder = {
      interior: false,
      sample: (t: number, y: readonly number[]) => {
        seen.push([t, y[0]]);
      },
    };
    run(step, { t: 0, y: [0], mode: 0 }, 2, { recorder });
    const jump = seen.filter(([t]) => t === 0.7);
    expect(jump).toHaveLength(2);
    expect(jump[0][1]).toBeCloseTo(0.7, 10);
    expect(jump[1][1]).toBeCloseTo(10.7, 10);
  });

  it("fires a level guard at once when an arc begins beyond it, an edge guard not", () => {
    const fixed = (level: boolean): Plant<boolean> => ({
      stateNames: ["volts"],
      derivative: (_, __, ___, rate) => {
        rate[0] = 0;
      },
      guards: (fired) => (fired ? [] : [{ name: "low", direction: "falling", level }]),
      guardValues: (_, y, __, values) => {
        values[0] = y[0] - 5;
      },
      scheduled: () => [],
      reduce: (_, y) => ({ y, mode: true }),
    });
    const start = { t: 0, y: [3], mode: false };
    expect(run(fixed(true), start, 1).events).toEqual([{ name: "low", t: 0 }]);
    expect(run(fixed(false), start, 1).events).toEqual([]);
  });

  it("finds a passage and a return within one step", () => {
    const hump: Plant<number> = {
      ...ball(2, 0),
      derivative: (t, _, __, rate) => {
        rate[0] = 1 - 2 * (t - 0.5);
        rate[1] = 0;
      },
      guardValues: (_, y, __, values) => {
        values[0] = 0.98 - y[0];
      },
      reduce: (_, y, n) => ({ y, mode: n + 1 }),
    };
    const { events } = run(hump, { t: 0, y: [0, 0], mode: 0 }, 2, { initialStep: 2 });
    expect(events).toHaveLength(1);
    expect(Math.abs(events[0].t - (1 - Math.sqrt(0.02)))).toBeLessThan(1e-9);
  });
});

describe("endings", () => {
  it("names the state and the time when a rate is not finite", () => {
    const bad = smooth(["good", "worse"], (t, _, rate) => {
      rate[0] = 1;
      rate[1] = t > 0.5 ? Number.NaN : 0;
    });
    const { outcome } = run(bad, { t: 0, y: [0, 0], mode: null }, 1);
    expect(outcome.ending).toBe("not finite");
    expect(outcome.says).toMatch(/^Gave up at 0\.\d+ s: the rate of change of worse is not finite\.$/);
  });

  it("says how far it came when steps run out", () => {
    const fast = smooth(["slow", "fast"], (t, y, rate) => {
      rate[0] = 1;
      rate[1] = 1e6 * (Math.cos(t) - y[1]);
    });
    const { outcome } = run(fast, { t: 0, y: [0, 0], mode: null }, 1, { maxSteps: 50 });
    expect(outcome.ending).toBe("too many steps");
    expect(outcome.says).toMatch(/50 steps without reaching 1 s; fastest state fast\.$/);
  });

  it("stops when asked, between steps", () => {
    const signal = { aborted: false };
    const turning = smooth(["x", "y"], (_, y, rate) => {
      rate[0] = y[1];
      rate[1] = -y[0];
    });
    const { outcome } = run(turning, { t: 0, y: [1, 0], mode: null }, 1000, {
      signal,
      onProgress: (t) => {
        signal.aborted = t > 10;
      },
    });
    expect(outcome.ending).toBe("cancelled");
    expect(outcome.t).toBeGreaterThan(10);
    expect(outcome.t).toBeLessThan(20);
  });
});

describe("rest", () => {
  it("hands over to the closed form and still finds a guard there", () => {
    const settling: Plant<boolean> = {
      stateNames: ["heat"],
      derivative: (_, y, __, rate) => {
        rate[0] = (2 - y[0]) / 3;
      },
      guards: (over) => (over ? [] : [{ name: "melts", direction: "rising", level: true }]),
      guardValues: (_, y, __, values) => {
        values[0] = y[0] - 1;
      },
      scheduled: () => [],
      reduce: (_, y) => ({ y, mode: true }),
      rest: (t0, y0) => (t, y) => {
        y[0] = 2 + (y0[0] - 2) * Math.exp(-(t - t0) / 3);
      },
    };
    const { events, count, end } = run(settling, { t: 0, y: [0], mode: false }, 30);
    expect(Math.abs(events[0].t - 3 * Math.log(2))).toBeLessThan(1e-9);
    expect(count.evaluations).toBe(0);
    expect(end.y[0]).toBeCloseTo(2 - 2 * Math.exp(-10), 12);
  });

  it("finds a guard that passes and returns early in a long rest", () => {
    // t e^-t stands above 0.3 from 0.48940 to 1.78134.
    const hump: Plant<number> = {
      ...ball(0, 0),
      derivative: (t, _, __, rate) => {
        rate[0] = (1 - t) * Math.exp(-t);
        rate[1] = 0;
      },
      guards: () => [{ name: "over", direction: "rising", level: false }],
      guardValues: (_, y, __, values) => {
        values[0] = y[0] - 0.3;
      },
      reduce: (_, y, n) => ({ y, mode: n + 1 }),
      rest: () => (t, y) => {
        y[0] = t * Math.exp(-t);
        y[1] = 0;
      },
    };
    for (const tEnd of [10, 100, 1000, 12345]) {
      const { events } = run(hump, { t: 0, y: [0, 0], mode: 0 }, tEnd);
      expect(events).toHaveLength(1);
      expect(events[0].t * Math.exp(-events[0].t)).toBeCloseTo(0.3, 10);
      expect(events[0].t).toBeLessThan(0.5);
    }
  });
});
