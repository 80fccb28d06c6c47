import { describe, expect, it } from "vitest";
import { type Event, type Plant, run } from "../src/index.ts";

/** A ramp of slope 1, timers by name and time, one guard at a height; the mode tells what has happened. */
function ramp(timers: Readonly<Record<string, number>>, height = Number.POSITIVE_INFINITY): Plant<string> {
  const happened = (mode: string): string[] => mode.split(" ");
  return {
    stateNames: ["height"],
    derivative: (_, __, ___, rate) => {
      rate[0] = 1;
    },
    guards: (mode) =>
      happened(mode).includes("height") ? [] : [{ name: "height", direction: "rising", level: true }],
    guardValues: (_, y, __, values) => {
      values[0] = y[0] - height;
    },
    scheduled: (mode) =>
      Object.entries(timers)
        .filter(([name]) => !happened(mode).includes(name))
        .map(([name, t]) => ({ name, t })),
    reduce: (event, y, mode) => ({ y, mode: `${mode} ${event.name}`.trim() }),
  };
}

const start = { t: 0, y: [0], mode: "" };
const times = (events: readonly Event[]): [string, number][] => events.map(({ name, t }) => [name, t]);

describe("known times (closed form)", () => {
  it("are reached exactly and in order, whatever the order of declaration", () => {
    const { events, end } = run(ramp({ c: 0.7, a: 0.1, b: 1 / 3 }), start, 1);
    expect(times(events)).toEqual([
      ["a", 0.1],
      ["b", 1 / 3],
      ["c", 0.7],
    ]);
    expect(end).toEqual({ t: 1, y: [expect.closeTo(1, 12)], mode: "a b c" });
  });

  it("at one time go by name", () => {
    for (const timers of [
      { b: 0.5, a: 0.5, c: 0.5 },
      { c: 0.5, b: 0.5, a: 0.5 },
    ]) {
      const { events, count } = run(ramp(timers), start, 1);
      expect(times(events)).toEqual([
        ["a", 0.5],
        ["b", 0.5],
        ["c", 0.5],
      ]);
      expect(count.arcs).toBeLessThan(5);
    }
  });

  it("closer than a nanosecond are one moment, further apart are two", () => {
    expect(times(run(ramp({ z: 0.5, a: 0.5 + 5e-10 }), start, 1).events)).toEqual([
      ["a", 0.5],
      ["z", 0.5],
    ]);
    expect(times(run(ramp({ z: 0.5, a: 0.5 + 5e-9 }), start, 1).events)).toEqual([
      ["z", 0.5],
      ["a", 0.5 + 5e-9],
    ]);
  });

  it("in the past happen at once, at the present time", () => {
    const { events, end } = run(ramp({ late: 0.2, next: 2.5 }), { t: 2, y: [0], mode: "" }, 3);
    expect(times(events)).toEqual([
      ["late", 2],
      ["next", 2.5],
    ]);
    expect(end.y[0]).toBeCloseTo(1, 12);
  });

  it("at the very start and at the very end happen; past the end they do not", () => {
    const { events, end } = run(ramp({ first: 0, last: 1, never: 1 + 1e-6 }), start, 1);
    expect(times(events)).toEqual([
      ["first", 0],
      ["last", 1],
    ]);
    expect(end).toEqual({ t: 1, y: [expect.closeTo(1, 12)], mode: "first last" });
  });

  it("less than a nanosecond past the end belong to whoever goes on from there", () => {
    const plant = ramp({ next: 1 + 5e-10 });
    const first = run(plant, start, 1);
    expect(first.events).toEqual([]);
    expect(times(run(plant, first.end, 2).events)).toEqual([["next", 1 + 5e-10]]);
  });

  it("that never come do no harm", () => {
    const { events, outcome } = run(ramp({ never: Number.POSITIVE_INFINITY }), start, 1);
    expect(events).toEqual([]);
    expect(outcome.says).toBe("Reached 1 s.");
  });

  it("a day into the story are still exact", () => {
    const { events } = run(ramp({ a: 86_400.123, b: 86_400.124 }), { t: 86_399, y: [0], mode: "" }, 86_401);
    expect(times(events)).toEqual([
      ["a", 86_400.123],
      ["b", 86_400.124],
    ]);
  });
});

