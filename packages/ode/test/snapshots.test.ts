import { describe, expect, it } from "vitest";
import { run } from "../src/index.ts";
import { ball, chased, jumping, random } from "./plants.ts";

interface Taken {
  readonly t: number;
  readonly y: readonly number[];
  readonly mode: number;
}

function taking(): { taken: Taken[]; onSnapshot: (t: number, y: readonly number[], mode: number) => void } {
  const taken: Taken[] = [];
  return { taken, onSnapshot: (t, y, mode) => void taken.push({ t, y: y.slice(), mode }) };
}

describe("snapshots", () => {
  it("are handed out at the start, at known times (before the jump) and at the end, wherever they fall", () => {
    const next = random(7);
    for (let k = 0; k < 600; k++) {
      const t0 = 0.3 * next();
      const at = t0 + 2 * next();
      const tEnd = at + 2 * next();
      const { taken, onSnapshot } = taking();
      const options = { tolerance: 1e-4, initialStep: 0.01, snapshots: [t0, at, tEnd], onSnapshot };
      run(jumping([at]), { t: t0, y: [0], mode: 0 }, tEnd, options);
      expect(taken.map(({ t, mode }) => [t, mode])).toEqual([
        [t0, 0],
        [at, 0],
        [tEnd, 1],
      ]);
    }
  });

  it("agree with the closed form to ten times the tolerance, and leave the run as it was without them", () => {
    const times = Array.from({ length: 97 }, (_, k) => 0.05 + k * 0.04);
    for (const tolerance of [1e-5, 1e-7, 1e-9]) {
      const { taken, onSnapshot } = taking();
      const with_ = run(jumping([1.5, 2.5]), { t: 0, y: [0], mode: 0 }, 4, {
        tolerance,
        snapshots: times,
        onSnapshot,
      });
      const without = run(jumping([1.5, 2.5]), { t: 0, y: [0], mode: 0 }, 4, { tolerance });
      const first = chased(0, 0, 1.5) + 1;
      const second = chased(1.5, first, 2.5) + 1;
      const exact = (t: number): number => {
        if (t <= 1.5) return chased(0, 0, t);
        return t <= 2.5 ? chased(1.5, first, t) : chased(2.5, second, t);
      };
      expect(taken).toHaveLength(times.length);
      for (const { t, y } of taken) expect(Math.abs(y[0] - exact(t))).toBeLessThan(10 * tolerance);
      expect(Math.abs(with_.end.y[0] - without.end.y[0])).toBeLessThan(10 * tolerance);
      expect(with_.events).toEqual(without.events);
    }
  });

  it("taken between events start a branch that ends as the whole run does", () => {
    const { taken, onSnapshot } = taking();
    const plant = ball(9.81, 0.8);
    const whole = run(plant, { t: 0, y: [1, 0], mode: 0 }, 3, {
      tolerance: 1e-10,
      snapshots: [0.2, 0.9, 1.6],
      onSnapshot,
    });
    expect(taken.map(({ mode }) => mode)).toEqual([0, 1, 2]);
    for (const snapshot of taken) {
      const branch = run(plant, snapshot, 3, { tolerance: 1e-10 });
      expect(branch.end.mode).toBe(whole.end.mode);
      expect(Math.abs(branch.end.y[0] - whole.end.y[0])).toBeLessThan(1e-9);
      const later = whole.events.filter(({ t }) => t > snapshot.t);
      branch.events.forEach(({ t }, i) => {
        expect(Math.abs(t - later[i].t)).toBeLessThan(1e-9);
      });
    }
  });

  it("are read off the closed form of a plant at rest", () => {
    const { taken, onSnapshot } = taking();
    const resting = {
      ...jumping([]),
      rest: (t0: number, y0: readonly number[]) => (t: number, y: number[]) => {
        y[0] = chased(t0, y0[0], t);
      },
    };
    run(resting, { t: 0, y: [0], mode: 0 }, 4, { snapshots: [0.001, 2.2, 4], onSnapshot });
    expect(taken.map(({ t }) => t)).toEqual([0.001, 2.2, 4]);
    for (const { t, y } of taken) expect(Math.abs(y[0] - chased(0, 0, t))).toBeLessThan(1e-12);
  });

  it("before the start are not handed out, and those past the end neither", () => {
    const { taken, onSnapshot } = taking();
    run(jumping([]), { t: 1, y: [0], mode: 0 }, 2, { snapshots: [0.5, 1.5, 2.5], onSnapshot });
    expect(taken.map(({ t }) => t)).toEqual([1.5]);
  });
});
