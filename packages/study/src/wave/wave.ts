import type { Cabinet } from "@startgap/cabinet";
import { meltingCurrent_A, plantOf } from "@startgap/circuit";
import { isFailure, type StudyFailure } from "../failure.ts";
import type { StudyOptions } from "../options.ts";
import type { CaseName, StoryEvent } from "../results.ts";
import { delayFor, lastStart_s, type Stagger, scriptFor, staggerOf } from "../stagger.ts";
import { eventOf } from "../story.ts";
import { tellBranch, tellTrunk } from "../telling.ts";
import { type Agreement, agreement } from "./agreement.ts";
import { type ClampReading, clampReading, firstPeakAsymmetry, i2t_A2s } from "./readings.ts";
import { rollingRms } from "./rolling.ts";
import { SAMPLES_A_CYCLE, type WaveSamples } from "./samples.ts";
import { tellWave, type WaveTelling } from "./waveStory.ts";

export interface WaveOptions extends StudyOptions {
  readonly case?: CaseName;
  /** Window that is kept; default 0 s to one second after the last start. */
  readonly from_s?: number;
  readonly to_s?: number;
  /** Angle of the supply's voltage at 0 s, degrees: v = sqrt(2) V cos(omega t + angle). */
  readonly angle_deg?: number;
  /** Window of the clamp meter, s. */
  readonly clampWindow_s?: number;
}

export type WaveQuantity = "voltage" | "current" | "rms voltage" | "rms current" | "speed" | "melt fraction";

export interface WaveColumn {
  readonly quantity: WaveQuantity;
  readonly part: string;
  readonly unit: "V" | "A" | "rpm" | "";
  readonly values: Float64Array;
}

export interface MotorStartReading {
  readonly clamp: ClampReading;
  /** Highest instantaneous current of the first cycle over the symmetrical peak; null outside the window. */
  readonly firstPeakAsymmetry: number | null;
}

/** What the first cycles of a start put into a fuse, against what melts it in that time. */
export interface FirstCycles {
  readonly part: string;
  readonly time_s: number;
  readonly i2t_A2s: number;
  readonly melting_A2s: number;
}

export interface WaveStudy {
  readonly startgap: "wave 1";
  readonly title: string;
  readonly case: CaseName;
  readonly delay_s: number;
  readonly angle_deg: number;
  readonly from_s: number;
  readonly to_s: number;
  readonly motors: readonly MotorStartReading[];
  readonly fuses: readonly FirstCycles[];
  /** Against the envelope's story of the same case. */
  readonly agreement: Agreement;
  readonly events: readonly StoryEvent[];
  readonly traces: { readonly time_s: Float64Array; readonly columns: readonly WaveColumn[] };
}

const AFTER_LAST_START_s = 1;
/** A fuse's first cycles: six, a tenth of a second at 60 Hz. */
const FIRST_CYCLES = 6;
const RPM = 30 / Math.PI;

/**
 * One case in the waveform resolution, over a window: what a scope, a clamp meter and a fuse would see, and
 * how far the envelope is from it.
 */
export function wave(cabinet: Cabinet, options: WaveOptions = {}): WaveStudy | StudyFailure {
  const stagger = staggerOf(cabinet.circuit);
  const name = options.case ?? (stagger.possible ? "staggered" : "one");
  const delay_s = delayOf(name, stagger, options.delay_s);
  const from_s = options.from_s ?? 0;
  const to_s = options.to_s ?? lastStart_s(stagger, delay_s) + AFTER_LAST_START_s;
  const angle_deg = options.angle_deg ?? 0;
  const how = { script: scriptFor(stagger, delay_s), angle_rad: (angle_deg * Math.PI) / 180 };
  const told = tellWave(cabinet.circuit, how, { from_s, to_s }, options);
  if (isFailure(told)) return told;
  const pace = { tolerance: 1e-6, signal: options.signal };
  const trunk = tellTrunk(
    plantOf(cabinet.circuit),
    stagger,
    to_s,
    name === "staggered" ? [delay_s] : [],
    pace,
  );
  if (isFailure(trunk)) return trunk;
  const envelope = name === "one" ? trunk : tellBranch(trunk, stagger, delay_s, to_s, pace);
  if (isFailure(envelope)) return envelope;
  return {
    startgap: "wave 1",
    title: cabinet.title,
    case: name,
    delay_s: Number.isFinite(delay_s) ? delay_s : 0,
    angle_deg,
    from_s,
    to_s,
    motors: motorReadings(told, options.clampWindow_s),
    fuses: firstCycles(told),
    agreement: agreement(told, envelope),
    events: told.events.map(eventOf),
    traces: tracesOf(told.samples),
  };
}

