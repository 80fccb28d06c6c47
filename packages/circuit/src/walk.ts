/**
 * The working arrays of one fold/unfold walk; allocated once, reused for every evaluation.
 *
 * Nodes are the outputs of parts. Folding goes from the leaves to the supply and gathers at every node the
 * admittance of all that hangs on it; unfolding goes back and gives every voltage and current.
 */
export interface Walk {
  /** Admittance hanging on a node, siemens, real and imaginary. */
  readonly gr: Float64Array;
  readonly gi: Float64Array;
  /** Voltage of a node, rms phasor. */
  readonly vr: Float64Array;
  readonly vi: Float64Array;
  /** Current into a part, rms phasor. */
  readonly ir: Float64Array;
  readonly ii: Float64Array;
}

export function createWalk(nodes: number, parts: number): Walk {
  const array = (length: number): Float64Array => new Float64Array(length);
  return {
    gr: array(nodes),
    gi: array(nodes),
    vr: array(nodes),
    vi: array(nodes),
    ir: array(parts),
    ii: array(parts),
  };
}

/** |V| of a node. */
export const magnitude = (w: Walk, node: number): number => Math.sqrt(w.vr[node] ** 2 + w.vi[node] ** 2);

/** |I| into a part. */
export const currentInto = (w: Walk, part: number): number => Math.sqrt(w.ir[part] ** 2 + w.ii[part] ** 2);

/**
 * Folds a series impedance Z in front of what hangs on `out`: Y' = Y/(1 + ZY), added to node `at`.
 */
export function foldSeries(w: Walk, at: number, out: number, r: number, x: number): void {
  const yr = w.gr[out];
  const yi = w.gi[out];
  const dr = 1 + r * yr - x * yi;
  const di = r * yi + x * yr;
  const q = 1 / (dr * dr + di * di);
  w.gr[at] += (yr * dr + yi * di) * q;
  w.gi[at] += (yi * dr - yr * di) * q;
}

/** Unfolds a series impedance: V_out = V_in/(1 + ZY), I = Y V_out. */
export function unfoldSeries(w: Walk, part: number, at: number, out: number, r: number, x: number): void {
  const yr = w.gr[out];
  const yi = w.gi[out];
  const dr = 1 + r * yr - x * yi;
  const di = r * yi + x * yr;
  const q = 1 / (dr * dr + di * di);
  const vr = (w.vr[at] * dr + w.vi[at] * di) * q;
  const vi = (w.vi[at] * dr - w.vr[at] * di) * q;
  w.vr[out] = vr;
  w.vi[out] = vi;
  w.ir[part] = yr * vr - yi * vi;
  w.ii[part] = yr * vi + yi * vr;
}

/** An open contact: nothing hangs on the feeder, nothing behind it is live. */
export function unfoldOpen(w: Walk, part: number, out: number): void {
  w.vr[out] = 0;
  w.vi[out] = 0;
  w.ir[part] = 0;
  w.ii[part] = 0;
}
