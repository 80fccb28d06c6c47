/** Value below which a share of ascending values lies, straight lines between them. */
export function quantile(ascending: readonly number[], share: number): number {
  const place = share * (ascending.length - 1);
  const below = Math.floor(place);
  const above = Math.min(below + 1, ascending.length - 1);
  return ascending[below] + (place - below) * (ascending[above] - ascending[below]);
}

/** Mean of the ranks that equal values share, from 0. */
function ranks(values: readonly number[]): number[] {
  const order = values.map((_, i) => i).sort((a, b) => values[a] - values[b]);
  const rank = new Array<number>(values.length).fill(0);
  for (let first = 0; first < order.length; ) {
    let next = first + 1;
    while (next < order.length && values[order[next]] === values[order[first]]) next++;
    for (let i = first; i < next; i++) rank[order[i]] = (first + next - 1) / 2;
    first = next;
  }
  return rank;
}

/**
 * Rank correlation of two columns, -1 to 1: how far one always rises (or falls) with the other, straight or not. 0
 * where one of them never changes.
 *
 * Source: Spearman's rho with mean ranks for ties. Checked by packages/study/test/vary/spread.test.ts.
 */
export function rankCorrelation(a: readonly number[], b: readonly number[]): number {
  const middle = (a.length - 1) / 2;
  const [x, y] = [ranks(a), ranks(b)].map((list) => list.map((rank) => rank - middle));
  const dot = (u: readonly number[], v: readonly number[]): number =>
    u.reduce((s, one, i) => s + one * v[i], 0);
  const size = Math.sqrt(dot(x, x) * dot(y, y));
  return size === 0 ? 0 : dot(x, y) / size;
}
