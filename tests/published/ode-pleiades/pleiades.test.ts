import { describe, expect, it } from "vitest";
import { endOf, error, METHODS, type Rate } from "../ode-support/endOf.ts";
import data from "./data.json" with { type: "json" };

const bodies = data.masses.length;

/** States: x, y, vx, vy of all bodies; unit constant of gravity, mass i of body i. */
const attraction: Rate = (_, y, rate) => {
  for (let i = 0; i < bodies; i++) {
    let ax = 0;
    let ay = 0;
    for (let j = 0; j < bodies; j++) {
      if (j === i) continue;
      const dx = y[j] - y[i];
      const dy = y[bodies + j] - y[bodies + i];
      const pull = data.masses[j] / Math.hypot(dx, dy) ** 3;
      ax += pull * dx;
      ay += pull * dy;
    }
    rate[i] = y[2 * bodies + i];
    rate[bodies + i] = y[3 * bodies + i];
    rate[2 * bodies + i] = ax;
    rate[3 * bodies + i] = ay;
  }
};

const flat = ({ x, y, vx, vy }: typeof data.start): number[] => [...x, ...y, ...vx, ...vy];

describe.each(METHODS)(
  "Pleiades (published: Hairer, Norsett, Wanner II.10; Bari test set), by %s",
  (method) => {
    it("end where they are printed to, within 1e-6 at tolerance 1e-10", () => {
      const { end, count } = endOf(attraction, flat(data.start), data.tEnd, 1e-10, method);
      expect(error(end.y, flat(data.end))).toBeLessThan(1e-6);
      expect(count.evaluations).toBeLessThan(6000);
    });

    it("come nearer with a tighter tolerance", () => {
      const errors = [1e-6, 1e-8, 1e-10, 1e-12].map((tolerance) =>
        error(endOf(attraction, flat(data.start), data.tEnd, tolerance, method).end.y, flat(data.end)),
      );
      expect(errors[3]).toBeLessThan(errors[0] / 1000);
      expect(errors[3]).toBeLessThan(1e-8);
    });
  },
);
