import type { ProtectionFinding } from "../protection/results.ts";

/** What the day study returns. Published output: extend, never change. */

/** A day of the warmest or of the coldest kind that the file describes. */
export type Season = "summer" | "winter";

/** Where the demand for air comes from; "calls" where no pressure switch works the cabinet. */
export type DemandFrom = "as stated" | "as asked" | "assumed" | "calls";

export type DayQuantity =
  | "temperature outside"
  | "temperature"
  | "winding temperature"
  | "start winding temperature"
  | "core temperature"
  | "pressure"
  | "running"
  | "melt fraction"
  | "melting current";

/** One quantity of one part over the day's time. */
export interface DayColumn {
  readonly quantity: DayQuantity;
  /** "air" for the air outside, "enclosure" for that in the box. */
  readonly part: string;
  /** "" for a share: running is 1 or 0, melting current a factor on the fuse's own at the air of its file. */
  readonly unit: "degC" | "kPa" | "";
  readonly values: Float64Array;
}

/** Rows at every start, at its end, at every stop, and every five minutes. */
export interface DayTraces {
  readonly time_s: Float64Array;
  readonly columns: readonly DayColumn[];
}

/** Every start of the day in the order of time, as columns. */
export interface DayStarts {
  readonly time_s: Float64Array;
  /** Index among `motors`. */
  readonly motor: Float64Array;
  /** Until 90 % of synchronous speed with the start winding out; 0 for one that did not come up, or was still up. */
  readonly runUp_s: Float64Array;
  readonly startWinding_s: Float64Array;
  readonly energy_J: Float64Array;
  /** Air around the fuses. */
  readonly air_C: Float64Array;
  /** Highest melt fraction of every fuse from this start to the next. */
  readonly melt: readonly { readonly part: string; readonly values: Float64Array }[];
}

/** The most of something, and when. */
export interface Most {
  readonly value: number;
  readonly at_s: number;
}

export interface DayMotor {
  readonly part: string;
  readonly starts: number;
  /** Starts that were cut off or did not come up. */
  readonly failed: number;
  readonly running_s: number;
  /** In any hour; `at_s` is where that hour begins. */
  readonly mostInAnHour: Most;
  readonly shortestRest_s: number | null;
  /** Starts an hour and rest of the published table; null beyond it. */
  readonly allowed: { readonly perHour: number; readonly rest_s: number } | null;
  /** The receiver that it fills; null for one that fills none. */
  readonly fills: string | null;
  /** Null without a start switch. */
  readonly startWinding: {
    readonly longest_s: number;
    readonly hottest_C: number;
    readonly at_s: number;
    /** Seconds in circuit in the worst hour. */
    readonly inAnHour: Most;
    readonly hasCapacitor: boolean;
  } | null;
  readonly hottest: Most;
  readonly limit_C: number;
}

export interface DayTransformer {
  readonly part: string;
  readonly winding: Most;
  readonly core: Most;
  readonly insulation_C: number;
}

export interface DayFuse {
  readonly part: string;
  /** The start of the day that brought it nearest to melting, and the one of the same motor that did so least. */
  readonly worst: MeltAt | null;
  readonly mildest: MeltAt | null;
  /** When it melted; null when it did not. */
  readonly melted_s: number | null;
}

export interface MeltAt {
  readonly meltFraction: number;
  readonly at_s: number;
  readonly air_C: number;
  /** Its melting currents over those at the air that the file states. */
  readonly factor: number;
}

export interface DayReceiver {
  readonly part: string;
  readonly lowest: Most;
  readonly highest: Most;
  /** Lowest cut-in and highest cut-out of its switches; null without one. */
  readonly band_Pa: readonly [number, number] | null;
  readonly ranEmpty_s: number | null;
  readonly relieved_s: number | null;
}

export interface DayBox {
  readonly hottest: Most;
  readonly coolest: Most;
}

/** Where the energy of the day went, J: supply = lost + shaft + kinetic. */
export interface DayEnergy {
  readonly supply_J: number;
  readonly lost_J: number;
  readonly shaft_J: number;
  /** Kinetic energy at the end less that at the beginning. */
  readonly kinetic_J: number;
  /** Of what motors, and what everything in the box lost: what went to the air around, and what is still in them. */
  readonly motors: HeatBalance;
  readonly box: HeatBalance;
}

/** lost = shed + stored */
export interface HeatBalance {
  readonly lost_J: number;
  readonly shed_J: number;
  readonly stored_J: number;
}

export interface DayReport {
  readonly startgap: "day 1";
  readonly title: string;
  readonly season: Season;
  readonly hours: number;
  readonly demand: DemandFrom;
  /** How it ended, one sentence. */
  readonly ended: string;
  readonly motors: readonly DayMotor[];
  readonly transformers: readonly DayTransformer[];
  readonly fuses: readonly DayFuse[];
  readonly receivers: readonly DayReceiver[];
  /** Null where the file does not describe the box. */
  readonly box: DayBox | null;
  readonly energy: DayEnergy;
  readonly starts: DayStarts;
  readonly traces: DayTraces;
  /** Danger first; what fails before what passes. */
  readonly findings: readonly ProtectionFinding[];
  readonly notes: readonly string[];
}
