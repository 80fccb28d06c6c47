import { type CableFacts, type Conductor, copperAmpacity_A, smallConductorLimit_A } from "@startgap/cabinet";
import { amperes } from "../words.ts";
import type { ProtectionFinding } from "./results.ts";
import { designCurrent, factsOf, partsOf, type Scene } from "./scene.ts";
import { nextSize_A } from "./sizes.ts";
import type { FusePart } from "./tree.ts";
import { within } from "./within.ts";

/**
 * Copper, two loaded conductors in conduit on a wall (method B1), PVC 70 degC, 30 degC around it, A by mm2.
 * Source: IEC 60364-5-52 table B.52.2 (from memory).
 */
const METRIC_A: Readonly<Record<number, number>> = {
  1.5: 17.5,
  2.5: 24,
  4: 32,
  6: 41,
  10: 57,
  16: 76,
  25: 101,
  35: 125,
  50: 151,
  70: 192,
  95: 232,
};

export interface Ampacity {
  readonly current_A: number;
  readonly basis: string;
}

/** What a copper conductor may carry for ever at 30 degC; null for a size or metal without a table. */
export function ampacityOf(conductor: Conductor, insulation_C: CableFacts["insulation_C"]): Ampacity | null {
  if (conductor.metal !== "Cu") return null;
  const { size } = conductor;
  if (size.system === "AWG") {
    const column = insulation_C ?? 60;
    const current_A = copperAmpacity_A(size.row.size, column);
    return current_A === null ? null : { current_A, basis: `NEC Table 310.16, ${column} degC column` };
  }
  const current_A = METRIC_A[size.row.area_mm2];
  return current_A === undefined
    ? null
    : { current_A, basis: "IEC 60364-5-52 table B.52.2, method B1, PVC (from memory)" };
}

/** Every cable with a conductor that is known: its load against its ampacity, and its fuse against it. */
export const ampacityFindings = (scene: Scene): ProtectionFinding[] =>
  partsOf(scene, "cable").flatMap(({ name }) => {
    const facts = factsOf(scene, "cable", name);
    const ampacity = facts?.conductor == null ? null : ampacityOf(facts.conductor, facts.insulation_C);
    if (facts?.conductor == null || ampacity === null) return [];
    return [
      loadFinding(scene, name, facts.conductor, ampacity),
      fuseFinding(scene, name, facts.conductor, ampacity),
    ];
  });

function loadFinding(
  scene: Scene,
  part: string,
  conductor: Conductor,
  { current_A, basis }: Ampacity,
): ProtectionFinding {
  const { need, rule } = loadRule(scene, part);
  const bears = within(need, current_A);
  return {
    finding: "conductor against load",
    part,
    outcome: bears ? "pass" : "fail",
    gravity: "danger",
    value: need,
    limit: current_A,
    unit: "A",
    basis: `${rule}; ${basis}`,
    says: `${part}: ${conductor.name} is good for ${amperes(current_A)}, and what it feeds asks for ${amperes(need)}.`,
    change: bears ? null : `Use a conductor good for ${amperes(need)} or more.`,
  };
}

/**
 * What a conductor is to bear. NEC 430.22 and 430.24: a quarter of the largest motor's current on top of all. IEC
 * 60364-4-43 433.1: the current it is used for, Ib no more than Iz.
 */
function loadRule(scene: Scene, part: string): { readonly need: number; readonly rule: string } {
  const { conductor_A, sum_A, largestMotor_A } = designCurrent(scene, part, scene.nominal_V(part));
  if (scene.rules !== "NEC") return { need: sum_A, rule: "IEC 60364-4-43 433.1" };
  if (largestMotor_A === 0) return { need: sum_A, rule: "NEC 210.19(A) and 215.2(A)" };
  const alone = scene.tree.consumersBehind(part).length === 1;
  const rule = alone
    ? "NEC 430.22 (125 % of the motor)"
    : "NEC 430.24 (125 % of the largest motor, the rest once)";
  return { need: conductor_A, rule };
}

/**
 * The fuse that stands for a cable: the nearest ahead of it, else one behind it that carries all of its current. The
 * latter keeps overload off the cable, not a fault in it.
 */
function standingFuse(scene: Scene, part: string): { fuse: FusePart; ahead: boolean } | null {
  const fuse = scene.tree.fuseAhead(part);
  if (fuse !== null) return { fuse, ahead: true };
  const all = scene.tree.consumersBehind(part).length;
  const behind = scene.tree
    .behind(part)
    .find((p): p is FusePart => p.is === "fuse" && scene.tree.consumersBehind(p.name).length === all);
  return behind === undefined ? null : { fuse: behind, ahead: false };
}

/** The cables that a fuse stands for. */
export const standingCables = (scene: Scene, fuse: FusePart): string[] =>
  partsOf(scene, "cable").flatMap(({ name }) =>
    standingFuse(scene, name)?.fuse.name === fuse.name ? [name] : [],
  );

interface Largest {
  readonly rating_A: number;
  readonly basis: string;
}

