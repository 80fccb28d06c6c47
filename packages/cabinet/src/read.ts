import type { Leg, PartParameters } from "@startgap/circuit";
import type { Cabinet, CabinetFile, RangedQuantity, Relay } from "./file/cabinet.ts";
import { sortIssues } from "./file/order.ts";
import { plainCopy } from "./file/plain.ts";
import { fileShape, versionIssue } from "./file/schema.ts";
import { feedersFirst, type Header, headersOf, treeIssues } from "./file/tree.ts";
import { type Fed, nominalVoltages, type Voltages } from "./file/voltages.ts";
import type { Issue } from "./issue.ts";
import { type Built, isIssues, type Surroundings } from "./parts/kind.ts";
import { kindNamed } from "./parts/kinds.ts";
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
  return resolve(copy.value, copy.issues, new Map());
}

/**
 * The cabinet with its ranged quantities set to chosen values, in SI and in the order of `cabinet.ranges`.
 *
 * @returns the cabinet, or issues when these values contradict each other although the nominal ones do not
 * @throws RangeError when the number of values differs, or one lies outside its range
 */
export function withValues(cabinet: Cabinet, values: readonly number[]): CabinetRead {
  if (values.length !== cabinet.ranges.length) {
    throw new RangeError(`invalid number of values: ${values.length} (expected ${cabinet.ranges.length})`);
  }
  const chosen = cabinet.ranges.map((range, i) => [range.path, inside(range, values[i]!)] as const);
  return resolve(cabinet.file, [], new Map(chosen));
}

function inside(range: RangedQuantity, value: number): number {
  if (value >= range.low && value <= range.high) return value;
  throw new RangeError(`invalid value for ${range.path}: ${value} (expected ${range.low} to ${range.high})`);
}

function resolve(value: unknown, before: readonly Issue[], chosen: ReadonlyMap<string, number>): CabinetRead {
  const gathered = reading(chosen);
  const file = fileShape.read(value, "", gathered);
  const rawParts = isRecord(value) && Array.isArray(value.parts) ? (value.parts as unknown[]) : [];
  const headers = headersOf(rawParts.slice(0, 1000));
  const tree = rawParts.length > 0 ? treeIssues(headers) : [];
  const parts = tree.length === 0 ? buildParts(rawParts, feedersFirst(headers), chosen) : [];
  const own = parts.flatMap((part) => part.issues);
  const issues = sortIssues([...before, ...gathered.issues, ...tree, ...own]);
  if (issues.length > 0 || file === undefined) return { issues };
  return { cabinet: cabinetOf(value as CabinetFile, file.title, parts, gathered.ranges) };
}

interface BuiltPart {
  readonly index: number;
  readonly name: string;
  readonly spec: unknown;
  readonly built: Built | null;
  readonly voltage_V: number | null;
  readonly issues: readonly Issue[];
}

/** Stand-ins for what a broken part upstream leaves unknown, so that the parts behind it are checked too. */
const stopgap = { frequency_Hz: 60, input_V: 240 };

/** Works out every part that can be read; feeders must stand first. */
function buildParts(
  raw: readonly unknown[],
  headers: readonly Header[],
  chosen: ReadonlyMap<string, number>,
): BuiltPart[] {
  const fed = headers.map((header) => ({ header, ...fedOf(raw[header.index], header, chosen) }));
  const voltages = nominalVoltages(fed);
  const frequency_Hz = frequencyOf(fed) ?? stopgap.frequency_Hz;
  return fed.map(({ header, ...part }) => buildPart(header.index, part, voltages, frequency_Hz));
}

function fedOf(raw: unknown, header: Header, chosen: ReadonlyMap<string, number>): Fed {
  const kind = kindNamed(header.is) ?? null;
  const spec = kind?.shape.read(raw, at("parts", header.index), reading(chosen));
  const leg = (header.leg ?? "first") as Leg;
  return { name: header.name ?? "", fedBy: header.fedBy, leg, kind, spec };
}

function frequencyOf(parts: readonly Fed[]): number | null {
  const spec = parts.find((part) => part.kind?.is === "supply")?.spec as { frequency: Range } | undefined;
  return spec?.frequency.nominal ?? null;
}

function buildPart(index: number, part: Fed, voltages: Voltages, frequency_Hz: number): BuiltPart {
  const voltage_V = part.kind?.feeds
    ? voltages.output_V(part.name, "first")
    : (voltages.input_V.get(part.name) ?? null);
  const base = { index, name: part.name, spec: part.spec, voltage_V };
  if (part.kind === null || part.spec === undefined) return { ...base, built: null, issues: [] };
  const around: Surroundings = {
    name: part.name,
    fedBy: part.fedBy ?? "",
    leg: part.leg,
    frequency_Hz,
    input_V: voltages.input_V.get(part.name) ?? stopgap.input_V,
    output_V: voltages.output_V,
  };
  const built = part.kind.build(part.spec, around);
  if (!isIssues(built)) return { ...base, built, issues: [] };
  const prefix = at("parts", index);
  const issues = built.map((issue) => ({
    ...issue,
    path: issue.path === "" ? prefix : `${prefix}.${issue.path}`,
  }));
  return { ...base, built: null, issues };
}

function cabinetOf(
  file: CabinetFile,
  title: string,
  parts: readonly BuiltPart[],
  found: readonly RangeFound[],
): Cabinet {
  const built = parts.map((part) => part.built!);
  const nameAt = new Map(parts.map((part) => [at("parts", part.index), part.name]));
  const ranges = found.map((range) => ({
    ...range,
    part: nameAt.get(range.path.replace(/\].*/s, "]")) ?? "",
  }));
  return {
    title,
    circuit: { title, parts: built.map((one): PartParameters => one.parameters) },
    assumptions: built.flatMap((one) => one.assumptions),
    notes: built.flatMap((one) => one.notes),
    relays: parts.flatMap(relayOf),
    file,
    nominalVoltage_V: Object.fromEntries(parts.map((part) => [part.name, part.voltage_V!])),
    ranges,
  };
}

function relayOf(part: BuiltPart): Relay[] {
  if (part.built?.parameters.is !== "delay relay") return [];
  return [{ name: part.name, delay_s: (part.spec as { delay: Range }).delay }];
}
