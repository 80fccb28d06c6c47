import type { CabinetFile } from "./file/cabinet.ts";

/** Longest line that lists and objects are kept on. */
const WIDTH = 100;

/**
 * The text of a cabinet file, as people would lay it out: what fits on a line stays on one.
 *
 * Reading it again gives the same file: `parseCabinet(writeCabinet(cabinet.file))`.
 */
export const writeCabinet = (file: CabinetFile): string => `${written(file, "", 0)}\n`;

/** `used` is what stands before the value on its line. */
function written(value: unknown, indent: string, used: number): string {
  const flat = onOneLine(value);
  if (typeof value !== "object" || value === null) return flat;
  if (indent !== "" && indent.length + used + flat.length <= WIDTH) return flat;
  const inner = `${indent}  `;
  const list = Array.isArray(value);
  const lines = Object.entries(value).map(([key, one]) => {
    const before = list ? "" : `${JSON.stringify(key)}: `;
    return `${inner}${before}${written(one, inner, before.length + 1)}`;
  });
  if (lines.length === 0) return flat;
  return `${list ? "[" : "{"}\n${lines.join(",\n")}\n${indent}${list ? "]" : "}"}`;
}

function onOneLine(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(onOneLine).join(", ")}]`;
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  const entries = Object.entries(value).map(([key, one]) => `${JSON.stringify(key)}: ${onOneLine(one)}`);
  return entries.length === 0 ? "{}" : `{ ${entries.join(", ")} }`;
}
