import { lengthOf, pad, plain } from "./plain.ts";
import { labelled } from "./wrap.ts";

const GAP = "  ";

/** Rows in columns; null when they do not fit. */
function aligned(rows: readonly (readonly string[])[], width: number): string[] | null {
  const columns = Math.max(...rows.map((row) => row.length));
  const widths = Array.from({ length: columns }, (_, c) =>
    Math.max(...rows.map((row) => lengthOf(row[c] ?? ""))),
  );
  const total = widths.reduce((sum, w) => sum + w, 0) + GAP.length * (columns - 1);
  if (total > width) return null;
  return rows.map((row) =>
    row
      .map((cell, c) => pad(cell, widths[c]))
      .join(GAP)
      .trimEnd(),
  );
}

/** Every row as a list under its first cell, for screens too narrow for columns. */
function stacked(rows: readonly (readonly string[])[], width: number): string[] {
  const [head, ...body] = rows;
  return body.flatMap((row) => [
    row[0],
    ...row.slice(1).flatMap((cell, i) => labelled(`  ${head[i + 1]}: `, cell, width)),
  ]);
}

/** A table as lines. The first row is its head; where columns do not fit the width it becomes a list. */
export function table(rows: readonly (readonly string[])[], width: number): string[] {
  const cells = rows.map((row) => row.map(plain));
  return aligned(cells, width) ?? stacked(cells, width);
}
