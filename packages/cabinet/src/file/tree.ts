import type { Issue } from "../issue.ts";
import { nearestName } from "../nearest.ts";
import { kindNamed, kinds } from "../parts/kinds.ts";
import { at } from "../shape/shape.ts";
import type { Header } from "./headers.ts";

interface Tree {
  readonly headers: readonly Header[];
  readonly byName: ReadonlyMap<string, Header>;
  readonly issues: Issue[];
}

/** Everything that keeps the parts from being one tree rooted at one supply. */
export function treeIssues(headers: readonly Header[]): Issue[] {
  const byName = new Map<string, Header>();
  const tree: Tree = { headers, byName, issues: [] };
  for (const header of headers) checkName(tree, header, byName);
  checkSupplies(tree);
  for (const header of headers) {
    checkFeeder(tree, header, "fedBy", header.fedBy);
    checkFeeder(tree, header, "coilFedBy", header.coilFedBy);
    checkLeg(tree, header, "leg", header.fedBy);
    checkLeg(tree, header, "coilLeg", header.coilFedBy);
  }
  checkLoops(tree);
  if (tree.issues.length === 0) checkCoils(tree);
  return tree.issues;
}

function report(
  tree: Tree,
  header: Header,
  key: string,
  expected: string,
  received: string,
  nearest?: string,
): void {
  const issue = { path: at(at("parts", header.index), key), expected, received };
  tree.issues.push(nearest === undefined ? issue : { ...issue, nearest });
}

function checkName(tree: Tree, header: Header, byName: Map<string, Header>): void {
  if (header.name === null) return;
  const other = byName.get(header.name);
  if (other === undefined) byName.set(header.name, header);
  else
    report(
      tree,
      header,
      "name",
      `a name that no other part has`,
      `"${header.name}", as parts[${other.index}]`,
    );
}

function checkSupplies(tree: Tree): void {
  const supplies = tree.headers.filter((header) => header.is === "supply");
  if (supplies.length === 0) {
    const expected = `one part that "is": "supply", for the others to be fed by`;
    tree.issues.push({ path: "parts", expected, received: "no supply" });
  }
  for (const extra of supplies.slice(1)) {
    report(
      tree,
      extra,
      "is",
      `one supply in a cabinet, and parts[${supplies[0]!.index}] is one`,
      `another supply`,
    );
  }
}

const feeding = kinds.filter((kind) => kind.feeds).map((kind) => kind.is);

function checkFeeder(tree: Tree, header: Header, key: "fedBy" | "coilFedBy", feeder: string | null): void {
  if (feeder === null) return;
  const found = tree.byName.get(feeder);
  if (found === undefined) {
    const able = tree.headers.filter((one) => one !== header && canFeed(one));
    const names = able.flatMap((one) => one.name ?? []);
    report(
      tree,
      header,
      key,
      "the name of a part of this cabinet",
      `"${feeder}"`,
      nearestName(feeder, names),
    );
  } else if (!canFeed(found)) {
    report(
      tree,
      header,
      key,
      `a part that can feed others: ${feeding.join(", ")}`,
      `"${feeder}", which is a ${found.is}`,
    );
  }
}

/** A part of no known kind is given the benefit of the doubt: its kind is reported already. */
const canFeed = (header: Header): boolean => kindNamed(header.is)?.feeds ?? true;

function checkLeg(tree: Tree, header: Header, key: "leg" | "coilLeg", feeder: string | null): void {
  const leg = header[key];
  const found = feeder === null ? undefined : tree.byName.get(feeder);
  if (
    leg === null ||
    found === undefined ||
    kindNamed(found.is) === undefined ||
    found.is === "autotransformer"
  )
    return;
  report(
    tree,
    header,
    key,
    `no leg: only an autotransformer has legs, and "${feeder}" is a ${found.is}`,
    `"${leg}"`,
  );
}

const feederOf = (tree: Tree, header: Header): Header | undefined =>
  header.fedBy === null ? undefined : tree.byName.get(header.fedBy);

/** Each loop is reported once, at the part of it that stands first in the file. */
function checkLoops(tree: Tree): void {
  const done = new Set<Header>();
  for (const header of tree.headers) {
    const way: Header[] = [];
    let one: Header | undefined = header;
    while (one !== undefined && !done.has(one) && !way.includes(one)) {
      way.push(one);
      one = feederOf(tree, one);
    }
    if (one !== undefined && way.includes(one)) reportLoop(tree, way.slice(way.indexOf(one)));
    for (const passed of way) done.add(passed);
  }
}

function reportLoop(tree: Tree, loop: readonly Header[]): void {
  const first = loop.reduce((a, b) => (b.index < a.index ? b : a));
  const start = loop.indexOf(first);
  const names = [...loop.slice(start), ...loop.slice(0, start), first].map((header) => `"${header.name}"`);
  report(
    tree,
    first,
    "fedBy",
    "a chain of feeders that ends at the supply",
    `a loop: ${names.join(" fed by ")}`,
  );
}

/** The contactors that must be closed before a part is live, from the part to the supply. */
function contactorsBefore(tree: Tree, from: Header): Header[] {
  const before: Header[] = [];
  for (let one: Header | undefined = from; one !== undefined; one = feederOf(tree, one)) {
    if (one.is === "contactor" && one.coilFedBy !== null) before.push(one);
  }
  return before;
}

/** A coil that is live only once its own contacts have closed can never pull in. */
function checkCoils(tree: Tree): void {
  const needs = (contactor: Header): Header[] =>
    contactorsBefore(tree, tree.byName.get(contactor.coilFedBy!)!);
  for (const header of tree.headers) {
    if (header.is !== "contactor" || header.coilFedBy === null) continue;
    const seen = new Set<Header>();
    const open = needs(header);
    while (open.length > 0) {
      const next = open.pop()!;
      if (!seen.has(next)) open.push(...needs(next));
      seen.add(next);
    }
    if (!seen.has(header)) continue;
    report(
      tree,
      header,
      "coilFedBy",
      "a part that is live before this contactor closes",
      `"${header.coilFedBy}"`,
    );
  }
}
