import type { SupplyParameters } from "@startgap/circuit";
import type { Issue } from "../issue.ts";
import { need, type RecordOf, record } from "../shape/record.ts";
import { quantity } from "../shape/scalars.ts";
import { supplyFrom } from "../supply/supply.ts";
import { type Built, isField, kind, placeFields, type Surroundings } from "./kind.ts";
import { formOf } from "./supplyForms.ts";
import { formFields, formWays } from "./supplyKeys.ts";

export const supplyFrequency = quantity("frequency", { from: "45 Hz", to: "65 Hz", example: "60 Hz" });

const fields = {
  is: isField("supply"),
  name: placeFields.name,
  note: placeFields.note,
  voltage: need(
    quantity("voltage", { from: "20 V", to: "600 V", example: "240 V" }),
    "Nominal voltage, rms, and the open-circuit one unless readings tell it.",
  ),
  frequency: need(supplyFrequency, "Frequency."),
  ...formFields,
} as const;

const subtransientUnused =
  "the subtransient reactance is not used, the first two cycles are taken as the transient";

type Spec = RecordOf<typeof fields>;

function build(spec: Spec, around: Surroundings): Built | readonly Issue[] {
  const nominal = { voltage_V: spec.voltage.nominal, frequency_Hz: spec.frequency.nominal };
  const form = formOf(spec, nominal);
  const found = supplyFrom(form.spec, around.name);
  if (!("value" in found)) return found.map((issue) => under(form.under, issue));
  const { voltage_V, frequency_Hz, r_ohm, x_ohm, quality, source } = found.value;
  const plain = { voltage_V, frequency_Hz, r_ohm, x_ohm };
  const parameters: SupplyParameters = {
    is: "supply",
    name: around.name,
    ...(source === undefined ? plain : { ...plain, source }),
  };
  const notes: string[] = [];
  if (quality !== undefined) notes.push(`${around.name}: impedance from readings, ${quality}`);
  if (spec.generator?.subtransientReactance) notes.push(`${around.name}: ${subtransientUnused}`);
  return { parameters, assumptions: found.assumptions, notes };
}

const under = (key: string, issue: Issue): Issue =>
  key === "" || issue.path === "voltage" || issue.path === "frequency"
    ? issue
    : { ...issue, path: `${key}.${issue.path}` };

/** Where the power comes from. */
export const supply = kind<Spec>({
  is: "supply",
  doc: "Where the power comes from: the one part that nothing feeds.",
  shape: record("a supply", fields, { ways: formWays }),
  feeds: true,
  build,
  output_V: (spec) => spec.voltage.nominal,
});
