/** Words in a row that must not overlap. */

interface Block {
  items: number[];
  length: number;
  /** Where the block would best stand: its middle. */
  middle: number;
}

/**
 * Spread words along a line so that none overlaps the next and all stay within it. Words that would overlap form a
 * block, and a block stands where the sum of squares of the ways from its words' wishes is least.
 * Checked by test/spread.test.ts.
 *
 * @param wishes   where the middle of each would best stand, px
 * @param lengths  px
 * @returns the middles, px, in the order given; when there is no room for all they run past the end
 */
export function spread(
  wishes: readonly number[],
  lengths: readonly number[],
  from: number,
  to: number,
): number[] {
  const order = wishes.map((_, i) => i).sort((a, b) => wishes[a] - wishes[b] || a - b);
  const blocks: Block[] = [];
  for (const i of order) {
    blocks.push(within({ items: [i], length: lengths[i], middle: wishes[i] }, from, to));
    while (blocks.length > 1 && overlap(blocks[blocks.length - 2], blocks[blocks.length - 1])) {
      const [last, before] = [blocks.pop()!, blocks.pop()!];
      blocks.push(within(joined(before, last, wishes, lengths), from, to));
    }
  }
  const out: number[] = new Array(wishes.length).fill(0);
  for (const block of blocks) {
    let edge = block.middle - block.length / 2;
    for (const i of block.items) {
      out[i] = edge + lengths[i] / 2;
      edge += lengths[i];
    }
  }
  return out;
}

function overlap(a: Block, b: Block): boolean {
  return a.middle + a.length / 2 > b.middle - b.length / 2 + 1e-9;
}

function within(block: Block, from: number, to: number): Block {
  const half = block.length / 2;
  return { ...block, middle: Math.max(Math.min(block.middle, to - half), from + half) };
}

/** Two blocks as one, standing at the mean of what its words wish for it. */
function joined(a: Block, b: Block, wishes: readonly number[], lengths: readonly number[]): Block {
  const items = [...a.items, ...b.items];
  const length = a.length + b.length;
  let edge = -length / 2;
  let sum = 0;
  for (const i of items) {
    sum += wishes[i] - (edge + lengths[i] / 2);
    edge += lengths[i];
  }
  return { items, length, middle: sum / items.length };
}
