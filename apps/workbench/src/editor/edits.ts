import { writeCabinet } from "@startgap/cabinet";
import { type ChangeOptions, change } from "../state/history.ts";
import type { SessionStore } from "../state/session.ts";
import { type Path, rawFile, rawParts, withAt, wordOf } from "./raw.ts";
import { isJson, type Json } from "./schema.ts";
import { starterOf } from "./starters.ts";

/** Puts a value into the file at one place; `undefined` takes it away. */
export function put(store: SessionStore, path: Path, value: unknown, options: ChangeOptions = {}): void {
  const file = rawFile(store.get().text);
  if (file !== null) keep(store, withAt(file, path, value) as Json, options);
}

function keep(store: SessionStore, file: Json, options: ChangeOptions): void {
  change(store, { text: writeCabinet(file) }, options);
}

function keepParts(store: SessionStore, file: Json, parts: readonly unknown[], options: ChangeOptions): void {
  keep(store, { ...file, parts }, options);
}

/** Keys that name another part. */
const references = ["fedBy", "coilFedBy"] as const;

/** Where the parts that name one part do so: found before a name is typed over, since on the way it may equal another's. */
export function referencesTo(text: string, name: string): Path[] {
  return rawParts(rawFile(text)).flatMap((part, index) =>
    references.filter((key) => name !== "" && wordOf(part, key) === name).map((key) => ["parts", index, key]),
  );
}

/** Renames a part, and with it what the given places say. */
export function rename(
  store: SessionStore,
  index: number,
  name: string,
  places: readonly Path[],
  options: ChangeOptions,
): void {
  const file = rawFile(store.get().text);
  if (file === null) return;
  const paths: Path[] = [["parts", index, "name"], ...places];
  const renamed = paths.reduce<unknown>((value, path) => withAt(value, path, name), file);
  keep(store, renamed as Json, options);
}

/** Takes a part out; what it fed is from then on fed by what fed it. */
export function removePart(store: SessionStore, index: number): void {
  const file = rawFile(store.get().text);
  const parts = rawParts(file);
  if (file === null) return;
  const [name, feeder] = [wordOf(parts[index], "name"), wordOf(parts[index], "fedBy")];
  const rest = parts
    .filter((_, i) => i !== index)
    .map((part) =>
      references.reduce(
        (one, key) => (wordOf(one, key) === name && name !== "" ? refed(one, key, feeder) : one),
        part,
      ),
    );
  const followed = rest.some((part, i) => part !== parts.filter((_, k) => k !== index)[i]);
  const notice = `Removed ${name || "a part"}.${followed ? ` What it fed is now fed by ${feeder}.` : ""} Undo brings it back.`;
  keepParts(store, file, rest, { notice });
}

const refed = (part: unknown, key: string, feeder: string): unknown =>
  isJson(part) && feeder !== "" ? { ...part, [key]: feeder } : part;

/** Adds a part of a kind, fed by another, with usual figures to begin with. Returns its index. */
export function addPart(store: SessionStore, is: string, fedBy: string): number | null {
  const { text, shown } = store.get();
  const file = rawFile(text);
  if (file === null) return null;
  const parts = rawParts(file);
  const name = freeName(is, new Set(parts.map((part) => wordOf(part, "name"))));
  const starter = starterOf(is, fedBy, shown?.cabinet.nominalVoltage_V[fedBy] ?? null);
  const part = is === "supply" ? { name, is, ...starter } : { name, is, fedBy, ...starter };
  keepParts(store, file, [...parts, part], { notice: `Added ${name}.` });
  return parts.length;
}

function freeName(is: string, taken: ReadonlySet<string>): string {
  if (!taken.has(is)) return is;
  let count = 2;
  while (taken.has(`${is} ${count}`)) count += 1;
  return `${is} ${count}`;
}
