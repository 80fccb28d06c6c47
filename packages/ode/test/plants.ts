import type { Guard, Plant } from "../src/index.ts";

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
