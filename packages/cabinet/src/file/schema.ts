import type { Issue } from "../issue.ts";
import { kinds } from "../parts/kinds.ts";
import { byKind } from "../shape/choices.ts";
import { list } from "../shape/lists.ts";
import { may, need, record } from "../shape/record.ts";
import { oneOf, prose, text } from "../shape/scalars.ts";
import { isRecord, type JsonSchema } from "../shape/shape.ts";
import { enclosureShape } from "./enclosure.ts";

export const MOST_PARTS = 200;

export const VERSION = 1;

/** A part of any kind: which one, `is` tells. */
const anyPart = byKind(
  "a kind of part",
  Object.fromEntries(kinds.map((kind) => [kind.is, kind.shape])),
  Object.fromEntries(kinds.map((kind) => [kind.is, kind.doc])),
  `{ "name": "feeder", "is": "cable", "fedBy": "panel", ... }`,
);

/** The whole file. */
export const fileShape = record("a cabinet file", {
  $schema: may(
    text("the place of the schema", 300, "cabinet.schema.json"),
    "Where an editor finds the schema.",
  ),
  startgap: need(
    oneOf(`the version of the file format, which this program reads as`, [VERSION]),
    "Version of the file format.",
  ),
  title: need(text("a title", 200, "Ice shed"), "What this cabinet is, in a line."),
  enclosure: may(
    enclosureShape,
    "The box around it all, for the heat in it; heat is not judged when silent.",
  ),
  notes: may(prose("notes", 4000, "Lengths paced out, not measured."), "Remarks; not used."),
  parts: need(
    list("parts", anyPart, { from: 1, to: MOST_PARTS }),
    "Every part, each naming the one that feeds it; they form a tree rooted at the one supply.",
  ),
});

/** The published JSON Schema of the cabinet file (draft 2020-12), made from the table that reads it. */
export const cabinetSchema: JsonSchema = {
  $schema: "https://json-schema.org/draft/2020-12/schema",
  title: "startgap cabinet file, version 1",
  ...fileShape.schema,
};

/** A whole number above this version comes from a later program; the rest of such a file says nothing to this one. */
export function versionIssue(value: unknown): Issue | null {
  const version = isRecord(value) ? value.startgap : undefined;
  if (typeof version !== "number" || !Number.isInteger(version) || version <= VERSION) return null;
  const expected = `${VERSION}, the version that this program reads; get a later startgap, or write the file for version ${VERSION}`;
  return { path: "startgap", expected, received: String(version) };
}
