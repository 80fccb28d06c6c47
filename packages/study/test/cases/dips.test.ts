import { examples, parseCabinet } from "@startgap/cabinet";
import type { Circuit } from "@startgap/circuit";
import { describe, expect, it } from "vitest";
import { type DipEdges, type DipMap, type DipOutcome, dipSays, dips, oneDip } from "../../src/index.ts";
import { circuit, coil, contactor, fuse, motor, pair, relay, slowMelt, supply } from "../build.ts";
import { cabinetOf } from "../cabinet.ts";
import { compressor, type Devices, stiffPair, USUAL, withControls } from "./build.ts";

function sound<T extends object>(value: T): Exclude<T, { skipped: string } | { failed: string }> {
  if ("failed" in value || "skipped" in value) throw new Error(JSON.stringify(value));
  return value as Exclude<T, { skipped: string } | { failed: string }>;
}

const mapOf = (of: Circuit, left: readonly number[], lengths_s: readonly number[]): DipMap =>
  sound(dips(cabinetOf(of), { left, lengths_s }));
const dipOf = (of: Circuit, left: number, length_s: number): DipOutcome =>
  sound(oneDip(cabinetOf(of), { left, length_s }));

/** The ends in turn, and where they change. */
const told = ({ shortest, changes }: DipEdges): { ends: string[]; at_s: number[] } => ({
  ends: [shortest, ...changes.map(({ after }) => after)],
  at_s: changes.map(({ at_s }) => at_s),
});

/** An edge in length is closed in on to 5e-4 of itself. */
const near = (got: number, want: number): void => expect(Math.abs(got / want - 1)).toBeLessThan(6e-4);

describe("both edges of the map (closed form: lags and reset times)", () => {
  const devices: readonly Devices[] = [
    USUAL,
    { dropOut_s: 0.01, pullIn_s: 0.035, reset_s: 0.25, dropOut: 0.6 },
    { dropOut_s: 0.03, pullIn_s: 0.012, reset_s: 0.065, dropOut: 0.75 },
  ];

  for (const one of devices) {
    const { dropOut_s, pullIn_s, reset_s, dropOut } = one;
    const name = `drop-out ${1000 * dropOut_s} ms, pull-in ${1000 * pullIn_s} ms, reset ${1000 * reset_s} ms`;
    const { edges } = mapOf(stiffPair(one), [0, 0.3, 0.55, 0.65, 0.9], [0.005, 0.4]);
    const at = (left: number): DipEdges => {
      const found = edges.find((row) => row.left === left);
      if (found === undefined) throw new Error(`no row ${left}`);
      return found;
    };

    it(`${name}: where the relay loses its voltage with the line, it is dead until the contactor is in again`, () => {
      for (const left of [0, 0.3]) {
        const { ends, at_s } = told(at(left));
        expect(ends).toEqual(["holds", "together", "staggered"]);
        near(at_s[0], dropOut_s);
        near(at_s[1], reset_s - pullIn_s);
      }
    });

    it(`${name}: where half the voltage is left it is dead only while the contactor is open`, () => {
      const { ends, at_s } = told(at(0.55));
      expect(ends).toEqual(["holds", "together", "staggered"]);
      near(at_s[0], dropOut_s);
      near(at_s[1], reset_s - pullIn_s + dropOut_s);
    });

    it(`${name}: the edge in depth is the drop-out voltage, closed in on to half a percent`, () => {
      const lets = edges.filter((row) => row.changes.length > 0).map(({ left }) => left);
      const holds = edges.filter((row) => row.changes.length === 0).map(({ left }) => left);
      expect(Math.max(...lets)).toBeLessThanOrEqual(dropOut);
      expect(Math.min(...holds)).toBeGreaterThanOrEqual(dropOut);
      expect(Math.min(...holds) - Math.max(...lets)).toBeLessThanOrEqual(0.005 + 1e-12);
    });
  }

  it("finds two edges that fall between the same two lengths, and none that is not there", () => {
    const { edges, outcomes } = mapOf(stiffPair(), [0], [0.01, 0.09]);
    expect(outcomes[0].map(({ end }) => end)).toEqual(["holds", "staggered"]);
    expect(told(edges[0]).ends).toEqual(["holds", "together", "staggered"]);
    expect(told(mapOf(stiffPair(), [0], [0.03, 0.07]).edges[0])).toEqual({ ends: ["together"], at_s: [] });
  });

  it("a relay that loses its count within the pull-in time never lets both restart together", () => {
    const quick = { ...USUAL, reset_s: USUAL.pullIn_s };
    for (const row of mapOf(stiffPair(quick), [0, 0.55, 0.65], [0.005, 0.1, 0.4]).edges)
      expect(told(row).ends).toEqual(["holds", "staggered"]);
  });
});

