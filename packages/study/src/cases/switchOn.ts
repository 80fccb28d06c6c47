import { type Circuit, type FuseParameters, meltResponse, type PartParameters } from "@startgap/circuit";
import { amperes, percent } from "../words.ts";
import type { CaseStory } from "./caseStory.ts";
import type { CaseFinding } from "./results.ts";

type Transformer = Extract<PartParameters, { readonly is: "transformer" | "autotransformer" }>;

/**
 * Inrush that protection is chosen to ride through, times the rated current: 25 times for 10 ms, 12 times for
 * 0.1 s. Source: IEEE C37.91 and C57.109 practice (from memory).
 */
const INRUSH = [
  { times: 25, duration_s: 0.01 },
  { times: 12, duration_s: 0.1 },
] as const;

const ratedInput_A = (p: Transformer, input_V: number): number => p.rating_VA / input_V;

/** Rated voltage across the winding or windings that are fed. */
const fed_V = (p: Transformer): number =>
  p.is === "autotransformer" ? p.windings_V[0] + p.windings_V[1] : p.windings_V[0];

/** Every fuse on the way to a transformer with a rating. */
function pairs({ parts }: Circuit): { fuse: FuseParameters; transformer: Transformer }[] {
  const byName = new Map(parts.map((p) => [p.name, p]));
  return parts.flatMap((transformer) => {
    if (transformer.is !== "transformer" && transformer.is !== "autotransformer") return [];
    if (!Number.isFinite(transformer.rating_VA)) return [];
    const way: { fuse: FuseParameters; transformer: Transformer }[] = [];
    let p: PartParameters | undefined = byName.get(transformer.fedBy);
    while (p !== undefined && p.is !== "supply" && p.is !== "autotransformer" && p.is !== "transformer") {
      if (p.is === "fuse" && p.melt !== null) way.push({ fuse: p, transformer });
      p = byName.get(p.fedBy);
    }
    return way;
  });
}

/** A first estimate without the core's own law: the waveform resolution follows the flux. */
export const switchedOn: CaseStory = {
  kind: "transformer switched on",
  about: ({ circuit }) =>
    `${[...new Set(pairs(circuit).map(({ transformer }) => transformer.name))].join(", ")} is switched on with nothing connected: an estimate from usual inrush currents.`,
  skip: ({ circuit }) =>
    pairs(circuit).length > 0 ? null : "No fuse with a curve stands ahead of a transformer with a rating.",
  tell: ({ circuit }) => ({
    report: null,
    events: [],
    findings: pairs(circuit).map(({ fuse, transformer }) => inrushFinding(fuse, transformer)),
  }),
};

function inrushFinding(fuse: FuseParameters, transformer: Transformer): CaseFinding {
  const rated_A = ratedInput_A(transformer, fed_V(transformer));
  const melt = Math.max(
    ...INRUSH.map(({ times, duration_s }) =>
      fuse.melt === null ? 0 : meltResponse(fuse.melt, [{ current_A: times * rated_A, duration_s }]).peak,
    ),
  );
  const peak = amperes(INRUSH[0].times * rated_A);
  const outcome = melt < 0.5 ? "pass" : melt < 1 ? "caution" : "fail";
  return {
    finding: "fuse rides the inrush",
    part: fuse.name,
    case: "transformer switched on",
    outcome,
    gravity: "stops work",
    value: melt,
    limit: 0.5,
    unit: "",
    basis:
      "IEEE C37.91 and C57.109 practice: 25 times the rated current for 10 ms, 12 times for 0.1 s (from memory); half the melting kept in hand",
    says: `${fuse.name}: ${percent(100 * melt)} to melting when ${transformer.name} is switched on, at up to ${peak}.`,
    change:
      outcome === "pass"
        ? null
        : "Fit a fuse with a longer delay, or the next rating that the wire still allows; the waveform tells it more closely.",
  };
}
