import { nearestName } from "../nearest.ts";
import { at, isRecord, type JsonSchema, type Reading, type Shape, wrong } from "./shape.ts";
import { checkWays, type Way, waysSchema } from "./ways.ts";

/** One key of a record: what it holds, in words for the editor, and whether it must be there. */
export interface Field<T, Needed extends boolean> {
  readonly shape: Shape<T>;
  readonly doc: string;
  readonly needed: Needed;
}

export type Fields = Readonly<Record<string, Field<unknown, boolean>>>;

export type RecordOf<F extends Fields> = {
  readonly [K in keyof F]: F[K] extends Field<infer T, true>
    ? T
    : F[K] extends Field<infer T, false>
      ? T | null
      : never;
};

export const need = <T>(shape: Shape<T>, doc: string): Field<T, true> => ({ shape, doc, needed: true });
export const may = <T>(shape: Shape<T>, doc: string): Field<T, false> => ({ shape, doc, needed: false });

export interface RecordOptions {
  /** Several ways of stating the same thing, of which exactly one must be taken. Their keys are optional fields. */
  readonly ways?: readonly Way[];
  /** True when stating none of the ways is fine too. */
  readonly orNone?: boolean;
  /** An example of the whole, as JSON, when the list of keys says too little. */
  readonly example?: string;
}

/** An object with exactly these keys. What was silent is null. */
export function record<F extends Fields>(
  a: string,
  fields: F,
  options: RecordOptions = {},
): Shape<RecordOf<F>> {
  const keys = Object.keys(fields);
  const needed = keys.filter((key) => fields[key]!.needed);
  const expected =
    options.example === undefined
      ? `${a} with ${needed.join(", ") || keys.join(", ")}`
      : `${a}, as ${options.example}`;
  return {
    expected,
    read(value, path, reading) {
      if (!isRecord(value)) return wrong(reading, path, expected, value);
      const before = reading.issues.length;
      refuseUnknown(value, keys, path, reading);
      const entries = keys.map((key) => [key, readField(fields[key]!, value, key, path, reading)] as const);
      if (options.ways !== undefined) checkWays(value, options.ways, options.orNone ?? false, path, reading);
      return reading.issues.length > before ? undefined : (Object.fromEntries(entries) as RecordOf<F>);
    },
    schema: recordSchema(fields, needed, options),
  };
}

function readField(
  field: Field<unknown, boolean>,
  value: object,
  key: string,
  path: string,
  reading: Reading,
): unknown {
  const own = Object.hasOwn(value, key) ? (value as Record<string, unknown>)[key] : undefined;
  if (own !== undefined) return field.shape.read(own, at(path, key), reading);
  if (field.needed) wrong(reading, at(path, key), field.shape.expected, undefined);
  return null;
}

/** More unknown keys than this in one object are not a slip of the pen, and are not listed one by one. */
const MOST_UNKNOWN = 20;

function refuseUnknown(value: object, known: readonly string[], path: string, reading: Reading): void {
  const unknown = Object.keys(value).filter((key) => !known.includes(key));
  if (unknown.length > MOST_UNKNOWN) {
    wrong(reading, path, `only the keys ${known.join(", ")}`, `${unknown.length} other keys`);
  }
  for (const key of unknown.slice(0, MOST_UNKNOWN)) {
    const nearest = nearestName(
      key,
      known.filter((name) => !Object.hasOwn(value, name)),
    );
    wrong(reading, at(path, key), `one of the keys ${known.join(", ")}`, key, nearest);
  }
}

function recordSchema(fields: Fields, needed: readonly string[], options: RecordOptions): JsonSchema {
  const properties = Object.fromEntries(
    Object.entries(fields).map(([key, field]) => [
      key,
      { description: describe(field), ...field.shape.schema },
    ]),
  );
  const shape = { type: "object", properties, required: needed, additionalProperties: false };
  return options.ways === undefined
    ? shape
    : { ...shape, anyOf: waysSchema(options.ways, options.orNone ?? false) };
}

/** What an editor shows of a key: what it means, and of text and numbers what is accepted. */
function describe({ doc, shape }: Field<unknown, boolean>): string {
  if (!("examples" in shape.schema)) return doc;
  return `${doc} ${shape.expected.charAt(0).toUpperCase()}${shape.expected.slice(1)}.`;
}
