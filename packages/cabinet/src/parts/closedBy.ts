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

/** More in one another than this is no control circuit but a slip. */
const DEEPEST = 4;
const MOST = 20;

const EXAMPLE = `{ "all": ["master switch", { "any": ["pressure switch 1", "pressure switch 2"] }] }`;
const expected = `a name, a list of them in series, or "all", "any" and "not" of them, as ${EXAMPLE}`;

/** A path of contacts, in one another as deep as `depth`. */
function pathShape(depth: number): Shape<Path> {
  const inner = depth > 1 ? pathShape(depth - 1) : contact;
  const many = list("contacts", inner as Shape<Path>, { from: 1, to: MOST });
  const grouped = record(
    "contacts",
    {
      all: may(many, "Contacts in series: every one must be closed."),
      any: may(many, "Contacts in parallel: one closed is enough."),
      not: may(inner as Shape<Path>, "A contact that is closed while its device is not."),
    },
    { ways: [{ needs: ["all"] }, { needs: ["any"] }, { needs: ["not"] }], example: EXAMPLE },
  );
  return {
    expected,
    read(value, path, reading) {
      if (typeof value === "string") return contact.read(value, path, reading);
      if (Array.isArray(value)) return many.read(value, path, reading);
      return isRecord(value) ? grouped.read(value, path, reading) : wrong(reading, path, expected, value);
    },
    schema: { anyOf: [contact.schema, many.schema, grouped.schema] },
  };
}

/** What closes a contactor, as it is wired. */
export const closedByShape = pathShape(DEEPEST);

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
