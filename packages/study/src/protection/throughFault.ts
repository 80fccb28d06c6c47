import { type MeltTerms, meltingCurrent_A, meltingTime_s } from "@startgap/circuit";
import { amperes, percent, ratio, seconds } from "../words.ts";
import type { ProtectionFinding } from "./results.ts";
import { partsOf, type Scene } from "./scene.ts";
import { CONTROL_VA, inputOf } from "./transformerFuse.ts";

/** Inrush that a fuse must sit out, times rated input current: IEEE C37.91 and C57.109 practice (from memory). */
const INRUSH: readonly (readonly [times: number, time_s: number])[] = [
  [25, 0.01],
  [12, 0.1],
];

/** Through-fault limit of small units, (I/Irated)^2 t, from 2 s to where it meets long overload: IEEE C57.109 category I (from memory). */
const THROUGH_FAULT_s = 1250;
const FROM_s = 2;
const TO_s = 100;

/**
 * Lowest factor by which the current that melts the fuse exceeds the inrush points.
 *
 * @param rated_A rated input current as the fuse sees it
 * @param most_A bolted fault current where the transformer is fed: no inrush is larger
 */
export const inrushMargin = (melt: MeltTerms, rated_A: number, most_A: number): number =>
  Math.min(
    ...INRUSH.map(([times, time_s]) => meltingCurrent_A(melt, time_s) / Math.min(times * rated_A, most_A)),
  );

/** Lowest factor by which the through-fault limit lies above the current that the fuse still clears, 2 s to 100 s. */
export function throughFaultMargin(clearing: MeltTerms, rated_A: number): { least: number; time_s: number } {
  let worst = { least: Number.POSITIVE_INFINITY, time_s: FROM_s };
  for (let k = 0; k <= 60; k++) {
    const time_s = FROM_s * (TO_s / FROM_s) ** (k / 60);
    const bears_A = rated_A * Math.sqrt(THROUGH_FAULT_s / time_s);
    const least = bears_A / meltingCurrent_A(clearing, time_s);
    if (least < worst.least) worst = { least, time_s };
  }
  return worst;
}

/** Inrush hold and through-fault protection of every transformer that has a rating and a fuse with a curve. */
export const throughFaultFindings = (scene: Scene): ProtectionFinding[] =>
  [...partsOf(scene, "autotransformer"), ...partsOf(scene, "transformer")].flatMap((p) => {
    const fuse = scene.tree.fuseAhead(p.name);
    if (!Number.isFinite(p.rating_VA) || fuse?.melt == null || fuse.clearing === null) return [];
    const rated_A = inputOf(scene, p);
    const at = (name: string): number => scene.nominal_V(name);
    const seen_A = (rated_A * at(p.name)) / at(fuse.name);
    const inrush = inrushMargin(fuse.melt, seen_A, scene.faultBefore(p.name).through_A(fuse.name));
    const damage = throughFaultMargin(fuse.clearing, seen_A);
    return [
      inrushFinding(p.name, fuse.name, inrush),
      damageFinding(scene, p.name, fuse.name, damage, fuse.clearing, p.rating_VA < CONTROL_VA),
    ];
  });

function inrushFinding(part: string, fuse: string, margin: number): ProtectionFinding {
  const holds = margin >= 1;
  return {
    finding: "fuse against inrush",
    part,
    outcome: holds ? "pass" : "caution",
    gravity: "stops work",
    value: margin,
    limit: 1,
    unit: "",
    basis:
      "inrush of 25 times rated current for 0.01 s and 12 times for 0.1 s, IEEE C37.91 practice (from memory)",
    says: holds
      ? `${part}: its switching on could draw ${ratio(margin)} times as much before ${fuse} would melt.`
      : `${part}: its switching on at a bad moment may melt ${fuse}: the current to do so is ${percent(100 * margin)} of the inrush.`,
    change: holds ? null : "Fit a time-delay fuse, or switch the transformer on through an inrush limiter.",
  };
}

function damageFinding(
  scene: Scene,
  part: string,
  fuse: string,
  { least, time_s }: { readonly least: number; readonly time_s: number },
  clearing: MeltTerms,
  control: boolean,
): ProtectionFinding {
  const fault_A = scene.faultBehind(part).through_A(fuse);
  const clears_s = meltingTime_s(clearing, fault_A);
  const clears = clears_s <= TO_s;
  const outcome = least >= 1 && clears ? "pass" : control && !clears ? "caution" : "fail";
  const course = clears
    ? `which clears it in ${seconds(clears_s)}; its damage limit lies at ${ratio(least)} times the fuse's curve, closest at ${seconds(time_s)}`
    : "too little for it to open in time";
  return {
    finding: "fuse against transformer damage",
    part,
    outcome,
    gravity: "danger",
    value: clears ? least : null,
    limit: 1,
    unit: "",
    basis: "(I/rated)^2 t of 1250 s from 2 s to 100 s, IEEE C57.109 category I (from memory)",
    says: `${part}: a short circuit behind it draws ${amperes(fault_A)} through ${fuse}, ${course}.`,
    change: outcome === "pass" ? null : `Fit a smaller or faster fuse ahead of ${part}.`,
  };
}
