import { ascending, type Exponential, joined, misfit, type Row } from "./exponentials.ts";
import { nonNegativeLeastSquares } from "./nonNegative.ts";
import { polish, type Span } from "./polish.ts";

/** Each term is a state to be integrated: no more than these, unless the rows cannot be kept otherwise. */
const TERMS_WANTED = 6;
/** More than these are merged even where it costs a little of the fit, which the thinning would cost anyhow. */
const MANY_TERMS = 8;
/** A weighted offset this small is not worth another term, a quicker one or a slower one. */
const CLOSE_ENOUGH = 0.0005;
/** What may be given up to come down to the terms wanted. */
const GIVEN_UP = 0.018;
const PER_DECADE = 10;

/**
 * The few exponentials that keep the rows: picked from a grid, merged, polished and thinned.
 *
 * @param rows in order of time, at least two
 * @param shortest_s, longest_s times of the first and the last given point; time constants are sought from a
 *   tenth of the first to a hundred times the last, in the narrowest span that serves
 */
export function pickTerms(rows: readonly Row[], shortest_s: number, longest_s: number): Exponential[] {
  const span = narrowestSpan(rows, shortest_s, longest_s);
  const picked = onGrid(rows, span);
  const merged = polish(merge(picked), rows, span);
  const keeps = misfit(merged, rows) <= Math.max(CLOSE_ENOUGH, misfit(picked, rows));
  const many = picked.length > MANY_TERMS;
  return thin(keeps || many ? merged : polish(picked, rows, span), rows, span);
}

/** The narrowest span of time constants that keeps the rows about as well as the widest does. */
function narrowestSpan(rows: readonly Row[], start_s: number, end_s: number): Span {
  const shortest = [10, 3, 1, 0.5, 0.25, 0.1].map((part) => part * start_s);
  const longest = [0.5, 1, 2, 5, 20, 100].map((part) => part * end_s);
  const widest = { shortest_s: shortest[5], longest_s: longest[5] };
  const enough = Math.max(CLOSE_ENOUGH, 1.05 * misfit(onGrid(rows, widest), rows));
  const serves = (span: Span) =>
    span.shortest_s < span.longest_s && misfit(onGrid(rows, span), rows) <= enough;
  const longest_s = longest.find((tau) => serves({ ...widest, longest_s: tau })) ?? widest.longest_s;
  const shortest_s = shortest.find((tau) => serves({ shortest_s: tau, longest_s })) ?? widest.shortest_s;
  return { shortest_s, longest_s };
}

/** Non-negative least squares on a logarithmic grid: the strengths that are not 0, quickest first. */
function onGrid(rows: readonly Row[], { shortest_s, longest_s }: Span): Exponential[] {
  const ratio = longest_s / shortest_s;
  const last = 1 + Math.ceil(PER_DECADE * Math.log10(ratio));
  const grid = Array.from({ length: last + 1 }, (_, k) => shortest_s * ratio ** (k / last));
  const c = nonNegativeLeastSquares(
    grid.map((tau) =>
      Float64Array.from(rows, (row) => -row.weight * row.current_A ** 2 * Math.expm1(-row.time_s / tau)),
    ),
    Float64Array.from(rows, (row) => row.weight),
  );
  return grid.map((tau_s, k) => ({ c: c[k], tau_s })).filter((term) => term.c > 0);
}

/** The grid answers one true term with two neighbours; they are one. */
function merge(terms: readonly Exponential[]): Exponential[] {
  const merged: Exponential[] = [];
  for (const term of terms) {
    const last = merged[merged.length - 1];
    if (last !== undefined && term.tau_s < last.tau_s * 10 ** (1.5 / PER_DECADE))
      merged[merged.length - 1] = joined(last, term);
    else merged.push(term);
  }
  return merged;
}

/** Joins the two nearest terms, again and again, while the rows are kept. */
function thin(terms: readonly Exponential[], rows: readonly Row[], span: Span): Exponential[] {
  let best = ascending(terms);
  const enough = Math.max(CLOSE_ENOUGH, 1.1 * misfit(best, rows));
  while (best.length > 1) {
    const k = nearestPair(best);
    const fewer = [...best.slice(0, k), joined(best[k], best[k + 1]), ...best.slice(k + 2)];
    const polished = ascending(polish(fewer, rows, span));
    const allowed = best.length > TERMS_WANTED ? Math.max(enough, GIVEN_UP) : enough;
    if (misfit(polished, rows) > allowed) break;
    best = polished;
  }
  return best;
}

function nearestPair(terms: readonly Exponential[]): number {
  const ratio = (k: number) => terms[k + 1].tau_s / terms[k].tau_s;
  let nearest = 0;
  for (let k = 1; k < terms.length - 1; k++) if (ratio(k) < ratio(nearest)) nearest = k;
  return nearest;
}
