/** What the single-failure study returns. Published output: extend, never change. */

export type FailureKind =
  | "one line open"
  | "winding open"
  | "midpoint open"
  | "contact stays open"
  | "contact stays closed"
  | "start winding stays in";

/** A motor, a load or a coil as one failure leaves it. */
export type PointState = "dead" | "low" | "usual" | "high";

export interface FailurePoint {
  readonly part: string;
  /** "coil": of the contactor of that name. */
  readonly is: "motor" | "load" | "coil";
  /** Rated voltage of a motor or a coil, no-load voltage of a load. */
  readonly nominal_V: number;
  readonly voltage_V: number;
  /** `voltage_V` over `nominal_V`. */
  readonly share: number;
  readonly state: PointState;
}

export interface FailureMotor {
  readonly part: string;
  readonly speed_rpm: number;
  readonly current_A: number;
  /** False once its start switch has taken the start winding out. */
  readonly startSwitchClosed: boolean;
}

/** The network at one instant. */
export interface FailureInstant {
  /** From the failure, or from switching on. */
  readonly at_s: number;
  readonly points: readonly FailurePoint[];
  readonly motors: readonly FailureMotor[];
  /** Contacts and fuses that stand open, the failed part among them when it is one. */
  readonly open: readonly string[];
  /** Current of the one winding that is left, A; null unless a winding of an autotransformer is open. */
  readonly winding_A: number | null;
}

export interface FailureEvent {
  readonly at_s: number;
  readonly part: string;
  /** As "melts", "opens", "comes to rest", "start switch closes". */
  readonly what: string;
}

/** One failure as it shows from one situation. */
export interface FailureMoment {
  /** Motors at the speed they ran at; or everything at rest, then switched on with the failure there. */
  readonly moment: "while running" | "at the next start";
  readonly first: FailureInstant;
  readonly last: FailureInstant;
  /** Highest voltage at every point on the way, in the order of `points`. */
  readonly highest_V: readonly number[];
  /** What opens, closes or stops because of it, in order; the first few where it chatters. */
  readonly next: readonly FailureEvent[];
  /** The contactor that opens and closes without end; null when none does. */
  readonly chatters: string | null;
  /** Fuse that opens after the end of the story, with the time from the failure; null when none does. */
  readonly meltsLater: { readonly part: string; readonly at_s: number } | null;
  /** What a person there would notice; empty: nothing tells. */
  readonly tells: readonly string[];
}

export type FailureGravity = "danger" | "stops work" | "unnoticed" | "slight";

export interface FailureRow {
  readonly part: string;
  readonly kind: FailureKind;
  /** What has failed, in words: "one of the two line fuses is open". */
  readonly failure: string;
  readonly moments: readonly FailureMoment[];
  /** Parts with voltage between their two wires, long after the failure while running. */
  readonly live: readonly string[];
  /** Parts without voltage between their wires that one wire still joins to the supply: they look dead and are not. */
  readonly joined: readonly string[];
  readonly gravity: FailureGravity;
  /** One plain sentence: what it leaves. */
  readonly says: string;
  /** One plain sentence: what to change. */
  readonly change: string;
}

export interface FailureReport {
  readonly startgap: "failures 1";
  readonly title: string;
  /** Danger first, then what stops work, then what nobody notices. */
  readonly rows: readonly FailureRow[];
  /** What this table leaves out, in plain words. */
  readonly notes: readonly string[];
}
