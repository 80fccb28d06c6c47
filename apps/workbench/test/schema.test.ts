import { cabinetSchema, examples, parseCabinet, writeCabinet } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { addPart } from "../src/editor/edits.ts";
import { beginning, isJson, partSchemas, type Schema, shapeOf } from "../src/editor/schema.ts";
import { sessionOf } from "../src/state/session.ts";

const kinds = partSchemas(cabinetSchema);

/** Places of a value that no form knows how to edit. */
function unknownPlaces(schema: Schema | undefined, value: unknown, place: string): string[] {
  const shape = shapeOf(schema, value);
  switch (shape.as) {
    case "raw":
      return [place];
    case "group":
      return Object.entries(value as object).flatMap(([key, one]) =>
        unknownPlaces(shape.schema.properties![key], one, `${place}.${key}`),
      );
    case "kinds": {
      const is = (value as { is: string }).is;
      const kind = shape.schema.oneOf!.find((one) => one.properties?.is?.enum?.[0] === is);
      return unknownPlaces(kind, value, place);
    }
    case "fixed list":
      return (value as unknown[]).flatMap((one, i) => unknownPlaces(shape.items[i], one, `${place}[${i}]`));
    case "list":
      return (value as unknown[]).flatMap((one, i) =>
        unknownPlaces(shape.schema.items, one, `${place}[${i}]`),
      );
    default:
      return [];
  }
}

describe("the form made from the published schema", () => {
  it("knows every kind of part", () => {
    expect(kinds.size).toBeGreaterThanOrEqual(9);
    for (const [is, schema] of kinds) expect(schema.properties, is).toBeDefined();
  });

  for (const { key, text } of examples) {
    it(`has a field for every figure of ${key}`, () => {
      const { parts } = JSON.parse(text) as { parts: { is: string; name: string }[] };
      const places = parts.flatMap((part) => unknownPlaces(kinds.get(part.is), part, part.name));
      expect(places).toEqual([]);
    });
  }

  it("shows what is no quantity as it stands in the file", () => {
    const voltage = kinds.get("supply")!.properties!.voltage;
    expect(shapeOf(voltage, { r: 1 }).as).toBe("raw");
    expect(shapeOf(undefined, null).as).toBe("raw");
    expect(shapeOf(voltage, "240 V").as).toBe("text");
  });
});

describe("what a new part begins with", () => {
  for (const is of kinds.keys()) {
    it(`a ${is} can be read at once`, () => {
      const store = sessionOf({
        text: writeCabinet({ startgap: 1, title: "One part", parts: [] }),
        schema: cabinetSchema,
      });
      addPart(store, "supply", "");
      if (is === "pressure switch") addPart(store, "receiver", "");
      if (is !== "supply") addPart(store, is, "supply");
      const read = parseCabinet(store.get().text);
      expect("issues" in read ? read.issues : []).toEqual([]);
    });
  }

  it("a figure that is added begins with the example of the schema", () => {
    const cable = kinds.get("cable")!.properties!;
    expect(beginning(cable.temperature)).toBe("30 degC");
    expect(beginning(cable.run)).toBe("plastic conduit");
    const circuit = beginning(kinds.get("motor")!.properties!.circuit);
    expect(isJson(circuit) && Object.keys(circuit)).toEqual(
      expect.arrayContaining(["poles", "main", "inertia"]),
    );
  });
});
