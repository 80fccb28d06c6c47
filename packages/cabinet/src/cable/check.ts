import type { Issue } from "../issue.ts";

/** What one number of a part must be. `from` itself is allowed unless `above` says otherwise. */
export interface Limit {
  /** With its article, as "a length". */
  readonly a: string;
  readonly unit: string;
  readonly from: number;
  readonly to: number;
  readonly above?: boolean;
  readonly example: string;
}

/** A value with its unit, three digits: "0.0524 ohm". */
export function shown(value: number, unit: string): string {
  const digits = String(Number(value.toPrecision(3)));
  return unit === "" ? digits : `${digits} ${unit}`;
}

/** Low and high with their unit: "3 to 6 %". */
export function shownRange(low: number, high: number, unit: string): string {
  return `${shown(low, "")} to ${shown(high, unit)}`;
}

/** Reports a number that is missing, not finite or outside its limits; true when it is fine. */
export function isWithin(
  issues: Issue[],
  path: string,
  value: number | undefined,
  limit: Limit,
): value is number {
  const low = (n: number) => (limit.above ? n > limit.from : n >= limit.from);
  if (typeof value === "number" && Number.isFinite(value) && low(value) && value <= limit.to) return true;
  const start = limit.above ? `above ${limit.from}` : `from ${limit.from}`;
  issues.push({
    path,
    expected: `${limit.a} ${start} to ${shown(limit.to, limit.unit)}, as ${limit.example}`,
    received: received(value, limit.unit),
  });
  return false;
}

/** The same for a number that may be left out. */
export function isWithinIfStated(
  issues: Issue[],
  path: string,
  value: number | undefined,
  limit: Limit,
): boolean {
  return value === undefined || isWithin(issues, path, value, limit);
}

function received(value: unknown, unit: string): string {
  if (value === undefined || value === null) return "nothing";
  const text = typeof value === "number" && unit !== "" ? `${value} ${unit}` : String(value);
  return text.slice(0, 80);
}

/** The same problems seen from the whole: each path gets the part's own place in front. */
export function under(place: string, issues: readonly Issue[]): Issue[] {
  return issues.map((issue) => ({ ...issue, path: issue.path === "" ? place : `${place}.${issue.path}` }));
}
