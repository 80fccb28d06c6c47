import type { Enclosure, EnclosureMaterial, Mounting, Sun } from "@startgap/cabinet";

/**
 * Heat that a square metre of wall sheds for each degree, inside air to outside air, W/(m2 K): painted sheet steel 5.5,
 * stainless 3.7, plastic 3.5 as in the practice of IEC TR 60890 and DIN 57660-500. For aluminium sources say 6.5 and 12;
 * the lower is taken.
 */
const WALL_Wpm2K: Readonly<Record<EnclosureMaterial, number>> = {
  "painted steel": 5.5,
  "stainless steel": 3.7,
  plastic: 3.5,
  aluminium: 6.5,
};

/** What each face counts: IEC TR 60890 table III (from memory). The floor counts nothing. */
const FACES: Readonly<Record<Mounting, { readonly top: number; readonly rear: number }>> = {
  "on a wall": { top: 1.4, rear: 0.5 },
  free: { top: 1.4, rear: 0.9 },
  "under a cover": { top: 0.7, rear: 0.5 },
};
const EXPOSED = 0.9;

/** Effective cooling surface of an enclosure, m2. Source: IEC TR 60890. Checked by tests/published/heat-enclosure. */
export function coolingArea_m2(
  box: Pick<Enclosure, "width_m" | "height_m" | "depth_m" | "mounting">,
): number {
  const { width_m: w, height_m: h, depth_m: d } = box;
  const { top, rear } = FACES[box.mounting];
  return top * w * d + (EXPOSED + rear) * w * h + 2 * EXPOSED * d * h;
}

/** Air at 40 degC and sea level: density times specific heat, J/(m3 K). 1.127 kg/m3, 1007 J/(kg K). */
const AIR_Jpm3K = 1.127 * 1007;
const GRAVITY_mps2 = 9.80665;
/** Discharge of a plain opening: ASHRAE Fundamentals, ventilation by stack effect (from memory). */
const DISCHARGE = 0.65;
const ZERO_C = 273.15;

/**
 * Air that rises through a box with equal low and high openings, m3/s: Cd A sqrt(2 g (H/2) dT/T), the neutral level midway.
 *
 * @param area_m2 of the low openings; @param rise_m between low and high ones; @param inside_C, outside_C air
 * Source: ASHRAE Fundamentals, stack effect (from memory). Checked by packages/study/test/heatBox.test.ts.
 */
export function stackFlow_m3ps(area_m2: number, rise_m: number, inside_C: number, outside_C: number): number {
  const warmer = Math.max(0, inside_C - outside_C);
  return DISCHARGE * area_m2 * Math.sqrt((GRAVITY_mps2 * rise_m * warmer) / (inside_C + ZERO_C));
}

/** Most that the sun puts on a square metre across its rays, W. Source: IEC 60721-2-4 (from memory). */
const SUN_Wpm2 = 1120;
const ABSORBS: Readonly<Record<Sun, number>> = {
  shade: 0,
  "sun on light paint": 0.4,
  "sun on dark paint": 0.9,
};

/**
 * The sun as a loss inside, W.
 *
 * What the wall absorbs leaves it to the outside air at once; with films alike on both sides, h = 2k, the wall stands
 * absorbed/(h A) above the air, and the air inside with it: as much as half of it lost inside would do.
 *
 * @returns for the larger of front and side and the top together, the sun at 45 degrees
 */
export function sunAsLoss_W({ width_m: w, height_m: h, depth_m: d, sun }: Enclosure): number {
  const across_m2 = (w * d + Math.max(w, d) * h) * Math.SQRT1_2;
  return (ABSORBS[sun] * SUN_Wpm2 * across_m2) / 2;
}

/** Heat that walls and vents carry off at a rise of the air inside over that outside, W; below nothing it comes in. */
export function boxSheds_W(box: Enclosure, rise_K: number, outside_C: number): number {
  const wall_WpK = WALL_Wpm2K[box.material] * coolingArea_m2(box);
  const flow = stackFlow_m3ps(box.ventArea_m2, box.ventRise_m, outside_C + rise_K, outside_C);
  return (wall_WpK + AIR_Jpm3K * flow) * rise_K;
}

/**
 * Rise of the air inside over that outside, K: what the walls shed and what the vents carry off balance the losses.
 *
 * @param loss_W all losses inside, the sun counted in; @param outside_C air
 * Limitation: the air inside is taken as one; the top is warmer than that, by a third at most in a tall closed box.
 */
export function insideRise_K(box: Enclosure, loss_W: number, outside_C: number): number {
  const wall_WpK = WALL_Wpm2K[box.material] * coolingArea_m2(box);
  let [low, high] = [0, loss_W / wall_WpK];
  for (let count = 0; count < 60; count++) {
    const middle = (low + high) / 2;
    if (boxSheds_W(box, middle, outside_C) < loss_W) low = middle;
    else high = middle;
  }
  return high;
}

/** What would keep the air inside to a rise. */
export interface Cooling {
  /** Of low vents, with as much above; null where the walls do it alone. */
  readonly ventArea_m2: number | null;
  /** Of a fan instead. */
  readonly fan_m3ps: number | null;
}

/**
 * Vents, or a fan, that bring the rise down to a limit: what the walls do not shed at that rise, the air must carry.
 *
 * @param rise_K allowed, above 0
 */
export function coolingFor(box: Enclosure, loss_W: number, outside_C: number, rise_K: number): Cooling {
  const left_W = loss_W - WALL_Wpm2K[box.material] * coolingArea_m2(box) * rise_K;
  if (left_W <= 0) return { ventArea_m2: null, fan_m3ps: null };
  const flow = left_W / (AIR_Jpm3K * rise_K);
  const perArea = stackFlow_m3ps(1, box.ventRise_m, outside_C + rise_K, outside_C);
  return { ventArea_m2: flow / perArea, fan_m3ps: flow };
}
