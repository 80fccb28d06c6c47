/** What a study returns. The fields of `CheckReport` are the published output contract: extend, never change. */

export type CaseName = "one" | "together" | "staggered";
export type MotorOutcome = "running" | "stalled" | "off" | "tripped";
export type Verdict = "pass" | "caution" | "fail";
/** What a bad outcome would mean: harm or fire; a cabinet that does not do its work; nothing yet. */
export type FindingGravity = "danger" | "stops work" | "note";

export interface MotorResult {
  readonly part: string;
  readonly outcome: MotorOutcome;
  /** When it was first connected, on the story's clock; null when it never was. */
  readonly closed_s: number | null;
  /** From its own closing to the start switch opening. */
  readonly switchOpened_s: number | null;
  /** From its own closing to 95 % of the speed at which it settles; null when it does not. */
  readonly runUp_s: number | null;
  readonly peakCurrent_A: number;
  /** Lowest terminal voltage while connected. */
  readonly lowestVoltage_V: number | null;
  readonly finalSpeed_rpm: number;
  readonly finalCurrent_A: number;
}

export interface FuseResult {
  readonly part: string;
  /** Highest sum of the melt terms in the story; 1 melts. */
  readonly meltFraction: number;
  /** Factor by which the whole current profile could grow before it just melts; null when no current flowed. */
  readonly currentMargin: number | null;
  readonly peakCurrent_A: number;
  readonly opened_s: number | null;
}

export interface PointResult {
  readonly part: string;
  readonly nominal_V: number;
  /** Since it was first switched on; 0 when it never was. */
  readonly lowestVoltage_V: number;
  /** Total time below 90 % of nominal since then. */
  readonly below90_s: number;
  readonly finalVoltage_V: number;
}

export interface ContactorResult {
  readonly part: string;
  readonly dropOuts: number;
  /** Lowest coil voltage while the coil is fed; null without a coil, or when it is never fed. */
  readonly lowestCoil_V: number | null;
  /** When its contacts first close; null when they never do. */
  readonly closed_s?: number | null;
  /** Closings after the first one, how many at most within a second, and the most current they met; absent when none. */
  readonly closesAgain?: { readonly times: number; readonly inOneSecond: number; readonly most_A: number };
}

/** Where the volts of the worst moment went, from the supply to one point; shares sum to `lost_V`. */
export interface VoltShare {
  readonly part: string;
  /** Drop in magnitude of voltage across this part, referred to the point's own side. */
  readonly lost_V: number;
}

export interface WorstMoment {
  readonly point: string;
  readonly at_s: number;
  readonly nominal_V: number;
  readonly voltage_V: number;
  readonly shares: readonly VoltShare[];
}

/** How a generator or an inverter came through. */
export interface SourceResult {
  readonly part: string;
  readonly is: "generator" | "inverter";
  readonly nominal_V: number;
  readonly lowestVoltage_V: number;
  readonly highestVoltage_V: number;
  /** Longest time without a break below 95 % of nominal; null when the story ends below it. */
  readonly recovery_s: number | null;
  readonly peakCurrent_A: number;
  /** Time with the field at its ceiling, or with the current at its limit. */
  readonly atLimit_s: number;
  /** When an inverter gave up; null when it did not. */
  readonly shutDown_s: number | null;
}

export interface CaseReport {
  readonly case: CaseName;
  readonly delay_s: number;
  readonly duration_s: number;
  /** How the story ended, one sentence. */
  readonly ended: string;
  readonly motors: readonly MotorResult[];
  readonly fuses: readonly FuseResult[];
  readonly points: readonly PointResult[];
  readonly contactors: readonly ContactorResult[];
  /** For the point that fell furthest below its nominal voltage. */
  readonly worst: WorstMoment | null;
  /** Present when the supply is a generator or an inverter. */
  readonly source?: SourceResult;
}