describe("a guard and a known time together (closed form)", () => {
  it("at the same moment both happen, and neither twice", () => {
    const { events } = run(ramp({ timer: 0.5 }, 0.5), start, 1);
    expect(events.map(({ name }) => name).sort()).toEqual(["height", "timer"]);
    for (const { t } of events) expect(Math.abs(t - 0.5)).toBeLessThan(1e-9);
  });

  it("the guard first by less than a nanosecond: one moment, by name", () => {
    const { events } = run(ramp({ alarm: 0.5 }, 0.5 - 4e-10), start, 1);
    expect(events.map(({ name }) => name)).toEqual(["alarm", "height"]);
    expect(events[0].t).toBe(events[1].t);
    expect(Math.abs(events[0].t - 0.5)).toBeLessThan(1e-9);
  });

  it("at the end of the run the guard still happens, and so does what follows from it", () => {
    const { events, outcome } = run(ramp({}, 1), start, 1);
    expect(events.map(({ name }) => name)).toEqual(["height"]);
    expect(outcome.ending).toBe("finished");
  });

  it("one that its predecessor has made meaningless is dropped", () => {
    const plant: Plant<string> = {
      ...ramp({ a: 0.5, b: 0.5 }),
      scheduled: (mode) =>
        mode === ""
          ? [
              { name: "a", t: 0.5 },
              { name: "b", t: 0.5 },
            ]
          : [],
    };
    expect(times(run(plant, start, 1).events)).toEqual([["a", 0.5]]);
  });

  it("stop ends the run there, with its sentence", () => {
    const plant: Plant<string> = { ...ramp({ alarm: 0.25 }), reduce: () => "stop" };
    const { end, outcome } = run(plant, start, 1);
    expect(end.t).toBe(0.25);
    expect(outcome).toEqual({ ending: "stopped by an event", t: 0.25, says: "Stopped at 0.25 s: alarm." });
  });
});

describe("chatter", () => {
  const flipping = (lag: number): Plant<{ on: boolean; until: number }> => ({
    stateNames: ["x"],
    derivative: (_, __, ___, rate) => {
      rate[0] = 0;
    },
    guards: () => [],
    guardValues: () => {},
    scheduled: ({ on, until }) => [{ name: on ? "off" : "on", t: until }],
    reduce: ({ t }, y, { on }) => ({ y, mode: { on: !on, until: t + lag } }),
  });
  const from = { t: 0, y: [0], mode: { on: false, until: 0.1 } };

  it("within one moment is given up soon, though far fewer than the most events have happened", () => {
    const { outcome, events, end } = run(flipping(0), from, 1);
    expect(outcome.ending).toBe("endless chatter");
    expect(outcome.says).toMatch(/^Gave up at 0\.1 s: \d+ events, the last "o(n|ff)", and no end to them\.$/);
    expect(events.length).toBeLessThan(1000);
    expect(end.t).toBe(0.1);
  });

  it("with a lag is told in full until the most events", () => {
    const { outcome, events } = run(flipping(0.01), from, 1.005);
    expect(outcome.ending).toBe("finished");
    expect(events).toHaveLength(91);
    expect(Math.abs(events[90].t - 1)).toBeLessThan(1e-12);
    const cut = run(flipping(0.01), from, 1.005, { maxEvents: 40 });
    expect(cut.outcome.ending).toBe("endless chatter");
    expect(cut.events).toHaveLength(40);
    expect(cut.end.t).toBeCloseTo(0.49, 12);
  });

  it("a hundred timers at one moment are none", () => {
    const timers = Object.fromEntries(
      Array.from({ length: 100 }, (_, k) => [`t${String(k).padStart(3, "0")}`, 0.5]),
    );
    const { outcome, events } = run(ramp(timers), start, 1);
    expect(events).toHaveLength(100);
    expect(outcome.ending).toBe("finished");
  });
});

describe("an empty stretch", () => {
  it("from a moment to itself runs what is due there and nothing else", () => {
    const { events, count, end } = run(ramp({ now: 2, later: 3 }), { t: 2, y: [7], mode: "" }, 2);
    expect(times(events)).toEqual([["now", 2]]);
    expect(count.evaluations).toBe(0);
    expect(end).toEqual({ t: 2, y: [7], mode: "now" });
  });
});
