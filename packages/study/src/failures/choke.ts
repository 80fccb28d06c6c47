import { coreOf } from "@startgap/circuit";
import type { LoneWinding } from "./windings.ts";

/** Rms current that the winding's core takes at an rms voltage across it. */
export type ChokeLaw = (voltage_V: number) => number;

const POINTS = 64;

/**
 * Magnetising current of a lone winding against its voltage, both rms, with the same core as in the waveform
 * resolution: a line up to the knee, the air-core slope beyond.
 *
 * With a sinusoidal voltage the flux is one too; the current's rms is averaged over a quarter cycle. A
 * transformer without a rating has no air-core slope to be known, and stays on its straight line.
 *
 * Limitation: the harmonics of that current are counted in its rms but not let act on the network.
 */
export function chokeLaw(w: LoneWinding, frequency_Hz: number): ChokeLaw {
  const excitation = { conductance_S: w.conductance_S, susceptance_S: w.susceptance_S };
  const core = Number.isFinite(w.rating_VA)
    ? coreOf(excitation, w.nominal_V, w.rating_VA, 2 * Math.PI * frequency_Hz)
    : null;
  if (core === null) return (voltage_V) => w.susceptance_S * voltage_V;
  return (voltage_V) => {
    const peak = core.nominal_Vs * (voltage_V / w.nominal_V);
    let sum = 0;
    for (let k = 0; k <= POINTS; k++) {
      const i = core.current(peak * Math.sin((Math.PI / 2) * (k / POINTS)));
      sum += (k === 0 || k === POINTS ? 0.5 : 1) * i * i;
    }
    return Math.sqrt(sum / POINTS);
  };
}

/** Open-circuit voltage and impedance of a network at two terminals. */
export interface Thevenin {
  readonly voltage_V: number;
  readonly r_ohm: number;
  readonly x_ohm: number;
}

/**
 * The voltage at which a choke settles on a network: V = Vth/|1 - j B Zth| with B = I(V)/V.
 *
 * B only rises with V, so of V - Vth/|1 - j B(V) Zth| the first sign change upwards from 0 is taken; a network with
 * capacitors may have more than one answer, and then this is the lowest.
 *
 * @returns rms volts, and the susceptance there
 */
export function settledChoke(law: ChokeLaw, net: Thevenin): { voltage_V: number; susceptance_S: number } {
  const susceptance = (v: number): number => (v > 0 ? law(v) / v : law(1e-3) / 1e-3);
  const gap = (v: number): number => {
    const b = susceptance(v);
    return v - net.voltage_V / Math.hypot(1 + b * net.x_ohm, -b * net.r_ohm);
  };
  const { low, high } = bracket(gap, net.voltage_V);
  const voltage_V = rootBetween(gap, low, high);
  return { voltage_V, susceptance_S: susceptance(voltage_V) };
}

interface Bracket {
  readonly low: number;
  readonly high: number;
}

/** The lowest of a row of voltages at which the winding would take more than the network gives, and the one before. */
function bracket(gap: (v: number) => number, open_V: number): Bracket {
  const step = open_V / 12;
  let low = 0;
  let high = step;
  while (gap(high) < 0 && high < 10 * open_V) {
    low = high;
    high += step;
  }
  return { low, high };
}

/** Relative width at which a root is met: tighter than any use of it. */
const MET = 1e-13;

/** False position with the stale end halved (Illinois): for a gap that rises from low to high. */
function rootBetween(gap: (v: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  let [below, above] = [gap(low), gap(high)];
  for (let count = 0; count < 100 && high - low > MET * high; count++) {
    const at = (low * above - high * below) / (above - below);
    const here = gap(at);
    if (here === 0) return at;
    if (here < 0) {
      if (at <= low) return at;
      [low, below, above] = [at, here, above / 2];
    } else {
      if (at >= high) return at;
      [high, above, below] = [at, here, below / 2];
    }
  }
  return (low + high) / 2;
}
