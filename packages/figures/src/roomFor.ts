/** Room for words within a region of any shape. */

import type { Box } from "./axes.ts";

/** Side of the cells in which a plot is looked at, px. */
const CELL = 4;

/** A plot cut into cells, each with the name of its region. */
export interface Cells {
  readonly box: Box;
  readonly columns: number;
  readonly rows: number;
  /** Row by row from the top. */
  readonly names: readonly string[];
}

export function cellsOf(box: Box, nameAt: (x: number, y: number) => string): Cells {
  const columns = Math.max(1, Math.floor((box.right - box.left) / CELL));
  const rows = Math.max(1, Math.floor((box.bottom - box.top) / CELL));
  const names = Array.from({ length: rows * columns }, (_, i) =>
    nameAt(box.left + ((i % columns) + 0.5) * CELL, box.top + (Math.floor(i / columns) + 0.5) * CELL),
  );
  return { box, columns, rows, names };
}

/**
 * The roomiest place for words of a size within a region: all of it in that region and clear of boxes already taken,
 * as far from every edge as can be, and of equals the one nearest to the region's middle.
 *
 * @returns the box, px; null when they fit nowhere
 */
export function roomFor(
  cells: Cells,
  name: string,
  size: { readonly width: number; readonly height: number },
  taken: readonly Box[] = [],
): Box | null {
  const { box, columns, rows } = cells;
  const sums = blockedSums(cells, name, taken);
  const [wide, tall] = [Math.ceil(size.width / CELL), Math.ceil(size.height / CELL)];
  const isFree = (column: number, row: number, grown: number): boolean => {
    const [left, top] = [column - grown, row - grown];
    const [right, bottom] = [column + wide + grown, row + tall + grown];
    return (
      left >= 0 && top >= 0 && right <= columns && bottom <= rows && sums(left, top, right, bottom) === 0
    );
  };
  const middle = middleOf(cells, name);
  let found: { column: number; row: number; grown: number; far: number } | null = null;
  for (let row = 0; row + tall <= rows; row++) {
    for (let column = 0; column + wide <= columns; column++) {
      const least: number = found?.grown ?? 0;
      if (!isFree(column, row, least)) continue;
      let grown: number = least;
      while (grown < MOST_CLEAR && isFree(column, row, grown + 1)) grown++;
      const far = Math.hypot(column + wide / 2 - middle.column, row + tall / 2 - middle.row);
      if (found === null || grown > found.grown || far < found.far) found = { column, row, grown, far };
    }
  }
  if (found === null) return null;
  const [left, top] = [box.left + found.column * CELL, box.top + found.row * CELL];
  return { left, right: left + wide * CELL, top, bottom: top + tall * CELL };
}

/** Cells of clearance past which more is no better. */
const MOST_CLEAR = 6;

/** How many cells of a rectangle are not of the region or taken: by sums over all rectangles from the corner. */
function blockedSums(
  { box, columns, rows, names }: Cells,
  name: string,
  taken: readonly Box[],
): (left: number, top: number, right: number, bottom: number) => number {
  const sums = new Int32Array((columns + 1) * (rows + 1));
  const at = (column: number, row: number): number => row * (columns + 1) + column;
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const [x, y] = [box.left + column * CELL, box.top + row * CELL];
      const used = taken.some((t) => x < t.right && x + CELL > t.left && y < t.bottom && y + CELL > t.top);
      const blocked = used || names[row * columns + column] !== name ? 1 : 0;
      sums[at(column + 1, row + 1)] =
        blocked + sums[at(column, row + 1)] + sums[at(column + 1, row)] - sums[at(column, row)];
    }
  }
  return (left, top, right, bottom) =>
    sums[at(right, bottom)] - sums[at(left, bottom)] - sums[at(right, top)] + sums[at(left, top)];
}

function middleOf({ columns, names }: Cells, name: string): { column: number; row: number } {
  let [column, row, count] = [0, 0, 0];
  names.forEach((own, i) => {
    if (own !== name) return;
    column += i % columns;
    row += Math.floor(i / columns);
    count++;
  });
  return { column: column / Math.max(1, count), row: row / Math.max(1, count) };
}
