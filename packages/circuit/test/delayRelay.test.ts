import { run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import type { DelayRelayMode } from "../src/delayRelay.ts";
import { asStated, plantOf } from "../src/index.ts";
import { cable, circuit, delayRelay, fuse, shunt, supply } from "./build.ts";
import { partOf } from "./phasor.ts";

const melt = { minimumFusing_A: 20, share: [1], tau_s: [1] };
/** Relay "r" (4 s) feeding a lamp; relay "s" puts a fused short on the same line after 6 s, which melts. */
const line = (reset_s: number, from_s = 6) =>
  plantOf(
    circuit(
      supply(120),
      cable("line", "supply", 1),
      delayRelay("r", "line", 4, reset_s),
      shunt("lamp", "r", 0),
      delayRelay("s", "line", from_s, 100),
      fuse("f", "s", melt),
      shunt("short", "f", 1.5),
    ),
  );
/** The line stands at 120/2.5 = 48 V, below half, until 1.5 times that, 72 A, has melted the fuse. */
const lasts = -Math.log(1 - (20 / 72) ** 2);
const told = (plant: ReturnType<typeof line>, tEnd = 30) =>
  run(plant, plant.start(), tEnd, { tolerance: 1e-10 }).events.filter(({ name }) => name.startsWith("r: "));

describe("table of (mode, event) -> mode", () => {
  const { models } = line(0.5);
  const after = (of: DelayRelayMode, what: string): DelayRelayMode =>
    models[2].reduce({ name: `r: ${what}`, t: 7 }, [], of) as DelayRelayMode;
  const off: DelayRelayMode = { state: "off", delay_s: 4, since_s: 0, lapses_s: null };
  const timing: DelayRelayMode = { ...off, state: "timing", since_s: 7 };
  const closed: DelayRelayMode = { ...timing, state: "closed" };
  const lapsing = (of: DelayRelayMode): DelayRelayMode => ({ ...of, lapses_s: 7.5 });

  it.each([
    [off, "is energised", timing],
    [timing, "closes", closed],
    [timing, "loses its voltage", lapsing(timing)],
    [closed, "loses its voltage", lapsing(closed)],
    [lapsing(timing), "is energised", timing],
    [lapsing(closed), "is energised", closed],
    [lapsing(timing), "closes", lapsing(closed)],
    [lapsing(timing), "resets", { ...timing, state: "off" }],
    [lapsing(closed), "resets", { ...closed, state: "off" }],
  ] as const)("%o, %s", (mode, what, expected) => {
    expect(after(mode, what)).toEqual(expected);
  });

  it("conducts closed alone", () => {
    expect([off, timing, closed, lapsing(closed)].map((of) => models[2].conducts(of))).toEqual([
      false,
      false,
      true,
      true,
    ]);
  });
});

describe("on-delay (closed form)", () => {
  it("closes its delay after it is energised, exactly", () => {
    expect(told(line(0.5), 5)).toEqual([
      { name: "r: is energised", t: 0 },
      { name: "r: closes", t: 4 },
    ]);
  });

  it("takes the story's delay in place of its own; an endless one never closes", () => {
    const plant = line(0.5);
    const closes = [0, 2.5, Number.POSITIVE_INFINITY].map((delay_s) => {
      const start = plant.start({
        ...asStated,
        delay_s: (name, stated) => (name === "r" ? delay_s : stated),
      });
      return run(plant, start, 5).events.find(({ name }) => name === "r: closes")?.t;
    });
    expect(closes).toEqual([0, 2.5, undefined]);
  });

  it("a branch from a standing under another script closes at the new delay", () => {
    const plant = line(0.5);
    const never = { ...asStated, delay_s: () => Number.POSITIVE_INFINITY };
    const { end } = run(plant, plant.start(never), 3);
    const branch = { ...end, mode: plant.rescript(end.mode, { ...asStated, delay_s: () => 3 }) };
    const { events } = run(plant, branch, 3.001);
    expect(events.map(({ name, t }) => [name, t])).toEqual([
      ["r: closes", 3],
      ["s: closes", 3],
      ["r: loses its voltage", 3],
      ["s: loses its voltage", 3],
    ]);
  });
});

describe("a dip below half of nominal (closed form)", () => {
  const names = (reset_s: number): string[] => told(line(reset_s)).map(({ name }) => name.slice(3));

  it("shorter than its reset time leaves it closed", () => {
    const plant = line(lasts * 1.02);
    const events = told(plant);
    expect(events.map(({ name }) => name.slice(3))).toEqual([
      "is energised",
      "closes",
      "loses its voltage",
      "is energised",
    ]);
    expect(events[2].t).toBe(6);
    expect(Math.abs(events[3].t - 6 - lasts)).toBeLessThan(1e-8);
    const { end } = run(plant, plant.start(), 30);
    expect((end.mode[partOf(plant, "r")] as DelayRelayMode).state).toBe("closed");
  });

  it("longer than its reset time opens it; it times again from the return of voltage", () => {
    const reset_s = lasts * 0.5;
    const events = told(line(reset_s));
    expect(names(reset_s)).toEqual([
      "is energised",
      "closes",
      "loses its voltage",
      "resets",
      "is energised",
      "closes",
    ]);
    expect(Math.abs(events[3].t - 6 - reset_s)).toBeLessThan(1e-9);
    expect(Math.abs(events[5].t - 10 - lasts)).toBeLessThan(1e-8);
  });

  it("while it is still timing, a short one does not set it back", () => {
    const plant = line(1, 2);
    expect(told(plant).at(-1)).toEqual({ name: "r: closes", t: 4 });
  });
});
