/**
 * What closes a contactor: the path through its coil, as it is wired.
 *
 * A name is a contact that closes with the device of that name; `all` are contacts in series, `any` in
 * parallel, `not` is a contact that opens when its device closes.
 */
export type ClosedBy =
  | string
  | { readonly all: readonly ClosedBy[] }
  | { readonly any: readonly ClosedBy[] }
  | { readonly not: ClosedBy };

/** Which devices with contacts are closed: written by each of them, read by whatever they close. */
export interface Contacts {
  /** 1 while closed. Parts come first, in their order; then controls. */
  readonly closed: Uint8Array;
  /** @throws RangeError for a name that nothing in the circuit has */
  indexOf(name: string): number;
}

export function contactsOf(names: readonly string[]): Contacts {
  const index = new Map(names.map((name, i) => [name, i]));
  return {
    closed: new Uint8Array(names.length),
    indexOf(name) {
      const found = index.get(name);
      if (found === undefined) throw new RangeError(`invalid contact: "${name}" (no part has that name)`);
      return found;
    },
  };
}

/** The path as a question that can be asked at any time. */
export function pathThrough(path: ClosedBy, contacts: Contacts): () => boolean {
  const { closed } = contacts;
  if (typeof path === "string") {
    const index = contacts.indexOf(path);
    return () => closed[index] === 1;
  }
  if ("not" in path) {
    const inner = pathThrough(path.not, contacts);
    return () => !inner();
  }
  const inSeries = "all" in path;
  const each = ("all" in path ? path.all : path.any).map((one) => pathThrough(one, contacts));
  return inSeries ? () => each.every(holds) : () => each.some(holds);
}

const holds = (path: () => boolean): boolean => path();

/** The names of all devices in a path, each once. */
export function namesIn(path: ClosedBy): string[] {
  if (typeof path === "string") return [path];
  if ("not" in path) return namesIn(path.not);
  return [...new Set(("all" in path ? path.all : path.any).flatMap(namesIn))];
}
