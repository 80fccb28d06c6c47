import { type MeltTerms, meltingTime_s } from "@startgap/circuit";
import { amperes } from "../words.ts";
import type { ProtectionFinding } from "./results.ts";
import { factsOf, partsOf, type Scene } from "./scene.ts";
import type { FusePart } from "./tree.ts";

/** Said whatever the curves say. */
const CAUTION =
  "A fuse in a neutral is no protection: when it opens the load goes dead and its other wire stays live.";
const BASIS =
  "NEC 240.22 (no overcurrent device in a grounded conductor unless all open together); IEC 60364-4-43 431.2";

/** Currents at which the neutral's fuse may open no later than the line's; null when there are none. */
export interface NeutralFirst {
  readonly from_A: number;
  readonly to_A: number;
}

const STEPS = 400;

/**
 * Whether the line's fuse always opens before the neutral's, over every current that melts either, cold and after a
 * standing current, with the line's fuse at its slowest and the neutral's at its fastest.
 *
 * @param most_A largest fault current
 * @param standing_A running current that has warmed both
 * Checked by packages/study/test/protectionNeutral.test.ts.
 */
export function neutralFirst(
  line: MeltTerms,
  neutral: MeltTerms,
  most_A: number,
  standing_A: number,
): NeutralFirst | null {
  const least_A = Math.min(line.minimumFusing_A, neutral.minimumFusing_A);
  const highest = Math.max(most_A, 2 * least_A);
  const bad = Array.from(
    { length: STEPS + 1 },
    (_, k) => least_A * 1.0001 * (highest / least_A) ** (k / STEPS),
  ).filter((current_A) => opensFirst(line, neutral, current_A, standing_A));
  return bad.length === 0 ? null : { from_A: bad[0], to_A: bad[bad.length - 1] };
}

function opensFirst(line: MeltTerms, neutral: MeltTerms, current_A: number, standing_A: number): boolean {
  return [0, standing_A].some((preload_A) => {
    const opens_s = meltingTime_s(neutral, current_A, Math.min(preload_A, current_A));
    return (
      Number.isFinite(opens_s) && opens_s <= meltingTime_s(line, current_A, Math.min(preload_A, current_A))
    );
  });
}

/** Every fuse that stands in a neutral, against the line's fuse that carries the same current. */
export const neutralFindings = (scene: Scene): ProtectionFinding[] =>
  partsOf(scene, "fuse").flatMap((fuse) => {
    if (factsOf(scene, "fuse", fuse.name)?.wire === "neutral") return [pairFinding(scene, fuse)];
    return onLeg(scene, fuse) ? [bothPoles(fuse)] : [];
  });

/** A pair of fuses behind a midpoint: one of the two stands in the midpoint's wire. */
const onLeg = (scene: Scene, fuse: FusePart): boolean => {
  if (fuse.poles !== 2 || fuse.leg === "both") return false;
  const way = scene.tree.ahead(fuse.name);
  const at = way.findIndex((p) => p.is === "autotransformer");
  if (at < 0 || way.slice(0, at).some((p) => p.is === "transformer")) return false;
  const below = at === 0 ? fuse : way[at - 1];
  return below.is !== "supply" && below.leg !== "both";
};

const base = (part: string) =>
  ({
    finding: "fuse in a neutral",
    part,
    gravity: "danger",
    value: null,
    limit: null,
    unit: "A",
    basis: BASIS,
  }) as const;

const bothPoles = (fuse: FusePart): ProtectionFinding => ({
  ...base(fuse.name),
  outcome: "fail",
  says: `${fuse.name}: one of its two fuses stands in the midpoint's wire, and of two equal fuses either may open first. ${CAUTION}`,
  change: "Take the fuse out of the midpoint's wire and fuse the line alone.",
});

/** The fuse in the line through which the same current flows: all the same consumers, no transformer between. */
function partner(scene: Scene, fuse: FusePart): FusePart | null {
  const mine = scene.tree.consumersBehind(fuse.name).length;
  const near = [...scene.tree.ahead(fuse.name), ...scene.tree.behind(fuse.name)];
  const found = near.find(
    (p): p is FusePart =>
      p.is === "fuse" &&
      factsOf(scene, "fuse", p.name)?.wire === "line" &&
      scene.tree.consumersBehind(p.name).length === mine &&
      scene.nominal_V(p.name) === scene.nominal_V(fuse.name),
  );
  return found ?? null;
}

function pairFinding(scene: Scene, fuse: FusePart): ProtectionFinding {
  const line = partner(scene, fuse);
  const change = `Take ${fuse.name} out, and let a device that opens both wires together do the switching.`;
  if (line?.clearing == null || fuse.melt === null) {
    const says = `${fuse.name}: no fuse with a curve is known in the line that carries the same current. ${CAUTION}`;
    return { ...base(fuse.name), outcome: "fail", says, change };
  }
  const most_A = scene.faultBefore(fuse.name).current_A;
  const standing_A = scene.situations.running.current_A(fuse.name);
  const found = neutralFirst(line.clearing, fuse.melt, most_A, standing_A);
  const says =
    found === null
      ? `${fuse.name}: ${line.name} opens first at every current up to ${amperes(most_A)}. ${CAUTION}`
      : `${fuse.name}: it may open before ${line.name} from ${amperes(found.from_A)} to ${amperes(found.to_A)}. ${CAUTION}`;
  return { ...base(fuse.name), outcome: found === null ? "caution" : "fail", says, change };
}
