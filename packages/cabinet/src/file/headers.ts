import { isRecord } from "../shape/shape.ts";

/** What a part says of its place, as far as it can be made out even when the rest of it is wrong. */
export interface Header {
  readonly index: number;
  readonly name: string | null;
  readonly is: string | null;
  readonly fedBy: string | null;
  readonly leg: string | null;
  readonly coilFedBy: string | null;
  readonly coilLeg: string | null;
}

const textOf = (value: unknown): string | null => (typeof value === "string" ? value : null);

/** The headers of everything in the list of parts that is an object. */
export function headersOf(parts: readonly unknown[]): Header[] {
  return parts.flatMap((part, index) => {
    if (!isRecord(part)) return [];
    const get = (key: string): string | null => (Object.hasOwn(part, key) ? textOf(part[key]) : null);
    const [name, is, fedBy, leg] = [get("name"), get("is"), get("fedBy"), get("leg")];
    const root = is === "supply";
    return [
      {
        index,
        name,
        is,
        fedBy: root ? null : fedBy,
        leg: root ? null : leg,
        coilFedBy: get("coilFedBy"),
        coilLeg: get("coilLeg"),
      },
    ];
  });
}

/** The parts in an order in which every feeder stands before what it feeds, else as in the file; a loop is cut. */
export function feedersFirst(headers: readonly Header[]): Header[] {
  const byName = new Map(headers.map((header) => [header.name, header]));
  const ordered = new Set<Header>();
  const reached = new Set<Header>();
  const place = (header: Header): void => {
    if (reached.has(header)) return;
    reached.add(header);
    const feeder = header.fedBy === null ? undefined : byName.get(header.fedBy);
    if (feeder !== undefined) place(feeder);
    ordered.add(header);
  };
  for (const header of headers) place(header);
  return [...ordered];
}
