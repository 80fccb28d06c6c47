import type { ProtectionFinding } from "../protection/results.ts";

/** What the heat study returns. Published output: extend, never change. */

export interface PartLoss {
  readonly part: string;
  readonly loss_W: number;
  /** True where the file does not state what it follows from. */
  readonly assumed: boolean;
}

/** Temperatures over one day, by the hour from 0 to 24. */
export interface SeasonDay {
  readonly season: "summer" | "winter";
  readonly hour: readonly number[];
  readonly outside_C: readonly number[];
  readonly inside_C: readonly number[];
}

export interface BoxHeat {
  readonly losses: readonly PartLoss[];
  readonly loss_W: number;
  /** The sun, as a loss inside. */
  readonly sun_W: number;
  readonly coolingArea_m2: number;
  readonly seasons: readonly SeasonDay[];
  /** Limit for the air inside. */
  readonly limit_C: number;
  /** Low vents, with as much above, that keep to it; null where none are needed or air outside is too warm for any. */
  readonly ventArea_m2: number | null;
  /** A fan that does the same. */
  readonly fan_m3ps: number | null;
}

export interface TransformerSeason {
  readonly season: SeasonDay["season"];
  /** Hottest spot of the winding, and the core with the body, by the hour. */
  readonly winding_C: readonly number[];
  readonly core_C: readonly number[];
  readonly hottest_C: number;
}

export interface TransformerHeat {
  readonly part: string;
  /** Winding current over rated with everything running; null where it cannot be told. */
  readonly load: number | null;
  readonly core_W: number;
  readonly winding_W: number;
  readonly insulation_C: number;
  readonly seasons: readonly TransformerSeason[];
}

export interface MotorHeat {
  readonly part: string;
  /** Starts an hour that it is judged by: those that its receiver and the demand of the file ask for, else assumed. */
  readonly taken: { readonly perHour: number; readonly from: "asked" | "receiver" | "assumed" };
  /** Start winding in circuit, in one start; null without one, or when it never comes out. */
  readonly startWinding_s: number | null;
  /** Heat lost in the motor by one start. */
  readonly startEnergy_J: number | null;
  /** Rise of the winding, everything running, with the starts assumed; null without a plate. */
  readonly rise_K: number | null;
  readonly ratedRise_K: number;
  /** From hot, standing still, until main and start winding reach their limit. */
  readonly stall_s: number;
  readonly startWindingStall_s: number | null;
  /** Most starts an hour by each rule; null where it does not apply. */
  readonly startsPerHour: {
    readonly capacitor: number | null;
    readonly winding: number | null;
    readonly table: number | null;
  };
  readonly rest_s: number | null;
}

export interface FuseHeat {
  readonly part: string;
  readonly air_C: number;
  /** Factor on its currents at that air, over those in the file. */
  readonly factor: number;
  /** Factor by which the whole start could grow, at that air. */
  readonly currentMargin: number | null;
}

export interface HeatReport {
  readonly startgap: "heat 1";
  readonly title: string;
  /** Of every motor that fills no receiver. */
  readonly startsPerHour: number;
  /** Null where the file does not describe the box. */
  readonly box: BoxHeat | null;
  readonly transformers: readonly TransformerHeat[];
  readonly motors: readonly MotorHeat[];
  readonly fuses: readonly FuseHeat[];
  readonly findings: readonly ProtectionFinding[];
  readonly notes: readonly string[];
}
