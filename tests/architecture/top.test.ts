import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { apps, packages, root } from "./sources.ts";

const names = (folder: string): string[] =>
  readdirSync(`${root}${folder}`).filter((name) => !name.startsWith("."));

/** Made by tools, never kept. */
const made = new Set(["node_modules", "demo-output", "dist"]);

describe("layout", () => {
  it("the top holds what a visitor needs and nothing else", () => {
    const kept = [
      "DEVELOPERS.md",
      "LICENSE",
      "README.md",
      "apps",
      "package-lock.json",
      "package.json",
      "packages",
      "tests",
      "tsconfig.json",
    ];
    expect(
      names("")
        .filter((name) => !made.has(name))
        .sort(),
    ).toEqual(kept);
  });

  it("every package and app is named in the tests of direction", () => {
    const folders = (folder: string): string[] =>
      names(folder)
        .filter((name) => !name.includes("."))
        .sort();
    expect(folders("packages")).toEqual([...packages].sort());
    expect(folders("apps")).toEqual([...apps].sort());
  });
});
