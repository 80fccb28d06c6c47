import { describe, expect, it } from "vitest";
import { type AdviceFacts, adviceFrom, type PassRange } from "../src/advice.ts";
import { stretchOf } from "../src/advise.ts";
import { kneeOf } from "../src/knee.ts";
import type { DelayMap } from "../src/results.ts";

type Columns = Omit<DelayMap, "advice">;

const delays = Array.from({ length: 121 }, (_, k) => k / 10);
const flat = (value: number): number[] => delays.map(() => value);

/** An invented map: a lamp's lowest voltage, and a fuse's melt fraction, against the delay. */
const mapOf = (volts = flat(110), melt = flat(0.2)): Columns => ({
  delay_s: delays,
  motors: [],
  points: [{ part: "lamp", nominal_V: 120, lowestVoltage_V: volts }],
  fuses: [{ part: "fuse", meltFraction: melt }],
  contactors: [],
  chatters: delays.map(() => false),
  passes: delays.map(() => true),
});

const advise = (range: PassRange | null, more: Partial<AdviceFacts> = {}) =>
  adviceFrom({ map: mapOf(), range, relay: { short: 0.1, long: 0.1 }, motors: 2, trouble: null, ...more });

describe("the recommended setting", () => {
  it.each([
    [0.9, 1],
    [0.45, 0.5],
    [0.4501, 1],
    [0.46, 1],
    [1.35, 1.5],
    [1.3501, 2],
    [4.5, 5],
  ])(
    "from %s s on with a relay of 10 %% is %s s: the first half second whose short end passes",
    (from_s, set) => {
      expect(advise({ from_s, to_s: null })).toMatchObject({
        recommended_s: set,
        shortest_s: from_s,
        until_s: null,
      });
    },
  );

  it("is no later than the edge itself for a relay without error", () => {
    const exact = { relay: { short: 0, long: 0 } };
    expect(advise({ from_s: 1.5, to_s: null }, exact).recommended_s).toBe(1.5);
    expect(advise({ from_s: 1.5, to_s: 1.5 }, exact).recommended_s).toBe(1.5);
  });

  it.each([
    [1.651, 1.5],
    [1.65, 1.5],
    [1.649, null],
  ])("keeps its long end below the delays that fail again: from 1.2 s up to %s s it is %s", (to_s, set) => {
    expect(advise({ from_s: 1.2, to_s })).toMatchObject({
      recommended_s: set,
      shortest_s: 1.2,
      until_s: to_s,
    });
  });

  it("takes the two sides of the tolerance apart", () => {
    const lopsided = { relay: { short: 0.25, long: 0 } };
    expect(advise({ from_s: 1.2, to_s: 2 }, lopsided).recommended_s).toBe(2);
  });

  it("is none where no delay passes", () => {
    expect(advise(null)).toMatchObject({ recommended_s: null, shortest_s: null, until_s: null });
  });

  it("is 0 where all may start together, also when longer delays fail", () => {
    expect(advise({ from_s: 0, to_s: null }).recommended_s).toBe(0);
    expect(advise({ from_s: 0, to_s: 3 }).recommended_s).toBe(0);
  });
});

describe("the reason", () => {
  it.each<[PassRange | null, Partial<AdviceFacts>, string]>([
    [
      { from_s: 0.46, to_s: null },
      {},
      "Every delay from 0.46 s to 12 s passes; 1 s on the dial keeps that with the relay 10 % short or long.",
    ],
    [
      { from_s: 0.46, to_s: null },
      { relay: { short: 0.25, long: 0.1 } },
      "Every delay from 0.46 s to 12 s passes; 1 s on the dial keeps that with the relay 25 % short or 10 % long.",
    ],
    [
      { from_s: 1.2, to_s: 2.04 },
      {},
      "Delays from 1.2 s to 2.0 s pass, longer ones fail; 1.5 s on the dial keeps that with the relay 10 % short or long.",
    ],
    [
      { from_s: 1.2, to_s: 1.4 },
      {},
      "Delays from 1.2 s to 1.4 s pass, longer ones fail; no setting in steps of 0.5 s stays there with the relay 10 % short or long.",
    ],
    [{ from_s: 0, to_s: null }, {}, "Both may start together: nothing fails at any delay up to 12 s."],
    [
      { from_s: 0, to_s: null },
      { motors: 3 },
      "All 3 motors may start together: nothing fails at any delay up to 12 s.",
    ],
    [{ from_s: 0, to_s: 3 }, {}, "Both may start together: delays up to 3.0 s pass, longer ones fail."],
    [null, {}, "No delay up to 12 s helps."],
    [null, { trouble: "pump 2: hums." }, "No delay up to 12 s helps. At 12 s: pump 2: hums."],
  ])("for %j is told in a sentence", (range, more, reason) => {
    expect(advise(range, more).reason).toBe(reason);
  });
});

describe("the stretch to set a relay in", () => {
  const pattern = (text: string): boolean[] => [...text].map((c) => c === "+");
  it.each([
    ["all pass", "+++++", { first: 0, last: 4 }],
    ["all fail", "-----", null],
    ["from an edge on", "--+++", { first: 2, last: 4 }],
    ["a gap: only what no longer fails counts", "-++-+", { first: 4, last: 4 }],
    ["longer ones fail again", "--++-", { first: 2, last: 3 }],
    ["together passes, longer ones fail", "++---", { first: 0, last: 1 }],
    ["of several, the longest delays", "+-++-", { first: 2, last: 3 }],
  ])("%s", (_, passes, stretch) => {
    expect(stretchOf(pattern(passes))).toEqual(stretch);
  });
});

describe("the knee", () => {
  it("is where the voltage comes within 1 % of nominal of the best that any longer delay has", () => {
    const rising = delays.map((d) => Math.min(110, 100 + 10 * d));
    // 1.2 V is 1 % of nominal: 108.8 V is reached at 0.88 s, so first at 0.9 s of the grid.
    expect(kneeOf(mapOf(rising))).toBe(0.9);
  });

  it("waits for the melt fraction too", () => {
    const cooling = delays.map((d) => Math.max(0.2, 0.4 - 0.1 * d));
    expect(kneeOf(mapOf(flat(110), cooling))).toBe(2);
  });

  it("is 0 where a longer delay gains nothing, also when it loses", () => {
    expect(kneeOf(mapOf())).toBe(0);
    expect(kneeOf(mapOf(delays.map((d) => 110 - d)))).toBe(0);
  });

  it("lies behind a late sag", () => {
    const late = delays.map((d) => (d > 3.95 && d < 4.05 ? 90 : 110));
    expect(kneeOf(mapOf(late))).toBe(0);
    expect(kneeOf(mapOf(delays.map((d) => (d < 4.05 ? 90 : 110))))).toBe(4.1);
  });

  it("is none of an empty map", () => {
    expect(kneeOf({ ...mapOf(), delay_s: [] })).toBeNull();
  });
});
