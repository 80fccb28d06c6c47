import type { LoadParameters } from "@startgap/circuit";
import type { Range } from "../quantity.ts";
import { may, type RecordOf, record } from "../shape/record.ts";
import { oneOf, quantity } from "../shape/scalars.ts";
import { impedance, powerFactor } from "./common.ts";
import { type Built, isField, kind, place, placeFields, type Surroundings } from "./kind.ts";

const fields = {
  is: isField("load"),
  ...placeFields,
  power: may(
    quantity("power", { from: "0 W", to: "100 kW", example: "400 W" }),
    "Active power at nominal voltage.",
  ),
  current: may(
    quantity("current", { from: "0 A", to: "1 kA", example: "4 A" }),
    "Current at nominal voltage, instead of the power.",
  ),
  impedance: may(impedance, "Impedance, instead of the power."),
  powerFactor: may(powerFactor, "Power factor, lagging; 1 when silent."),
  holds: may(
    oneOf("what stays constant when the voltage moves", ["impedance", "current", "power"]),
    "What stays constant when the voltage moves: impedance (heaters, lamps) when silent.",
  ),
} as const;

type Spec = RecordOf<typeof fields>;

interface Power {
  readonly power_W: number;
  readonly reactive_var: number;
}

/** P + jQ at V: from S = P/pf or S = V I, P = S pf, Q = sqrt(S^2 - P^2); from an impedance, V^2/Z*. */
function powerOf(spec: Spec, V: number): Power {
  if (spec.impedance !== null) return ofImpedance(spec.impedance, V);
  const pf = spec.powerFactor?.nominal ?? 1;
  const S = spec.power === null ? V * (spec.current?.nominal ?? 0) : spec.power.nominal / pf;
  return { power_W: S * pf, reactive_var: S * Math.sqrt(Math.max(0, 1 - pf * pf)) };
}

function ofImpedance(z: { readonly r: Range; readonly x: Range }, V: number): Power {
  const [r, x] = [z.r.nominal, z.x.nominal];
  const square = r * r + x * x;
  return { power_W: (V * V * r) / square, reactive_var: (V * V * x) / square };
}

function build(
  spec: Spec,
  around: Surroundings,
): Built | { path: string; expected: string; received: string }[] {
  const z = spec.impedance;
  if (z !== null && z.r.low === 0 && z.x.low === 0) {
    return [
      { path: "impedance", expected: "more than 0 ohm: a load is no short circuit", received: "0 ohm" },
    ];
  }
  const parameters: LoadParameters = {
    is: "load",
    ...place(around),
    nominal_V: around.input_V,
    ...powerOf(spec, around.input_V),
    holds: spec.holds ?? "impedance",
  };
  return { parameters, assumptions: [], notes: [] };
}

/** A steady load: receptacles, lamps, a heater. */
export const load = kind<Spec>({
  is: "load",
  doc: "A steady load: receptacles, lamps, a heater.",
  shape: record("a load", fields, {
    ways: [
      { needs: ["power"], takes: ["powerFactor"] },
      { needs: ["current"], takes: ["powerFactor"] },
      { needs: ["impedance"] },
    ],
  }),
  feeds: false,
  build,
});
