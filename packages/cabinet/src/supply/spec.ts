import type { GeneratorSource, Impedance, InverterSource } from "@startgap/circuit";
import type { CableSpec } from "../cable/cable.ts";
import type { ImpedanceRange } from "../cable/impedance.ts";
import type { Windings } from "../transformer/legs.ts";

interface Nominal {
  /** Nominal voltage at the supply's terminals, 1 to 100000 V. */
  readonly voltage_V: number;
  /** 15 to 400 Hz. */
  readonly frequency_Hz: number;
}

/** Ohms outright. Nothing is added. */
export interface OutrightSupply extends Nominal {
  readonly from: "impedance";
  readonly impedance: Impedance;
}

/** What an electrician or the utility calls the available or prospective fault current. */
export interface FaultCurrentSupply extends Nominal {
  readonly from: "fault current";
  /** Line to line, symmetrical rms, above 0 to 1 MA. */
  readonly faultCurrent_A: number;
  /** 0 to 100. Left out: 1. */
  readonly xOverR?: number;
}

/** A pole or pad transformer, and the service conductors from it to the panel. */
export interface UtilitySupply extends Nominal {
  readonly from: "utility transformer";
  readonly rating_VA: number;
  /** Left out: 2 %. */
  readonly impedance_percent?: number;
  /** Left out: 1. */
  readonly xOverR?: number;
  /** Left out: none, and it says so. */
  readonly service?: Omit<CableSpec, "frequency_Hz">;
}

/** One look at the meters: volts and amperes at the same moment. */
export interface MeterReading {
  readonly voltage_V: number;
  readonly current_A: number;
}

/** How far the meters may be off. Left out: common practice, no source. */
export interface MeterAccuracy {
  /** Of the reading, percent. Left out: 0.7. */
  readonly voltage_percent?: number;
  /** Left out: 2. */
  readonly voltageCounts?: number;
  /** Left out: 0.1 V. */
  readonly voltageCount_V?: number;
  /** Of the reading, percent. Left out: 2. */
  readonly current_percent?: number;
  /** Left out: 3. */
  readonly currentCounts?: number;
  /** Left out: 0.1 A. */
  readonly currentCount_A?: number;
  /** False when the voltages were read on different meters or ranges. Left out: true. */
  readonly oneMeter?: boolean;
}

/** Volts and amperes with less and more load, in the order they were read: best unloaded, loaded, unloaded. */
export interface ReadingsSupply extends Nominal {
  readonly from: "readings";
  readonly readings: readonly MeterReading[];
  /** Left out: at the line. At a leg of an autotransformer its leakage is taken off. */
  readonly at?: "line" | LegOf;
  /** Of the test load, lagging, 0.1 to 1. Left out: 1, a heater. */
  readonly loadPowerFactor?: number;
  /** Of the supply, 0 to 20: a heater cannot tell. Left out: 0.5. */
  readonly xOverR?: number;
  readonly meter?: MeterAccuracy;
}

/** The transformer whose first leg was loaded; swap the windings for the second. */
export interface LegOf {
  readonly windings_V: Windings;
  /** Leakage referred to the winding that was loaded, ohm. */
  readonly leakage: Impedance;
  /** Where it plausibly lies, as `transformerFrom` tells; left out or null when it is known. */
  readonly leakageRange?: ImpedanceRange | null;
}

/** A portable or standby generator. */
export interface GeneratorSupply extends Nominal {
  readonly from: "generator";
  readonly rating_VA: number;
  /** Per unit of the rating, 0.01 to 1. Left out: 0.25. */
  readonly transientReactance_pu?: number;
  /** Per unit, below the transient one. Left out: not known. */
  readonly subtransientReactance_pu?: number;
  /** From a load step until the voltage is back, 0 to 60 s. Left out: 2.5 s. */
  readonly regulatorRecovery_s?: number;
  /** Per unit, above the transient one to 5. Left out: 1.8. */
  readonly synchronousReactance_pu?: number;
  /** Open-circuit time constant of the field, 0.05 to 10 s. Left out: 0.6 s. */
  readonly fieldTime_s?: number;
  /** Highest field over that of the rated load at power factor 0.8, 1 to 5. Left out: 2. */
  readonly fieldCeiling?: number;
}

/** A battery inverter. */
export interface InverterSupply extends Nominal {
  readonly from: "inverter";
  readonly continuous_VA: number;
  /** Greatest current over the continuous one, 1 to 10. Left out: 2. */
  readonly surgeFactor?: number;
  /** How long it lasts, above 0 to 600 s. Left out: 5 s. */
  readonly surge_s?: number;
  /** How long it then holds its voltage down before it shuts down, 0 to 60 s. Left out: 1 s. */
  readonly stops_s?: number;
}

export type SupplySpec =
  | OutrightSupply
  | FaultCurrentSupply
  | UtilitySupply
  | ReadingsSupply
  | GeneratorSupply
  | InverterSupply;

/** A supply as an impedance behind a voltage, stiff unless `source` says otherwise. */
export interface SupplyFound extends Impedance {
  /** Open-circuit voltage. */
  readonly voltage_V: number;
  readonly frequency_Hz: number;
  /** How good a measured impedance is, as "fair: good to +-15 %". */
  readonly quality?: string;
  /** Where the impedance plausibly lies, when it is not known exactly. */
  readonly range?: ImpedanceRange;
  /** A source that is more than that: a generator behind this impedance, or an inverter, which has none. */
  readonly source?: GeneratorSource | InverterSource;
}
