import { readFileSync } from "node:fs";
import { builtinModules } from "node:module";
import { describe, expect, it } from "vitest";
import { apps, manifest, packageOf, packages, root, type Source, sourcesIn, specifiers } from "./sources.ts";

const folders = [...packages.map((name) => `packages/${name}/`), ...apps.map((app) => `apps/${app}/`)];

/** Package names in the first column of the tables of DEVELOPERS.md under "Dependencies". */
function reasons(): Map<string, string> {
  const text = readFileSync(`${root}DEVELOPERS.md`, "utf8");
  const section = text.split(/^## /m).find((part) => part.startsWith("Dependencies")) ?? "";
  const rows = [...section.matchAll(/^\| `([^`]+)` \|(.*)\|\s*$/gm)];
  return new Map(rows.map(([, name, rest]) => [name, rest.trim()]));
}

const isOutside = (name: string): boolean =>
  !name.startsWith(".") && !name.startsWith("@startgap/") && !name.startsWith("node:");

const outside = (sources: readonly Source[]): string[] => [
  ...new Set(sources.flatMap(specifiers).filter(isOutside).map(packageOf)),
];

const listed = (folder: string): string[] => {
  const { dependencies = {}, devDependencies = {} } = manifest(folder);
  return [...Object.keys(dependencies), ...Object.keys(devDependencies)].filter(isOutside);
};

/** Many outside packages where one is the rule; DEVELOPERS.md says why. */
const exceptions: Readonly<Record<string, readonly string[]>> = {
  circuit: [],
  study: [],
  cabinet: ["fastest-levenshtein", "papaparse"],
};

describe("outside dependencies", () => {
  it("every one has its reason in DEVELOPERS.md, and every reason its dependency", () => {
    const all = ["", ...folders].flatMap(listed);
    const why = reasons();
    expect([...why.keys()].sort()).toEqual([...new Set(all)].sort());
    for (const [name, reason] of why) expect(reason.length, `reason of ${name}`).toBeGreaterThan(20);
  });

  for (const name of packages) {
    it(`${name} has one at most, or those that are written down`, () => {
      const found = Object.keys(manifest(`packages/${name}/`).dependencies ?? {}).filter(isOutside);
      const allowed = exceptions[name];
      if (allowed === undefined) expect(found.length).toBeLessThanOrEqual(1);
      else expect([...allowed]).toEqual(expect.arrayContaining(found));
    });
  }

  for (const folder of folders) {
    it(`${folder} states every outside package that its sources import`, () => {
      const found = outside(sourcesIn(`${folder}src`));
      const known = folder === "apps/workbench/" ? [...listed(folder), ...listed("")] : listed(folder);
      expect(found.filter((name) => !known.includes(name) && !builtinModules.includes(name))).toEqual([]);
    });
  }

  for (const folder of folders) {
    it(`${folder} uses every outside package that it states`, () => {
      const used = outside([
        ...sourcesIn(`${folder}src`),
        ...(folder === "apps/cli/" ? sourcesIn(`${folder}bin`) : []),
      ]);
      const stated = Object.keys(manifest(folder).dependencies ?? {}).filter(isOutside);
      expect(stated.filter((name) => !used.includes(name))).toEqual([]);
    });
  }

  it("every version is exact, so that a clean install is the tested one", () => {
    const ranges = ["", ...folders].flatMap((folder) => {
      const { dependencies = {}, devDependencies = {} } = manifest(folder);
      return Object.entries({ ...dependencies, ...devDependencies }).filter(
        ([, v]) => !/^\d+\.\d+\.\d+$/.test(v),
      );
    });
    expect(ranges).toEqual([]);
  });
});
