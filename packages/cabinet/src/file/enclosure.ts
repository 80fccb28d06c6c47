import { may, need, record } from "../shape/record.ts";
import { oneOf, quantity } from "../shape/scalars.ts";
import type { Value } from "../shape/shape.ts";

export const ENCLOSURE_MATERIALS = ["painted steel", "stainless steel", "plastic", "aluminium"] as const;
export type EnclosureMaterial = (typeof ENCLOSURE_MATERIALS)[number];
export const MOUNTINGS = ["on a wall", "free", "under a cover"] as const;
export type Mounting = (typeof MOUNTINGS)[number];
export const SUNS = ["shade", "sun on light paint", "sun on dark paint"] as const;
export type Sun = (typeof SUNS)[number];

/** Coldest and warmest outside air of a day. */
export interface Day {
  readonly night_C: number;
  readonly day_C: number;
}

/** The box around everything but the cables, the motors and what is plugged in. */
export interface Enclosure {
  readonly width_m: number;
  readonly height_m: number;
  readonly depth_m: number;
  readonly material: EnclosureMaterial;
  readonly mounting: Mounting;
  /** Free area of the low vents, which the high vents equal; 0 for a closed box. */
  readonly ventArea_m2: number;
  /** From the middle of the low vents to that of the high ones. */
  readonly ventRise_m: number;
  readonly sun: Sun;
  readonly summer: Day;
  readonly winter: Day;
}

const side = quantity("length", { from: "5 cm", to: "5 m", example: "40 cm" });
const air = quantity("temperature", { from: "-50 degC", to: "60 degC", example: "35 degC" });

const day = record(
  "the air of a day",
  { night: need(air, "Coldest of the night."), day: need(air, "Warmest of the day.") },
  { example: `{ "night": "22 degC", "day": "35 degC" }` },
);

/** The key that describes the box: what it is silent about is told by `enclosureOf`. */
export const enclosureShape = record("an enclosure", {
  width: need(side, "Width outside."),
  height: need(side, "Height outside."),
  depth: need(side, "Depth outside."),
  material: may(
    oneOf("what the box is made of", ENCLOSURE_MATERIALS),
    "Material: painted steel when silent.",
  ),
  mounting: may(oneOf("how the box stands", MOUNTINGS), "How it stands: on a wall when silent."),
  ventArea: may(
    quantity("area", { a: "an area of openings", from: "0 cm2", to: "1 m2", example: "40 cm2" }),
    "Free area of the low vents, with as much in the high ones: closed when silent.",
  ),
  ventRise: may(
    quantity("length", { from: "1 cm", to: "5 m", example: "30 cm" }),
    "Height of the high vents above the low ones: 80 % of the box when silent.",
  ),
  sun: may(oneOf("what sun falls on the box", SUNS), "Sun on it: shade when silent."),
  summer: may(day, "Air outside on the warmest day: 25 to 40 degC when silent."),
  winter: may(day, "Air outside on the coldest day: -15 to 0 degC when silent."),
});

/** Days taken when the file does not tell them: common practice, no source. */
const USUAL = { summer: { night_C: 25, day_C: 40 }, winter: { night_C: -15, day_C: 0 } } as const;
const USUAL_VENT_RISE = 0.8;

type Keys = Value<typeof enclosureShape>;

const dayOf = (keys: Keys["summer"], usual: Day): Day =>
  keys === null ? usual : { night_C: keys.night.nominal, day_C: keys.day.nominal };

/** The box in SI, with the usual where the file is silent. */
export function enclosureOf(keys: Keys): Enclosure {
  const height_m = keys.height.nominal;
  return {
    width_m: keys.width.nominal,
    height_m,
    depth_m: keys.depth.nominal,
    material: keys.material ?? "painted steel",
    mounting: keys.mounting ?? "on a wall",
    ventArea_m2: keys.ventArea?.nominal ?? 0,
    ventRise_m: Math.min(height_m, keys.ventRise?.nominal ?? USUAL_VENT_RISE * height_m),
    sun: keys.sun ?? "shade",
    summer: dayOf(keys.summer, USUAL.summer),
    winter: dayOf(keys.winter, USUAL.winter),
  };
}
