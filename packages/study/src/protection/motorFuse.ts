import { type MeltTerms, meltingTime_s } from "@startgap/circuit";
import { amperes, percent } from "../words.ts";
import type { ProtectionFinding } from "./results.ts";
import { designCurrent, factsOf, partsOf, type Scene } from "./scene.ts";
import { nextSize_A } from "./sizes.ts";
import type { FusePart } from "./tree.ts";
import { within } from "./within.ts";

/** A fuse counts as time-delay by its name, else when its fast edge holds twice its rating for 12 s. */
export function isTimeDelay(className: string | null, melt: MeltTerms | null, rating_A: number): boolean {
  if (className !== null) return className.startsWith("time-delay");
  return melt !== null && meltingTime_s(melt, 2 * rating_A) >= 12;
}

export interface MotorLimit {
  readonly usual_A: number;
  /** Where the motor will not start with the usual one. */
  readonly most_A: number;
  readonly basis: string;
}

/**
 * The largest fuse for the motors behind it: of the largest motor's full-load current 175 % time-delay or 300 % not, the
 * next standard size allowed; 225 % or 400 % where it will not start; and what else the fuse feeds on top.
 *
 * Source: NEC 430.52(C)(1) with its exceptions, Table 430.52, 430.62(A) for several motors (parts from memory).
 * @returns null for a fuse without a motor behind it
 */
export function motorLimit(scene: Scene, fuse: FusePart): MotorLimit | null {
  const { largestMotor_A, sum_A } = designCurrent(scene, fuse.name, scene.nominal_V(fuse.name));
  if (largestMotor_A === 0) return null;
  const delay = isTimeDelay(factsOf(scene, "fuse", fuse.name)?.className ?? null, fuse.melt, fuse.rating_A);
  const [usual, most] = delay ? [1.75, 2.25] : [3, 4];
  const rest_A = sum_A - largestMotor_A;
  const sized = (current_A: number): number =>
    rest_A === 0 ? nextSize_A(scene.rules, current_A) : current_A;
  return {
    usual_A: sized(usual * largestMotor_A) + rest_A,
    most_A: most * largestMotor_A + rest_A,
    basis: `NEC 430.52(C)(1)${rest_A > 0 ? " and 430.62(A)" : ""}: ${percent(100 * usual)} of the largest motor, ${percent(100 * most)} where it will not start (from memory)`,
  };
}

/** Every fuse with motors behind it against what the code lets it be. */
export const motorFuseFindings = (scene: Scene): ProtectionFinding[] =>
  partsOf(scene, "fuse").flatMap((fuse) => {
    const limit = scene.rules === "NEC" ? motorLimit(scene, fuse) : null;
    if (limit === null || factsOf(scene, "fuse", fuse.name)?.wire === "neutral") return [];
    const usual = within(fuse.rating_A, limit.usual_A);
    const fits = within(fuse.rating_A, Math.max(limit.most_A, limit.usual_A));
    return [
      {
        finding: "fuse against motors",
        part: fuse.name,
        outcome: usual ? "pass" : fits ? "caution" : "fail",
        gravity: "danger",
        value: fuse.rating_A,
        limit: limit.usual_A,
        unit: "A",
        basis: limit.basis,
        says: `${fuse.name}: the motors behind it let it be ${amperes(limit.usual_A)}, ${amperes(limit.most_A)} at most; it is ${amperes(fuse.rating_A)}.`,
        change: usual
          ? null
          : `Fit ${amperes(limit.usual_A)} or less${fits ? ", unless a motor will not start with it" : ""}.`,
      },
    ];
  });
