import ts from "typescript";
import { describe, expect, it } from "vitest";
import { apps, packages, parse, type Source, sourcesIn, walk } from "./sources.ts";

const folders = [...packages.map((name) => `packages/${name}/src`), ...apps.map((app) => `apps/${app}/src`)];

const LONGEST_FILE = 400;
const LONGEST_FUNCTION = 60;

/** Tables of data may be as long as the data. */
const isTable = (path: string): boolean => /\/(tables|examples)\//.test(path);

const sources = folders.flatMap(sourcesIn).filter((source) => !isTable(source.path));

const linesOf = (source: Source): number => source.tree.getLineStarts().length;

const quantile = (values: readonly number[], q: number): number =>
  [...values].sort((a, b) => a - b)[Math.floor(q * (values.length - 1))];

interface Length {
  readonly where: string;
  readonly lines: number;
}

/** Lines of every function, less those of the functions inside it, which count for themselves. */
function functionLengths(source: Source): Length[] {
  const found: Length[] = [];
  const lineAt = (position: number): number => source.tree.getLineAndCharacterOfPosition(position).line;
  /** Lines that the functions at or beneath a node take in all. */
  const measure = (node: ts.Node): number => {
    let inner = 0;
    ts.forEachChild(node, (child) => {
      inner += measure(child);
    });
    if (!ts.isFunctionLike(node) || !("body" in node) || node.body === undefined) return inner;
    const first = lineAt(node.getStart());
    const all = lineAt(node.getEnd()) - first + 1;
    found.push({ where: `${source.path}:${first + 1}`, lines: Math.max(1, all - inner) });
    return all;
  };
  measure(source.tree);
  return found;
}

function anys(source: Source): string[] {
  const found: string[] = [];
  walk(source.tree, (node) => {
    if (node.kind === ts.SyntaxKind.AnyKeyword) {
      found.push(`${source.path}:${source.tree.getLineAndCharacterOfPosition(node.pos).line + 1}`);
    }
  });
  return found;
}

/** Classes, but for those of errors: what is thrown must be told apart. */
function classes(source: Source): string[] {
  const found: string[] = [];
  walk(source.tree, (node) => {
    const isError =
      ts.isClassLike(node) && node.heritageClauses?.some((c) => c.getText() === "extends Error");
    if (ts.isClassLike(node) && !isError) found.push(source.path);
  });
  return found;
}

describe("size and shape of the sources", () => {
  it(`no file is longer than ${LONGEST_FILE} lines, tables of data excepted`, () => {
    const long = sources.filter((source) => linesOf(source) > LONGEST_FILE);
    expect(long.map((source) => `${source.path}: ${linesOf(source)}`)).toEqual([]);
  });

  it("half the files have 120 lines or fewer", () => {
    expect(quantile(sources.map(linesOf), 0.5)).toBeLessThanOrEqual(120);
  });

  it(`no function is longer than ${LONGEST_FUNCTION} lines, one in ten longer than 30, half at most 10`, () => {
    const lengths = sources.flatMap(functionLengths);
    expect(lengths.filter(({ lines }) => lines > LONGEST_FUNCTION)).toEqual([]);
    const lines = lengths.map((length) => length.lines);
    expect(quantile(lines, 0.9)).toBeLessThanOrEqual(30);
    expect(quantile(lines, 0.5)).toBeLessThanOrEqual(10);
  });

  it("no value has the type any", () => {
    expect(sources.flatMap(anys)).toEqual([]);
  });

  it("records and functions, no classes but those of errors", () => {
    expect(sources.flatMap(classes)).toEqual([]);
  });

  it("would notice a long function, an any and a class", () => {
    const body = "x();\n".repeat(LONGEST_FUNCTION);
    const bad = parse(
      "a.ts",
      `function f() {\n${body}}\nlet v: any; class C { m() {} } class E extends Error {}`,
    );
    expect(functionLengths(bad).map(({ lines }) => lines)).toEqual([LONGEST_FUNCTION + 2, 1]);
    expect(anys(bad)).toHaveLength(1);
    expect(classes(bad)).toHaveLength(1);
  });
});
