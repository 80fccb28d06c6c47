import type { Guard, Plant, RunOptions } from "../src/index.ts";

export type Method = NonNullable<RunOptions<null>["method"]>;
export const METHODS: readonly Method[] = ["extrapolation", "runge-kutta"];

/** A plant without events. */
export function smooth(
  names: readonly string[],
  rate: (t: number, y: readonly number[], dydt: number[]) => void,
): Plant<null> {
  return {
    stateNames: names,
    derivative: (t, y, _, dydt) => rate(t, y, dydt),
    guards: () => [],
    guardValues: () => {},
    scheduled: () => [],
    reduce: (_, y) => ({ y, mode: null }),
  };
}

const floor: readonly Guard[] = [{ name: "bounce", direction: "falling", level: false }];

/** A ball dropped on a hard floor: height, speed; the mode counts the bounces. */
export function ball(gravity: number, restitution: number): Plant<number> {
  return {
    stateNames: ["height", "speed"],
    derivative(_, y, __, rate) {
      rate[0] = y[1];
      rate[1] = -gravity;
    },
    guards: () => floor,
    guardValues(_, y, __, values) {
      values[0] = y[0];
    },
    scheduled: () => [],
    reduce: (_, y, bounces) => ({ y: [0, -restitution * y[1]], mode: bounces + 1 }),
  };
}

/** One state that chases cos t and jumps by 1 at each of the known times; the mode counts the jumps. */
export function jumping(times: readonly number[]): Plant<number> {
  return {
    stateNames: ["place"],
    derivative(t, y, _, rate) {
      rate[0] = Math.cos(t) - y[0];
    },
    guards: () => [],
    guardValues: () => {},
    scheduled: (n) => times.map((t, i) => ({ name: `jump ${i + 1}`, t })).slice(n),
    reduce: (_, y, n) => ({ y: [y[0] + 1], mode: n + 1 }),
  };
}

/** Where `jumping` stands after `dt` without a jump: closed form. */
export function chased(t0: number, y0: number, t: number): number {
  const forced = (at: number): number => (Math.cos(at) + Math.sin(at)) / 2;
  return forced(t) + (y0 - forced(t0)) * Math.exp(t0 - t);
}

/** Seeded numbers from 0 to 1 (Lehmer, modulus 2^31 - 1). */
export function random(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
}

/** Two states that turn together at `pace`, and thresholds watched on the first; each counts its passages. */
export function turning(
  pace: number,
  marks: readonly { at: number; direction: Guard["direction"] }[],
): Plant<number> {
  const guards = marks.map(({ direction }, i) => ({ name: `mark ${i + 1}`, direction, level: false }));
  return {
    stateNames: ["x", "y"],
    derivative(_, y, __, rate) {
      rate[0] = pace * y[1];
      rate[1] = -pace * y[0];
    },
    guards: () => guards,
    guardValues(_, y, __, values) {
      marks.forEach(({ at }, i) => {
        values[i] = y[0] - at;
      });
    },
    scheduled: () => [],
    reduce: (_, y, n) => ({ y, mode: n + 1 }),
  };
}
