/** The solver's own tolerance is 1e-6; digits beyond these are noise that changes from machine to machine. */
const DIGITS = 7;

function settled(value: unknown): unknown {
  if (typeof value === "number") return Number.isFinite(value) ? Number(value.toPrecision(DIGITS)) : null;
  if (value instanceof Float64Array) return Array.from(value);
  return value;
}

/** A list of numbers, a line each; a line end cannot stand inside a JSON string. */
const column = /\[\n\s*((?:[-\d.e+]+|null|true|false)(?:,\n\s*(?:[-\d.e+]+|null|true|false))*)\n\s*\]/g;

/**
 * One JSON object and a line end. Numbers are finite or null, never NaN, and end where the solver's do; a column of
 * numbers stands on one line.
 */
export function jsonText(value: object): string {
  const spread = JSON.stringify(value, (_key, v) => settled(v), 2);
  return `${spread.replace(column, (_all, items: string) => `[${items.replace(/,\n\s*/g, ", ")}]`)}\n`;
}
