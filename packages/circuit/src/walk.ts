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
  /**
   * What a part keeps from fold to unfold: its output's voltage per volt at its input. Here and not in a variable
   * of the part's own, which would be a new number in memory at every evaluation.
   */
  readonly fr: Float64Array;
  readonly fi: Float64Array;
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
    fr: array(parts),
    fi: array(parts),
  };
}

/** |V| of a node. */
export const magnitude = (w: Walk, node: number): number => Math.sqrt(w.vr[node] ** 2 + w.vi[node] ** 2);

/** |I| into a part. */
export const currentInto = (w: Walk, part: number): number => Math.sqrt(w.ir[part] ** 2 + w.ii[part] ** 2);

/** A two-terminal part between its feeder's node and its own. */
export interface Link {
  fold(w: Walk): void;
  unfold(w: Walk): void;
}

/**
 * A series impedance Z in front of what hangs on `out`: fold Y' = Y/(1 + ZY), unfold V_out = V_in/(1 + ZY),
 * I = Y V_out. The factor 1/(1 + ZY) is kept from fold to unfold.
 */
export function series(part: number, at: number, out: number, r: number, x: number): Link {
  if (r === 0 && x === 0) return straight(part, at, out);
  return {
    fold(w) {
      const yr = w.gr[out];
      const yi = w.gi[out];
      const dr = 1 + r * yr - x * yi;
      const di = r * yi + x * yr;
      const q = 1 / (dr * dr + di * di);
      const fr = dr * q;
      const fi = -di * q;
      w.fr[part] = fr;
      w.fi[part] = fi;
      w.gr[at] += yr * fr - yi * fi;
      w.gi[at] += yr * fi + yi * fr;
    },
    unfold(w) {
      const fr = w.fr[part];
      const fi = w.fi[part];
      const vr = w.vr[at] * fr - w.vi[at] * fi;
      const vi = w.vr[at] * fi + w.vi[at] * fr;
      w.vr[out] = vr;
      w.vi[out] = vi;
      w.ir[part] = w.gr[out] * vr - w.gi[out] * vi;
      w.ii[part] = w.gr[out] * vi + w.gi[out] * vr;
    },
  };
}

/** A link without impedance. */
export function straight(part: number, at: number, out: number): Link {
  return {
    fold(w) {
      w.gr[at] += w.gr[out];
      w.gi[at] += w.gi[out];
    },
    unfold(w) {
      const vr = w.vr[at];
      const vi = w.vi[at];
      w.vr[out] = vr;
      w.vi[out] = vi;
      w.ir[part] = w.gr[out] * vr - w.gi[out] * vi;
      w.ii[part] = w.gr[out] * vi + w.gi[out] * vr;
    },
  };
}

/** An open contact: nothing hangs on the feeder, nothing behind it is live. */
export function unfoldOpen(w: Walk, part: number, out: number): void {
  w.vr[out] = 0;
  w.vi[out] = 0;
  w.ir[part] = 0;
  w.ii[part] = 0;
}
