import type { Day, Enclosure } from "@startgap/cabinet";
import type { PartParameters } from "@startgap/circuit";
import { partsOf, type Scene } from "../protection/scene.ts";
import { coolingArea_m2, coolingFor, insideRise_K, sunAsLoss_W } from "./box.ts";
import { airAt_C, HOURS } from "./day.ts";
import type { BoxHeat, PartLoss, SeasonDay } from "./results.ts";
import type { Around } from "./transformerHeat.ts";
import { lossesOf } from "./transformerHeat.ts";

/** Loss of a fuse at its rating, W for each ampere and pole: common practice, no source. */
const FUSE_WpA = 0.12;
/** What a held-in contactor of this size and a relay turn to heat, W: common practice, no source. */
const COIL_W = 3;
const RELAY_W = 2;

/** Losses of everything that stands in the box: all but supply, cables, motors and what is plugged in. */
export function lossesInside(scene: Scene): PartLoss[] {
  const wound = [...partsOf(scene, "autotransformer"), ...partsOf(scene, "transformer")].map((p) => {
    const { core_W, winding_W, assumed } = lossesOf(scene, p);
    return { part: p.name, loss_W: core_W + winding_W, assumed };
  });
  return [...wound, ...scene.circuit.parts.flatMap((p) => otherLoss(scene, p))];
}

function otherLoss(scene: Scene, p: PartParameters): PartLoss[] {
  const { running } = scene.situations;
  if (p.is === "fuse") {
    const stated_W = running.lost_W(p.name);
    const share = running.current_A(p.name) / p.rating_A;
    const usual_W = FUSE_WpA * p.rating_A * p.poles * share ** 2;
    return [{ part: p.name, loss_W: stated_W > 0 ? stated_W : usual_W, assumed: stated_W === 0 }];
  }
  if (p.is === "delay relay") return [{ part: p.name, loss_W: RELAY_W, assumed: true }];
  if (p.is !== "contactor" || p.coil === null) return [];
  const { burden } = p.coil;
  if (burden === undefined) return [{ part: p.name, loss_W: COIL_W, assumed: true }];
  return [{ part: p.name, loss_W: burden.sealed_VA * burden.sealedPowerFactor, assumed: false }];
}

/** What devices in a cabinet are made for, and what relays and contactors at most bear, degC: IEC 60947-1 6.1.1; common practice. */
export const AIR_LIMIT_C = { pass: 40, fail: 55 } as const;
/** Vents and fans are not asked to come nearer to the air outside than this, K: it takes openings as large as the box. */
const LEAST_RISE_K = 10;

/** The box over a warm and a cold day, and what would keep it cool. */
export function boxHeat(scene: Scene, box: Enclosure): BoxHeat {
  const losses = lossesInside(scene);
  const loss_W = losses.reduce((sum, one) => sum + one.loss_W, 0);
  const sun_W = sunAsLoss_W(box);
  const { day_C } = box.summer;
  const limit_C = day_C + LEAST_RISE_K <= AIR_LIMIT_C.pass ? AIR_LIMIT_C.pass : AIR_LIMIT_C.fail;
  const allowed = limit_C - day_C;
  const hot = insideRise_K(box, loss_W + sun_W, day_C) > allowed;
  const cooling =
    hot && allowed > 0
      ? coolingFor(box, loss_W + sun_W, day_C, allowed)
      : { ventArea_m2: null, fan_m3ps: null };
  return {
    losses,
    loss_W,
    sun_W,
    coolingArea_m2: coolingArea_m2(box),
    seasons: [seasonOf(box, loss_W, "summer"), seasonOf(box, loss_W, "winter")],
    limit_C,
    ...cooling,
  };
}

/** The sun stands above the horizon from 6 to 18 h and is highest in between. */
export const sunAt = (hour: number): number => Math.max(0, Math.sin((Math.PI * (hour - 6)) / 12));

function seasonOf(box: Enclosure, loss_W: number, season: SeasonDay["season"]): SeasonDay {
  const outside_C = HOURS.map((hour) => airAt_C(box[season], hour));
  const inside_C = outside_C.map(
    (air, hour) => air + insideRise_K(box, loss_W + sunAsLoss_W(box) * sunAt(hour), air),
  );
  return { season, hour: HOURS, outside_C, inside_C };
}

/** The air that the parts stand in: of the box where there is one, else outside. */
export const airAround = (box: BoxHeat | null, days: Readonly<Record<"summer" | "winter", Day>>): Around[] =>
  (["summer", "winter"] as const).map((season) => {
    const inside = box?.seasons.find((one) => one.season === season)?.inside_C;
    const air =
      inside === undefined ? days[season] : { night_C: Math.min(...inside), day_C: Math.max(...inside) };
    return { season, air };
  });
