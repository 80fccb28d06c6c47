import { type Exponential, type Row, remainders } from "./exponentials.ts";
import { leastSquares } from "./leastSquares.ts";

/** Time constants are kept within these. */
export interface Span {
  readonly shortest_s: number;
  readonly longest_s: number;
}

const STEPS = 40;
/** The damping starts here, falls tenfold with every step that helps and rises tenfold with every other. */
const FIRST_DAMPING = 1e-3;
const LAST_DAMPING = 1e8;
/** A step that lessens the sum of squares by less than this part of it is the last. */
const LITTLE_GAIN = 1e-4;

/**
 * Moves the strengths and the time constants together to the nearest least-squares fit of the rows.
 *
 * Damped Gauss-Newton on ln c and ln tau, so that both stay positive. Never makes the sum of squares larger.
 *
 * Source: Marquardt, J. SIAM 11 (1963) 431 (from memory). Checked by packages/cabinet/test/fuseFit.test.ts.
 */
export function polish(start: readonly Exponential[], rows: readonly Row[], span: Span): Exponential[] {
  let best = [...start];
  let least = squares(best, rows);
  let damping = FIRST_DAMPING;
  for (let n = 0; n < STEPS && damping < LAST_DAMPING && least > 1e-24; n++) {
    const tried = moved(best, gaussNewton(best, rows, damping), span);
    const now = squares(tried, rows);
    damping *= now < least ? 0.1 : 10;
    if (!(now < least)) continue;
    const gain = 1 - now / least;
    [best, least] = [tried, now];
    if (gain < LITTLE_GAIN) break;
  }
  return best;
}

function squares(terms: readonly Exponential[], rows: readonly Row[]): number {
  return remainders(terms, rows).reduce((total, r) => total + r * r, 0);
}

function moved(terms: readonly Exponential[], step: Float64Array, span: Span): Exponential[] {
  const factor = (change: number) => Math.exp(Math.min(1, Math.max(-1, change)));
  return terms.map(({ c, tau_s }, k) => ({
    c: c * factor(step[2 * k]),
    tau_s: Math.min(span.longest_s, Math.max(span.shortest_s, tau_s * factor(step[2 * k + 1]))),
  }));
}

/** Changes of ln c and ln tau, alternating; one damping row each pulls the change towards 0. */
function gaussNewton(terms: readonly Exponential[], rows: readonly Row[], damping: number): Float64Array {
  const n = 2 * terms.length;
  const columns = Array.from({ length: n }, () => new Float64Array(rows.length + n));
  rows.forEach(({ weight, current_A, time_s }, j) => {
    terms.forEach(({ c, tau_s }, k) => {
      const u = Math.min(700, time_s / tau_s);
      const size = weight * c * current_A ** 2;
      columns[2 * k][j] = -size * Math.expm1(-u);
      columns[2 * k + 1][j] = -size * u * Math.exp(-u);
    });
  });
  columns.forEach((column, k) => {
    column[rows.length + k] = Math.sqrt(damping);
  });
  const target = new Float64Array(rows.length + n);
  target.set(remainders(terms, rows).map((r) => -r));
  return leastSquares(columns, target);
}