export interface Finding {
  /**
   * As "run-up", "lowest motor voltage", "receptacle sag", "contactor holds", "contacts weld", "fuse holds",
   * "generator dip", "generator recovery", "inverter holds".
   */
  readonly finding: string;
  readonly part: string;
  readonly case: CaseName;
  readonly outcome: Verdict;
  readonly value: number | null;
  /** What a pass takes; the step to a fail is in `basis`. */
  readonly limit: number | null;
  readonly unit: string;
  readonly basis: string;
  /** One plain sentence. */
  readonly says: string;
  readonly gravity: FindingGravity;
  /** One plain sentence: what to change; null when nothing needs to. */
  readonly change: string | null;
}

/** The second motor first and the first one held back instead, at the same delay. */
export interface OtherOrder {
  /** The motor that would start first. */
  readonly first: string;
  readonly delay_s: number;
  /** Lowest voltage of any motor while connected, of its rated voltage, or of any receptacle, of nominal. */
  readonly lowestVoltage_percent: number;
  /** The same in the order of the file. */
  readonly asFiled_percent: number;
  readonly passes: boolean;
  /** It passes where the order of the file does not, or gains at least 1 % and fails nowhere. */
  readonly better: boolean;
}

export interface DelayAdvice {
  /** Dial setting; null when no delay passes or there is nothing to delay. */
  readonly recommended_s: number | null;
  readonly shortest_s: number | null;
  /** Delays longer than this fail again; null when none that was tried does. */
  readonly until_s?: number | null;
  /** Past this a longer delay gains less than 1 % of nominal voltage and of melt fraction. */
  readonly knee_s: number | null;
  /** Null unless there are two motors and a delay between them. */
  readonly otherOrder?: OtherOrder | null;
  readonly reason: string;
}

export interface CheckReport {
  readonly startgap: "check 1";
  readonly title: string;
  readonly cases: readonly CaseReport[];
  readonly delay: DelayAdvice;
  readonly findings: readonly Finding[];
}

export type Quantity = "voltage" | "current" | "speed" | "melt fraction" | "coil voltage";

/** One recorded quantity of one part over the story's time. */
export interface Column {
  readonly quantity: Quantity;
  readonly part: string;
  readonly unit: "V" | "A" | "rpm" | "";
  /** Nominal voltage of a voltage column; null elsewhere. */
  readonly nominal: number | null;
  readonly values: Float64Array;
}

/** Equal time values stand next to each other on both sides of a jump. */
export interface Traces {
  readonly time_s: Float64Array;
  /**
   * voltage: at the output of every series part and at the terminals of every load and motor;
   * current: into every part; speed: every motor; melt fraction: every fuse; coil voltage: every coil.
   */
  readonly columns: readonly Column[];
}

export interface StoryEvent {
  readonly at_s: number;
  readonly part: string;
  /** As "start switch opens", "closes", "drops out", "melts". */
  readonly what: string;
}

/** One simulated case with its traces. */
export interface Story {
  readonly case: CaseName;
  readonly delay_s: number;
  readonly duration_s: number;
  readonly traces: Traces;
  readonly events: readonly StoryEvent[];
}

/** The delay map as columns; every array has the length of `delay_s`. */
export interface DelayMap {
  readonly delay_s: readonly number[];
  readonly motors: readonly {
    readonly part: string;
    readonly lowestVoltage_V: readonly (number | null)[];
    readonly runUp_s: readonly (number | null)[];
  }[];
  readonly points: readonly {
    readonly part: string;
    readonly nominal_V: number;
    readonly lowestVoltage_V: readonly number[];
  }[];
  readonly fuses: readonly { readonly part: string; readonly meltFraction: readonly number[] }[];
  readonly contactors: readonly { readonly part: string; readonly dropOuts: readonly number[] }[];
  /**
   * True where a contactor chatters without end: the story is then followed for 60 events and fails. Its melt
   * fractions and drop-outs are what had come by then, its run-up times null.
   */
  readonly chatters: readonly boolean[];
  /** True where every finding of the staggered case at this delay is not a fail. */
  readonly passes: readonly boolean[];
  readonly advice: DelayAdvice;
}

/** Everything one check yields: the report, the stories behind it for drawing, and the delay map. */
export interface Check {
  readonly report: CheckReport;
  readonly stories: readonly Story[];
  /** Null when there is no second motor to delay. */
  readonly map: DelayMap | null;
}
