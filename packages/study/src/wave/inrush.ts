import type { Circuit } from "@startgap/circuit";
import { isFailure, type StudyFailure } from "../failure.ts";
import type { StudyOptions } from "../options.ts";
import type { Verdict } from "../results.ts";
import { harmonics } from "./rolling.ts";
import { SAMPLES_A_CYCLE } from "./samples.ts";
import { tracesOf, type WaveTraces } from "./traces.ts";
import { tellWave, type WaveTelling } from "./waveStory.ts";

/** One switch-on of the supply, with no motor running. */
export interface SwitchOn {
  /** True: all loads are on. False: the transformers alone. */
  readonly loads: boolean;
  readonly angle_deg: number;
  /** Residual flux of every core as a fraction of its nominal peak. */
  readonly residual: number;
  readonly peak_A: number;
  /** Rms of the first cycle. */
  readonly firstCycle_A: number;
  /** Highest melt fraction of each fuse within the story. */
  readonly melt: readonly { readonly part: string; readonly fraction: number }[];
}

export interface InrushStudy {
  readonly tried: readonly SwitchOn[];
  readonly worst: SwitchOn;
  /** First cycles of the worst: the supply's voltage and current. */
  readonly traces: WaveTraces;
  readonly frequency_Hz: number;
  /** First-cycle harmonics of the worst, orders 0 (mean) to 9, peak amperes. */
  readonly harmonics_A: readonly number[];
  /** Melt fraction of the worst fuse if the worst switch-on came again and again without time to cool. */
  readonly afterRepeats: readonly number[];
  readonly finding: {
    readonly finding: "switch-on";
    readonly part: string;
    readonly outcome: Verdict;
    readonly value: number;
    readonly limit: number;
    readonly basis: string;
    readonly says: string;
  } | null;
}

/** Angles of the voltage at switch-on: v = sqrt(2) V cos(omega t + angle), so 90 degrees is a zero. */
const ANGLES_deg = [0, 30, 60, 75, 90, 105, 120, 150];
/** Residual flux of small cores, deepest in butt-free strip cores: 0.2 to 0.8 of nominal (from memory). */
const RESIDUALS = [-0.7, 0, 0.7];
const STORY_s = 0.25;
const REPEATS = 3;
/** A fuse at more than this part of its melting after one switch-on has little in hand. */
const CAUTION = 0.64;

/**
 * Switches the supply on at every angle and residual flux, motors off, with loads and without, and reports the
 * worst.
 *
 * Limitations: the core's law has no loop of its own, so the flux decays by the circuit's resistance alone.
 */
export function inrush(
  circuit: Circuit,
  options: Pick<StudyOptions, "tolerance" | "signal" | "onProgress"> = {},
): InrushStudy | StudyFailure | null {
  if (!circuit.parts.some((p) => p.is === "autotransformer" || p.is === "transformer")) return null;
  const tried: SwitchOn[] = [];
  let worst: SwitchOn | null = null;
  let shown: WaveTelling | null = null;
  const bare = withoutLoads(circuit);
  const cases = casesOf(circuit);
  for (const [k, how] of cases.entries()) {
    const told = switchOn(how.loads ? circuit : bare, how, options);
    if (isFailure(told)) return told;
    const one = resultOf(told, how);
    tried.push(one);
    if (worst === null || one.peak_A > worst.peak_A) {
      worst = one;
      shown = told;
    }
    options.onProgress?.((k + 1) / cases.length);
  }
  if (worst === null || shown === null) return null;
  const wave = shown;
  const repeats = repeatsOf(worst);
  return {
    tried,
    worst,
    traces: tracesOf(wave.samples),
    frequency_Hz: wave.plant.layout.places[0].frequency_Hz,
    harmonics_A: harmonics((row) => wave.samples.current(0, row), 0, 9),
    afterRepeats: repeats,
    finding: findingOf(worst),
  };
}

type How = Pick<SwitchOn, "loads" | "angle_deg" | "residual">;

/** Every angle and residual flux, with the loads on and, where there are any, alone. */
function casesOf({ parts }: Circuit): How[] {
  const hasLoads = parts.some((p) => p.is === "load");
  return (hasLoads ? [true, false] : [false]).flatMap((loads) =>
    RESIDUALS.flatMap((residual) => ANGLES_deg.map((angle_deg) => ({ loads, residual, angle_deg }))),
  );
}

const withoutLoads = (circuit: Circuit): Circuit => ({
  ...circuit,
  parts: circuit.parts.map((p) => (p.is === "load" ? { ...p, power_W: 0, reactive_var: 0 } : p)),
});

function switchOn(
  circuit: Circuit,
  { angle_deg, residual }: How,
  options: Pick<StudyOptions, "tolerance" | "signal">,
): WaveTelling | StudyFailure {
  const never = { delay_s: () => Number.POSITIVE_INFINITY, connects_s: () => Number.POSITIVE_INFINITY };
  const how = { script: never, angle_rad: (angle_deg * Math.PI) / 180, fromRest: true, residual };
  const { tolerance, signal } = options;
  return tellWave(circuit, how, { from_s: 0, to_s: STORY_s }, { tolerance, signal });
}

function resultOf(told: WaveTelling, how: How): SwitchOn {
  const { samples } = told;
  const { parts } = samples.plant.layout.circuit;
  let peak = 0;
  let squares = 0;
  for (let row = 0; row < samples.rows; row++) {
    const i = samples.current(0, row);
    peak = Math.max(peak, Math.abs(i));
    if (row < SAMPLES_A_CYCLE) squares += i * i;
  }
  const melt = parts.flatMap((p, part) => {
    if (p.is !== "fuse" || p.melt === null) return [];
    let fraction = 0;
    for (let row = 0; row < samples.rows; row++) fraction = Math.max(fraction, samples.state(part, row));
    return [{ part: p.name, fraction }];
  });
  return { ...how, peak_A: peak, firstCycle_A: Math.sqrt(squares / SAMPLES_A_CYCLE), melt };
}

/** Linear in I^2 and without time to cool: the heat of n switch-ons is at most n times that of one. */
function repeatsOf(worst: SwitchOn): number[] {
  const most = Math.max(0, ...worst.melt.map(({ fraction }) => fraction));
  return Array.from({ length: REPEATS }, (_, k) => (k + 1) * most);
}

function findingOf(worst: SwitchOn): InrushStudy["finding"] {
  const [hottest] = [...worst.melt].sort((a, b) => b.fraction - a.fraction);
  if (hottest === undefined) return null;
  const { part, fraction } = hottest;
  const peak = `${Math.round(worst.peak_A)} A`;
  const share = `${Math.round(100 * fraction)} %`;
  return {
    finding: "switch-on",
    part,
    outcome: fraction >= 1 ? "fail" : fraction > CAUTION ? "caution" : "pass",
    value: fraction,
    limit: CAUTION,
    basis: "common practice, no source: the current of a switch-on could be a quarter larger",
    says:
      fraction >= 1
        ? `${part}: melted by the switch-on of the transformer, whose first peak reaches ${peak}.`
        : `${part}: the worst switch-on of the transformer (first peak ${peak}) takes ${share} of its melting.`,
  };
}
