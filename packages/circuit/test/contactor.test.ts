import { run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import type { Coil, ContactorMode } from "../src/index.ts";
import { plantOf } from "../src/index.ts";
import {
  autotransformer,
  cable,
  circuit,
  contactor,
  delayRelay,
  fuse,
  shunt,
  supply,
  transformer,
} from "./build.ts";
import { partOf } from "./phasor.ts";

const coil: Coil = {
  rated_V: 120,
  fedBy: "line",
  leg: "first",
  pullIn_V: 100,
  dropOut_V: 80,
  pullInTime_s: 0.03,
  dropOutTime_s: 0.02,
};
/** A line of r ohm with a contactor, its coil on the same line, and a load behind the contact. */
const weak = (r: number, g_S: number, lags: Partial<Coil> = {}) =>
  plantOf(
    circuit(
      supply(120),
      cable("line", "supply", r),
      contactor("c", "line", { ...coil, ...lags }),
      shunt("l", "c", g_S),
    ),
  );

describe("table of (mode, event) -> mode", () => {
  const plant = weak(1, 0.1);
  const { models } = plant;
  const after = (of: ContactorMode, what: string): ContactorMode =>
    models[2].reduce({ name: `c: ${what}`, t: 5 }, [], of) as ContactorMode;
  const open: ContactorMode = { state: "open", until_s: 0, dropOuts: 2 };
  const closed: ContactorMode = { ...open, state: "closed" };
  const pulling: ContactorMode = { ...open, state: "pulling in", until_s: 5.03 };
  const letting: ContactorMode = { ...open, state: "letting go", until_s: 5.02 };

  it.each([
    [open, "coil reaches pull-in", pulling],
    [pulling, "pulls in", { ...pulling, state: "closed" }],
    [pulling, "coil falls before pull-in", { ...pulling, state: "open" }],
    [closed, "coil falls to drop-out", letting],
    [letting, "coil recovers", { ...letting, state: "closed" }],
    [letting, "opens", { ...letting, state: "open", dropOuts: 3 }],
  ] as const)("%o, %s", (mode, what, expected) => {
    expect(after(mode, what)).toEqual(expected);
  });

  it("watches one thing in each mode and has a time where a lag is under way", () => {
    const names = (of: ContactorMode): string[] =>
      [...models[2].guards(of), ...models[2].scheduled(of)].map((e) => e.name);
    expect(names(open)).toEqual(["c: coil reaches pull-in"]);
    expect(names(pulling)).toEqual(["c: coil falls before pull-in", "c: pulls in"]);
    expect(names(closed)).toEqual(["c: coil falls to drop-out"]);
    expect(names(letting)).toEqual(["c: coil recovers", "c: opens"]);
    expect([open, pulling, closed, letting].map((of) => models[2].conducts(of))).toEqual([
      false,
      false,
      true,
      true,
    ]);
  });

  it("without a coil it is closed and nothing happens to it", () => {
    const plain = plantOf(circuit(supply(120), contactor("c", "supply", null), shunt("l", "c", 0.1)));
    const { events, end } = run(plain, plain.start(), 10);
    expect(events).toEqual([]);
    expect((end.mode[1] as ContactorMode).state).toBe("closed");
  });
});

/** What a contactor does on a piecewise constant coil voltage, told by hand: times of closing and opening. */
function byHand(
  closedVolts: number,
  openVolts: number,
  tEnd: number,
): { closings: number[]; openings: number[] } {
  const closings: number[] = [];
  const openings: number[] = [];
  if (openVolts < coil.pullIn_V) return { closings, openings };
  for (let n = 0; ; n++) {
    const closes = n * (coil.pullInTime_s + coil.dropOutTime_s);
    if (closes > tEnd) break;
    closings.push(closes);
    if (closedVolts > coil.dropOut_V) break;
    if (closes + coil.dropOutTime_s <= tEnd) openings.push(closes + coil.dropOutTime_s);
  }
  return { closings, openings };
}

describe("chatter on a weak line (counted by hand)", () => {
  it.each([
    [4, 0.2],
    [2, 0.2],
    [5, 0.08],
    [1, 0.6],
  ])("%d ohm and %d S: every closing and opening at its own moment", (r, g_S) => {
    const plant = weak(r, g_S);
    const { events, end, outcome } = run(plant, plant.start(), 9.99);
    const expected = byHand(120 / (1 + r * g_S), 120, 9.99);
    const times = (what: string): number[] => events.filter(({ name }) => name === what).map(({ t }) => t);
    expect(outcome.ending).toBe("finished");
    for (const [what, list] of [
      ["c: pulls in", expected.closings],
      ["c: opens", expected.openings],
    ] as const) {
      expect(times(what)).toHaveLength(list.length);
      times(what).forEach((t, i) => {
        expect(Math.abs(t - list[i])).toBeLessThan(1e-9);
      });
    }
    expect((end.mode[2] as ContactorMode).dropOuts).toBe(expected.openings.length);
  });

  it("twenty drop-outs a second with 30 ms to pull in and 20 ms to let go; none on a strong line", () => {
    const counts = [4, 0.5].map((r) => {
      const plant = weak(r, 0.2);
      return (run(plant, plant.start(), 10.01).end.mode[2] as ContactorMode).dropOuts;
    });
    expect(counts).toEqual([200, 0]);
  });

  it("without lags it is endless chatter, reported and not hung", () => {
    const plant = weak(4, 0.2, { pullInTime_s: 0, dropOutTime_s: 0 });
    const { outcome } = run(plant, plant.start(), 1);
    expect(outcome.ending).toBe("endless chatter");
    expect(outcome.t).toBe(0);
  });
});

describe("start of the story", () => {
  it("closes at once with enough volts on its coil, never with too few", () => {
    const started = [120, 99.9].map((e) => {
      const plant = plantOf(
        circuit(supply(e), contactor("c", "supply", { ...coil, fedBy: "supply" }), shunt("l", "c", 0.1)),
      );
      return run(plant, plant.start(), 5).events;
    });
    expect(started).toEqual([
      [{ name: "c: pulls in", t: 0 }],
      [{ name: "c: coil falls before pull-in", t: 0 }],
    ]);
  });

  it("a coil behind another contactor pulls in one lag after that contactor has closed", () => {
    const plant = plantOf(
      circuit(
        supply(120),
        contactor("first", "supply", { ...coil, fedBy: "supply" }),
        contactor("second", "supply", { ...coil, fedBy: "first" }),
      ),
    );
    const closings = run(plant, plant.start(), 1).events.filter(({ name }) => name.endsWith("pulls in"));
    expect(closings).toEqual([
      { name: "first: pulls in", t: 0 },
      { name: "second: pulls in", t: 0.03 },
    ]);
  });

  it("a coil on one leg, through a control transformer, follows that leg's volts", () => {
    const on = (leg: "first" | "second", g_S: number) => {
      const plant = plantOf(
        circuit(
          supply(240, 2),
          autotransformer("t", "supply", [120, 120], 1),
          { ...shunt("heater", "t", g_S), leg: "first" },
          { ...transformer("control", "t", [120, 24]), leg },
          contactor("c", "t", { ...coil, fedBy: "control", pullIn_V: 20, dropOut_V: 15 }),
        ),
      );
      return run(plant, plant.start(), 1).events.map(({ name }) => name);
    };
    // The loaded leg has 120/(1 + 0.75 * 0.5) = 87.3 V, 17.5 V at the coil; the idle leg stays above 100 V.
    expect(on("first", 0.5)).toEqual(["c: coil falls before pull-in"]);
    expect(on("second", 0.5)).toEqual(["c: pulls in"]);
  });
});

/** A fused short that drags the line down 1 s into the story until its fuse melts. */
const dip = (lags: Partial<Coil>) => {
  const melt = { minimumFusing_A: 20, share: [1], tau_s: [1] };
  return plantOf(
    circuit(
      supply(120),
      cable("line", "supply", 1),
      contactor("c", "line", { ...coil, ...lags }),
      shunt("l", "c", 0.02),
      delayRelay("r", "line", 1, 50),
      fuse("f", "r", melt),
      shunt("short", "f", 1),
    ),
  );
};

describe("a dip that passes (closed form)", () => {
  // The line stands at V = 120/2.02; V amperes through the fuse melt it after -ln(1 - 400/V^2).
  const lasts = -Math.log(1 - 400 / (120 / 2.02) ** 2);

  it("shorter than the drop-out time lets the contactor hold", () => {
    const plant = dip({ dropOutTime_s: lasts * 1.01 });
    const { events, end } = run(plant, plant.start(), 5, { tolerance: 1e-10 });
    expect((end.mode[partOf(plant, "c")] as ContactorMode).dropOuts).toBe(0);
    const recovers = events.find(({ name }) => name === "c: coil recovers");
    expect(Math.abs((recovers?.t ?? 0) - 1 - lasts)).toBeLessThan(1e-8);
  });

  it("longer than the drop-out time opens it once, and it comes back one lag after the volts", () => {
    const plant = dip({ dropOutTime_s: lasts * 0.5 });
    const { events, end } = run(plant, plant.start(), 5, { tolerance: 1e-10 });
    expect((end.mode[partOf(plant, "c")] as ContactorMode).dropOuts).toBe(1);
    const closings = events.filter(({ name }) => name === "c: pulls in").map(({ t }) => t);
    expect(closings).toHaveLength(2);
  });
});