describe("the three regions (constructed: what each device must do is known)", () => {
  const full = compressor({ loaded: { atRest_Nm: 0, atFullSpeed_Nm: 0.5, shape: "square" } });
  const filled: Circuit = {
    ...stiffPair(),
    parts: stiffPair().parts.map((p) => (p.is === "motor" ? { ...p, compressor: full } : p)),
  };

  it("rides through: nothing lets go", () => {
    const { end, letGo, reset, loaded, back_s } = dipOf(filled, 0, 0.014);
    expect({ end, letGo, reset, loaded }).toEqual({ end: "holds", letGo: [], reset: [], loaded: [] });
    expect(back_s.map(({ after_s }) => after_s)).toEqual([null, null]);
  });

  it("drops the motors but leaves the timer timed out: both restart together, a pull-in time after the dip", () => {
    const one = dipOf(filled, 0, 0.05);
    expect(one).toMatchObject({ end: "together", letGo: ["contactor"], reset: [], stalled: [], melted: [] });
    expect(one.loaded).toEqual(["pump 1", "pump 2"]);
    for (const { after_s } of one.back_s) expect(after_s).toBeCloseTo(USUAL.pullIn_s, 9);
    expect(dipSays(one)).toBe(
      "A dip to 0 % for 50 ms: contactor lets go; the delay is not counted again; all restart together, pump 1 and pump 2 against full head.",
    );
  });

  it("resets in full: the second comes back the whole delay after the first", () => {
    const one = dipOf(filled, 0, 0.2);
    expect(one).toMatchObject({ end: "staggered", letGo: ["contactor"], reset: ["relay"] });
    expect(one.back_s[0].after_s).toBeCloseTo(USUAL.pullIn_s, 9);
    expect(one.back_s[1].after_s).toBeCloseTo(USUAL.pullIn_s + 12, 9);
  });

  it("a lock-out timer turns both into a start from the beginning, its time after the dip", () => {
    const timer = {
      is: "lock-out timer",
      name: "timer",
      watches: "panel",
      leg: "first",
      lockOut_s: 5,
      below: 0.7,
      ridesThrough_s: 0.01,
    } as const;
    const parts = filled.parts.map((p) => (p.is === "contactor" ? { ...p, closedBy: "timer" } : p));
    const one = dipOf(withControls({ ...filled, parts }, timer), 0, 0.05);
    expect(one).toMatchObject({ end: "staggered", lockedOut: ["timer"], reset: ["relay"] });
    expect(one.back_s[0].after_s).toBeCloseTo(5 + USUAL.pullIn_s, 9);
  });
});

