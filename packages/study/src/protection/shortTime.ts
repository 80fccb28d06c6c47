import { adiabaticK, type CableFacts, withstand_A2s } from "@startgap/cabinet";
import { type MeltTerms, meltingTime_s } from "@startgap/circuit";
import { amperes, percent, ratio } from "../words.ts";
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
 * @returns null when the fault is too weak for the fuse to clear it within 5 s
 *
 * Source: IEC 60364-4-43, 434.5.2. Checked by tests/published/adiabatic-fuse-and-wire.
 */
export function shortTimeMargin(clearing: MeltTerms, withstand: number, most_A: number): ShortTime | null {
  const from_A = clearing.minimumFusing_A;
  if (!(most_A > from_A) || meltingTime_s(clearing, most_A) > LONGEST_s) return null;
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

/** @returns null for a conductor that the file does not tell, or a fault that does not pass the fuse */
export function bornBy(scene: Scene, cable: string, fuse: string): Born | null {
  const facts = factsOf(scene, "cable", cable);
  if (facts?.conductor == null) return null;
  const fault = scene.faultBefore(cable);
  const most_A = fault.through_A(fuse);
  if (!(most_A > 0)) return null;
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
    if (facts?.conductor == null || fuse?.clearing == null) return [];
    const bears = bornBy(scene, name, fuse.name);
    if (bears === null) return [];
    const [initial_C, final_C] = adiabaticLimits(facts.insulation_C);
    const far = scene.faultBehind(name);
    const found = shortTimeMargin(fuse.clearing, bears.withstand_A2s, bears.most_A);
    const base = {
      finding: "fuse against short-time limit",
      part: name,
      gravity: "danger",
      limit: 1,
      unit: "",
      basis: `IEC 60364-4-43, 434.5.2, k^2 S^2 from ${initial_C} to ${final_C} degC`,
    } as const;
    const bearsIt = found === null || found.least >= 1;
    const slow = meltingTime_s(fuse.clearing, far.through_A(fuse.name)) > LONGEST_s;
    if (found === null || (bearsIt && slow)) return [tooWeak(base, fuse.name, far.current_A)];
    const outcome = bearsIt ? "pass" : "fail";
    const heat =
      outcome === "pass"
        ? `${percent(100 / found.least)} of the heat`
        : `${ratio(1 / found.least)} times the heat`;
    const says = `${name}: until ${fuse.name} has cleared a fault of ${amperes(found.current_A / bears.share)} the conductor takes ${heat} that it bears.`;
    const change = outcome === "pass" ? null : "Fit a smaller or faster fuse, or a thicker conductor.";
    return [{ ...base, outcome, value: found.least, says, change }];
  });

function tooWeak(
  base: Omit<ProtectionFinding, "outcome" | "value" | "says" | "change">,
  fuse: string,
  far_A: number,
): ProtectionFinding {
  return {
    ...base,
    outcome: "caution",
    value: null,
    says: `${base.part}: a fault at its far end drives ${amperes(far_A)}, too little for ${fuse} to clear within 5 s.`,
    change: "Shorten or thicken the cable, or fit a smaller or faster fuse, so that a fault is cleared.",
  };
}
