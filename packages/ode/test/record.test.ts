import { describe, expect, it } from "vitest";
import { columns, type Plant, run } from "../src/index.ts";
import { ball, jumping, random } from "./plants.ts";

interface Seen {
  readonly t: number;
  readonly y: readonly number[];
  readonly mode: unknown;
}

function recorder<M>(interior: boolean) {
  const seen: Seen[] = [];
  const sample = (t: number, y: readonly number[], mode: M): void =>
    void seen.push({ t, y: y.slice(), mode });
  return { interior, seen, sample };
}

const ascending = (seen: readonly Seen[]): boolean => seen.every(({ t }, i) => i === 0 || t >= seen[i - 1].t);

describe.each([true, false])("recorder, interior %s (invariant)", (interior) => {
  it("sees both sides of a located event", () => {
    const record = recorder<number>(interior);
    const { events } = run(ball(9.81, 0.5), { t: 0, y: [1, 0], mode: 0 }, 1, { recorder: record });
    const impact = record.seen.filter(({ t }) => t === events[0].t);
    const speed = Math.sqrt(2 * 9.81);
    expect(impact.map(({ mode }) => mode)).toEqual([0, 1]);
    expect(impact[0].y[1]).toBeCloseTo(-speed, 6);
    expect(impact[1].y[1]).toBeCloseTo(speed / 2, 6);
    expect(ascending(record.seen)).toBe(true);
  });

  it("sees both sides of a known time, and time never decreases, wherever the known time falls", () => {
    const next = random(1);
    for (let k = 0; k < 600; k++) {
      const t0 = 0.3 * next();
      const at = t0 + 2 * next();
      const record = recorder<number>(interior);
      const tEnd = at + 2 * next();
      run(jumping([at]), { t: t0, y: [0], mode: 0 }, tEnd, {
        tolerance: 1e-4,
        initialStep: 0.01,
        recorder: record,
      });
      expect(ascending(record.seen)).toBe(true);
      expect(record.seen.filter(({ t }) => t === at).map(({ mode }) => mode)).toEqual([0, 1]);
      expect(record.seen.at(-1)?.t).toBe(tEnd);
    }
  });

  it("follows a plant that has come to rest, in order, to the end and past its events", () => {
    const settling: Plant<boolean> = {
      stateNames: ["heat"],
      derivative: (_, y, __, rate) => {
        rate[0] = -y[0];
      },
      guards: (over) => (over ? [] : [{ name: "half", direction: "falling", level: true }]),
      guardValues: (_, y, __, values) => {
        values[0] = y[0] - 0.5;
      },
      scheduled: () => [],
      reduce: (_, y) => ({ y, mode: true }),
      rest: (t0, y0) => (t, y) => {
        y[0] = y0[0] * Math.exp(t0 - t);
      },
    };
    const record = recorder<boolean>(interior);
    run(settling, { t: 0, y: [1], mode: false }, 3, { recorder: record });
    expect(ascending(record.seen)).toBe(true);
    expect(record.seen.at(-1)?.t).toBe(3);
    for (const { t, y } of record.seen) expect(Math.abs(y[0] - Math.exp(-t))).toBeLessThan(1e-12);
    const half = record.seen.filter(({ t }) => Math.abs(t - Math.LN2) < 1e-9);
    expect(half.map(({ mode }) => mode)).toEqual([false, true]);
  });
});

describe("columns", () => {
  it("keep every row while they grow", () => {
    const table = columns(2);
    for (let k = 0; k < 1000; k++) table.push(k / 10, [k, -k]);
    expect(table.length).toBe(1000);
    expect([...table.time()]).toEqual(Array.from({ length: 1000 }, (_, k) => k / 10));
    expect([...table.column(0)]).toEqual(Array.from({ length: 1000 }, (_, k) => k));
    expect([...table.column(1)].at(-1)).toBe(-999);
  });
});
