import { describe, expect, it } from "vitest";
import { endOf, error, METHODS, type Rate } from "../ode-support/endOf.ts";
import data from "./data.json" with { type: "json" };

const single: Record<keyof typeof data.A, (t: number, y: number) => number> = {
  A1: (_, y) => -y,
  A2: (_, y) => -(y ** 3) / 2,
  A3: (t, y) => y * Math.cos(t),
  A4: (_, y) => (y / 4) * (1 - y / 20),
  A5: (t, y) => (y - t) / (y + t),
};

/** Euler's equations of a free rigid body. */
const rigidBody: Rate = (_, y, rate) => {
  rate[0] = y[1] * y[2];
  rate[1] = -y[0] * y[2];
  rate[2] = -0.51 * y[0] * y[1];
};

/** One body about a fixed centre: x, y, vx, vy. */
const orbit: Rate = (_, y, rate) => {
  const pull = 1 / Math.hypot(y[0], y[1]) ** 3;
  rate[0] = y[2];
  rate[1] = y[3];
  rate[2] = -y[0] * pull;
  rate[3] = -y[1] * pull;
};

const vanDerPol: Rate = (_, y, rate) => {
  rate[0] = y[1];
  rate[1] = (1 - y[0] * y[0]) * y[1] - y[0];
};

describe.each(METHODS)("one equation (published: Hull et al., A1 to A5), by %s", (method) => {
  it.each(Object.keys(single) as (keyof typeof single)[])("%s within 1e-8 at tolerance 1e-10", (name) => {
    const { start, end } = data.A[name];
    const rate: Rate = (t, y, out) => {
      out[0] = single[name](t, y[0]);
    };
    const got = endOf(rate, [start], data.tEnd, 1e-10, method);
    expect(error(got.end.y, [end])).toBeLessThan(1e-8);
    expect(got.count.evaluations).toBeLessThan(1500);
  });
});

describe.each(METHODS)("a free rigid body (published: Hull et al., B5), by %s", (method) => {
  it("within 1e-8 at tolerance 1e-11, its two constants kept", () => {
    const { y } = endOf(rigidBody, data.B5.start, data.tEnd, 1e-11, method).end;
    expect(error(y, data.B5.end)).toBeLessThan(1e-8);
    expect(y[0] ** 2 + y[1] ** 2).toBeCloseTo(1, 9);
    expect(0.51 * y[0] ** 2 + y[2] ** 2).toBeCloseTo(1, 9);
  });
});

describe.each(METHODS)("an orbit (published: Hull et al., D1 to D5; Kepler's equation), by %s", (method) => {
  it.each(data.D)(
    "of eccentricity $eccentricity within 1e-7 at tolerance 1e-12",
    ({ eccentricity: e, end }) => {
      const start = [1 - e, 0, 0, Math.sqrt((1 + e) / (1 - e))];
      const { y } = endOf(orbit, start, data.tEnd, 1e-12, method).end;
      expect(error(y, end)).toBeLessThan(1e-7);
      const energy = (y[2] ** 2 + y[3] ** 2) / 2 - 1 / Math.hypot(y[0], y[1]);
      expect(energy).toBeCloseTo(-0.5, 8);
    },
  );
});

describe.each(METHODS)("van der Pol's oscillator (published: Hull et al., E2), by %s", (method) => {
  it("within 1e-7 at tolerance 1e-10", () => {
    expect(error(endOf(vanDerPol, data.E2.start, data.tEnd, 1e-10, method).end.y, data.E2.end)).toBeLessThan(
      1e-7,
    );
  });
});
