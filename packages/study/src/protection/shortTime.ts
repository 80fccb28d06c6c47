import { adiabaticK, type CableFacts, withstand_A2s } from "@startgap/cabinet";
import { type MeltTerms, meltingTime_s } from "@startgap/circuit";
import { amperes, percent, ratio } from "../words.ts";
import { NOT_TOLD_A } from "./fault.ts";
import type { ProtectionFinding } from "./results.ts";
import { factsOf, partsOf, type Scene } from "./scene.ts";

/** The adiabatic rule holds to 5 s; below a hundredth of a second a fuse's let-through is its maker's to tell. */
const LONGEST_s = 5;
const SHORTEST_s = 0.01;
const STEPS = 120;

/** Where a fuse and a conductor come closest. */
export interface ShortTime {
  /** Lowest k^2 S^2 over I^2 t: 1 just bears it. */
  readonly least: number;
  readonly current_A: number;
  readonly time_s: number;
}

/**
 * How a conductor's short-time limit k^2 S^2 stands to what a fuse lets through, I^2 t, over all fault currents.
 *
 * @param clearing the slow edge of the fuse
 * @param withstand k^2 S^2 of the conductor, A2s
 * @param most_A largest fault current; only currents that the fuse clears within 5 s count
 * @param least_A smallest fault current, where lesser ones are no question; the fuse's own minimum when silent
 * @returns null when the fault is too weak for the fuse to clear it within 5 s
 *
 * Source: IEC 60364-4-43, 434.5.2. Checked by tests/published/adiabatic-fuse-and-wire.
 */
export function shortTimeMargin(
  clearing: MeltTerms,
  withstand: number,
  most_A: number,
  least_A = 0,
): ShortTime | null {
  const from_A = Math.max(clearing.minimumFusing_A, Math.min(least_A, most_A));
  if (!(most_A > clearing.minimumFusing_A) || meltingTime_s(clearing, most_A) > LONGEST_s) return null;
  let worst: ShortTime | null = null;
  for (let k = 0; k <= STEPS; k++) {
    const current_A = from_A * (most_A / from_A) ** (k / STEPS);
    const melts_s = meltingTime_s(clearing, current_A);
    if (melts_s > LONGEST_s) continue;
    const time_s = Math.max(SHORTEST_s, melts_s);
    const least = withstand / (current_A ** 2 * time_s);
    if (worst === null || least < worst.least) worst = { least, current_A, time_s };
  }
  return worst;
}

/** Temperatures of a conductor's insulation before and after: thermoplastic 75 to 150 degC, thermosetting 90 to 250. */
export const adiabaticLimits = (insulation_C: CableFacts["insulation_C"]): readonly [number, number] =>
  insulation_C === 90 ? [90, 250] : insulation_C === 75 ? [75, 150] : [70, 160];

/** What a conductor bears, as the fuse ahead of it sees it. */
export interface Born {
  readonly withstand_A2s: number;
  /** Largest fault current through the fuse. */
  readonly most_A: number;
  /** Current in the fuse over that in the conductor: not 1 where a transformer stands between. */
  readonly share: number;
}

/** @returns null for a conductor or a supply that the file does not tell, or a fault that does not pass the fuse */
export function bornBy(scene: Scene, cable: string, fuse: string): Born | null {
  const facts = factsOf(scene, "cable", cable);
  if (facts?.conductor == null) return null;
  const fault = scene.faultBefore(cable);
  const most_A = fault.through_A(fuse);
  if (!(most_A > 0) || fault.current_A > NOT_TOLD_A) return null;
  const share = most_A / fault.current_A;
  const { metal, area_m2 } = facts.conductor;
  const [initial_C, final_C] = adiabaticLimits(facts.insulation_C);
  const k = adiabaticK(metal, initial_C, final_C);
  return { withstand_A2s: withstand_A2s(k, area_m2) * share ** 2, most_A, share };
}

/** Every conductor against the fuse ahead of it: what it bears against what flows until the fuse has cleared. */
export const shortTimeFindings = (scene: Scene): ProtectionFinding[] =>
  partsOf(scene, "cable").flatMap(({ name }) => {
    const facts = factsOf(scene, "cable", name);
    const fuse = scene.tree.fuseAhead(name);
    const bears = fuse === null ? null : bornBy(scene, name, fuse.name);
    if (facts === null || fuse?.clearing == null || bears === null) return [];
    const [initial_C, final_C] = adiabaticLimits(facts.insulation_C);
    const base = {
      finding: "fuse against short-time limit",
      part: name,
      gravity: "danger",
      limit: 1,
      unit: "",
      basis: `IEC 60364-4-43, 434.5.2, k^2 S^2 from ${initial_C} to ${final_C} degC`,
    } as const;
    return [judged(base, scene, fuse.name, fuse.clearing, bears)];
  });

/**
 * Faults between the far and the near end must be cleared before they burn the conductor. A weaker one, through an arc or
 * a poor joint, may do so although they do not; and one that the fuse leaves for more than 5 s is no fault to it.
 */
function judged(base: Base, scene: Scene, fuse: string, clearing: MeltTerms, bears: Born): ProtectionFinding {
  const far_A = scene.faultBehind(base.part).through_A(fuse);
  const bolted = shortTimeMargin(clearing, bears.withstand_A2s, bears.most_A, far_A);
  const any = shortTimeMargin(clearing, bears.withstand_A2s, bears.most_A);
  if (bolted === null || any === null || meltingTime_s(clearing, far_A) > LONGEST_s)
    return tooWeak(base, fuse, far_A / bears.share);
  const worst = bolted.least < 1 ? bolted : any;
  const outcome = bolted.least < 1 ? "fail" : any.least < 1 ? "caution" : "pass";
  const heat =
    worst.least >= 1
      ? `${percent(100 / worst.least)} of the heat`
      : `${ratio(1 / worst.least)} times the heat`;
  const kind = outcome === "caution" ? "a weak fault, through an arc," : "a fault";
  return {
    ...base,
    outcome,
    value: worst.least,
    says: `${base.part}: until ${fuse} has cleared ${kind} of ${amperes(worst.current_A / bears.share)} the conductor takes ${heat} that it bears.`,
    change: outcome === "pass" ? null : "Fit a smaller or faster fuse, or a thicker conductor.",
  };
}

type Base = Omit<ProtectionFinding, "outcome" | "value" | "says" | "change">;

function tooWeak(base: Base, fuse: string, far_A: number): ProtectionFinding {
  return {
    ...base,
    outcome: "caution",
    value: null,
    says: `${base.part}: a fault at its far end drives ${amperes(far_A)}, too little for ${fuse} to clear within 5 s.`,
    change: "Shorten or thicken the cable, or fit a smaller or faster fuse, so that a fault is cleared.",
  };
}
