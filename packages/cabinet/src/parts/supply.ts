import type { Impedance, SupplyParameters } from "@startgap/circuit";
import { ofMagnitude } from "../cable/impedance.ts";
import type { Issue } from "../issue.ts";
import { may, need, type RecordOf, record } from "../shape/composites.ts";
import { quantity } from "../shape/scalars.ts";
import { impedance, ohms, xOverR } from "./common.ts";
import { type Built, isField, kind, placeFields, type Surroundings } from "./kind.ts";

const fields = {
  is: isField("supply"),
  name: placeFields.name,
  note: placeFields.note,
  voltage: need(
    quantity("voltage", { from: "20 V", to: "600 V", example: "240 V" }),
    "Open-circuit voltage, rms.",
  ),
  frequency: need(quantity("frequency", { from: "45 Hz", to: "65 Hz", example: "60 Hz" }), "Frequency."),
  faultCurrent: may(
    quantity("current", { a: "a fault current", from: "10 A", to: "200 kA", example: "1.8 kA" }),
    "Current into a short circuit at the supply's terminals.",
  ),
  xOverR: may(xOverR, "Reactance over resistance, beside the fault current."),
  impedance: may(impedance, "Impedance of the whole loop, out and back, behind a stiff source."),
} as const;

type Spec = RecordOf<typeof fields>;

/** |Z| = V/I, split by X/R. */
function stiffness(spec: Spec): Impedance {
  if (spec.impedance !== null) return ohms(spec.impedance);
  return ofMagnitude(spec.voltage.nominal / spec.faultCurrent!.nominal, spec.xOverR!.nominal);
}

function build(spec: Spec, around: Surroundings): Built | readonly Issue[] {
  const parameters: SupplyParameters = {
    is: "supply",
    name: around.name,
    voltage_V: spec.voltage.nominal,
    frequency_Hz: spec.frequency.nominal,
    ...stiffness(spec),
  };
  return { parameters, assumptions: [], notes: [] };
}

/** Where the power comes from. */
export const supply = kind<Spec>({
  is: "supply",
  doc: "Where the power comes from: the one part that nothing feeds.",
  shape: record("a supply", fields, {
    ways: [{ needs: ["faultCurrent", "xOverR"] }, { needs: ["impedance"] }],
  }),
  feeds: true,
  build,
  output_V: (spec) => spec.voltage.nominal,
});
