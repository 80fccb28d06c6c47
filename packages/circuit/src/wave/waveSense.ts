import { createWalk, type Walk } from "../walk.ts";
import type { Before } from "./waveModel.ts";
import type { WaveWalk } from "./waveWalk.ts";

/** Time constant of each of the two lags through which a coil or relay feels the square of a wave, s. */
const LAG_s = 8e-3;

/** What coils and relays feel of the network: rms values, each the root of a square through two equal lags. */
export interface WaveSense {
  readonly stateNames: readonly string[];
  states(before: Before): number[];
  rate(w: WaveWalk, y: readonly number[], rate: number[]): void;
  /** The rms values in the shape of an envelope walk: what the envelope's rules read theirs from. */
  reading(y: readonly number[]): Walk;
}

/** Nodes whose voltage, and parts whose current is felt. */
export interface Sensed {
  readonly nodes: readonly number[];
  readonly parts: readonly number[];
}

/**
 * d(m)/dt = (v^2 - m)/8 ms, d(q)/dt = (m - q)/8 ms, rms = sqrt(q): a mean over about a cycle, 16 ms late, with
 * 1.4 % of ripple left at 60 Hz.
 *
 * What was live before a story begins with its steady value. What is switched on with the story begins with
 * the value right after it: the story's clock starts with the first motor, as in the envelope, and not one
 * lag before.
 */
export function waveSense(name: string, { nodes, parts }: Sensed, state: number): WaveSense {
  const length = (of: readonly number[]): number => (of.length === 0 ? 0 : Math.max(...of) + 1);
  const felt = createWalk(length(nodes), length(parts));
  const count = nodes.length + parts.length;
  return {
    stateNames: Array.from({ length: count }, () => [
      `lagged square at ${name}`,
      `mean square at ${name}`,
    ]).flat(),
    states({ walk, after, fromRest }) {
      const volts = nodes.map((n) => square(walk.vr[n], walk.vi[n]) || square(after.vr[n], after.vi[n]));
      const amperes = parts.map((p) => square(after.ir[p], after.ii[p]));
      return [...volts, ...amperes].flatMap((felt) => (fromRest ? [0, 0] : [felt, felt]));
    },
    rate(w, y, rate) {
      for (let k = 0; k < count; k++) {
        const wave = k < nodes.length ? w.v[nodes[k]] : w.into[parts[k - nodes.length]];
        const at = state + 2 * k;
        rate[at] = (wave * wave - y[at]) / LAG_s;
        rate[at + 1] = (y[at] - y[at + 1]) / LAG_s;
      }
    },
    reading(y) {
      for (let k = 0; k < count; k++) {
        const rms = Math.sqrt(Math.max(0, y[state + 2 * k + 1]));
        if (k < nodes.length) felt.vr[nodes[k]] = rms;
        else felt.ir[parts[k - nodes.length]] = rms;
      }
      return felt;
    },
  };
}

const square = (re: number, im: number): number => re * re + im * im;
