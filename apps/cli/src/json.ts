/** The solver's own tolerance is 1e-6; digits beyond these are noise that changes from machine to machine. */
const DIGITS = 7;

function settled(value: unknown): unknown {
  if (typeof value === "number") return Number.isFinite(value) ? Number(value.toPrecision(DIGITS)) : null;
  if (value instanceof Float64Array) return Array.from(value);
  return value;
}

/** One JSON object and a line end. Numbers are finite or null, never NaN, and end where the solver's do. */
export function jsonText(value: object): string {
  return `${JSON.stringify(value, (_key, v) => settled(v), 2)}\n`;
}
