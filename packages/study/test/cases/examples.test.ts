import { examples, parseCabinet } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { besides, cases, dips } from "../../src/index.ts";

describe("every example", () => {
  for (const { key, text } of examples) {
    const read = parseCabinet(text);
    if ("issues" in read) throw new Error(key);
    const { cabinet } = read;

    it(`${key}: is told to the end of every case and every dip, so that its report lacks none`, () => {
      expect(cases(cabinet)).not.toHaveProperty("failed");
      const grid = { left: [0, 0.5, 0.8], lengths_s: [0.01, 0.06, 1] };
      expect(dips(cabinet, grid)).not.toHaveProperty("failed");
    });
  }

  it("has besides its check what was asked of the cabinet, and leaves out dips where there is no line", () => {
    const barn = parseCabinet(examples.find(({ key }) => key === "barn-workshop")?.text ?? "");
    if ("issues" in barn) throw new Error("barn");
    expect(Object.keys(besides(barn.cabinet)).sort()).toEqual(["cases", "failures"]);
  });
});
