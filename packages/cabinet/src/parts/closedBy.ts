import type { ClosedBy } from "@startgap/circuit";
import { list } from "../shape/lists.ts";
import { may, record } from "../shape/record.ts";
import { text } from "../shape/scalars.ts";
import { isRecord, type Shape, wrong } from "../shape/shape.ts";

/** As the file writes a path: a list of contacts stands for contacts in series. */
export type Path =
  | string
  | readonly Path[]
  | { readonly all: readonly Path[] | null; readonly any: readonly Path[] | null; readonly not: Path | null };

const contact = text("the name of a device with a contact", 60, "pressure switch 1");

const MOST = 20;

const EXAMPLE = `{ "all": ["master switch", { "any": ["pressure switch 1", "pressure switch 2"] }] }`;
const expected = `a name, a list of them in series, or "all", "any" and "not" of them, as ${EXAMPLE}`;

/** Contacts in series or parallel, or one that opens: of single contacts, or of groups of them. */
const grouped = (inner: Shape<Path>): Shape<Path> => {
  const many = list("contacts", inner, { from: 1, to: MOST });
  return record(
    "contacts",
    {
      all: may(many, "Contacts in series: every one must be closed."),
      any: may(many, "Contacts in parallel: one closed is enough."),
      not: may(inner, "A contact that is closed while its device is not."),
    },
    { ways: [{ needs: ["all"] }, { needs: ["any"] }, { needs: ["not"] }], example: EXAMPLE },
  );
};

/** Text is a contact, an object a group, and a list, where there may be one, contacts in series. */
function either(group: Shape<Path>, series: Shape<Path> | null): Shape<Path> {
  return {
    expected,
    read(value, path, reading) {
      if (typeof value === "string") return contact.read(value, path, reading);
      if (Array.isArray(value) && series !== null) return series.read(value, path, reading);
      return isRecord(value) ? group.read(value, path, reading) : wrong(reading, path, expected, value);
    },
    schema: { anyOf: [contact, ...(series === null ? [] : [series]), group].map((one) => one.schema) },
  };
}

/** A contact, or a group of contacts: groups stand in one another no deeper than this, which the schema can tell. */
const member = either(grouped(contact), null);

/** What closes a contactor, as it is wired. */
export const closedByShape = either(grouped(member), list("contacts", member, { from: 1, to: MOST }));

/** The same path as the circuit reads it. */
export function closedByOf(path: Path): ClosedBy {
  if (typeof path === "string") return path;
  if (Array.isArray(path)) return { all: path.map(closedByOf) };
  const { all, any, not } = path as Exclude<Path, string | readonly Path[]>;
  if (all !== null) return { all: all.map(closedByOf) };
  if (any !== null) return { any: any.map(closedByOf) };
  return { not: closedByOf(not ?? "") };
}

/** Every name in it, with its place relative to the path's own. */
export function contactsIn(path: Path, place: string): { readonly name: string; readonly path: string }[] {
  if (typeof path === "string") return [{ name: path, path: place }];
  const inList = (items: readonly Path[], at: string) =>
    items.flatMap((one, i) => contactsIn(one, `${at}[${i}]`));
  if (Array.isArray(path)) return inList(path, place);
  const { all, any, not } = path as Exclude<Path, string | readonly Path[]>;
  return [
    ...inList(all ?? [], `${place}.all`),
    ...inList(any ?? [], `${place}.any`),
    ...(not === null ? [] : contactsIn(not, `${place}.not`)),
  ];
}
