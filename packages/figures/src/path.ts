/** Path data written as a template: numbers to the tenth of a pixel, pieces of path as they are. */

/**
 * As path`M${x},${y}H${right}`.
 *
 * @throws RangeError if a number is not finite
 */
export function path(words: TemplateStringsArray, ...values: readonly (number | string)[]): string {
  return words.reduce((d, word, i) => d + written(values[i - 1]) + word);
}

function written(value: number | string): string {
  if (typeof value === "string") return value;
  if (!Number.isFinite(value)) throw new RangeError(`invalid path: ${value} (expected a finite number)`);
  return String(Math.round(value * 10) / 10);
}

/** A line down a box. */
export const upright = (
  x: number,
  { top, bottom }: { readonly top: number; readonly bottom: number },
): string => path`M${x},${top}V${bottom}`;

/** A line across a box. */
export const level = (
  y: number,
  { left, right }: { readonly left: number; readonly right: number },
): string => path`M${left},${y}H${right}`;

/** Two strokes that cross. */
export const cross = (x: number, y: number, r: number): string =>
  path`M${x - r},${y - r}l${2 * r},${2 * r}m0,${-2 * r}l${-2 * r},${2 * r}`;
