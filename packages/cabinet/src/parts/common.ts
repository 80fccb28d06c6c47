import type { Impedance } from "@startgap/circuit";
import type { Assumption } from "../grade.ts";
import type { Range } from "../quantity.ts";
import { need, record } from "../shape/record.ts";
import { number, quantity } from "../shape/scalars.ts";

export const resistance = quantity("resistance", { from: "0 ohm", to: "10 kohm", example: "0.12 ohm" });
export const reactance = quantity("resistance", {
  a: "a reactance",
  from: "0 ohm",
  to: "10 kohm",
  example: "0.10 ohm",
});

/** Resistance and reactance stated outright. */
export const impedance = record(
  "an impedance",
  { r: need(resistance, "Resistance."), x: need(reactance, "Reactance at the supply's frequency.") },
  { example: `{ "r": "0.12 ohm", "x": "0.10 ohm" }` },
);

/** A source or transformer can be almost all resistance, or almost all reactance. */
export const xOverR = number({ a: "a ratio of reactance to resistance", from: 0, to: 50, example: 0.9 });

export const powerFactor = number({ a: "a power factor", from: 0.05, to: 1, example: 0.9 });

export const ohms = (z: { readonly r: Range; readonly x: Range }): Impedance => ({
  r_ohm: z.r.nominal,
  x_ohm: z.x.nominal,
});

export const none: Impedance = { r_ohm: 0, x_ohm: 0 };

/** A default that stands in for what the file does not say. */
export const assumed = (
  part: string,
  what: string,
  value: string,
  range: string | null,
  basis: string,
): Assumption => ({ part, what, value, range, grade: "assumed", basis });

/** The nominal value, times a factor; undefined where the file is silent. */
export const silent = (range: Range | null | undefined, factor = 1): number | undefined =>
  range === null || range === undefined ? undefined : range.nominal * factor;
