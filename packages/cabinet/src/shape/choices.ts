import { nearestName } from "../nearest.ts";
import { at, isRecord, type JsonSchema, type Reading, type Shape, type Value, wrong } from "./shape.ts";

/** Text is read as one kind of thing, an object as another. */
export function textOrRecord<A, B>(asText: Shape<A>, asRecord: Shape<B>): Shape<A | B> {
  const expected = `${asText.expected}; or ${asRecord.expected}`;
  return {
    expected,
    read(value, path, reading) {
      if (typeof value === "string") return asText.read(value, path, reading);
      return isRecord(value) ? asRecord.read(value, path, reading) : wrong(reading, path, expected, value);
    },
    schema: { anyOf: [asText.schema, asRecord.schema] },
  };
}

/** Text in one of several dimensions, told apart by its unit: read as `{ [tag]: value }`. */
export function tagged<S extends Readonly<Record<string, Shape<unknown>>>>(shapes: S): Shape<Tagged<S>> {
  const all = Object.values(shapes);
  const expected = all.map((shape) => shape.expected).join("; or ");
  return {
    expected,
    read(value, path, reading) {
      for (const [tag, shape] of Object.entries(shapes)) {
        const attempt: Reading = { issues: [], ranges: [], chosen: reading.chosen };
        const read = shape.read(value, path, attempt);
        if (read === undefined) continue;
        reading.ranges.push(...attempt.ranges);
        return { [tag]: read } as Tagged<S>;
      }
      return wrong(reading, path, expected, value);
    },
    schema: { anyOf: all.map((shape) => shape.schema) },
  };
}

export type Tagged<S extends Readonly<Record<string, Shape<unknown>>>> = {
  readonly [K in keyof S]?: Value<S[K]>;
};

type Shapes = Readonly<Record<string, Shape<unknown>>>;

/** Objects of several kinds, told apart by the text under `is`. */
export function byKind<S extends Shapes>(
  a: string,
  shapes: S,
  docs: Docs<S>,
  example: string,
): Shape<Value<S[keyof S]>> {
  const names = Object.keys(shapes);
  const kindExpected = `${a}: ${names.map((name) => `"${name}"`).join(", ")}`;
  const expected = `${a}, as ${example}`;
  return {
    expected,
    read(value, path, reading) {
      if (!isRecord(value)) return wrong(reading, path, expected, value);
      const is = Object.hasOwn(value, "is") ? value.is : undefined;
      if (typeof is === "string" && names.includes(is))
        return shapes[is]!.read(value, path, reading) as Value<S[keyof S]>;
      const nearest = typeof is === "string" ? nearestName(is, names) : undefined;
      return wrong(reading, at(path, "is"), kindExpected, is, nearest);
    },
    schema: {
      oneOf: names.map(
        (name): JsonSchema => ({ title: name, description: docs[name], ...shapes[name]!.schema }),
      ),
    },
  };
}

type Docs<S> = { readonly [K in keyof S]: string };
