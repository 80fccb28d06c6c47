/**
 * The working arrays of the instantaneous walk. What hangs on a node obeys an affine law
 *
 *     di/dt = alpha + beta v
 *
 * with its present current i; folding gathers alpha, beta and i at every node, unfolding gives every voltage
 * and every di/dt.
 */
export interface WaveWalk {
  /** All that folding gathers, to be cleared at once. */
  readonly folded: Float64Array;
  /** By node. */
  readonly alpha: Float64Array;
  readonly beta: Float64Array;
  readonly current: Float64Array;
  readonly v: Float64Array;
  /** By part: current into it and its rate. */
  readonly into: Float64Array;
  readonly rate: Float64Array;
}

export function createWaveWalk(nodes: number, parts: number): WaveWalk {
  const folded = new Float64Array(3 * nodes);
  return {
    folded,
    alpha: folded.subarray(0, nodes),
    beta: folded.subarray(nodes, 2 * nodes),
    current: folded.subarray(2 * nodes),
    v: new Float64Array(nodes),
    into: new Float64Array(parts),
    rate: new Float64Array(parts),
  };
}

/** A two-terminal part between its feeder's node and its own. */
export interface WaveLink {
  fold(w: WaveWalk): void;
  unfold(w: WaveWalk): void;
}

/**
 * A series R-L in front of what hangs on `out`: v_in = v + R i + L di/dt and di/dt = alpha + beta v give
 *
 *     beta' = beta/(1 + L beta)     alpha' = (alpha - beta R i)/(1 + L beta)
 *
 * It owns no state: its current is the sum of what hangs on it. However short the cable, it adds no mode.
 */
export function waveSeries(part: number, at: number, out: number, r: number, l: number): WaveLink {
  return {
    fold(w) {
      const i = w.current[out];
      const q = 1 / (1 + l * w.beta[out]);
      w.alpha[at] += (w.alpha[out] - w.beta[out] * r * i) * q;
      w.beta[at] += w.beta[out] * q;
      w.current[at] += i;
    },
    unfold(w) {
      const i = w.current[out];
      const v = (w.v[at] - r * i - l * w.alpha[out]) / (1 + l * w.beta[out]);
      w.v[out] = v;
      w.into[part] = i;
      w.rate[part] = w.alpha[out] + w.beta[out] * v;
    },
  };
}

/**
 * An open contact: upstream sees nothing. What it cuts off goes on among itself with its currents summing
 * to zero, so its voltage is the one that keeps them so: v = -alpha/beta.
 */
export function waveOpen(w: WaveWalk, part: number, out: number): void {
  w.v[out] = w.beta[out] > 0 ? -w.alpha[out] / w.beta[out] : 0;
  w.into[part] = 0;
  w.rate[part] = 0;
}
