const vulgar: Readonly<Record<string, string>> = { "¼": "1/4", "½": "1/2", "¾": "3/4" };

const decimal = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,4})?/;
const fraction = /^(?:(\d{1,4})[ -])?(\d{1,4})\/(\d{1,4})(?=\D|$)/;

export interface NumberRead {
  readonly value: number;
  /** How many characters of the text it took. */
  readonly length: number;
}

/**
 * The number a text begins with: "1.5", "-3e-2", "1/4", "1 1/2" or "1½"; null when it begins with none, when it
 * overflows, when it is a zero with a minus sign, and when it is so small that it would turn into zero.
 */
export function leadingNumber(text: string): NumberRead | null {
  const mixed = fractionAt(text);
  if (mixed !== null) return mixed;
  const match = decimal.exec(text);
  if (match === null) return null;
  const value = Number(match[0]);
  const lost = value === 0 && /[1-9]/.test(match[0].replace(/[eE].*/, ""));
  if (!Number.isFinite(value) || lost || Object.is(value, -0)) return null;
  return { value, length: match[0].length };
}

function fractionAt(text: string): NumberRead | null {
  const sign = /^(\d*)([¼½¾])/.exec(text);
  if (sign !== null) {
    const [top, bottom] = vulgar[sign[2]!]!.split("/").map(Number) as [number, number];
    return { value: Number(sign[1]) + top / bottom, length: sign[0].length };
  }
  const match = fraction.exec(text);
  if (match === null || Number(match[3]) === 0) return null;
  return { value: Number(match[1] ?? 0) + Number(match[2]) / Number(match[3]), length: match[0].length };
}