function delayOf(name: CaseName, stagger: Stagger, asked: number | undefined): number {
  if (name === "one") return Number.POSITIVE_INFINITY;
  return name === "together" ? 0 : delayFor(stagger, asked);
}

function motorReadings(told: WaveTelling, window_s: number | undefined): MotorStartReading[] {
  const { samples } = told;
  return samples.plant.layout.circuit.parts.flatMap((p, part) => {
    if (p.is !== "motor") return [];
    const first = firstFlow(samples, part);
    return [
      {
        clamp: clampReading(samples, part, window_s),
        firstPeakAsymmetry: firstPeakAsymmetry(samples, part, first, SAMPLES_A_CYCLE),
      },
    ];
  });
}

/** First row in which the part carries current; -1 when none does or it did before the window. */
function firstFlow(samples: WaveSamples, part: number): number {
  if (samples.rows === 0 || samples.current(part, 0) !== 0) return samples.time_s(0) <= 0 ? 0 : -1;
  for (let row = 0; row < samples.rows; row++) if (samples.current(part, row) !== 0) return row;
  return -1;
}

function firstCycles(told: WaveTelling): FirstCycles[] {
  const { samples } = told;
  const rows = FIRST_CYCLES * SAMPLES_A_CYCLE;
  return samples.plant.layout.circuit.parts.flatMap((p, part) => {
    if (p.is !== "fuse" || p.melt === null) return [];
    const time_s = Math.min(rows, samples.rows - 1) * samples.step_s;
    if (time_s <= 0) return [];
    const melting_A2s = meltingCurrent_A(p.melt, time_s) ** 2 * time_s;
    return [{ part: p.name, time_s, i2t_A2s: i2t_A2s(samples, part, 0, rows), melting_A2s }];
  });
}

function tracesOf(samples: WaveSamples): WaveStudy["traces"] {
  const { parts } = samples.plant.layout.circuit;
  const time_s = Float64Array.from({ length: samples.rows }, (_, row) => samples.time_s(row));
  const columns: WaveColumn[] = [];
  const add = (
    quantity: WaveQuantity,
    part: string,
    unit: WaveColumn["unit"],
    values: Float64Array,
  ): void => {
    columns.push({ quantity, part, unit, values });
  };
  const fill = (read: (row: number) => number): Float64Array =>
    Float64Array.from({ length: samples.rows }, (_, row) => read(row));
  parts.forEach((p, i) => {
    const voltage = (row: number): number => samples.voltage(i, row);
    const current = (row: number): number => samples.current(i, row);
    add("voltage", p.name, "V", fill(voltage));
    add("rms voltage", p.name, "V", rollingRms(voltage, samples.rows));
    add("current", p.name, "A", fill(current));
    add("rms current", p.name, "A", rollingRms(current, samples.rows));
    if (p.is === "motor")
      add(
        "speed",
        p.name,
        "rpm",
        fill((row) => RPM * samples.state(i, row)),
      );
    if (p.is === "fuse" && p.melt !== null)
      add(
        "melt fraction",
        p.name,
        "",
        fill((row) => samples.state(i, row)),
      );
  });
  return { time_s, columns };
}
