import { expect, it } from "vitest";
import { airAt_C, bodyAt_C } from "../src/heat/day.ts";

const HOUR_s = 3600;

it("air is coldest at 3 h, warmest at 15 h, and comes round again (closed form)", () => {
  const day = { night_C: -10, day_C: 30 };
  expect(airAt_C(day, 3)).toBeCloseTo(-10, 9);
  expect(airAt_C(day, 15)).toBeCloseTo(30, 9);
  expect(airAt_C(day, 9)).toBeCloseTo(10, 9);
  expect(airAt_C(day, 0)).toBeCloseTo(airAt_C(day, 24), 9);
});

for (const tau_s of [600, HOUR_s, 8 * HOUR_s]) {
  it(`a body of ${tau_s} s in that air, against ten days step by step (independent integration, 0.01 K)`, () => {
    const day = { night_C: 12, day_C: 34 };
    const rise_K = 55;
    const dt = 10;
    const want = new Map<number, number>();
    let body = 20;
    for (let t = 0; t <= 240 * HOUR_s; t += dt) {
      if (t >= 216 * HOUR_s && t % HOUR_s === 0) want.set(t / HOUR_s - 216, body);
      const middle = airAt_C(day, (t + dt / 2) / HOUR_s) + rise_K;
      body = middle + (body - middle) * Math.exp(-dt / tau_s);
    }
    for (const [hour, temperature] of want)
      expect(Math.abs(bodyAt_C(day, rise_K, tau_s, hour) - temperature)).toBeLessThan(0.01);
  });
}
