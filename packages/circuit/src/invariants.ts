import type { Mode } from "./guardTable.ts";
import type { CircuitPlant } from "./plant.ts";

/** Power of the whole circuit at one state. The supply's power is all that leaves its internal voltage. */
export interface PowerBalance {
  readonly supply_W: number;
  readonly lost_W: number;
  readonly shaft_W: number;
  /** Rate at which kinetic energy is stored. */
  readonly stored_W: number;
  /** |supply - lost - shaft - stored| over the larger of supply and stored power. */
  readonly residual: number;
}

/**
 * Supply power = all losses + shaft power + rate of stored kinetic energy.
 *
 * Losses are taken winding by winding and branch by branch from their own currents, not from the
 * admittances that the walk folds, so the balance can fail.
 */
export function powerBalance(plant: CircuitPlant, y: readonly number[], mode: Mode): PowerBalance {
  const walk = plant.solve(y, mode);
  let supply_W = 0;
  let lost_W = 0;
  let shaft_W = 0;
  let stored_W = 0;
  for (const model of plant.models) {
    const use = model.power(walk, y);
    supply_W += use.given_W ?? 0;
    lost_W += use.lost_W;
    shaft_W += use.shaft_W;
    stored_W += use.stored_W;
  }
  const scale = Math.max(Math.abs(supply_W), Math.abs(stored_W), Math.abs(shaft_W), 1e-9);
  return {
    supply_W,
    lost_W,
    shaft_W,
    stored_W,
    residual: Math.abs(supply_W - lost_W - shaft_W - stored_W) / scale,
  };
}

/**
 * Largest imbalance of current at any node over the largest current, after a solve: what enters a node
 * through its feeder against what leaves it into the parts fed there (Kirchhoff's current law), with the
 * transformers' ampere-turn balance between their sides.
 */
export function kirchhoffResidual(plant: CircuitPlant, y: readonly number[], mode: Mode): number {
  const walk = plant.solve(y, mode);
  const { layout } = plant;
  const sum = Array.from({ length: layout.nodes }, () => ({ re: 0, im: 0 }));
  for (const { part, at } of [...layout.places, ...layout.burdens.map(({ place }) => place)]) {
    if (at < 0) continue;
    sum[at].re += walk.ir[part];
    sum[at].im += walk.ii[part];
  }
  let worst = 0;
  let scale = 1e-9;
  layout.places.forEach((place, part) => {
    scale = Math.max(scale, Math.hypot(walk.ir[part], walk.ii[part]));
    if (place.out.length === 0) return;
    const expected = intoLoads(plant, part, sum, walk.vr, walk.vi);
    worst = Math.max(worst, Math.hypot(walk.ir[part] - expected.re, walk.ii[part] - expected.im));
  });
  return worst / scale;
}

interface Phasor {
  readonly re: number;
  readonly im: number;
}

/** The current a part must take for what its loads draw: the same, or through its turns, plus excitation. */
function intoLoads(
  plant: CircuitPlant,
  part: number,
  sum: readonly Phasor[],
  vr: Float64Array,
  vi: Float64Array,
): Phasor {
  const p = plant.layout.circuit.parts[part];
  const { out, at } = plant.layout.places[part];
  if (p.is !== "transformer" && p.is !== "autotransformer") return sum[out[0]];
  const { conductance_S: g, susceptance_S: b } = p.excitation;
  const excite = { re: g * vr[at] + b * vi[at], im: g * vi[at] - b * vr[at] };
  const shares = sharesOf(p);
  return out.reduce<Phasor>(
    (total, node, k) => ({
      re: total.re + shares[k] * sum[node].re,
      im: total.im + shares[k] * sum[node].im,
    }),
    excite,
  );
}

function sharesOf(p: {
  readonly is: string;
  readonly windings_V: readonly [number, number];
}): readonly number[] {
  const [a, b] = p.windings_V;
  return p.is === "transformer" ? [b / a] : [a / (a + b), b / (a + b), 1];
}

/**
 * How far one term of a fuse's heat falls although it stands below the end it relaxes to: 0 for every
 * physical record. A term obeys dx/dt = (a h - x)/tau, so it can only fall while x > a h.
 *
 * @param term x over time
 * @param end a (I/I_inf)^2 at the same times
 * @returns the largest such fall between neighbouring samples
 */
export function unphysicalCooling(term: ArrayLike<number>, end: ArrayLike<number>): number {
  let worst = 0;
  for (let i = 1; i < term.length; i++) {
    const driven = term[i - 1] <= Math.min(end[i - 1], end[i]);
    if (driven) worst = Math.max(worst, term[i - 1] - term[i]);
  }
  return worst;
}
