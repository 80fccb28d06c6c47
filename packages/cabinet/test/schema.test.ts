import { readFileSync, writeFileSync } from "node:fs";
import { cabinetSchema, examples, type Issue, issueText } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { fileShape } from "../src/file/schema.ts";
import { reading } from "../src/shape/shape.ts";
import { schemaErrors } from "./support/jsonSchema.ts";
import { mutated } from "./support/mutate.ts";

const published = new URL("../cabinet.schema.json", import.meta.url);

if (process.env.REGENERATE === "1") writeFileSync(published, `${JSON.stringify(cabinetSchema, null, 2)}\n`);

describe("the published schema", () => {
  it("is the one made from the table that reads the file (REGENERATE=1 writes it)", () => {
    expect(JSON.parse(readFileSync(published, "utf8"))).toEqual(JSON.parse(JSON.stringify(cabinetSchema)));
  });

  it("accepts every example", () => {
    for (const { text } of examples) expect(schemaErrors(cabinetSchema, JSON.parse(text))).toEqual([]);
  });

  it("explains every key", () => {
    const bare: string[] = [];
    const visit = (schema: unknown, path: string): void => {
      if (typeof schema !== "object" || schema === null) return;
      const { properties } = schema as { properties?: Record<string, { description?: string }> };
      for (const [key, one] of Object.entries(properties ?? {})) {
        if ((one.description ?? "").length < 6) bare.push(`${path}.${key}`);
      }
      for (const [key, one] of Object.entries(schema)) visit(one, `${path}.${key}`);
    };
    visit(cabinetSchema, "");
    expect(bare).toEqual([]);
  });

  it("refuses what the reader refuses in form, and nothing else (1500 changed examples)", () => {
    const plain = { reader: 0, schema: 0 };
    for (let seed = 0; seed < 1500; seed++) {
      const { value, what } = mutated(seed);
      const found = reading();
      fileShape.read(value, "", found);
      const schema = schemaErrors(cabinetSchema, value);
      const told = `${seed} ${what}: ${[...found.issues.map(issueText), ...schema].join("; ")}`;
      if (schema.length > 0) {
        plain.schema += 1;
        expect(found.issues.length, told).toBeGreaterThan(0);
      }
      if (found.issues.some(isOfForm)) {
        plain.reader += 1;
        expect(schema.length, told).toBeGreaterThan(0);
      }
    }
    expect(Math.min(plain.reader, plain.schema)).toBeGreaterThan(500);
  });
});

/** An unknown key, a missing key or a value of the wrong type: what a schema can tell, too. */
const isOfForm = ({ expected, received }: Issue): boolean =>
  /^(one|only).*the keys/.test(expected) || /^(nothing|null|true|an? (list|object|empty))/.test(received);