describe("other ends", () => {
  it("one motor alone comes back alone", () => {
    const lone = circuit(
      supply(120, 0, 0),
      contactor("contactor", "panel", coil("panel")),
      motor("pump", "contactor", {
        inertia_kgm2: 0.1,
        drives: { atRest_Nm: 0, atFullSpeed_Nm: 0, shape: "square" },
      }),
    );
    expect(dipOf(lone, 0, 0.05)).toMatchObject({ end: "alone", letGo: ["contactor"] });
  });

  it("a contactor that the common restart drops again chatters, with its events capped", () => {
    // Held by more than one start draws, dropped by two at once.
    const weak = circuit(
      supply(125, 1.2, 0.3),
      fuse("fuse", "panel", slowMelt(60)),
      contactor("contactor", "fuse", coil("fuse", { dropOut_V: 93, pullIn_V: 98 })),
      motor("pump 1", "contactor", { drives: { atRest_Nm: 1, atFullSpeed_Nm: 1, shape: "square" } }),
      relay("relay", "contactor", 4),
      motor("pump 2", "relay", { drives: { atRest_Nm: 1, atFullSpeed_Nm: 1, shape: "square" } }),
    );
    // Long enough for the shafts to stop, for a relay that never forgets.
    const forgetsNever: Circuit = {
      ...weak,
      parts: weak.parts.map((p) => (p.is === "delay relay" ? { ...p, reset_s: 60 } : p)),
    };
    const one = dipOf(forgetsNever, 0, 3);
    expect(one.chatters).toEqual(["contactor"]);
    expect(dipSays(one)).toMatch(/^Without power for 3 s: contactor lets go; /);
    expect(dipSays(one)).toMatch(/contactor chatters/);
  });

  it("a motor that loses its speed while it stays connected starts again as the voltage returns", () => {
    const straight = circuit(
      supply(120, 0, 0),
      motor("pump", "panel", { drives: { atRest_Nm: 0.5, atFullSpeed_Nm: 1, shape: "square" } }),
    );
    const one = dipOf(straight, 0, 1);
    expect(one).toMatchObject({ end: "alone", letGo: [] });
    expect(one.back_s[0].after_s).toBe(0);
  });
});

describe("where there is no map", () => {
  it("a generator is no line", () => {
    const read = parseCabinet(examples.find(({ key }) => key === "barn-workshop")?.text ?? "");
    if ("issues" in read) throw new Error("barn");
    expect(dips(read.cabinet)).toMatchObject({ skipped: expect.stringContaining("no line of a utility") });
    expect(oneDip(read.cabinet, { left: 0, length_s: 1 })).toHaveProperty("skipped");
  });

  it("without a motor, or while one does not come up, there is nothing to restart", () => {
    const alone = circuit(supply());
    expect(dips(cabinetOf(alone))).toMatchObject({ startgap: "dips 1", skipped: "There is no motor." });
    const stuck = stiffPair();
    const parts = stuck.parts.map((p) =>
      p.name === "pump 2" && p.is === "motor" ? { ...p, drives: { ...p.drives, atRest_Nm: 90 } } : p,
    );
    expect(dips(cabinetOf({ ...stuck, parts }))).toMatchObject({
      skipped: "Not everything runs before it: pump 2 must come up first.",
    });
  });

  it("says so when it is cancelled", () => {
    const cancelled = dips(cabinetOf(pair()), { signal: { aborted: true } });
    expect(cancelled).toMatchObject({ failed: expect.stringContaining("Cancelled") });
  });

  it("refuses depths and lengths that are none", () => {
    for (const dip of [
      { left: 1, length_s: 0.1 },
      { left: -0.1, length_s: 0.1 },
      { left: Number.NaN, length_s: 0.1 },
      { left: 0, length_s: 0 },
      { left: 0, length_s: 3601 },
    ])
      expect(() => oneDip(cabinetOf(pair()), dip)).toThrow(/^invalid (left|length_s): /);
    expect(() => dips(cabinetOf(pair()), { left: [2] })).toThrow("invalid left: 2 (expected 0 to below 1)");
  });
});

describe("the grid", () => {
  it("has an outcome for every depth and length asked for, ascending, and reports its progress", () => {
    const seen: number[] = [];
    const map = sound(
      dips(cabinetOf(stiffPair()), {
        left: [0.5, 0],
        lengths_s: [0.2, 0.01],
        onProgress: (part) => seen.push(part),
      }),
    );
    expect(map.left).toEqual([0, 0.5]);
    expect(map.length_s).toEqual([0.01, 0.2]);
    expect(map.outcomes.map((row) => row.length)).toEqual([2, 2]);
    expect(map.delay_s).toBe(12);
    expect(seen.at(-1)).toBe(1);
  });
});
