import type { Excitation, Impedance } from "@startgap/circuit";
import type { ImpedanceRange } from "../cable/impedance.ts";
import type { Windings } from "./legs.ts";

/** One test with a wattmeter. `side` is the winding that was fed, the other being open or shorted. */
export interface TestReading {
  readonly voltage_V: number;
  readonly current_A: number;
  readonly power_W: number;
  readonly side: "first" | "second";
}

/**
 * A transformer as a builder describes it. Say its impedance in one way: in ohms, in percent, or by a short-circuit
 * test. When none is given, rating alone must do.
 */
export interface TransformerSpec {
  /** "autotransformer": the two windings in series across the input. */
  readonly is: "transformer" | "autotransformer";
  /** Rated voltages of the first and second winding, 1 to 100000 V each. */
  readonly windings_V: Windings;
  /** Nameplate as a two-winding transformer, VA. Only an impedance in ohms does without. */
  readonly rating_VA?: number;
  /** Leakage outright, ohm, referred to the first winding. Nothing is added to it. */
  readonly impedance?: Impedance;
  /** Leakage in percent of rated voltage at rated current. */
  readonly impedance_percent?: number;
  /** With a percent impedance. */
  readonly xOverR?: number;
  /** Tests as a two-winding transformer. */
  readonly shortCircuit?: TestReading;
  readonly openCircuit?: TestReading;
  /** At rated voltage. */
  readonly idleLoss_W?: number;
  /** In percent of the rated current, or in A into the input at rated voltage; not both. */
  readonly excitingCurrent_percent?: number;
  readonly excitingCurrent_A?: number;
}

/** What a description comes to. */
export interface TransformerFound extends Impedance {
  readonly is: "transformer" | "autotransformer";
  readonly windings_V: Windings;
  /** Null when only ohms were given. */
  readonly rating_VA: number | null;
  /** Across the whole input: the first winding, or both in series for an autotransformer. */
  readonly excitation: Excitation;
  /** Where the impedance plausibly lies; null when it was given or measured. */
  readonly range: ImpedanceRange | null;
}

/** Rated voltage across the input, V. */
export const inputVoltage_V = (spec: Pick<TransformerSpec, "is" | "windings_V">): number =>
  spec.is === "autotransformer" ? spec.windings_V[0] + spec.windings_V[1] : spec.windings_V[0];
