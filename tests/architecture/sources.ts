import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import ts from "typescript";

export const root = fileURLToPath(new URL("../..", import.meta.url));

/** The packages from left to right: each may use those to its left, never those to its right. */
export const packages = ["ode", "circuit", "cabinet", "study", "figures"] as const;
export type PackageName = (typeof packages)[number];

/** Without a page, a process, a clock or a die. */
export const pure: readonly PackageName[] = ["ode", "circuit", "cabinet", "study"];

export const apps = ["cli", "workbench"] as const;

export interface Source {
  /** From the root of the repository, with slashes. */
  readonly path: string;
  readonly tree: ts.SourceFile;
}

const isSource = (name: string): boolean => /\.(ts|js)$/.test(name) && !name.endsWith(".d.ts");

const parsed = new Map<string, Source[]>();

/** Every source file under a folder, parsed once. */
export function sourcesIn(folder: string): Source[] {
  const known = parsed.get(folder) ?? readSources(folder);
  parsed.set(folder, known);
  return known;
}

function readSources(folder: string): Source[] {
  const names = readdirSync(`${root}${folder}`, { recursive: true, encoding: "utf8" });
  return names
    .map((name) => name.replaceAll("\\", "/"))
    .filter((name) => isSource(name) && !/(^|\/)(node_modules|dist)\//.test(name))
    .sort()
    .map((name) => parse(`${folder}/${name}`, readFileSync(`${root}${folder}/${name}`, "utf8")));
}

export const parse = (path: string, text: string): Source => ({
  path,
  tree: ts.createSourceFile(path, text, ts.ScriptTarget.ES2022, true),
});

export const packageSources = (name: PackageName): Source[] => sourcesIn(`packages/${name}/src`);

/** Calls `visit` on every node of a tree. */
export function walk(node: ts.Node, visit: (node: ts.Node) => void): void {
  visit(node);
  ts.forEachChild(node, (child) => walk(child, visit));
}

/** Everything a file imports or re-exports, statically, lazily or as a type. */
export function specifiers(source: Source): string[] {
  const found: string[] = [];
  const keep = (node: ts.Node | undefined): void => {
    if (node !== undefined && ts.isStringLiteralLike(node)) found.push(node.text);
  };
  walk(source.tree, (node) => {
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) keep(node.moduleSpecifier);
    if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword)
      keep(node.arguments[0]);
    if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument)) keep(node.argument.literal);
  });
  return found;
}

export interface Manifest {
  readonly name: string;
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly devDependencies?: Readonly<Record<string, string>>;
}

export const manifest = (folder: string): Manifest =>
  JSON.parse(readFileSync(`${root}${folder}package.json`, "utf8"));

/** "@scope/name/deep" and "name/deep" without the deep part. */
export const packageOf = (specifier: string): string =>
  specifier
    .split("/")
    .slice(0, specifier.startsWith("@") ? 2 : 1)
    .join("/");
