import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { svgText } from "../src/index.ts";
import { everyFigure } from "./everyFigure.ts";
import { newPage } from "./window.ts";

describe("the page that figures are drawn in", () => {
  it("is the one they are given: two windows at once, the same pictures, nothing shared", () => {
    expect(globalThis.document).toBeUndefined();
    const [a, b] = [newPage(), newPage()];
    const [first, second] = [everyFigure(a, {}, {}), everyFigure(b, {}, {})];
    for (const name of Object.keys(first) as (keyof typeof first)[]) {
      expect(first[name].ownerDocument).toBe(a);
      expect(second[name].ownerDocument).toBe(b);
      for (const node of second[name].querySelectorAll("*")) expect(node.ownerDocument).toBe(b);
      expect(svgText(first[name])).toBe(svgText(second[name]));
    }
  });

  it("is left as it was: figures are returned, not inserted", () => {
    const page = newPage();
    const before = page.documentElement.outerHTML;
    everyFigure(page, {}, {});
    expect(page.documentElement.outerHTML).toBe(before);
  });

  it("is mentioned in one file alone", () => {
    const folder = new URL("../src/", import.meta.url);
    const files = readdirSync(folder).filter((name) => name.endsWith(".ts"));
    expect(files.length).toBeGreaterThan(30);
    const touching = files.filter((name) => {
      const code = readFileSync(new URL(name, folder), "utf8").replace(/\/\*[\s\S]*?\*\/|\/\/.*/g, "");
      return /\b(document|ownerDocument|Document|window|globalThis)\b/.test(code);
    });
    expect(touching).toEqual(["context.ts"]);
  });
});
