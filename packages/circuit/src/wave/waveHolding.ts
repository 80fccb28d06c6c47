import { HOLDS_DOWN_TO, type LoadParameters } from "../load.ts";
import { type Branch, steadyCurrent } from "./waveBranch.ts";
import { plainWave, type WaveModel, type WavePlacement } from "./waveModel.ts";
import { NOTCH_STATES, notch } from "./waveNotch.ts";

/** Offsets of its states: linked flux, the notch's two, and two lags of the mean square. */
const SWING = 1;
const FIRST_LAG = SWING + NOTCH_STATES;
const FELT = FIRST_LAG + 1;

/**
 * A load that holds its current or its power: an R-L that follows the rms voltage of the last cycle, as such loads
 * do by their own control. With m the mean square, felt through two lags of half a cycle, and Vn nominal:
 *
 *     R, L = (R, L nominal) x (m/Vn^2)^(e/2),   e = 1 current, 2 power,   no further than to 0.7 of nominal
 *     d(L i)/dt = v - R i,   so that   di/dt = (v - (R + dL/dt) i)/L,   (dL/dt)/L = e/2 (dm/dt)/m
 *
 * In the steady state it is the envelope's. Limitation: one that takes its current in pulses is a sine here.
 *
 * Checked by packages/circuit/test/wave/holding.test.ts against the envelope.
 */
export function holdingWave(p: LoadParameters, arm: Branch, place: WavePlacement): WaveModel<null> {
  const { part, at, state, omega_radps: omega } = place;
  const exponent = p.holds === "power" ? 1 : 0.5;
  const nominal = p.nominal_V ** 2;
  const lag_s = Math.PI / omega;
  const square = notch(omega, state + SWING);
  const levelOf = (felt: number): number => Math.max(HOLDS_DOWN_TO ** 2, felt / nominal) ** exponent;
  /** Resistance, inductance, current and (R + dL/dt)/L, kept from the fold. */
  const held = { r: arm.r, l: arm.l, i: 0, sinks: 0 };
  return {
    ...plainWave,
    stateNames: [
      `linked flux of ${p.name}`,
      ...square.names(`voltage at ${p.name}`),
      `lagged mean square at ${p.name}`,
      `mean square at ${p.name}`,
    ],
    states({ walk, angle_rad, fromRest }) {
      if (fromRest) return [0, 0, 0, 0, 0];
      const [re, im] = [walk.vr[at], walk.vi[at]];
      const felt = re * re + im * im;
      const level = levelOf(felt);
      const now = { ...arm, r: arm.r * level, l: arm.l * level };
      const i = steadyCurrent(now, omega, re, im, angle_rad);
      return [now.l * i, ...square.states(re, im, angle_rad), felt, felt];
    },
    fold(w, y) {
      const felt = y[state + FELT];
      const level = levelOf(felt);
      const grows =
        felt / nominal > HOLDS_DOWN_TO ** 2 ? (exponent * (y[state + FIRST_LAG] / felt - 1)) / lag_s : 0;
      held.r = arm.r * level;
      held.l = arm.l * level;
      held.i = y[state] / held.l;
      held.sinks = arm.r / arm.l + grows;
      w.alpha[at] -= held.sinks * held.i;
      w.beta[at] += 1 / held.l;
      w.current[at] += held.i;
    },
    unfold(w) {
      w.into[part] = held.i;
      w.rate[part] = w.v[at] / held.l - held.sinks * held.i;
    },
    rate(w, y, rate) {
      const v = w.v[at];
      const mean = square.mean(v, y);
      rate[state] = v - held.r * held.i;
      square.rate(mean, y, rate);
      rate[state + FIRST_LAG] = (mean - y[state + FIRST_LAG]) / lag_s;
      rate[state + FELT] = (y[state + FIRST_LAG] - y[state + FELT]) / lag_s;
    },
    /** What goes into its field, and what its control does to that field, is counted as stored. */
    power(w) {
      const lost_W = held.r * held.i * held.i;
      return { lost_W, shaft_W: 0, stored_W: held.i * w.v[at] - lost_W };
    },
  };
}
