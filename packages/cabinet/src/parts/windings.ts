import { TRANSFORMER_INSULATIONS_C, type TransformerFacts, type TransformerInsulation_C } from "../facts.ts";
import type { Issue } from "../issue.ts";
import { tagged, textOrRecord } from "../shape/choices.ts";
import { pair } from "../shape/lists.ts";
import { may, need, type RecordOf, record } from "../shape/record.ts";
import { oneOf, quantity } from "../shape/scalars.ts";
import type { Value } from "../shape/shape.ts";
import {
  inputVoltage_V,
  type TestReading,
  type TransformerFound,
  type TransformerSpec,
} from "../transformer/spec.ts";
import { transformerFrom } from "../transformer/transformer.ts";
import { impedance, ohms, silent, xOverR } from "./common.ts";
import { type Built, place, type Surroundings } from "./kind.ts";

const winding = quantity("voltage", {
  a: "the voltage of a winding",
  from: "5 V",
  to: "600 V",
  example: "120 V",
});

export const windingPair = pair("the voltages of two windings", winding, winding);

const test = record(
  "a test with a wattmeter",
  {
    voltage: need(quantity("voltage", { from: "10 mV", to: "600 V", example: "5.4 V" }), "Voltage applied."),
    current: need(quantity("current", { from: "1 mA", to: "1 kA", example: "25 A" }), "Current drawn."),
    power: need(quantity("power", { from: "0.01 W", to: "10 kW", example: "120 W" }), "Power drawn."),
    side: need(oneOf("the winding that was fed", ["first", "second"]), "Which winding was fed."),
  },
  { example: `{ "voltage": "5.4 V", "current": "25 A", "power": "120 W", "side": "first" }` },
);

/** The keys that both kinds of transformer have. */
export const windingFields = {
  rating: may(
    quantity("apparentPower", { a: "a rating", from: "1 VA", to: "200 kVA", example: "3 kVA" }),
    "Rating as a transformer of two windings; may be silent only beside an impedance in ohms.",
  ),
  windings: need(windingPair, "Rated voltages of the two windings."),
  impedance: may(
    textOrRecord(quantity("ratio", { from: "0.1 %", to: "50 %", example: "4.5 %" }), impedance),
    "Leakage impedance: in percent of the rating, or in ohms referred to the first winding. Usual for the rating when silent.",
  ),
  xOverR: may(xOverR, "Leakage reactance over resistance, beside an impedance in percent."),
  shortCircuit: may(test, "Short-circuit test instead of the impedance."),
  openCircuit: may(test, "Open-circuit test instead of idle loss and exciting current."),
  idleLoss: may(
    quantity("power", { from: "0 W", to: "5 kW", example: "40 W" }),
    "Loss with nothing connected, at rated voltage.",
  ),
  excitingCurrent: may(
    tagged({
      percent: quantity("ratio", { a: "an exciting current", from: "0 %", to: "100 %", example: "5 %" }),
      amperes: quantity("current", { a: "an exciting current", from: "0 A", to: "100 A", example: "1.2 A" }),
    }),
    "Current with nothing connected, at rated voltage: in percent of the rated current, or into the input.",
  ),
  insulation: may(
    oneOf(
      "an insulation system",
      TRANSFORMER_INSULATIONS_C.map((t) => `${t} degC` as const),
    ),
    "Insulation system by its temperature: when silent 180 degC, below 1 kVA 105 degC. Judged, not simulated.",
  ),
} as const;

export type WindingKeys = RecordOf<typeof windingFields>;

/** What its heat is judged by. */
const windingFacts = (is: TransformerFacts["is"], keys: WindingKeys): TransformerFacts => ({
  is,
  insulation_C:
    keys.insulation === null ? null : (Number.parseInt(keys.insulation, 10) as TransformerInsulation_C),
});

const testOf = (read: Value<typeof test> | null): TestReading | undefined =>
  read === null
    ? undefined
    : {
        voltage_V: read.voltage.nominal,
        current_A: read.current.nominal,
        power_W: read.power.nominal,
        side: read.side,
      };

function specOf(is: TransformerSpec["is"], keys: WindingKeys): TransformerSpec {
  const z = keys.impedance;
  const outright = z !== null && "r" in z;
  return {
    is,
    windings_V: [keys.windings[0].nominal, keys.windings[1].nominal],
    rating_VA: silent(keys.rating),
    impedance: outright ? ohms(z) : undefined,
    impedance_percent: outright ? undefined : silent(z, 100),
    xOverR: silent(keys.xOverR),
    shortCircuit: testOf(keys.shortCircuit),
    openCircuit: testOf(keys.openCircuit),
    idleLoss_W: silent(keys.idleLoss),
    excitingCurrent_percent: silent(keys.excitingCurrent?.percent, 100),
    excitingCurrent_A: silent(keys.excitingCurrent?.amperes),
  };
}

/** Common practice: a core is drawn to bear a tenth more than its rated voltage. */
const MOST_OVER_RATED = 1.1;

/** Says when the input stands far above what the windings are rated for. */
function coreNotes(found: TransformerFound, around: Surroundings): string[] {
  const rated_V = inputVoltage_V(found);
  if (around.input_V <= MOST_OVER_RATED * rated_V) return [];
  const fed = `${Number(around.input_V.toPrecision(4))} V across windings rated ${rated_V} V`;
  return [`${around.name}: ${fed}: its core will saturate`];
}

/** A transformer or an autotransformer from its keys, or what is wrong with them. Paths are relative to the part. */
export function builtFrom(
  is: TransformerSpec["is"],
  keys: WindingKeys,
  around: Surroundings,
): Built | readonly Issue[] {
  const found = transformerFrom(specOf(is, keys), around.name);
  if (!("value" in found)) return found;
  const { windings_V, rating_VA, r_ohm, x_ohm, excitation } = found.value;
  return {
    parameters: {
      is,
      ...place(around),
      r_ohm,
      x_ohm,
      windings_V,
      rating_VA: rating_VA ?? Number.POSITIVE_INFINITY,
      excitation,
    },
    assumptions: found.assumptions,
    notes: coreNotes(found.value, around),
    facts: windingFacts(is, keys),
  };
}
