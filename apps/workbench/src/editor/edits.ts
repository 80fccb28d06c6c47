import { writeCabinet } from "@startgap/cabinet";
import { type ChangeOptions, change } from "../state/history.ts";
import type { SessionStore } from "../state/session.ts";
import { type Path, rawFile, rawParts, withAt, wordOf } from "./raw.ts";
import { namesOf } from "./references.ts";
import { isJson, type Json, partSchemas } from "./schema.ts";
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
  let followed = false;
  const rest = parts.flatMap((part, i) => {
    if (i === index) return [];
    const next = refed(part, name, feeder);
    followed ||= next !== part;
    return [next];
  });
  const tells = followed ? ` What it fed is now fed by ${feeder}.` : "";
  const notice = `Removed ${name || "a part"}.${tells} Undo brings it back.`;
  keepParts(store, file, rest, { notice });
}

/** A part that hung on another hangs on that one's feeder. */
function refed(part: unknown, name: string, feeder: string): unknown {
  if (!isJson(part) || name === "" || feeder === "") return part;
  const moved = ["fedBy", "coilFedBy", "watches"].filter((key) => wordOf(part, key) === name);
  return moved.length === 0 ? part : { ...part, ...Object.fromEntries(moved.map((key) => [key, feeder])) };
}

/** Adds a part of a kind, fed by another, with usual figures to begin with. Returns its index. */
export function addPart(store: SessionStore, is: string, fedBy: string): number | null {
  const { text, shown, schema } = store.get();
  const file = rawFile(text);
  if (file === null) return null;
  const parts = rawParts(file);
  const name = freeName(is, new Set(parts.map((part) => wordOf(part, "name"))));
  const fed_V = shown?.cabinet.nominalVoltage_V[fedBy] ?? null;
  const receiver = namesOf(parts, schema, "receiver")[0] ?? null;
  const starter = starterOf(is, partSchemas(schema).get(is), { fedBy, fed_V, receiver });
  keepParts(store, file, [...parts, { name, ...starter }], { notice: `Added ${name}.` });
  return parts.length;
}

function freeName(is: string, taken: ReadonlySet<string>): string {
  if (!taken.has(is)) return is;
  let count = 2;
  while (taken.has(`${is} ${count}`)) count += 1;
  return `${is} ${count}`;
}
