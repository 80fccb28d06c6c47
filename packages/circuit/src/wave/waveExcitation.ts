import type { PowerUse } from "../model.ts";
import type { Excitation } from "../transformer.ts";
import { type Core, coreOf } from "./core.ts";
import { branch, steadyCurrent } from "./waveBranch.ts";
import type { Before, WavePlacement } from "./waveModel.ts";
import type { WaveWalk } from "./waveWalk.ts";

/** The exciting branch of a transformer across its input: a saturable core and a branch for the idle loss. */
export interface ExcitationWave {
  readonly stateNames: readonly string[];
  readonly core: Core | null;
  states(before: Before): number[];
  fold(w: WaveWalk, y: readonly number[]): void;
  /** Exciting current and its rate at the solved voltage, of the state last folded. */
  current(y: readonly number[]): number;
  currentRate(w: WaveWalk, y: readonly number[]): number;
  rate(w: WaveWalk, y: readonly number[], rate: number[]): void;
  power(w: WaveWalk, y: readonly number[]): PowerUse;
}

/**
 * The core's state is its flux linkage, d(lambda)/dt = v, and i = f(lambda), so alpha = 0, beta = f'(lambda).
 * The idle loss is an R-L branch of the shortest time constant.
 */
export function excitationWave(
  name: string,
  excitation: Excitation,
  rating_VA: number,
  place: WavePlacement,
): ExcitationWave {
  const { at, omega_radps: omega } = place;
  const core = coreOf(excitation, place.nominal_V, rating_VA, omega);
  const arm = excitation.conductance_S > 0 ? branch(at, omega, 1 / excitation.conductance_S, 0) : null;
  /** Current and slope of the core, kept from the fold. */
  const law = new Float64Array(2);
  const flux = place.state;
  const idle = place.state + (core === null ? 0 : 1);
  const armRate = (w: WaveWalk, y: readonly number[]): number =>
    arm === null ? 0 : arm.rate(w.v[at], y[idle]);
  return {
    stateNames: [
      ...(core === null ? [] : [`flux of ${name}`]),
      ...(arm === null ? [] : [`idle loss current of ${name}`]),
    ],
    core,
    states({ walk, angle_rad, fromRest, residual }) {
      const vr = walk.vr[at];
      const vi = walk.vi[at];
      const steadyFlux = (Math.SQRT2 / omega) * (vr * Math.sin(angle_rad) + vi * Math.cos(angle_rad));
      return [
        ...(core === null ? [] : [fromRest ? residual * core.nominal_Vs : steadyFlux]),
        ...(arm === null ? [] : [fromRest ? 0 : steadyCurrent(arm, omega, vr, vi, angle_rad)]),
      ];
    },
    fold(w, y) {
      if (core !== null) {
        core.at(y[flux], law);
        w.current[at] += law[0];
        w.beta[at] += law[1];
      }
      arm?.fold(w, y[idle]);
    },
    current: (y) => law[0] + (arm === null ? 0 : y[idle]),
    currentRate: (w, y) => law[1] * w.v[at] + armRate(w, y),
    rate(w, y, rate) {
      if (core !== null) rate[flux] = w.v[at];
      if (arm !== null) rate[idle] = armRate(w, y);
    },
    power(w, y) {
      const i = arm === null ? 0 : y[idle];
      const lost_W = arm === null ? 0 : arm.r * i * i;
      const field = law[0] * w.v[at];
      return { lost_W, shaft_W: 0, stored_W: field + (arm === null ? 0 : arm.l * i * armRate(w, y)) };
    },
  };
}
