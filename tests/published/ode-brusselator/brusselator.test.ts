import { describe, expect, it } from "vitest";
import { endOf, error, METHODS, type Rate } from "../ode-support/endOf.ts";
import data from "./data.json" with { type: "json" };

const reaction: Rate = (_, y, rate) => {
  const made = y[0] * y[0] * y[1];
  rate[0] = 1 + made - 4 * y[0];
  rate[1] = 3 * y[0] - made;
};

describe.each(METHODS)("Brusselator (published: Hairer, Norsett, Wanner II.4), by %s", (method) => {
  it("ends where it is printed to, within 1e-7 at tolerance 1e-10", () => {
    const { end, count } = endOf(reaction, data.start, data.tEnd, 1e-10, method);
    expect(error(end.y, data.end)).toBeLessThan(1e-7);
    expect(count.evaluations).toBeLessThan(4000);
  });

  it("within a hundred tolerances at the tolerance of a study", () => {
    expect(error(endOf(reaction, data.start, data.tEnd, 1e-6, method).end.y, data.end)).toBeLessThan(1e-4);
  });
});
