/** Where along an axis something holds. */

export interface Span {
  readonly from: number;
  readonly to: number;
}

/**
 * Stretches of an axis over which a condition holds, from the first sample of each to its last.
 *
 * @param at  ascending
 */
export function spansWhere(at: readonly number[], holds: (index: number) => boolean): Span[] {
  const spans: Span[] = [];
  let open = -1;
  for (let i = 0; i <= at.length; i += 1) {
    const held = i < at.length && holds(i);
    if (held && open === -1) open = i;
    if (held || open === -1) continue;
    spans.push({ from: at[open], to: at[i - 1] });
    open = -1;
  }
  return spans;
}
