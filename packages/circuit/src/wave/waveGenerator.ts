import { type GeneratorSource, regulatorOf } from "../generator.ts";
import { type SupplyParameters, voltageSteps } from "../supply.ts";
import { inSeries, plainWave, type WaveModel, type WavePlacement } from "./waveModel.ts";
import { notch } from "./waveNotch.ts";
import type { SupplyWaveMode } from "./waveSupply.ts";

/** Offset of the notch. */
const SWING = 3;

/**
 * A generator: the envelope's E', of the same slow law, as the amplitude and phase of a wave behind R and L':
 *
 *     e = sqrt(2) Re((E'r + j E'i) e^{j theta})      theta = omega t + angle
 *     T dE'/dt = Ef - E' - j (Xs - X') sqrt(2) i e^{-j theta}
 *
 * sqrt(2) i e^{-j theta} is the current's phasor and a part at twice the frequency, which T, hundreds of times
 * longer than a cycle, takes out. The regulator reads the rms of the terminals, the root of v^2 less what of it
 * swings at twice the frequency (a notch, waveNotch.ts, 2.7 ms late at 60 Hz: any measuring lag worth the name is in the
 * recovery time). Its field stops at its ends without an event.
 *
 * Limitations: those of the envelope's generator; the single-phase machine's own harmonics are left out.
 * Checked by tests/invariants/agreement.test.ts against the envelope.
 */
export function generatorWave(
  p: SupplyParameters,
  source: GeneratorSource,
  place: WavePlacement,
): WaveModel<SupplyWaveMode> {
  const { part, state, omega_radps: omega } = place;
  const [out] = place.out;
  const r = p.r_ohm;
  const l = p.x_ohm / omega;
  const { gain, memory_s } = regulatorOf(source);
  const ceiling = source.ceiling * p.voltage_V;
  const demagnetises = source.synchronous_ohm - p.x_ohm;
  const steps = voltageSteps(p.name);
  const square = notch(omega, state + SWING);
  let mode: SupplyWaveMode = { angle_rad: 0, factor: 1, steps: [] };
  /** Electromotive force and angle, kept from the unfolding. */
  const held = { e: 0, cos: 1, sin: 0 };
  return {
    ...plainWave,
    stateNames: [
      `flux along the field of ${p.name}`,
      `flux across the field of ${p.name}`,
      `regulator of ${p.name}`,
      ...square.names(`voltage at ${p.name}`),
    ],
    start: mode,
    states({ source: [along, across, field], walk, angle_rad }) {
      return [along, across, field, ...square.states(walk.vr[out], walk.vi[out], angle_rad)];
    },
    enter(next) {
      mode = next;
    },
    fold: () => {},
    unfold(w, y, t) {
      const cos = Math.cos(omega * t + mode.angle_rad);
      const sin = Math.sin(omega * t + mode.angle_rad);
      const e = mode.factor * Math.SQRT2 * (y[state] * cos - y[state + 1] * sin);
      held.e = e;
      held.cos = cos;
      held.sin = sin;
      const i = w.current[out];
      w.v[out] = (e - r * i - l * w.alpha[out]) / (1 + l * w.beta[out]);
      w.into[part] = i;
      w.rate[part] = w.alpha[out] + w.beta[out] * w.v[out];
    },
    rate(w, y, rate) {
      const mean = square.mean(w.v[out], y);
      const felt = Math.sqrt(Math.max(0, mean));
      const wanted = y[state + 2] + gain * (mode.factor * p.voltage_V - felt);
      const field = Math.min(ceiling, Math.max(0, wanted));
      const swing = Math.SQRT2 * w.into[part] * demagnetises;
      rate[state] = (field - y[state] - swing * held.sin) / source.fieldTime_s;
      rate[state + 1] = (-y[state + 1] - swing * held.cos) / source.fieldTime_s;
      rate[state + 2] = (field - y[state + 2]) / memory_s;
      square.rate(mean, y, rate);
    },
    scheduled: steps.scheduled,
    reduce: (_, __, of) => steps.next(of),
    scripted: steps.scripted,
    power(w) {
      const own = inSeries(w, part, r, l);
      return { ...own, lost_W: own.lost_W - held.e * w.into[part] };
    },
  };
}
