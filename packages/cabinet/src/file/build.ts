import type { Leg } from "@startgap/circuit";
import type { Issue } from "../issue.ts";
import { type Built, isIssues, type Surroundings } from "../parts/kind.ts";
import { kindNamed } from "../parts/kinds.ts";
import { supplyFrequency } from "../parts/supply.ts";
import { at, reading } from "../shape/shape.ts";
import type { Header } from "./headers.ts";
import { type Fed, nominalVoltages, type Voltages } from "./voltages.ts";

/** A part as far as it could be worked out. */
export interface BuiltPart extends Fed {
  /** Its place in the file. */
  readonly header: Header;
  readonly built: Built | null;
  readonly issues: readonly Issue[];
  readonly around: Surroundings;
  /** Nominal voltage at its output, or at the terminals of a part that feeds nothing. */
  readonly voltage_V: number | null;
}

/** Values in SI for ranged quantities, by path. */
export type Chosen = ReadonlyMap<string, number>;

const none: Chosen = new Map();

/** Stands in where something broken upstream leaves the voltage unknown, so that the parts behind are checked too. */
const STOPGAP_V = 240;

/**
 * Works out every part that can be read; feeders must stand first. None when the supply's frequency is not known,
 * for nothing can be said of a motor without it.
 */
export function buildParts(raw: readonly unknown[], headers: readonly Header[]): BuiltPart[] {
  const frequency_Hz = frequencyOf(raw, headers, none);
  if (frequency_Hz === null) return [];
  const parts = headers.map((header) => ({ header, ...readPart(raw[header.index], header, none) }));
  return buildAll(parts, { frequency_Hz, stated_Hz: frequency_Hz });
}

/** The same parts with other values chosen: only what these values reach is worked out again. */
export function rebuildParts(
  raw: readonly unknown[],
  before: readonly BuiltPart[],
  chosen: Chosen,
): BuiltPart[] {
  const touched = new Set([...chosen.keys()].map((path) => path.slice(0, path.indexOf("]") + 1)));
  const parts = before.map((part) => {
    const { header } = part;
    if (!touched.has(at("parts", header.index))) return part;
    return { header, ...readPart(raw[header.index], header, chosen) };
  });
  const headers = before.map((part) => part.header);
  const stated_Hz = frequencyOf(raw, headers, none)!;
  const frequency_Hz = frequencyOf(raw, headers, chosen)!;
  return buildAll(parts, { frequency_Hz, stated_Hz });
}

type Unbuilt = Fed & { readonly header: Header } & Partial<BuiltPart>;

function buildAll(parts: readonly Unbuilt[], frequencies: Frequencies): BuiltPart[] {
  const voltages = nominalVoltages(parts);
  return parts.map((part) => buildPart(part, voltages, frequencies));
}

function readPart(raw: unknown, header: Header, chosen: Chosen): Fed {
  const kind = kindNamed(header.is) ?? null;
  const spec = kind?.shape.read(raw, at("parts", header.index), reading(chosen));
  const leg = (header.leg ?? "first") as Leg;
  return { name: header.name ?? "", fedBy: header.fedBy, leg, kind, spec };
}

/** Read by itself, so that it is known also of a supply that has something else wrong. */
function frequencyOf(raw: readonly unknown[], headers: readonly Header[], chosen: Chosen): number | null {
  const header = headers.find((one) => one.is === "supply");
  if (header === undefined) return null;
  const { frequency } = raw[header.index] as { readonly frequency?: unknown };
  const path = at(at("parts", header.index), "frequency");
  return supplyFrequency.read(frequency, path, reading(chosen))?.nominal ?? null;
}

type Frequencies = Pick<Surroundings, "frequency_Hz" | "stated_Hz">;

function buildPart(part: Unbuilt, voltages: Voltages, frequencies: Frequencies): BuiltPart {
  const { header, name, fedBy, leg, kind, spec } = part;
  const around: Surroundings = {
    name,
    fedBy: fedBy ?? "",
    leg,
    ...frequencies,
    input_V: voltages.input_V.get(name) ?? STOPGAP_V,
    output_V: voltages.output_V,
  };
  const voltage_V = kind?.feeds ? voltages.output_V(name, "first") : (voltages.input_V.get(name) ?? null);
  const base = { header, name, fedBy, leg, kind, spec, around, voltage_V };
  if (part.built && sameAround(part.around!, around)) return { ...base, built: part.built, issues: [] };
  if (kind === null || spec === undefined) return { ...base, built: null, issues: [] };
  const built = kind.build(spec, around);
  if (!isIssues(built)) return { ...base, built, issues: [] };
  return { ...base, built: null, issues: under(at("parts", header.index), built) };
}

const sameAround = (a: Surroundings, b: Surroundings): boolean =>
  a.frequency_Hz === b.frequency_Hz && a.input_V === b.input_V;

const under = (place: string, issues: readonly Issue[]): Issue[] =>
  issues.map((issue) => ({ ...issue, path: issue.path === "" ? place : `${place}.${issue.path}` }));
