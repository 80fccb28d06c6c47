import { passes_s } from "../runUp.ts";
import type { Telling } from "../telling.ts";
import { rollingRms } from "./rolling.ts";
import { SAMPLES_A_CYCLE, type WaveSamples } from "./samples.ts";
import type { WaveTelling } from "./waveStory.ts";

/** How far the two resolutions are apart; every figure is relative, 0 for perfect agreement. */
export interface Agreement {
  /**
   * Worst rolling rms of a voltage or current, more than two cycles after any switching, where the moment
   * may be off by 2 % of the time since the last start (and half a cycle): as a motor comes up its current
   * falls threefold in a few cycles, and a run-up that differs by one part in fifty moves that fall.
   */
  readonly rms: number;
  /** Where that was. */
  readonly worst: {
    readonly part: string;
    readonly quantity: "voltage" | "current";
    readonly at_s: number;
  } | null;
  /** Worst within two cycles of a switching: what the envelope leaves out. */
  readonly firstCycles: number;
  /** Worst difference of a motor's time to 95 % of its final speed, of those that come up in the window. */
  readonly runUp: number;
  /** Worst difference of a fuse's melt fraction at the end. */
  readonly melt: number;
}

/** Run-up ends at this part of the final speed. */
const UP = 0.95;
/** Two cycles after a switching the offset of the first half-waves has died away. */
const SETTLING_cycles = 2;
/** What is below this fraction of its own highest does not count: relative errors of nothing. */
const FAINT = 0.02;
/** How much the moment may be off, of the time since the last start. */
const EARLY_OR_LATE = 0.02;

/**
 * Compares a waveform story with the envelope's telling of the same case, over the samples kept.
 *
 * The envelope's rms is averaged in the square over the same cycle as the rolling rms of the waveform, and
 * windows that reach across a switching of either are left to `firstCycles`.
 *
 * How far every example is apart, and why where it is more than 2 %, stands in tests/invariants/agreement.test.ts, for
 * a start at the peak of the voltage. Begun at a zero, a small transformer's core is left with a flux offset for long,
 * and its own exciting current is then far from the envelope's. Checked by packages/study/test/wave/agreement.test.ts.
 */
export function agreement(wave: WaveTelling, envelope: Telling): Agreement {
  const { samples } = wave;
  const ages = agesOf(wave, envelope);
  let rms = 0;
  let firstCycles = 0;
  let worst: Agreement["worst"] = null;
  for (const { part, quantity } of watchedOf(samples)) {
    const { told, expected } = bothOf(wave, envelope, part, quantity);
    const faint = FAINT * highest(expected);
    for (let row = SAMPLES_A_CYCLE; row < samples.rows; row++) {
      if (expected[row] <= faint) continue;
      const apart = Math.abs(told[row] / expected[row] - 1);
      if (ages.sudden[row] === 1) firstCycles = Math.max(firstCycles, apart);
      else if (apart > rms) {
        const shift = ages.shift[row];
        const outermost = outside(told[row], expected, row - shift, row + shift);
        if (outermost <= rms) continue;
        rms = outermost;
        worst = { part: samples.plant.layout.circuit.parts[part].name, quantity, at_s: samples.time_s(row) };
      }
    }
  }
  return { rms, worst, firstCycles, runUp: runUpApart(wave, envelope), melt: meltApart(wave, envelope) };
}

interface Watched {
  readonly part: number;
  readonly quantity: "voltage" | "current";
}

/** Every current, and the voltages of loads and motors. */
function watchedOf({ plant }: WaveSamples): Watched[] {
  return plant.layout.circuit.parts.flatMap((p, part): Watched[] => {
    const current: Watched = { part, quantity: "current" };
    return p.is === "load" || p.is === "motor" ? [{ part, quantity: "voltage" }, current] : [current];
  });
}

/** Rolling rms of the wave, and the envelope's over the same cycle. */
function bothOf(wave: WaveTelling, envelope: Telling, part: number, quantity: Watched["quantity"]) {
  const { samples } = wave;
  const read = quantity === "voltage" ? samples.voltage : samples.current;
  const channel = envelope.recording.channels[quantity] + part;
  return {
    told: rollingRms((row) => read(part, row), samples.rows),
    expected: smoothed(envelope, channel, samples.time_s, samples.rows),
  };
}

interface Ages {
  /** 1 within two cycles of any switching. */
  readonly sudden: Uint8Array;
  /** Rows by which a moment may be early or late. */
  readonly shift: Int32Array;
}

function agesOf({ samples, events }: WaveTelling, envelope: Telling): Ages {
  const all = [...events, ...envelope.events];
  const since = sinceLast(all);
  const sinceStart = sinceLast(all.filter(({ name }) => name.endsWith(": breaks away")));
  const settling_s = (SETTLING_cycles + 1) * SAMPLES_A_CYCLE * samples.step_s;
  const sudden = new Uint8Array(samples.rows);
  const shift = new Int32Array(samples.rows);
  for (let row = 0; row < samples.rows; row++) {
    const t = samples.time_s(row);
    sudden[row] = since(t) < settling_s ? 1 : 0;
    shift[row] = Math.round((EARLY_OR_LATE * sinceStart(t)) / samples.step_s + SAMPLES_A_CYCLE / 2);
  }
  return { sudden, shift };
}

