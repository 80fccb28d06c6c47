import type { Circuit } from "@startgap/circuit";
import type { PartFacts } from "../facts.ts";
import type { Assumption } from "../grade.ts";
import type { Range } from "../quantity.ts";
import type { RangeFound } from "../shape/shape.ts";
import type { Enclosure } from "./enclosure.ts";

/**
 * A quantity of the file that is only known within a range, with its path ("parts[4].circuit.main.r") and the unit
 * of its values: SI, but rpm for speeds, degC for temperatures; "" for plain numbers and for percentages, 1 being 100 %.
 */
export interface RangedQuantity extends RangeFound {
  /** Name of the part that it belongs to. */
  readonly part: string;
}

/** A delay relay and what its dial stands for, with its tolerance. */
export interface Relay {
  readonly name: string;
  readonly delay_s: Range;
}

/** The validated content of a cabinet file, as plain JSON. */
export type CabinetFile = { readonly [key: string]: unknown };

/** A cabinet file that was read, worked out and found free of contradictions. */
export interface Cabinet {
  readonly title: string;
  /** Nominal values throughout; every feeder stands before what it feeds. */
  readonly circuit: Circuit;
  /** Everything the file did not state and that was taken instead. */
  readonly assumptions: readonly Assumption[];
  /** Warnings in plain words: nothing that keeps the cabinet from being studied. */
  readonly notes: readonly string[];
  readonly relays: readonly Relay[];
  readonly file: CabinetFile;
  /** Nominal rms voltage at each part's output (an autotransformer's first leg), at the terminals of loads and motors. */
  readonly nominalVoltage_V: Readonly<Record<string, number>>;
  /** What protection and heat are judged by, by part; loads and supplies have none. */
  readonly facts: Readonly<Record<string, PartFacts>>;
  /** The box around it; null when the file does not tell. */
  readonly enclosure: Enclosure | null;
  /** Every quantity that is only known within a range; but those of the enclosure, which are taken at their middle. */
  readonly ranges: readonly RangedQuantity[];
}
