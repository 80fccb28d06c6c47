import { examples, parseCabinet, writeCabinet } from "@startgap/cabinet";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cabinetOf, file, load, supply } from "./support/files.ts";

describe("writing a cabinet file", () => {
  it("keeps the content: reading the text gives the same file (invariant)", () => {
    for (const { text } of examples) {
      const read = parseCabinet(text);
      if ("issues" in read) throw new Error(JSON.stringify(read.issues));
      expect(JSON.parse(writeCabinet(read.cabinet.file))).toEqual(JSON.parse(text));
      expect(writeCabinet(read.cabinet.file)).toBe(text);
    }
  });

  it("keeps any JSON object (invariant, 300 random values)", () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string(), fc.jsonValue()), (value) => {
        const plain = JSON.parse(JSON.stringify(value));
        expect(JSON.parse(writeCabinet(plain))).toEqual(plain);
      }),
      { numRuns: 300, seed: 3 },
    );
  });

  it("keeps short things on one line, and ends with a line end", () => {
    const text = writeCabinet(cabinetOf(file(supply(), load())).file);
    expect(text).toContain(`\n    { "name": "lamps", "is": "load", "fedBy": "panel", "power": "400 W" }\n`);
    expect(text).toContain(`"impedance": { "r": "0.1 ohm", "x": "0.1 ohm" }`);
    expect(text.endsWith("}\n")).toBe(true);
    for (const line of text.split("\n")) expect(line.length).toBeLessThanOrEqual(100);
  });
});
