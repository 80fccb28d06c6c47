import type { Excitation, Impedance } from "@startgap/circuit";
import type { Issue } from "../issue.ts";
import type { Range } from "../quantity.ts";
import { may, need, pair, type RecordOf, textOrRecord } from "../shape/composites.ts";
import { quantity } from "../shape/scalars.ts";
import { impedance, xOverR } from "./common.ts";

const winding = quantity("voltage", {
  a: "the voltage of a winding",
  from: "5 V",
  to: "600 V",
  example: "120 V",
});

/** The keys that both kinds of transformer have. */
export const windingFields = {
  rating: need(
    quantity("apparentPower", { a: "a rating", from: "5 VA", to: "200 kVA", example: "3 kVA" }),
    "Rating as a transformer of two windings.",
  ),
  windings: need(
    pair("the voltages of two windings", winding, winding),
    "Rated voltages of the two windings.",
  ),
  impedance: may(
    textOrRecord(quantity("ratio", { from: "0.1 %", to: "30 %", example: "4.5 %" }), impedance),
    "Leakage impedance: in percent of the rating, or in ohms referred to the first winding.",
  ),
  xOverR: may(xOverR, "Leakage reactance over resistance, beside an impedance in percent."),
  idleLoss: may(
    quantity("power", { from: "0 W", to: "2 kW", example: "40 W" }),
    "Loss with nothing connected, at rated voltage.",
  ),
  excitingCurrent: may(
    quantity("ratio", { from: "0 %", to: "50 %", example: "3 %" }),
    "Current with nothing connected, in percent of the rated current.",
  ),
} as const;

export type Windings = RecordOf<typeof windingFields>;

/** Z = (u/100) V1^2/S, split so that X/R is as stated: R = Z/sqrt(1 + q^2), X = q R. */
export function leakage(percent: Range, q: number, rating_VA: number, first_V: number): Impedance {
  const z = (percent.nominal * first_V * first_V) / rating_VA;
  const r = z / Math.sqrt(1 + q * q);
  return { r_ohm: r, x_ohm: q * r };
}

/** What the keys say that cannot be together. Paths are relative to the part. */
export function windingIssues(spec: Windings): Issue[] {
  const outright = spec.impedance !== null && "r" in spec.impedance;
  if (outright && spec.xOverR !== null) {
    return [
      {
        path: "xOverR",
        expected: `"xOverR" only beside an impedance in percent`,
        received: "r and x outright",
      },
    ];
  }
  return [];
}

/** Admittance across the whole input at rated voltage V: G = P/V^2, B = sqrt((i S/V^2)^2 - G^2), never below 0. */
export function excitation(spec: Windings, input_V: number): Excitation {
  const G = (spec.idleLoss?.nominal ?? 0) / (input_V * input_V);
  const Y = ((spec.excitingCurrent?.nominal ?? 0) * spec.rating.nominal) / (input_V * input_V);
  return { conductance_S: G, susceptance_S: Math.sqrt(Math.max(0, Y * Y - G * G)) };
}
