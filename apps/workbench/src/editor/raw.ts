import { isJson, type Json } from "./schema.ts";

/** Where a value stands in the file: `["parts", 4, "nameplate", "power"]`. */
export type Path = readonly (string | number)[];

/** The path as issues write it: `parts[4].nameplate.power`; keys that are no plain word are quoted. */
export function pathText(path: Path): string {
  return path.reduce<string>((text, key) => {
    if (typeof key === "number") return `${text}[${key}]`;
    const word = /^[$A-Za-z_][\w$]*$/.test(key) ? key : JSON.stringify(key.slice(0, 60));
    return text === "" ? word : `${text}.${word}`;
  }, "");
}

/** A copy of a value with one place in it changed; `undefined` takes the place away. */
export function withAt(value: unknown, path: Path, next: unknown): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return next;
  if (typeof key === "number") {
    const list = Array.isArray(value) ? [...(value as unknown[])] : [];
    if (rest.length === 0 && next === undefined) list.splice(key, 1);
    else list[key] = withAt(list[key], rest, next);
    return list;
  }
  const record: Json = isJson(value) ? value : {};
  if (rest.length > 0 || next !== undefined) return { ...record, [key]: withAt(record[key], rest, next) };
  const { [key]: _, ...others } = record;
  return others;
}

/** The file as far as it is an object; null when its text is no JSON object. */
export function rawFile(text: string): Json | null {
  try {
    const value: unknown = JSON.parse(text);
    return isJson(value) ? value : null;
  } catch {
    return null;
  }
}

export const rawParts = (file: Json | null): readonly unknown[] =>
  Array.isArray(file?.parts) ? (file.parts as readonly unknown[]) : [];

/** A text of a part's key, or "" where there is none. */
export const wordOf = (part: unknown, key: string): string => {
  const value = isJson(part) && Object.hasOwn(part, key) ? part[key] : undefined;
  return typeof value === "string" ? value : "";
};
