import { type MotorParameters, meltingTime_s } from "@startgap/circuit";
import { lasting } from "../failures/dangers.ts";
import { amperes, percent } from "../words.ts";
import type { ProtectionFinding, Rules } from "./results.ts";
import { factsOf, fullLoad_A, partsOf, type Scene } from "./scene.ts";
import { within } from "./within.ts";

/** A hot motor that stands still is lost after about so long, s: common practice, no source (from memory). */
export const STALL_s = 10;

export interface OverloadRule {
  /** Setting of an overload relay over the plate current. */
  readonly usual: number;
  /** Where the motor will not start with that. */
  readonly most: number;
  readonly basis: string;
}

/** How high an overload relay may be set: by the service factor in the NEC, at full load in IEC. */
export function overloadRule(rules: Rules, serviceFactor: number | null): OverloadRule {
  if (rules !== "NEC")
    return { usual: 1, most: 1.05, basis: "IEC 60204-1, 7.3: set to full-load current (from memory)" };
  const basis = "NEC 430.32(A)(1), and 430.32(C) where it will not start";
  return (serviceFactor ?? 1) >= 1.15 ? { usual: 1.25, most: 1.4, basis } : { usual: 1.15, most: 1.3, basis };
}

/** Highest trip of a built-in protector over full-load current. Source: NEC 430.32(A)(2). */
export const protectorShare = (fullLoad_A_: number): number =>
  fullLoad_A_ <= 9 ? 1.7 : fullLoad_A_ <= 20 ? 1.56 : 1.4;

/** Every motor's protection against running too long on too much, and against a stall. */
export const overloadFindings = (scene: Scene): ProtectionFinding[] =>
  partsOf(scene, "motor").flatMap((p) => [overloadFinding(scene, p), stallFinding(scene, p)]);

function overloadFinding(scene: Scene, p: MotorParameters): ProtectionFinding {
  const facts = factsOf(scene, "motor", p.name);
  const full_A = p.fullLoad_A ?? fullLoad_A(scene, p);
  const { usual, most, basis } = overloadRule(scene.rules, facts?.serviceFactor ?? null);
  const base = {
    finding: "motor overload",
    part: p.name,
    gravity: "danger",
    limit: usual * full_A,
    unit: "A",
    basis: `${basis}: ${percent(100 * usual)} to ${percent(100 * most)} of ${amperes(full_A)}`,
  } as const;
  const set = facts?.overload_A ?? null;
  if (set !== null) {
    const outcome = within(set, usual * full_A) ? "pass" : within(set, most * full_A) ? "caution" : "fail";
    const says = `${p.name}: its overload relay is set to ${amperes(set)}, ${percent((100 * set) / full_A)} of full load.`;
    const change = outcome === "pass" ? null : `Set it to ${amperes(usual * full_A)}.`;
    return { ...base, outcome, value: set, says, change };
  }
  if (facts?.builtInProtector === true) {
    const says = `${p.name}: a protector is built in, which is to trip at ${percent(100 * protectorShare(full_A))} of full load at the latest.`;
    return { ...base, basis: "NEC 430.32(A)(2)", outcome: "pass", value: null, says, change: null };
  }
  const fuse = ownFuse_A(scene, p);
  if (fuse !== null && within(fuse, usual * full_A)) {
    const says = `${p.name}: its own fuse of ${amperes(fuse)} is small enough to be its overload protection.`;
    return { ...base, basis: `${base.basis}; NEC 430.36`, outcome: "pass", value: fuse, says, change: null };
  }
  return {
    ...base,
    outcome: facts?.builtInProtector === false ? "fail" : "caution",
    value: null,
    says: `${p.name}: this file has no overload protection for it, and the fuse is none.`,
    change: `Give it an overload relay set to ${amperes(usual * full_A)}, or say in the file that a protector is built in.`,
  };
}

/** Rating of a fuse that feeds this motor alone, carried to its voltage; null where it feeds more. */
function ownFuse_A(scene: Scene, p: MotorParameters): number | null {
  const fuse = scene.tree.fuseAhead(p.name);
  if (fuse === null || scene.tree.consumersBehind(fuse.name).length > 1) return null;
  return (fuse.rating_A * scene.nominal_V(fuse.name)) / scene.nominal_V(p.name);
}

/** How long a motor that stands still is left under current by the fuse alone. */
function stallFinding(scene: Scene, p: MotorParameters): ProtectionFinding {
  const stalled = scene.situations.standing.get(p.name);
  const fuse = scene.tree.fuseAhead(p.name);
  const through_A = fuse === null ? 0 : (stalled?.current_A(fuse.name) ?? 0);
  const clears_s =
    fuse?.clearing == null ? Number.POSITIVE_INFINITY : meltingTime_s(fuse.clearing, through_A);
  const facts = factsOf(scene, "motor", p.name);
  const guarded = facts?.builtInProtector === true || facts?.overload_A != null;
  const fits = clears_s <= STALL_s;
  const drawn = amperes(stalled?.current_A(p.name) ?? 0);
  const until =
    fuse === null
      ? "and no fuse stands ahead of it"
      : Number.isFinite(clears_s)
        ? `and ${fuse.name} may take ${lasting(clears_s)} to open on the ${amperes(through_A)} it sees`
        : `and ${fuse.name} never opens on the ${amperes(through_A)} it sees`;
  return {
    finding: "fuse against a stalled motor",
    part: p.name,
    outcome: fits ? "pass" : guarded ? "pass" : "caution",
    gravity: "danger",
    value: Number.isFinite(clears_s) ? clears_s : null,
    limit: STALL_s,
    unit: "s",
    basis:
      "common practice, no source (from memory): a hot motor bears its locked-rotor current for about 10 s",
    says: `${p.name}: standing still it draws ${drawn}, ${until}${guarded && !fits ? "; its own protection must act first" : ""}.`,
    change:
      fits || guarded ? null : "Give it a protector or overload relay that opens within 10 s of a stall.",
  };
}
