import { settleAir } from "./file/air.ts";
import { type BuiltPart, buildParts, type Chosen, rebuildParts } from "./file/build.ts";
import type { Cabinet, CabinetFile, RangedQuantity, Relay } from "./file/cabinet.ts";
import { type Enclosure, enclosureOf } from "./file/enclosure.ts";
import { feedersFirst, headersOf } from "./file/headers.ts";
import { linkIssues } from "./file/links.ts";
import { sortIssues } from "./file/order.ts";
import { plainCopy } from "./file/plain.ts";
import { fileShape, MOST_PARTS, versionIssue } from "./file/schema.ts";
import { treeIssues } from "./file/tree.ts";
import type { Issue } from "./issue.ts";
import type { Range } from "./quantity.ts";
import { at, isRecord, type RangeFound, reading } from "./shape/shape.ts";
import { parseJson } from "./text/json.ts";

/** Longest text of a cabinet file, in characters. */
export const LONGEST_FILE = 1_000_000;

export type CabinetRead = { readonly cabinet: Cabinet } | { readonly issues: readonly Issue[] };

const refused = (path: string, expected: string, received: string): CabinetRead => ({
  issues: [{ path, expected, received }],
});

/**
 * Reads the text of a cabinet file.
 *
 * @param text JSON, at most a million characters
 * @returns the cabinet, or everything that is wrong with the text, sorted by place
 */
export function parseCabinet(text: string): CabinetRead {
  if (text.length > LONGEST_FILE) {
    return refused("", `a file of at most ${LONGEST_FILE} characters`, `${text.length} characters`);
  }
  if (text.trim() === "")
    return refused("", `a cabinet file, as { "startgap": 1, "title": ... }`, "an empty file");
  const json = parseJson(text);
  return "issues" in json ? { issues: sortIssues(json.issues) } : readCabinet(json.value);
}

/**
 * Reads a value that came from JSON as a cabinet file. The value is copied first and never changed.
 *
 * @returns the cabinet, or everything that is wrong with it, sorted by place
 */
export function readCabinet(value: unknown): CabinetRead {
  const copy = plainCopy(value);
  const later = versionIssue(copy.value);
  if (later !== null) return { issues: [later] };
  const gathered = reading();
  const file = fileShape.read(copy.value, "", gathered);
  const raw = rawParts(copy.value);
  const headers = raw.length > MOST_PARTS ? [] : headersOf(raw);
  const tree = headers.length > 0 ? treeIssues(headers) : [];
  const parts = buildParts(raw, feedersFirst(headers));
  const own = parts.flatMap((part) => part.issues);
  const issues = sortIssues([...copy.issues, ...gathered.issues, ...tree, ...linkIssues(parts), ...own]);
  if (issues.length > 0 || file === undefined) return { issues };
  const enclosure = file.enclosure === null ? null : enclosureOf(file.enclosure);
  const ranges = rangesOf(parts, gathered.ranges);
  return { cabinet: cabinetOf(copy.value as CabinetFile, enclosure, parts, ranges) };
}

const rawParts = (file: unknown): readonly unknown[] =>
  isRecord(file) && Array.isArray(file.parts) ? (file.parts as unknown[]) : [];

/**
 * A function that sets the ranged quantities of a cabinet to chosen values and works out again only what these
 * reach. Meant for many variations of one cabinet.
 *
 * The function takes the values in the order of `cabinet.ranges`, in the units that these have, and returns the
 * cabinet, or issues when the values contradict each other although the nominal ones do not. It throws a
 * RangeError when their number differs, or one lies outside its range.
 */
export function variations(cabinet: Cabinet): (values: readonly number[]) => CabinetRead {
  const raw = rawParts(cabinet.file);
  const base = buildParts(raw, feedersFirst(headersOf(raw)));
  return (values) => {
    const parts = rebuildParts(raw, base, chosenOf(cabinet.ranges, values));
    const issues = sortIssues(parts.flatMap((part) => part.issues));
    return issues.length > 0
      ? { issues }
      : { cabinet: cabinetOf(cabinet.file, cabinet.enclosure, parts, []) };
  };
}

function chosenOf(ranges: readonly RangedQuantity[], values: readonly number[]): Chosen {
  if (values.length !== ranges.length) {
    throw new RangeError(`invalid number of values: ${values.length} (expected ${ranges.length})`);
  }
  return new Map(ranges.map((range, i) => [range.path, inside(range, values[i]!)]));
}

function inside(range: RangedQuantity, value: number): number {
  if (value >= range.low && value <= range.high) return value;
  throw new RangeError(`invalid value for ${range.path}: ${value} (expected ${range.low} to ${range.high})`);
}

function rangesOf(parts: readonly BuiltPart[], found: readonly RangeFound[]): RangedQuantity[] {
  const nameAt = new Map(parts.map((part) => [at("parts", part.header.index), part.name]));
  const ofParts = found.filter(({ path }) => path.startsWith("parts["));
  return ofParts.map((range) => ({
    ...range,
    part: nameAt.get(range.path.slice(0, range.path.indexOf("]") + 1)) ?? "",
  }));
}

/** The parts must have been built. */
function cabinetOf(
  file: CabinetFile,
  enclosure: Enclosure | null,
  parts: readonly BuiltPart[],
  ranges: readonly RangedQuantity[],
): Cabinet {
  const title = file.title as string;
  const built = parts.map((part) => part.built!);
  const settled = settleAir(parts);
  const controls = settled.controls.length > 0 ? { controls: settled.controls } : {};
  return {
    title,
    circuit: { title, parts: settled.parts, ...controls },
    assumptions: [...built.flatMap((one) => one.assumptions), ...settled.assumptions],
    notes: [...built.flatMap((one) => one.notes), ...settled.notes],
    relays: parts.flatMap(relayOf),
    file,
    facts: Object.fromEntries(
      parts.flatMap(({ name, built }) => (built?.facts ? [[name, built.facts]] : [])),
    ),
    enclosure,
    nominalVoltage_V: Object.fromEntries(
      parts.flatMap(({ name, voltage_V }) => (voltage_V === null ? [] : [[name, voltage_V]])),
    ),
    ranges,
  };
}

function relayOf(part: BuiltPart): Relay[] {
  if (part.built?.parameters.is !== "delay relay") return [];
  return [{ name: part.name, delay_s: (part.spec as { delay: Range }).delay }];
}
