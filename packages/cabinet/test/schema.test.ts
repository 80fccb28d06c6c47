import { readFileSync, writeFileSync } from "node:fs";
import { cabinetSchema, examples } from "@startgap/cabinet";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { issuesOf } from "./support/files.ts";
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

  it("refuses nothing that the reader accepts, and what is plain in form both refuse (400 changed examples)", () => {
    let refusedByBoth = 0;
    fc.assert(
      fc.property(fc.nat(), (seed) => {
        const { value } = mutated(seed);
        const schema = schemaErrors(cabinetSchema, value);
        const reader = issuesOf(value);
        if (schema.length > 0) expect(reader.length, schema.join("; ")).toBeGreaterThan(0);
        if (schema.length > 0 && reader.length > 0) refusedByBoth += 1;
        if (reader.some((issue) => /^one of the keys|received nothing/.test(issue.expected))) {
          expect(schema.length).toBeGreaterThan(0);
        }
      }),
      { numRuns: 400, seed: 4 },
    );
    expect(refusedByBoth).toBeGreaterThan(200);
  });
});
