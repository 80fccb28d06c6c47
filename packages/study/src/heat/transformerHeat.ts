import type { Day, TransformerInsulation_C } from "@startgap/cabinet";
import type { AutotransformerParameters, TransformerParameters } from "@startgap/circuit";
import type { Scene } from "../protection/scene.ts";
import { bodyAt_C, HOURS } from "./day.ts";
import { idleOf } from "./idle.ts";
import type { TransformerHeat, TransformerSeason } from "./results.ts";

export type Wound = AutotransformerParameters | TransformerParameters;

/** Rises at rated load by insulation system, K: average of the winding, and its hottest spot. Source: NEMA ST 20, UL 506. */
export const WINDING_RISE_K: Readonly<
  Record<TransformerInsulation_C, readonly [average: number, hottest: number]>
> = { 105: [55, 65], 150: [80, 110], 180: [115, 145], 200: [130, 160], 220: [150, 180] };

/** The rise goes with this power of load squared: self-cooled dry type. Source: IEEE C57.96, IEC 60076-12 (from memory). */
export const EXPONENT = 0.8;
/** Time constant of a small dry transformer as a body, s: common practice, no source (half an hour to two hours). */
export const BODY_s = 3600;
/** A small control transformer, and anything larger: common practice, no source. */
const SMALL_VA = 1000;
export const usual_C = (rating_VA: number): TransformerInsulation_C => (rating_VA < SMALL_VA ? 105 : 180);

/** Rise over rated rise at a load: load^(2 m). Checked by tests/published/heat-transformers. */
export const riseShare = (load: number): number => load ** (2 * EXPONENT);

export interface Losses {
  readonly core_W: number;
  readonly winding_W: number;
  readonly assumed: boolean;
}

/** What a transformer loses with everything running: idle loss at its voltage, and what its windings take. */
export function lossesOf(scene: Scene, p: Wound): Losses {
  const { running } = scene.situations;
  const idle = idleOf(p);
  const square = running.input_V(p.name) ** 2;
  const winding_W = Math.max(0, running.lost_W(p.name) - p.excitation.conductance_S * square);
  return { core_W: idle.excitation.conductance_S * square, winding_W, assumed: idle.assumed };
}

/**
 * Winding current over rated: from the winding loss, R (load I)^2 with I the rated current of the winding that R is
 * referred to. Null without a rating or resistance.
 */
export function loadOf(p: Wound, winding_W: number): number | null {
  const rated_A = p.rating_VA / p.windings_V[0];
  if (!Number.isFinite(rated_A) || p.r_ohm === 0) return null;
  return Math.sqrt(winding_W / p.r_ohm) / rated_A;
}

/** A day of air around a part in one season. */
export interface Around {
  readonly season: "summer" | "winter";
  readonly air: Day;
}

/**
 * Winding and core of a transformer over a day of running, in the air of each season.
 *
 * The hottest spot rises with load^1.6 over the air around it; core and body with all losses over those at rated load,
 * by the same power. Both follow the air with the time constant of the body.
 */
export function transformerHeat(
  scene: Scene,
  p: Wound,
  insulation_C: TransformerInsulation_C | null,
  seasons: readonly Around[],
): TransformerHeat {
  const { core_W, winding_W } = lossesOf(scene, p);
  const system = insulation_C ?? usual_C(p.rating_VA);
  const [average_K, hottest_K] = WINDING_RISE_K[system];
  const load = loadOf(p, winding_W);
  const rated_W = p.r_ohm * (p.rating_VA / p.windings_V[0]) ** 2 + core_W;
  const windingRise = load === null ? 0 : hottest_K * riseShare(load);
  const share = rated_W > 0 && Number.isFinite(rated_W) ? (core_W + winding_W) / rated_W : 0;
  const coreRise = average_K * share ** EXPONENT;
  return {
    part: p.name,
    load,
    core_W,
    winding_W,
    insulation_C: system,
    seasons: seasons.map((around) => seasonOf(around, windingRise, coreRise)),
  };
}

function seasonOf({ season, air }: Around, windingRise: number, coreRise: number): TransformerSeason {
  // A winding is never cooler than the core that it stands on.
  const rise = Math.max(windingRise, coreRise);
  const winding_C = HOURS.map((hour) => bodyAt_C(air, rise, BODY_s, hour));
  const core_C = HOURS.map((hour) => bodyAt_C(air, coreRise, BODY_s, hour));
  return { season, winding_C, core_C, hottest_C: Math.max(...winding_C, ...core_C) };
}
