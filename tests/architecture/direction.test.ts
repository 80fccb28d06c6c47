import { posix } from "node:path";
import { describe, expect, it } from "vitest";
import { apps, packageSources, packages, parse, type Source, sourcesIn, specifiers } from "./sources.ts";

const isOwn = (specifier: string): boolean => specifier.startsWith(".");
const isOurs = (specifier: string): boolean => specifier.startsWith("@startgap/");

/** Imports of a file of package `index` that break the one direction, or reach into another package's files. */
function astray(source: Source, index: number): string[] {
  const allowed = packages.slice(0, index).map((name) => `@startgap/${name}`);
  return specifiers(source)
    .filter((s) => isOurs(s) && !allowed.includes(s))
    .map((s) => `${source.path}: ${s}`);
}

/** Relative imports that leave the folder, or that do not name their file in full. */
function loose(source: Source, folder: string): string[] {
  return specifiers(source)
    .filter(isOwn)
    .filter((s) => {
      // What follows the question mark tells the bundler how to load the file that stands before it.
      const target = posix.join(posix.dirname(source.path), s.replace(/\?[\w&]+$/, ""));
      return !target.startsWith(`${folder}/`) || !/\.(ts|js|json|css)$/.test(target);
    })
    .map((s) => `${source.path}: ${s}`);
}

describe("dependencies between packages", () => {
  packages.forEach((name, index) => {
    const left = packages.slice(0, index).join(", ") || "none of ours";
    it(`${name} imports ${left}, by package name`, () => {
      expect(packageSources(name).flatMap((source) => astray(source, index))).toEqual([]);
    });

    it(`${name} names its own files in full and stays inside its folder`, () => {
      const folder = `packages/${name}`;
      expect(packageSources(name).flatMap((source) => loose(source, folder))).toEqual([]);
    });
  });

  for (const app of apps) {
    it(`${app} imports packages by name, never an app or the inside of a package`, () => {
      const found = sourcesIn(`apps/${app}`).flatMap((source) => [
        ...astray(source, packages.length),
        ...loose(source, `apps/${app}`),
      ]);
      expect(found).toEqual([]);
    });
  }

  it("would notice an import against the direction, a deep one, a lazy one and a type", () => {
    const text = `
      import { check } from "@startgap/study";
      import type { A } from "@startgap/circuit/src/a.ts";
      export * from "@startgap/figures";
      const b: import("@startgap/cabinet").B = await import("@startgap/study");
      import { fine } from "@startgap/ode";`;
    expect(astray(parse("packages/circuit/src/a.ts", text), 1)).toHaveLength(5);
    const own = `import "../../ode/src/a.ts"; import "./b"; import "./c.ts";`;
    expect(loose(parse("packages/circuit/src/a.ts", own), "packages/circuit")).toHaveLength(2);
  });
});
