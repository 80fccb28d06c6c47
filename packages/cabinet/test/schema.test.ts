import { readFileSync, writeFileSync } from "node:fs";
import { cabinetSchema, examples, issueText } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { fileShape } from "../src/file/schema.ts";
import { reading } from "../src/shape/shape.ts";
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

  it("refuses nothing that the reader accepts (400 changed examples)", () => {
    let refusedByBoth = 0;
    for (let seed = 0; seed < 400; seed++) {
      const { value, what } = mutated(seed);
      const schema = schemaErrors(cabinetSchema, value);
      const reader = issuesOf(value);
      if (schema.length > 0)
        expect(reader.length, `${seed} ${what}: ${schema.join("; ")}`).toBeGreaterThan(0);
      if (schema.length > 0 && reader.length > 0) refusedByBoth += 1;
    }
    expect(refusedByBoth).toBeGreaterThan(200);
  });

  it("refuses every unknown key, missing key and wrong type that the reader refuses (3000 changed examples)", () => {
    let plain = 0;
    for (let seed = 0; seed < 3000; seed++) {
      const { value, what } = mutated(seed);
      const found = reading();
      fileShape.read(value, "", found);
      const inForm = found.issues.filter(
        ({ expected, received }) =>
          /^(one|only).*the keys/.test(expected) ||
          /^(nothing|null|true|an? (list|object|empty))/.test(received),
      );
      if (inForm.length === 0) continue;
      plain += 1;
      const told = `${seed} ${what}: ${inForm.map(issueText).join("; ")}`;
      expect(schemaErrors(cabinetSchema, value).length, told).toBeGreaterThan(0);
    }
    expect(plain).toBeGreaterThan(1000);
  });
});
