import type { ControlParameters, Leg, PartParameters } from "@startgap/circuit";
import type { PartFacts } from "../facts.ts";
import type { Assumption } from "../grade.ts";
import type { Issue } from "../issue.ts";
import { type Field, may, need } from "../shape/record.ts";
import { oneOf, prose, text } from "../shape/scalars.ts";
import type { Shape } from "../shape/shape.ts";

/** What a part needs to know of the rest of the cabinet to be worked out. */
export interface Surroundings {
  readonly name: string;
  readonly fedBy: string;
  readonly leg: Leg;
  readonly frequency_Hz: number;
  /** Frequency for which the file states reactances: the supply's nominal one, also where another was chosen. */
  readonly stated_Hz: number;
  /** Nominal rms voltage at its input. */
  readonly input_V: number;
  /** Nominal rms voltage at the output of any part, or null for a part that has none. */
  readonly output_V: (part: string, leg: Leg) => number | null;
}

export interface Built {
  readonly parameters: PartParameters | ControlParameters;
  readonly assumptions: readonly Assumption[];
  /** Warnings in plain words. */
  readonly notes: readonly string[];
  /** What protection and heat are judged by; absent for a part that has nothing of the kind. */
  readonly facts?: PartFacts;
}

/** What a kind of part is called in the file. */
export type KindName = (PartParameters | ControlParameters)["is"];

/** A name in one part that must be the name of another of certain kinds, or of any that feeds others. */
export interface Link {
  /** Relative to the part. */
  readonly path: string;
  readonly name: string;
  readonly to: readonly KindName[] | "feeding";
}

/**
 * One kind of part: its keys, how it becomes parameters of the circuit, and what it feeds. A new kind is one file
 * with one of these and one line in the table of kinds.
 */
export interface PartKind<S = unknown> {
  readonly is: KindName;
  /** For the published schema. */
  readonly doc: string;
  readonly shape: Shape<S>;
  /** Whether other parts may be fed by it. */
  readonly feeds: boolean;
  /** Paths of the issues are relative to the part. */
  readonly build: (spec: S, around: Surroundings) => Built | readonly Issue[];
  /** Other parts that it names besides the one that feeds it. */
  readonly links?: (spec: S) => readonly Link[];
  /** Nominal output voltage; the input's when absent. */
  readonly output_V?: (spec: S, input_V: number, leg: Leg) => number;
}

/** A kind of part whose keys are known only to itself. */
export const kind = <S>(part: PartKind<S>): PartKind => part as PartKind;

export const isIssues = (built: Built | readonly Issue[]): built is readonly Issue[] => Array.isArray(built);

export const name = text("a name", 60, "feeder");
const legs = oneOf("a leg of the transformer that feeds it", ["first", "second", "both"]);

/** The keys that every part but the supply has. */
export const placeFields = {
  name: need(name, "What this part is called; no other part may have the same name."),
  fedBy: need(text("the name of the part that feeds it", 60, "feeder"), "Name of the part that feeds it."),
  leg: may(legs, "Which output of a two-leg autotransformer feeds it: the first when silent."),
  note: may(prose("a remark", 1000, "measured with the door closed"), "A remark; not used."),
} as const;

/** The keys of a part that no power runs through. */
export const controlFields = { name: placeFields.name, note: placeFields.note } as const;

/** The key that says what a part is. */
export const isField = <const K extends KindName>(is: K): Field<K, true> =>
  need(oneOf("what the part is", [is]), "What kind of part this is.");

/** Where a part stands in the tree, as every part of the circuit says it. */
export const place = (around: Surroundings) => ({ name: around.name, fedBy: around.fedBy, leg: around.leg });
