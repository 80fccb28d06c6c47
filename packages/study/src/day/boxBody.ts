import type { Enclosure } from "@startgap/cabinet";
import { boxSheds_W, insideRise_K, sunAsLoss_W } from "../heat/box.ts";
import { sunAt } from "../heat/boxHeat.ts";
import { settling } from "./settling.ts";

/**
 * Heat that a square metre of its walls holds, J/(m2 K): 1.5 mm of steel, 2 mm of aluminium and 3 mm of plastic all hold
 * about this. Common practice, no source.
 */
const WALL_Jpm2K = 5500;

export const boxCapacity_JpK = ({ width_m: w, height_m: h, depth_m: d }: Enclosure): number =>
  WALL_Jpm2K * 2 * (w * h + w * d + h * d);

/** The sun at a time of day, as a loss inside, W. */
export const sunNow_W = (box: Enclosure, time_s: number): number =>
  sunAsLoss_W(box) * sunAt((time_s / 3600) % 24);

/** The air in a box that has stood for long. */
export const settledInside_C = (box: Enclosure, loss_W: number, outside_C: number): number =>
  outside_C + insideRise_K(box, loss_W, outside_C);

/**
 * The air in a box after a time.
 *
 * @param loss_W mean of all that is lost in it, the sun counted in
 * @returns its temperature, and the heat that went through walls and vents, J
 */
export function boxAfter(
  box: Enclosure,
  from_C: number,
  outside_C: number,
  time_s: number,
  loss_W: number,
): { readonly air_C: number; readonly shed_J: number } {
  const capacity = boxCapacity_JpK(box);
  const air_C = settling(
    (at) => loss_W - boxSheds_W(box, at - outside_C, outside_C),
    capacity,
    from_C,
    time_s,
  );
  return { air_C, shed_J: loss_W * time_s - capacity * (air_C - from_C) };
}
