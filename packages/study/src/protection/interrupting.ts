import { amperes } from "../words.ts";
import { NOT_TOLD_A } from "./fault.ts";
import type { ProtectionFinding } from "./results.ts";
import { factsOf, partsOf, type Scene } from "./scene.ts";

/**
 * Interrupting rating by class, A: UL 248-11 plug, 248-4 CC, 248-5 G, 248-12 R as printed; 248-8 J, 248-6 H, IEC 60269-2
 * gG and aM, and the lowest of class K (from memory). Supplementary fuses have none in common.
 */
const CLASS_A: Readonly<Record<string, number>> = {
  plug: 10_000,
  CC: 200_000,
  G: 100_000,
  J: 200_000,
  RK1: 200_000,
  RK5: 200_000,
  K: 50_000,
  H: 10_000,
  gG: 50_000,
  aM: 50_000,
};

const bare = (className: string): string => className.replace("time-delay ", "").replace("class ", "");

const shown = (current_A: number): string =>
  current_A >= 1000 ? `${Number((current_A / 1000).toPrecision(2))} kA` : amperes(current_A);

/** Every fuse against the bolted fault current where it stands. Source: NEC 110.9; IEC 60364-4-43 434.5.1. */
export const interruptingFindings = (scene: Scene): ProtectionFinding[] =>
  partsOf(scene, "fuse").map(({ name }) => {
    const facts = factsOf(scene, "fuse", name);
    const stated = facts?.interruptingRating_A ?? null;
    const rating_A = stated ?? (facts?.className == null ? null : (CLASS_A[bare(facts.className)] ?? null));
    const fault_A = scene.faultBefore(name).current_A;
    const known = fault_A <= NOT_TOLD_A;
    const fits = known && rating_A !== null && rating_A >= fault_A;
    return {
      finding: "interrupting rating",
      part: name,
      outcome: fits ? "pass" : known && rating_A !== null ? "fail" : "caution",
      gravity: "danger",
      value: known ? fault_A : null,
      limit: rating_A,
      unit: "A",
      basis: `NEC 110.9; IEC 60364-4-43 434.5.1; rating ${stated === null ? "of its class" : "as stated"}`,
      says: saysOf(name, known ? fault_A : null, rating_A),
      change: fits ? null : changeOf(known ? fault_A : null),
    };
  });

function saysOf(name: string, fault_A: number | null, rating_A: number | null): string {
  if (fault_A === null)
    return `${name}: the file gives the supply no impedance, so a fault has no bounds here.`;
  const drives = `${name}: a fault where it stands drives ${shown(fault_A)}`;
  return rating_A === null
    ? `${drives}, and the file does not tell what it may interrupt.`
    : `${drives}, and it may interrupt ${shown(rating_A)}.`;
}

const changeOf = (fault_A: number | null): string =>
  fault_A === null
    ? "Ask the utility for the fault current and add it to the supply."
    : `Fit a fuse with an interrupting rating of ${shown(fault_A)} or more, and add it to the file.`;
