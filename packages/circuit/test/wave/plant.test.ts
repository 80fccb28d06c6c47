import { run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import { wavePlantOf } from "../../src/index.ts";
import { autotransformer, cable, circuit, motor, shunt, supply } from "../build.ts";

const ours = () =>
  circuit(
    supply(240, 0.2, 0.1),
    cable("lead", "supply", 0.1, 0.02),
    autotransformer("midpoint", "lead", [120, 120], 0.2, 0.1),
    motor("pump", "midpoint"),
    { ...shunt("lamp", "midpoint", 100), nominal_V: 120, leg: "second" },
  );
const pace = { method: "runge-kutta", tolerance: 1e-6, maxStep: 1 / 240 } as const;

describe("a plant of waves gives the same answer", () => {
  const plant = wavePlantOf(ours());
  const { end } = run(plant, plant.start(), 0.6, pace);
  const asked = (y: readonly number[] = end.y): number[] => [...plant.solve(end.t, y, end.mode).v];
  const first = asked();
  const values = new Float64Array(plant.guards(end.mode).length);

  it("after its guards were looked at in the same state, and in another (invariant)", () => {
    plant.guardValues(end.t, end.y, end.mode, values);
    expect(asked()).toEqual(first);
    const other = end.y.map((value) => 1.1 * value);
    plant.guardValues(end.t, other, end.mode, values);
    expect(asked(other)).not.toEqual(first);
    expect(asked()).toEqual(first);
  });

  it("for a state that was changed in its place", () => {
    const y = end.y.slice();
    expect(asked(y)).toEqual(first);
    y[0] += 0.01;
    const changed = asked(y);
    expect(changed).not.toEqual(first);
    expect(changed).toEqual([...wavePlantOf(ours()).solve(end.t, y, end.mode).v]);
  });

  it("at another moment of the same state", () => {
    const [later] = [...plant.solve(end.t + 0.004, end.y, end.mode).v];
    expect(later).not.toBe(first[0]);
    expect(asked()).toEqual(first);
  });

  it("after another story was begun, with its start switch closed", () => {
    const rates = (): number[] => {
      const rate = end.y.map(() => 0);
      plant.derivative(end.t, end.y, end.mode, rate);
      return rate;
    };
    const before = rates();
    plant.start();
    expect(rates()).toEqual(before);
    plant.start({ fromRest: true, residual: 0.5 });
    expect(rates()).toEqual(before);
  });
});
