import type { AutotransformerParameters, FuseParameters, TransformerParameters } from "@startgap/circuit";
import { amperes, percent } from "../words.ts";
import type { ProtectionFinding } from "./results.ts";
import { partsOf, type Scene } from "./scene.ts";
import { nextSize_A } from "./sizes.ts";
import { within } from "./within.ts";

type Wound = AutotransformerParameters | TransformerParameters;

/**
 * Rated full-load input current of two windings in series, each at its rated current.
 *
 * A load on the first leg puts k1 I into the line and the second winding, k2 I into the first (see `autotransformerModel`);
 * both windings reach their ratings S/V1 and S/V2 together, at a line current of S/V2. On the second leg it is S/V1.
 * With loads on both the smaller counts.
 *
 * @param legs which legs carry loads
 * @returns A; the through rating is this times the input voltage
 */
export function ratedInput_A(
  { windings_V: [first_V, second_V], rating_VA }: Pick<AutotransformerParameters, "windings_V" | "rating_VA">,
  legs: { readonly first: boolean; readonly second: boolean },
): number {
  const [first_A, second_A] = [rating_VA / second_V, rating_VA / first_V];
  if (legs.first === legs.second) return Math.min(first_A, second_A);
  return legs.first ? first_A : second_A;
}

/** Rated input current of either kind of transformer as it stands in the cabinet. */
export function inputOf(scene: Scene, p: Wound): number {
  if (p.is === "transformer") return p.rating_VA / p.windings_V[0];
  const fed = scene.circuit.parts.filter((q) => q.is !== "supply" && q.fedBy === p.name);
  const on = (leg: string): boolean => fed.some((q) => q.is !== "supply" && q.leg === leg);
  return ratedInput_A(p, { first: on("first"), second: on("second") });
}

export interface Largest {
  readonly rating_A: number;
  readonly share: number;
  readonly basis: string;
}

/** Share of rated input current up to which a fuse is the transformer's overcurrent protection. */
export function largestForTransformer(scene: Scene, p: Wound): Largest {
  const rated_A = inputOf(scene, p);
  const auto = p.is === "autotransformer";
  const basis = auto ? "NEC 450.4(A)" : "NEC Table 450.3(B), primary only";
  if (rated_A >= 9) {
    const rating_A = nextSize_A(scene.rules, 1.25 * rated_A);
    return { rating_A, share: 1.25, basis: `${basis}: 125 %, the next standard size allowed` };
  }
  const share = !auto && rated_A < 2 ? 3 : 1.67;
  return {
    rating_A: share * rated_A,
    share,
    basis: `${basis}: ${percent(100 * share)} below ${rated_A < 2 && !auto ? 2 : 9} A`,
  };
}

/** Rise of a winding over its rated rise goes with this power of the load. Source: IEEE C57.96 (from memory). */
const RISE_POWER = 1.6;

/** What a larger fuse would let the transformer bear for ever. */
function upsizing(scene: Scene, fuse: FuseParameters, rated_A: number): string {
  const next_A = nextSize_A(scene.rules, fuse.rating_A * 1.001);
  const melts = fuse.clearing?.minimumFusing_A ?? fuse.rating_A;
  const load = (rating: number): number => (melts * rating) / fuse.rating_A / rated_A;
  const [now, then] = [load(fuse.rating_A), load(next_A)];
  return `This fuse lets ${percent(100 * now)} of rated current flow for ever, one of ${amperes(next_A)} ${percent(100 * then)}, with ${percent(100 * then ** RISE_POWER)} of the rated rise.`;
}

/** Small control transformers are let off where they are part of a controller. */
export const CONTROL_VA = 50;

/** Every transformer with a rating against the fuse ahead of it. */
export const transformerFuseFindings = (scene: Scene): ProtectionFinding[] =>
  [...partsOf(scene, "autotransformer"), ...partsOf(scene, "transformer")].flatMap(
    (p): ProtectionFinding[] => {
      if (!Number.isFinite(p.rating_VA)) return [];
      const fuse = scene.tree.fuseAhead(p.name);
      const { rating_A, basis } = largestForTransformer(scene, p);
      const base = {
        finding: "fuse against transformer",
        part: p.name,
        gravity: "danger",
        limit: rating_A,
        unit: "A",
      } as const;
      if (fuse === null) {
        const says = `${p.name}: no fuse stands ahead of it in this file.`;
        const change = `Put a fuse of ${amperes(rating_A)} or less in each line of its input.`;
        return [{ ...base, basis, outcome: "fail", value: null, says, change }];
      }
      const control = p.is === "transformer" && p.rating_VA < CONTROL_VA;
      const seen_A = (fuse.rating_A * scene.nominal_V(fuse.name)) / scene.nominal_V(p.name);
      const fits = within(seen_A, rating_A);
      const outcome = fits ? "pass" : control ? "caution" : "fail";
      const rated_A = inputOf(scene, p);
      const through = seen_A === fuse.rating_A ? "" : `, which lets ${amperes(seen_A)} through to it`;
      const more = p.is === "autotransformer" ? ` ${upsizing(scene, fuse, rated_A)}` : "";
      return [
        {
          ...base,
          outcome,
          value: seen_A,
          basis:
            control && !fits
              ? `${basis}; NEC 430.72(C) lets units below 50 VA in a controller off (from memory)`
              : basis,
          says: `${p.name}: takes ${amperes(rated_A)} at full load, may have a fuse of ${amperes(rating_A)} and has ${amperes(fuse.rating_A)} (${fuse.name})${through}.${more}`,
          change: fits ? null : `Put a fuse of ${amperes(rating_A)} or less ahead of ${p.name}.`,
        },
      ];
    },
  );
