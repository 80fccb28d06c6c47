import { SAMPLES_A_CYCLE } from "./samples.ts";

/**
 * Rms over the cycle that ends at each sample: sqrt(mean of the last 128 squares). Rows of the first cycle
 * take what there is.
 *
 * The sum is renewed from scratch every cycle, so that rounding does not build up.
 */
export function rollingRms(read: (row: number) => number, rows: number): Float64Array {
  const out = new Float64Array(rows);
  const squares = new Float64Array(rows);
  for (let row = 0; row < rows; row++) squares[row] = read(row) ** 2;
  let sum = 0;
  for (let row = 0; row < rows; row++) {
    if (row % SAMPLES_A_CYCLE === 0) {
      sum = 0;
      for (let k = Math.max(0, row - SAMPLES_A_CYCLE + 1); k <= row; k++) sum += squares[k];
    } else {
      sum += squares[row];
      if (row >= SAMPLES_A_CYCLE) sum -= squares[row - SAMPLES_A_CYCLE];
    }
    out[row] = Math.sqrt(Math.max(0, sum) / Math.min(row + 1, SAMPLES_A_CYCLE));
  }
  return out;
}

/**
 * Magnitude of the harmonics of one cycle, peak values, orders 0 (mean) to `highest`.
 *
 * Discrete Fourier sum over 128 equally spaced samples: exact for orders below 64.
 */
export function harmonics(read: (row: number) => number, first: number, highest: number): number[] {
  return Array.from({ length: highest + 1 }, (_, order) => {
    let re = 0;
    let im = 0;
    for (let k = 0; k < SAMPLES_A_CYCLE; k++) {
      const angle = (2 * Math.PI * order * k) / SAMPLES_A_CYCLE;
      re += read(first + k) * Math.cos(angle);
      im -= read(first + k) * Math.sin(angle);
    }
    return ((order === 0 ? 1 : 2) * Math.hypot(re, im)) / SAMPLES_A_CYCLE;
  });
}
