/** Seconds of each unit a time may be typed in. */
const units: Readonly<Record<string, number>> = {
  ms: 1e-3,
  s: 1,
  sec: 1,
  second: 1,
  seconds: 1,
  min: 60,
  minute: 60,
  minutes: 60,
  h: 3600,
  hour: 3600,
  hours: 3600,
};

const number = String.raw`(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d{1,3})?`;
const plainNumber = new RegExp(`^${number}$`, "i");
const time = new RegExp(`^(${number})\\s*([a-z]+)$`, "i");

/** A typed number without a unit, as "1e-6"; null when it is none. */
export const numberOf = (text: string): number | null =>
  plainNumber.test(text.trim()) ? Number(text) : null;

/** Seconds of a typed time with its unit, as "6 s" or "250 ms"; null when it is none. */
export function secondsOf(text: string): number | null {
  const match = time.exec(text.trim());
  const unit = match === null ? undefined : units[match[2].toLowerCase()];
  return match === null || unit === undefined ? null : Number(match[1]) * unit;
}
