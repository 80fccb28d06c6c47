import { type Event, run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import {
  asStated,
  type ClosedBy,
  type Coil,
  type ContactorMode,
  type ControlParameters,
  kirchhoffResidual,
  type PartParameters,
  plantOf,
  powerBalance,
  type Script,
} from "../src/index.ts";
import { cable, contactor, delayRelay, motor, quarterHorse, shunt, supply, transformer } from "./build.ts";
import { lockOut, pilot, withControls } from "./buildControls.ts";
import { partOf } from "./phasor.ts";

const coil: Coil = {
  rated_V: 120,
  fedBy: "supply",
  leg: "first",
  pullIn_V: 90,
  dropOut_V: 60,
  pullInTime_s: 0.02,
  dropOutTime_s: 0.015,
};

const called = (name: string, closedBy: ClosedBy, more: Partial<Coil> | null = {}): PartParameters => ({
  ...contactor(name, "supply", more === null ? null : { ...coil, ...more }),
  closedBy,
});

const told = (
  parts: readonly PartParameters[],
  controls: readonly ControlParameters[],
  tEnd: number,
  script: Partial<Script> = {},
) => {
  const plant = plantOf(withControls([supply(120), ...parts], ...controls));
  return { plant, ...run(plant, plant.start({ ...asStated, ...script }), tEnd, { tolerance: 1e-9 }) };
};
const named = (events: readonly Event[], part: string): [string, number][] =>
  events
    .filter(({ name }) => name.startsWith(`${part}: `))
    .map(({ name, t }) => [name.slice(part.length + 2), t]);

describe("supply voltage stepped by a story", () => {
  it("scales every voltage and keeps its power, exactly at the stated times", () => {
    const plant = plantOf(withControls([supply(120, 1), shunt("lamp", "supply", 0.1)]));
    const script = { ...asStated, supply: [0.5, 0, 1].map((factor, i) => ({ at_s: i + 1, factor })) };
    const { events, end } = run(plant, plant.start(script), 2.5);
    expect(events.map(({ t }) => t)).toEqual([1, 2]);
    expect(plant.solve(end.y, end.mode).vr[0]).toBe(0);
    const half = run(plant, plant.start(script), 1.5).end;
    expect(plant.solve(half.y, half.mode).vr[0]).toBeCloseTo(60 / 1.1, 12);
    expect(powerBalance(plant, half.y, half.mode).residual).toBeLessThan(1e-12);
  });

  it("a step at 0 s is in force before anything closes", () => {
    const { events } = told([called("c", "on")], [pilot("on")], 1, { supply: [{ at_s: 0, factor: 0.7 }] });
    expect(named(events, "c")).toEqual([["coil falls before pull-in", 0]]);
  });
});

describe("what closes what", () => {
  it("a contactor whose path is open does not close; one whose path opens lets go after its lag, uncounted", () => {
    const off = told([called("c", "on")], [pilot("on", false)], 1);
    expect(named(off.events, "c")).toEqual([["coil falls before pull-in", 0]]);
    const first = called("first", "on");
    const second = called("second", "first");
    const both = told([first, second], [pilot("on")], 3, { supply: [{ at_s: 1, factor: 0.6 }] });
    expect(named(both.events, "second")).toEqual([
      ["coil falls before pull-in", 0],
      ["coil reaches pull-in", 0],
      ["pulls in", 0.02],
    ]);
    const mode = both.end.mode[partOf(both.plant, "second")] as ContactorMode;
    expect(mode.dropOuts).toBe(0);
  });

  it("a contact that opens with its device makes a buzzer, counted by its lags (counted by hand)", () => {
    // Closed through its own opening contact: 20 ms in, 15 ms out, for ever; none of it is for want of volts.
    const { events, end, plant } = told([called("c", { not: "c" })], [], 0.999);
    const closings = named(events, "c").filter(([what]) => what === "pulls in");
    expect(closings).toHaveLength(1 + Math.floor(0.999 / 0.035));
    expect((end.mode[partOf(plant, "c")] as ContactorMode).dropOuts).toBe(0);
  });

  it("a contactor seals itself in beside a button and stays without it", () => {
    const path: ClosedBy = { any: ["button", "c"] };
    const plant = plantOf(withControls([supply(120), called("c", path)], pilot("button")));
    const on = run(plant, plant.start(), 1).end;
    const released = { ...on, mode: plant.rescript(on.mode, { ...asStated, stuck: () => "open" }) };
    // Every contact held open: the path is open and the coil lets go.
    expect(run(plant, released, 2).events.map(({ name }) => name)).toContain("c: opens");
    const kept = plant.rescript(on.mode, {
      ...asStated,
      stuck: (part) => (part === "button" ? "open" : null),
    });
    expect(run(plant, { ...on, mode: kept }, 2).events).toEqual([]);
  });

  it("without a coil the path works the contact at once", () => {
    const { events } = told(
      [called("direct", { all: ["on", "c"] }, null), called("c", "on")],
      [pilot("on")],
      1,
    );
    expect(named(events, "direct")).toEqual([["closes", 0]]);
  });

  it("a delay relay closes the coil of another contactor after its delay", () => {
    const parts = [
      called("c", "on"),
      delayRelay("relay", "c", 4, 0.1),
      called("second", { all: ["on", "relay"] }),
    ];
    const { events } = told(parts, [pilot("on")], 6);
    expect(named(events, "second").slice(1)).toEqual([
      ["coil reaches pull-in", 4],
      ["pulls in", 4.02],
    ]);
  });
});

describe("failed contacts", () => {
  it("a welded contactor conducts whatever its coil does, and counts no drop-out", () => {
    const script: Partial<Script> = {
      supply: [{ at_s: 1, factor: 0.3 }],
      stuck: (part) => (part === "c" ? "closed" : null),
    };
    const { end, plant } = told([called("c", "on"), shunt("l", "c", 0.1)], [pilot("on")], 2, script);
    expect(plant.isLive(partOf(plant, "l"), end.mode)).toBe(true);
    expect((end.mode[partOf(plant, "c")] as ContactorMode).dropOuts).toBe(0);
  });

  it("a relay failed closed feeds at once, one failed open never", () => {
    for (const stuck of ["open", "closed"] as const) {
      const parts = [delayRelay("r", "supply", 2, 0.1), shunt("l", "r", 0.1)];
      const script: Partial<Script> = { stuck: () => stuck };
      const { plant, end } = told(parts, [], stuck === "open" ? 3 : 1, script);
      expect(plant.isLive(partOf(plant, "l"), end.mode)).toBe(stuck === "closed");
    }
  });

  it.each([
    ["closed", true],
    ["open", false],
  ] as const)("a start switch stuck %s stays there, whatever the speed", (stuck, inCircuit) => {
    const { plant, end, events } = told([motor("m", "supply")], [], 3, { stuck: () => stuck });
    expect((end.mode[1] as { startSwitch: boolean }).startSwitch).toBe(inCircuit);
    expect(named(events, "m").map(([what]) => what)).toEqual(inCircuit ? ["breaks away"] : []);
    // Without its auxiliary winding the machine has no torque at rest.
    if (!inCircuit) expect(end.y[plant.layout.places[1].state]).toBe(0);
  });

  it("a held rotor stays still until it is let go", () => {
    const { plant, end } = told([motor("m", "supply")], [], 2, { held: () => true });
    expect(end.y[0]).toBe(0);
    const free = run(plant, { ...end, mode: plant.rescript(end.mode, asStated) }, 4);
    expect(free.end.y[0]).toBeGreaterThan(180);
  });

  it("a motor's own contact closes and opens at the story's times", () => {
    const { events } = told([motor("m", "supply")], [], 9, { connects_s: () => 1, opens_s: () => 3 });
    expect(named(events, "m").filter(([what]) => what.includes("connected"))).toEqual([
      ["is connected", 1],
      ["is disconnected", 3],
    ]);
  });
});

describe("lock-out timer (closed form)", () => {
  const dip = (length_s: number) => [
    { at_s: 10, factor: 0.5 },
    { at_s: 10 + length_s, factor: 1 },
  ];
  const timer = lockOut("timer", "supply", { lockOut_s: 30, below: 0.7, ridesThrough_s: 0.05 });
  const story = (length_s: number) => told([called("c", "timer")], [timer], 100, { supply: dip(length_s) });

  it("rides through a shorter dip", () => {
    expect(named(story(0.04).events, "timer").map(([what]) => what)).toEqual([
      "loses its voltage",
      "has voltage again",
    ]);
  });

  it("holds its contactor off for its time after the voltage is back from a longer one", () => {
    const { events } = story(2);
    expect(named(events, "timer")).toEqual([
      ["loses its voltage", 10],
      ["locks out", 10.05],
      ["has voltage again", 12],
      ["lets go", 42],
    ]);
    expect(named(events, "c").at(-1)).toEqual(["pulls in", 42.02]);
  });

  it("begins its time anew when the voltage is lost while it counts", () => {
    const supplySteps = [...dip(2), { at_s: 20, factor: 0 }, { at_s: 21, factor: 1 }];
    const { events } = told([called("c", "timer")], [timer], 100, { supply: supplySteps });
    expect(named(events, "timer").at(-1)).toEqual(["lets go", 51]);
  });
});

describe("what a coil draws", () => {
  const burden = { inrush_VA: 60, inrushPowerFactor: 0.6, sealed_VA: 10, sealedPowerFactor: 0.3 };
  const behind = (more: Partial<Coil>) => [
    transformer("control", "supply", [120, 24], 40, 0),
    contactor("c", "supply", {
      ...coil,
      rated_V: 24,
      pullIn_V: 18,
      dropOut_V: 12,
      fedBy: "control",
      burden,
      ...more,
    }),
  ];
  /** Volts of a 24 V coil of S volt-amperes behind 40 ohm at 120 V: |1/(1 + Z Y)| times 24. */
  const volts = (S: number, pf: number): number => {
    const y = S / 24 ** 2 / 25;
    return 24 / Math.hypot(1 + 40 * y * pf, 40 * y * Math.sqrt(1 - pf * pf));
  };

  it("the control transformer sags under the inrush and comes back under the sealed coil (closed form)", () => {
    const plant = plantOf(withControls([supply(120), ...behind({ pullIn_V: 19 })]));
    const start = plant.start();
    const at = (mode: typeof start.mode): number => {
      const walk = plant.solve(start.y, mode);
      return Math.hypot(walk.vr[1], walk.vi[1]);
    };
    expect(at(start.mode)).toBeCloseTo(volts(60, 0.6), 9);
    const closed = run(plant, start, 0.1).end.mode;
    expect(at(closed)).toBeCloseTo(volts(10, 0.3), 9);
    expect(kirchhoffResidual(plant, start.y, closed)).toBeLessThan(1e-12);
    expect(powerBalance(plant, start.y, closed).residual).toBeLessThan(1e-12);
  });

  it("a transformer too small for the inrush never closes it, though it would hold it", () => {
    const pullIn_V = (volts(60, 0.6) + volts(10, 0.3)) / 2;
    const { events } = told(behind({ pullIn_V }), [], 1);
    expect(named(events, "c")).toEqual([["coil falls before pull-in", 0]]);
  });

  it("draws nothing while its path is open", () => {
    const [control, c] = behind({});
    const plant = plantOf(
      withControls([supply(120), control, { ...c, closedBy: "on" } as PartParameters], pilot("on", false)),
    );
    const { y, mode } = plant.start();
    const walk = plant.solve(y, mode);
    expect([walk.vr[1], walk.ir[0]]).toEqual([24, 0]);
  });
});

describe("relay that waits until another motor is up", () => {
  const machine = quarterHorse;
  const relay = { ...delayRelay("relay", "supply", 0.5, 0.1), waitsFor: { part: "first", below_A: 8 } };
  const two = (more = {}) => [
    motor("first", "supply", { machine, ...more }),
    relay,
    motor("second", "relay", { machine }),
  ];

  it("counts from when the first motor's current comes down", () => {
    const { events } = told(two(), [], 5);
    const opens = named(events, "first").find(([what]) => what === "start switch opens")?.[1] ?? 0;
    const sees = named(events, "relay").find(([what]) => what === "sees the other up")?.[1] ?? 0;
    const closes = named(events, "relay").find(([what]) => what === "closes")?.[1] ?? 0;
    expect(sees).toBeGreaterThanOrEqual(opens);
    expect(closes).toBeCloseTo(sees + 0.5, 9);
  });

  it("never closes on a motor that stalls, and at once in a story without delay", () => {
    const stalled = told(two(), [], 20, { held: (m) => m === "first" });
    expect(named(stalled.events, "relay").map(([what]) => what)).toEqual(["is energised"]);
    const together = told(two(), [], 1, { delay_s: () => 0 });
    expect(named(together.events, "relay")).toEqual([
      ["is energised", 0],
      ["closes", 0],
    ]);
  });

  it("waits anew when it has lost its voltage for longer than its reset time", () => {
    const dip = [
      { at_s: 8, factor: 0 },
      { at_s: 9, factor: 1 },
    ];
    const { events } = told(two(), [], 20, { supply: dip });
    const seen = named(events, "relay").filter(([what]) => what === "closes");
    expect(seen).toHaveLength(2);
    expect(seen[1][1]).toBeGreaterThanOrEqual(9.5);
  });
});

describe("a line that a coil shares with its motor", () => {
  it("keeps Kirchhoff's law with a burden behind a cable", () => {
    const parts = [
      cable("line", "supply", 2),
      contactor("c", "line", {
        ...coil,
        fedBy: "line",
        burden: { inrush_VA: 50, inrushPowerFactor: 0.5, sealed_VA: 8, sealedPowerFactor: 0.4 },
      }),
      motor("m", "c"),
    ];
    const { plant, end } = told(parts, [], 0.2);
    expect(kirchhoffResidual(plant, end.y, end.mode)).toBeLessThan(1e-12);
    expect(powerBalance(plant, end.y, end.mode).residual).toBeLessThan(1e-9);
  });
});