function highest(values: Float64Array): number {
  let most = 0;
  for (let k = 0; k < values.length; k++) most = Math.max(most, values[k]);
  return most;
}

/** Time since the last of some events before a moment, or since 0 s; asked for ascending moments. */
function sinceLast(events: readonly { readonly t: number }[]): (t: number) => number {
  const times = [...new Set([0, ...events.map((event) => event.t)])].sort((a, b) => a - b);
  let k = 0;
  return (t) => {
    while (k + 1 < times.length && times[k + 1] <= t) k++;
    return t - times[k];
  };
}

/** How far a value lies outside the values expected between two rows, relative; 0 inside. */
function outside(value: number, expected: Float64Array, from: number, to: number): number {
  let low = Number.POSITIVE_INFINITY;
  let high = 0;
  for (let row = Math.max(0, from); row <= Math.min(expected.length - 1, to); row++) {
    low = Math.min(low, expected[row]);
    high = Math.max(high, expected[row]);
  }
  return value > high ? value / high - 1 : value < low ? 1 - value / low : 0;
}

/** The envelope's rms over the cycle before each sample, from straight lines between its own samples. */
function smoothed(
  told: Telling,
  channel: number,
  time_s: (row: number) => number,
  rows: number,
): Float64Array {
  const { recording } = told;
  const squares = new Float64Array(rows);
  let at = 1;
  for (let row = 0; row < rows; row++) {
    const t = time_s(row);
    while (at < recording.rows - 1 && recording.at(at, 0) < t) at++;
    const [t0, t1] = [recording.at(at - 1, 0), recording.at(at, 0)];
    const share = t1 > t0 ? Math.min(1, Math.max(0, (t - t0) / (t1 - t0))) : 1;
    squares[row] = recording.at(at - 1, channel) * (1 - share) + recording.at(at, channel) * share;
  }
  return rollingRms((row) => squares[row], rows);
}

/** 95 % of the final speed, which both must have reached; the waveform's speed is a mean over half a cycle. */
function runUpApart(wave: WaveTelling, envelope: Telling): number {
  const { samples } = wave;
  const { recording, plant } = envelope;
  let worst = 0;
  plant.layout.circuit.parts.forEach((p, part) => {
    if (p.is !== "motor" || samples.rows < SAMPLES_A_CYCLE) return;
    const channel = recording.channels.state + plant.layout.places[part].state;
    const level = UP * recording.at(recording.rows - 1, channel);
    const expected = passes_s(recording, channel, level, 1);
    const found = upAt_s(samples, part, level);
    const start = wave.events.find(({ name }) => name === `${p.name}: breaks away`)?.t;
    if (level <= 0 || expected === null || found === null || start === undefined) return;
    worst = Math.max(worst, Math.abs((found - start) / (expected - start) - 1));
  });
  return worst;
}

function upAt_s(samples: WaveSamples, part: number, level: number): number | null {
  const half = SAMPLES_A_CYCLE / 4;
  let sum = 0;
  for (let row = 0; row < 2 * half; row++) sum += samples.state(part, row);
  for (let row = half; row + half < samples.rows; row++) {
    if (sum >= level * 2 * half) return samples.time_s(row);
    sum += samples.state(part, row + half) - samples.state(part, row - half);
  }
  return null;
}

function meltApart(wave: WaveTelling, envelope: Telling): number {
  const { samples } = wave;
  const { recording, plant } = envelope;
  let worst = 0;
  plant.layout.circuit.parts.forEach((p, part) => {
    if (p.is !== "fuse" || p.melt === null) return;
    const row = samples.rows - 1;
    const found = samples.state(part, row);
    const expected = meltAt(envelope, part, p.melt.share.length, samples.time_s(row));
    if (expected > 1e-6 && recording.rows > 0) worst = Math.max(worst, Math.abs(found / expected - 1));
  });
  return worst;
}

function meltAt(told: Telling, part: number, terms: number, t: number): number {
  const { recording, plant } = told;
  const first = recording.channels.state + plant.layout.places[part].state;
  let at = 1;
  while (at < recording.rows - 1 && recording.at(at, 0) < t) at++;
  const sum = (row: number): number => {
    let total = 0;
    for (let k = 0; k < terms; k++) total += recording.at(row, first + k);
    return total;
  };
  const [t0, t1] = [recording.at(at - 1, 0), recording.at(at, 0)];
  const share = t1 > t0 ? Math.min(1, Math.max(0, (t - t0) / (t1 - t0))) : 1;
  return sum(at - 1) * (1 - share) + sum(at) * share;
}
