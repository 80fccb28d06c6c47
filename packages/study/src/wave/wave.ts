import type { Cabinet } from "@startgap/cabinet";
import { type Circuit, plantOf } from "@startgap/circuit";
import { isFailure, type StudyFailure } from "../failure.ts";
import type { StudyOptions } from "../options.ts";
import type { CaseName, StoryEvent } from "../results.ts";
import { delayFor, lastStart_s, type Stagger, scriptFor, staggerOf } from "../stagger.ts";
import { eventOf } from "../story.ts";
import { type Telling, tellBranch, tellTrunk } from "../telling.ts";
import { type Agreement, agreement } from "./agreement.ts";
import { type AngleTried, worstAngle } from "./angles.ts";
import { leftOut } from "./leftOut.ts";
import {
  type ClampReading,
  clampReading,
  type FirstCycles,
  firstCycles,
  type MotorStartReading,
  motorReadings,
} from "./readings.ts";
import { tracesOf, type WaveTraces } from "./traces.ts";
import { tellWave, type WaveTelling, type WaveWindow } from "./waveStory.ts";
import { tooLong } from "./window.ts";

export interface WaveOptions extends StudyOptions {
  /** Default: staggered where there is something to hold back, else one. */
  readonly case?: CaseName;
  /** Window that is kept; default 0 s to one second after the last start. */
  readonly from_s?: number;
  readonly to_s?: number;
  /**
   * Angle of the supply's voltage at 0 s, degrees: v = sqrt(2) V cos(omega t + angle), so that 90 is a zero;
   * "worst" sweeps for the highest first peak in the line. Default 0.
   */
  readonly angle_deg?: number | "worst";
  /** Window of the clamp meter, s; default 0.1. */
  readonly clampWindow_s?: number;
}

/** What a scope, a clamp meter and a fuse would see of one case. */
export interface WaveStudy {
  readonly startgap: "wave 1";
  readonly title: string;
  readonly case: CaseName;
  /** From the first start to the second; 0 for the case of one motor. */
  readonly delay_s: number;
  readonly frequency_Hz: number;
  readonly angle_deg: number;
  /** The angles tried for the worst one; empty when the angle was given. */
  readonly angles: readonly AngleTried[];
  readonly from_s: number;
  readonly to_s: number;
  /** The clamp around the supply's line. */
  readonly line: ClampReading;
  readonly motors: readonly MotorStartReading[];
  readonly fuses: readonly FirstCycles[];
  /** Against the envelope's story of the same case. */
  readonly agreement: Agreement;
  /** What of this cabinet is not followed here, a sentence each. */
  readonly leftOut: readonly string[];
  readonly events: readonly StoryEvent[];
  readonly traces: WaveTraces;
}

const AFTER_LAST_START_s = 1;

/**
 * One case in the waveform resolution, over a window: what a scope, a clamp meter and a fuse would see, and
 * how far the envelope is from it.
 *
 * Pure, and cheap enough for a worker that draws the visible window: what it returns can be handed over as it is,
 * `signal` ends it within a step and `onProgress` tells how far it is. The story is told from 0 s whatever the window,
 * though until shortly before it nothing is read inside a step; it is not begun at the envelope's state, for the flux
 * of cores and rotors would have to be guessed. Checked by packages/study/test/wave/window.test.ts.
 *
 * @returns a failure with its reason when the window is longer than can be kept, or the story could not be finished
 * @throws RangeError for a window that ends before it begins
 */
export function wave(cabinet: Cabinet, options: WaveOptions = {}): WaveStudy | StudyFailure {
  const { circuit, title } = cabinet;
  const stagger = staggerOf(circuit);
  const name = options.case ?? (stagger.possible ? "staggered" : "one");
  const delay_s = delayOf(name, stagger, options.delay_s);
  const window = windowOf(stagger, delay_s, options);
  const refused = tooLong(circuit, window);
  if (refused !== null) return refused;
  const script = scriptFor(stagger, delay_s);
  const swept = options.angle_deg === "worst" ? worstAngle(circuit, script, options) : null;
  if (isFailure(swept)) return swept;
  const angle_deg = swept?.worst.angle_deg ?? Number(options.angle_deg ?? 0);
  const how = { script, angle_rad: (angle_deg * Math.PI) / 180 };
  const told = tellWave(circuit, how, window, options);
  if (isFailure(told)) return told;
  const envelope = envelopeOf(circuit, stagger, name, delay_s, window, options.signal);
  if (isFailure(envelope)) return envelope;
  return {
    startgap: "wave 1",
    title,
    case: name,
    delay_s: Number.isFinite(delay_s) ? delay_s : 0,
    frequency_Hz: told.plant.layout.places[0].frequency_Hz,
    angle_deg,
    angles: swept?.tried ?? [],
    ...window,
    ...readingsOf(told, options.clampWindow_s),
    agreement: agreement(told, envelope),
    leftOut: leftOut(circuit),
    events: told.events.map(eventOf),
    traces: tracesOf(told.samples),
  };
}

function readingsOf({ samples }: WaveTelling, window_s: number | undefined) {
  return {
    line: clampReading(samples, 0, window_s),
    motors: motorReadings(samples, window_s),
    fuses: firstCycles(samples),
  };
}

function delayOf(name: CaseName, stagger: Stagger, asked: number | undefined): number {
  if (name === "one") return Number.POSITIVE_INFINITY;
  return name === "together" ? 0 : delayFor(stagger, asked);
}

function windowOf(stagger: Stagger, delay_s: number, options: WaveOptions): WaveWindow {
  const from_s = options.from_s ?? 0;
  const usual = lastStart_s(stagger, delay_s) + AFTER_LAST_START_s;
  const to_s = options.to_s ?? Math.max(usual, from_s + AFTER_LAST_START_s);
  if (!(from_s >= 0 && to_s > from_s))
    throw new RangeError(`invalid window: ${from_s} s to ${to_s} s (expected 0 <= from < to)`);
  return { from_s, to_s };
}

/** The envelope's telling of the same case up to the end of the window. */
function envelopeOf(
  circuit: Circuit,
  stagger: Stagger,
  name: CaseName,
  delay_s: number,
  { to_s }: WaveWindow,
  signal: StudyOptions["signal"],
): Telling | StudyFailure {
  const pace = { tolerance: 1e-6, signal };
  const moments = name === "staggered" ? [delay_s] : [];
  const trunk = tellTrunk(plantOf(circuit), stagger, to_s, moments, pace);
  if (isFailure(trunk) || name === "one") return trunk;
  return tellBranch(trunk, stagger, delay_s, to_s, pace);
}
