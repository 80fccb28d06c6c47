import { at, type JsonSchema, type Reading, wrong } from "./shape.ts";

/** One way of stating something: the keys it needs, and those that it can take besides. */
export interface Way {
  readonly needs: readonly string[];
  readonly takes?: readonly string[];
}

const keysOf = (way: Way): readonly string[] => [...way.needs, ...(way.takes ?? [])];

const wayText = (way: Way): string => way.needs.map((key) => `"${key}"`).join(" with ");

/** Reports a record that takes none of the ways, part of one or more than one. */
export function checkWays(
  value: object,
  ways: readonly Way[],
  orNone: boolean,
  path: string,
  reading: Reading,
): void {
  const present = (key: string): boolean => Object.hasOwn(value, key);
  const whole = ways.filter((way) => way.needs.every(present));
  const hinted = whole.length > 0 ? whole : ways.filter((way) => keysOf(way).some(present));
  const choice = `one of ${ways.map(wayText).join(", ")}`;
  if (hinted.length === 0) {
    if (!orNone) wrong(reading, path, choice, undefined);
    return;
  }
  const taken = hinted.reduce((best, way) => (hits(way, present) > hits(best, present) ? way : best));
  for (const key of taken.needs.filter((one) => !present(one))) {
    const others = keysOf(taken)
      .filter(present)
      .map((one) => `"${one}"`);
    wrong(reading, at(path, key), `"${key}" beside ${others.join(", ")}`, undefined);
  }
  const foreign = ways.flatMap(keysOf).filter((key) => present(key) && !keysOf(taken).includes(key));
  for (const key of new Set(foreign)) {
    const expected = `no "${key}" beside "${taken.needs[0]}": ${choice}`;
    wrong(reading, at(path, key), expected, (value as Readonly<Record<string, unknown>>)[key]);
  }
}

const hits = (way: Way, present: (key: string) => boolean): number => keysOf(way).filter(present).length;

/** The same as a schema can say it. */
export function waysSchema(ways: readonly Way[], orNone: boolean): JsonSchema[] {
  const all = [...new Set(ways.flatMap(keysOf))];
  const without = (keys: readonly string[]): JsonSchema => ({
    not: { anyOf: keys.map((key) => ({ required: [key] })) },
  });
  const each = ways.map((way) => {
    const foreign = all.filter((key) => !keysOf(way).includes(key));
    return { required: way.needs, ...(foreign.length > 0 ? without(foreign) : {}) };
  });
  return orNone ? [...each, without(all)] : each;
}
