import { at, type Shape, wrong } from "./shape.ts";

/** A list of a given number of things. */
export function list<T>(a: string, item: Shape<T>, size: { from: number; to: number }): Shape<readonly T[]> {
  const count = size.from === size.to ? `${size.from}` : `${size.from} to ${size.to}`;
  const expected = `a list of ${count} ${a}`;
  return {
    expected,
    read(value, path, reading) {
      if (!Array.isArray(value) || value.length < size.from || value.length > size.to)
        return wrong(reading, path, expected, value);
      const before = reading.issues.length;
      const items = Array.from(value, (one: unknown, i) => item.read(one, at(path, i), reading));
      return reading.issues.length > before ? undefined : (items as T[]);
    },
    schema: { type: "array", items: item.schema, minItems: size.from, maxItems: size.to },
  };
}

/** Two things of given kinds, in order. */
export function pair<A, B>(a: string, first: Shape<A>, second: Shape<B>): Shape<readonly [A, B]> {
  const expected = `${a}: ${first.expected}; then ${second.expected}`;
  return {
    expected,
    read(value, path, reading) {
      if (!Array.isArray(value) || value.length !== 2) return wrong(reading, path, expected, value);
      const x = first.read(value[0], at(path, 0), reading);
      const y = second.read(value[1], at(path, 1), reading);
      return x === undefined || y === undefined ? undefined : [x, y];
    },
    schema: { type: "array", prefixItems: [first.schema, second.schema], minItems: 2, maxItems: 2 },
  };
}
