import type { Leg } from "@startgap/circuit";
import type { Issue } from "../issue.ts";
import { type Built, isIssues, type Surroundings } from "../parts/kind.ts";
import { kindNamed } from "../parts/kinds.ts";
import type { Range } from "../quantity.ts";
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

/** Stand-ins for what a broken part upstream leaves unknown, so that the parts behind it are checked too. */
const stopgap = { frequency_Hz: 60, input_V: 240 };

/** Works out every part that can be read; feeders must stand first. */
export function buildParts(raw: readonly unknown[], headers: readonly Header[], chosen: Chosen): BuiltPart[] {
  const parts = headers.map((header) => ({ header, ...readPart(raw[header.index], header, chosen) }));
  return buildAll(parts, frequencyOf(parts));
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
  return buildAll(parts, frequencyOf(before));
}

type Unbuilt = Fed & { readonly header: Header } & Partial<BuiltPart>;

function buildAll(parts: readonly Unbuilt[], stated_Hz: number): BuiltPart[] {
  const voltages = nominalVoltages(parts);
  const frequency_Hz = frequencyOf(parts);
  return parts.map((part) => buildPart(part, voltages, { frequency_Hz, stated_Hz }));
}

function readPart(raw: unknown, header: Header, chosen: Chosen): Fed {
  const kind = kindNamed(header.is) ?? null;
  const spec = kind?.shape.read(raw, at("parts", header.index), reading(chosen));
  const leg = (header.leg ?? "first") as Leg;
  return { name: header.name ?? "", fedBy: header.fedBy, leg, kind, spec };
}

function frequencyOf(parts: readonly Fed[]): number {
  const spec = parts.find((part) => part.kind?.is === "supply")?.spec as { frequency: Range } | undefined;
  return spec?.frequency.nominal ?? stopgap.frequency_Hz;
}

type Frequencies = Pick<Surroundings, "frequency_Hz" | "stated_Hz">;

function buildPart(part: Unbuilt, voltages: Voltages, frequencies: Frequencies): BuiltPart {
  const { header, name, fedBy, leg, kind, spec } = part;
  const around: Surroundings = {
    name,
    fedBy: fedBy ?? "",
    leg,
    ...frequencies,
    input_V: voltages.input_V.get(name) ?? stopgap.input_V,
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
