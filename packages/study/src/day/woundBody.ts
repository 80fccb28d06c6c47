import type { TransformerInsulation_C } from "@startgap/cabinet";
import { riseAfter_K } from "../heat/body.ts";
import { idleOf } from "../heat/idle.ts";
import { BODY_s, EXPONENT, riseShare, usual_C, WINDING_RISE_K, type Wound } from "../heat/transformerHeat.ts";
import { settling } from "./settling.ts";

/** In which a winding's own rise over the core is there: common practice, no source (a few minutes). */
export const GRADIENT_s = 300;

/** What a transformer's temperatures follow from. */
export interface WoundBody {
  readonly part: string;
  readonly insulation_C: number;
  readonly averageRise_K: number;
  readonly hottestRise_K: number;
  readonly rated_W: number;
  /** Winding loss at rated current. */
  readonly ratedWinding_W: number;
  /** Of the idle branch: its loss over the square of the voltage. */
  readonly core_S: number;
}

export interface WoundState {
  /** Of core and body over the air. */
  readonly core_K: number;
  /** Of the hottest spot of the winding over the core. */
  readonly winding_K: number;
}

/** @param input_V usual voltage at its input */
export function woundBodyOf(
  p: Wound,
  insulation_C: TransformerInsulation_C | null,
  input_V: number,
): WoundBody {
  const system = insulation_C ?? usual_C(p.rating_VA);
  const [averageRise_K, hottestRise_K] = WINDING_RISE_K[system];
  const core_S = idleOf(p).excitation.conductance_S;
  const ratedWinding_W = p.r_ohm * (p.rating_VA / p.windings_V[0]) ** 2;
  return {
    part: p.name,
    insulation_C: system,
    averageRise_K,
    hottestRise_K,
    ratedWinding_W,
    rated_W: Math.max(1e-6, ratedWinding_W + core_S * input_V ** 2),
    core_S,
  };
}

/** Heat that a kelvin of core and body holds, J. */
export const bodyCapacity_JpK = (b: WoundBody): number => (b.rated_W / b.averageRise_K) * BODY_s;

/** Heat that goes off at a rise: at a rise of `averageRise (P/rated)^0.8` all of P, as in `transformerHeat`. */
const sheds_W = (b: WoundBody, core_K: number): number =>
  b.rated_W * Math.sign(core_K) * (Math.abs(core_K) / b.averageRise_K) ** (1 / EXPONENT);

/**
 * A transformer after a time of constant losses.
 *
 * @returns its state, and the heat that went into the air around it, J
 * Checked by packages/study/test/day/bodies.test.ts against fine steps and the rises that `heat` takes.
 */
export function woundAfter(
  b: WoundBody,
  from: WoundState,
  time_s: number,
  winding_W: number,
  core_W: number,
): WoundState & { readonly shed_J: number } {
  const loss_W = winding_W + core_W;
  const capacity = bodyCapacity_JpK(b);
  const core_K = settling((rise) => loss_W - sheds_W(b, rise), capacity, from.core_K, time_s);
  const load = b.ratedWinding_W > 0 ? Math.sqrt(winding_W / b.ratedWinding_W) : 0;
  const core_end = b.averageRise_K * (loss_W / b.rated_W) ** EXPONENT;
  // A winding is never cooler than the core that it stands on.
  const over = Math.max(0, b.hottestRise_K * riseShare(load) - core_end);
  return {
    core_K,
    winding_K: riseAfter_K(from.winding_K, over, GRADIENT_s, time_s),
    shed_J: loss_W * time_s - capacity * (core_K - from.core_K),
  };
}
