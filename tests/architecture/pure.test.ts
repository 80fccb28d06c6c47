import ts from "typescript";
import { describe, expect, it } from "vitest";
import { packageSources, parse, pure, type Source, walk } from "./sources.ts";

/** What a pure package must be given as an argument instead. */
const banned = new Set([
  "Date",
  "console",
  "process",
  "performance",
  "globalThis",
  "window",
  "document",
  "navigator",
  "self",
  "require",
  "fetch",
  "crypto",
  "setTimeout",
  "setInterval",
  "eval",
]);

/** Names that the file gives to something of its own: an argument called "window" is no page. */
function ownNames(source: Source): Set<string> {
  const own = new Set<string>();
  walk(source.tree, (node) => {
    const declares = ts.isVariableDeclaration(node) || ts.isParameter(node) || ts.isBindingElement(node);
    if (declares && ts.isIdentifier(node.name)) own.add(node.name.text);
    if (ts.isFunctionDeclaration(node) && node.name !== undefined) own.add(node.name.text);
  });
  return own;
}

/** A name after a dot or before a colon belongs to somebody's own record. */
function isMember(node: ts.Identifier): boolean {
  const { parent } = node;
  return (
    (ts.isPropertyAccessExpression(parent) && parent.name === node) ||
    (ts.isPropertyAssignment(parent) && parent.name === node) ||
    (ts.isPropertySignature(parent) && parent.name === node)
  );
}

function impurities(source: Source): string[] {
  const found: string[] = [];
  const own = ownNames(source);
  walk(source.tree, (node) => {
    if (ts.isIdentifier(node) && banned.has(node.text) && !isMember(node) && !own.has(node.text))
      found.push(`${source.path}: ${node.text}`);
    if (ts.isPropertyAccessExpression(node) && node.getText() === "Math.random")
      found.push(`${source.path}: Math.random`);
  });
  return found;
}

describe("pure packages", () => {
  for (const name of pure) {
    it(`${name} has no clock, no chance, no page and no process`, () => {
      expect(packageSources(name).flatMap(impurities)).toEqual([]);
    });
  }

  it("would notice a clock, a die and a page, and leaves words and members alone", () => {
    const text = `const t = Date.now() + Math.random(); document.title = "process"; // console
      const x = { process: 1 }; x.process; const window = 2; f(window);`;
    expect(impurities(parse("a.ts", text))).toEqual(["a.ts: Date", "a.ts: Math.random", "a.ts: document"]);
  });
});
