import { type Path, rawFile, rawParts, wordOf } from "./raw.ts";
import { isJson, partSchemas } from "./schema.ts";

/** What the part must be that a key names: one that feeds others, or one of a kind. */
const namers: Readonly<Record<string, string>> = {
  fedBy: "feeding",
  coilFedBy: "feeding",
  watches: "feeding",
  receiver: "receiver",
  into: "receiver",
  waitsFor: "motor",
};

/** Keys beneath which names stand that may be something else as well: they follow a rename, but are typed. */
const typed = ["closedBy", "unloader"];

/** Where parts name one part. Found before a name is typed over, since on the way it may equal another's. */
export function referencesTo(text: string, name: string): Path[] {
  if (name === "") return [];
  return rawParts(rawFile(text)).flatMap((part, index) => placesIn(part, name, false, ["parts", index]));
}

function placesIn(value: unknown, name: string, counts: boolean, path: Path): Path[] {
  if (typeof value === "string") return counts && value === name ? [path] : [];
  if (Array.isArray(value)) return value.flatMap((one, i) => placesIn(one, name, counts, [...path, i]));
  if (!isJson(value)) return [];
  return Object.entries(value).flatMap(([key, one]) => {
    const names = key in namers || typed.includes(key);
    return placesIn(one, name, counts || names, [...path, key]);
  });
}

/** Names that a key may take which names a part; null for any other key. */
export function namesFor(text: string, schema: unknown, path: Path): readonly string[] | null {
  const key = path[path.length - 1];
  if (path[0] !== "parts" || typeof key !== "string" || !Object.hasOwn(namers, key)) return null;
  return namesOf(rawParts(rawFile(text)), schema, namers[key], path[1] as number);
}

/** Names of the parts that feed others, or of those of a kind; without the part at an index. */
export function namesOf(parts: readonly unknown[], schema: unknown, of: string, except = -1): string[] {
  const feeds = feedingKinds(schema);
  return parts.flatMap((part, i) => {
    const [name, is] = [wordOf(part, "name"), wordOf(part, "is")];
    const fits = of === "feeding" ? feeds.has(is) : is === of;
    return i !== except && name !== "" && fits ? [name] : [];
  });
}

/** Power runs through a part that is fed and is no end of the line. */
function feedingKinds(schema: unknown): ReadonlySet<string> {
  const fed = [...partSchemas(schema)].filter(
    ([is, { properties }]) => is === "supply" || "fedBy" in (properties ?? {}),
  );
  return new Set(fed.map(([is]) => is).filter((is) => is !== "motor" && is !== "load"));
}