/**
 * The largest fuse that a conductor may have.
 *
 * NEC 240.4: its ampacity, or the next standard size (240.4(B)), and never more than 240.4(D) for 14 to 10 AWG; where it
 * feeds motors alone 240.4(G) sends to the motor rules (`motorFuse.ts`), and the conductor needs an overload
 * relay. IEC 60364-4-43 433.1: In no more than the ampacity.
 */
export function largestFor(scene: Scene, conductor: Conductor, ampacity_A: number): Largest {
  if (scene.rules !== "NEC") return { rating_A: ampacity_A, basis: "IEC 60364-4-43 433.1" };
  const { size } = conductor;
  const small = size.system === "AWG" ? smallConductorLimit_A[size.row.size] : undefined;
  if (small !== undefined) return { rating_A: small, basis: "NEC 240.4(D)" };
  const basis = "NEC 240.4(B) (not for a branch circuit with several receptacles)";
  return { rating_A: nextSize_A(scene.rules, ampacity_A), basis };
}

function fuseFinding(
  scene: Scene,
  part: string,
  conductor: Conductor,
  ampacity: Ampacity,
): ProtectionFinding {
  const standing = standingFuse(scene, part);
  const base = { finding: "fuse against conductor", part, gravity: "danger", unit: "A" } as const;
  const largest = largestFor(scene, conductor, ampacity.current_A);
  if (standing === null) return unfused(base, conductor, largest);
  const { fuse, ahead } = standing;
  const across = acrossTransformer(scene, fuse.name, part);
  const rating_A = seenAt(scene, fuse, part, fuse.rating_A);
  const motors = scene.rules === "NEC" && designCurrent(scene, part, scene.nominal_V(part)).onlyMotors;
  const fits = within(rating_A, largest.rating_A);
  const whole = ahead && !across && !shortCircuitsOnly(scene, fuse);
  const outcome = fits ? (whole ? "pass" : "caution") : motors && !across ? "caution" : "fail";
  const seen = across ? `, which lets ${amperes(rating_A)} through to it` : "";
  return {
    ...base,
    outcome,
    value: rating_A,
    limit: largest.rating_A,
    basis: [
      largest.basis,
      motors && !fits && !across ? "motors alone: NEC 240.4(G) and 430.52" : ampacity.basis,
      ...(across ? ["NEC 240.4(F) and 240.21(C): a fuse ahead of a transformer"] : []),
    ].join("; "),
    says: `${part}: ${conductor.name} may have a fuse of ${amperes(largest.rating_A)} and has ${amperes(fuse.rating_A)} (${fuse.name})${seen}.${whereWords(scene, fuse, ahead, across)}`,
    change:
      outcome === "caution" && shortCircuitsOnly(scene, fuse)
        ? "Give what it feeds an overload relay, or fit a fuse for general use, as gG."
        : changeOf(outcome, motors && !fits && !across, largest.rating_A, conductor),
  };
}

/** Current that a fuse's own lets flow in a cable: not the same where a transformer stands between them. */
export const seenAt = (scene: Scene, fuse: FusePart, cable: string, current_A: number): number =>
  (current_A * scene.nominal_V(fuse.name)) / scene.nominal_V(cable);

/** True when a transformer stands between a fuse and a cable behind it. */
function acrossTransformer(scene: Scene, fuse: string, cable: string): boolean {
  const way = scene.tree.ahead(cable);
  const at = way.findIndex(({ name }) => name === fuse);
  return way.slice(0, Math.max(0, at)).some((p) => p.is === "transformer" || p.is === "autotransformer");
}

/** A fuse of class aM melts from about four times its rating on: overload is another device's. Source: IEC 60269-2. */
const shortCircuitsOnly = (scene: Scene, fuse: FusePart): boolean =>
  factsOf(scene, "fuse", fuse.name)?.className === "aM";

function whereWords(scene: Scene, fuse: FusePart, ahead: boolean, across: boolean): string {
  return [
    ahead ? "" : " It stands behind the cable: it keeps overload off it, not a fault in it.",
    across
      ? " It stands ahead of the transformer, which counts for little: legs can be loaded unevenly."
      : "",
    shortCircuitsOnly(scene, fuse) ? " Its class opens on short circuits only, not on overload." : "",
  ].join("");
}

function unfused(
  base: Pick<ProtectionFinding, "finding" | "part" | "gravity" | "unit">,
  conductor: Conductor,
  largest: Largest,
): ProtectionFinding {
  return {
    ...base,
    outcome: "caution",
    value: null,
    limit: largest.rating_A,
    basis: "NEC 240.21; IEC 60364-4-43 433.2 and 434.2",
    says: `${base.part}: this file has no fuse for its ${conductor.name}.`,
    change: `See that it begins at a fuse or breaker of ${amperes(largest.rating_A)} or less, and add that to the file.`,
  };
}

function changeOf(
  outcome: ProtectionFinding["outcome"],
  motors: boolean,
  largest_A: number,
  conductor: Conductor,
): string | null {
  if (outcome === "pass") return null;
  if (motors)
    return "Keep the fuse for the start, and give every motor behind it an overload relay or protector.";
  if (outcome === "fail")
    return `Fit a fuse of ${amperes(largest_A)} or less, or a conductor thicker than ${conductor.name}.`;
  return `Put a fuse or breaker of ${amperes(largest_A)} or less where the cable begins.`;
}
