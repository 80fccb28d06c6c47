import { posix } from "node:path";
import ts from "typescript";
import { type PackageName, packageSources, type Source } from "./sources.ts";

const isExported = (node: ts.Statement): boolean =>
  ts.canHaveModifiers(node) &&
  (ts.getModifiers(node)?.some((m) => m.kind === ts.SyntaxKind.ExportKeyword) ?? false);

/** Names that a statement declares and exports. */
function declared(node: ts.Statement): string[] {
  if (!isExported(node)) return [];
  if (ts.isVariableStatement(node)) return node.declarationList.declarations.map((d) => d.name.getText());
  const { name } = node as ts.DeclarationStatement;
  return name === undefined ? [] : [name.getText()];
}

/** Everything a file offers, values and types, through every re-export. */
function exportsOf(path: string, sources: ReadonlyMap<string, Source>): string[] {
  const source = sources.get(path);
  if (source === undefined) throw new RangeError(`invalid source: ${path} (expected a file of the package)`);
  return source.tree.statements.flatMap((node) => {
    if (!ts.isExportDeclaration(node)) return declared(node);
    const { exportClause, moduleSpecifier } = node;
    if (exportClause !== undefined && ts.isNamedExports(exportClause))
      return exportClause.elements.map((e) => e.name.text);
    if (moduleSpecifier === undefined || !ts.isStringLiteral(moduleSpecifier)) return [];
    return exportsOf(posix.join(posix.dirname(path), moduleSpecifier.text), sources);
  });
}

/** The public surface of a package, sorted. */
export function surface(name: PackageName): string[] {
  const sources = new Map(packageSources(name).map((source) => [source.path, source]));
  return [...new Set(exportsOf(`packages/${name}/src/index.ts`, sources))].sort();
}
