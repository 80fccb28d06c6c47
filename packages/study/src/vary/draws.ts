/**
 * A reproducible stream of numbers in [0, 1): a 32-bit counter stepped by the golden ratio and mixed twice.
 *
 * Good enough for a few thousand draws of a dozen quantities; not for secrets.
 *
 * Checked by packages/study/test/vary/draws.test.ts: mean, variance and neighbours of 100,000 numbers.
 */
export function stream(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 16), 0x85ebca6b);
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
    return ((mixed ^ (mixed >>> 16)) >>> 0) / 2 ** 32;
  };
}

/**
 * Latin hypercube: every one of `count` equal slices of every quantity is drawn from just once, so that few draws
 * cover all of each range.
 *
 * @returns a row a draw, a share in [0, 1) a quantity
 * Source: McKay, Beckman, Conover, Technometrics 21 (1979), 239-245 (from memory).
 * Checked by packages/study/test/vary/draws.test.ts.
 */
export function latinHypercube(count: number, quantities: number, random: () => number): number[][] {
  const rows = Array.from({ length: count }, () => new Array<number>(quantities).fill(0));
  for (let q = 0; q < quantities; q++) {
    const slices = shuffled(count, random);
    for (let i = 0; i < count; i++) rows[i][q] = (slices[i] + random()) / count;
  }
  return rows;
}

/** 0 to count - 1 in random order. */
function shuffled(count: number, random: () => number): number[] {
  const order = Array.from({ length: count }, (_, i) => i);
  for (let i = count - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    [order[i], order[j]] = [order[j], order[i]];
  }
  return order;
}
