import type { LoadParameters } from "../load.ts";
import { SHORTEST_s } from "./waveBranch.ts";
import { plainWave, type WaveModel, type WavePlacement } from "./waveModel.ts";

/** Inductive reactance in series, of the stated one: its own resonance is then above five times the supply's frequency. */
const IN_SERIES = 0.04;

/**
 * A load whose current leads, as a series R-L-C. The inductance, that of the shortest time constant and never less than
 * keeps an uncharged capacitor from being a short circuit, is made up for by the capacitor: at the supply's frequency it
 * is exactly the stated R - jX. Limitation: above that its impedance is this circuit's, not the load's.
 *
 * Checked by packages/circuit/test/wave/holding.test.ts against the envelope.
 */
export function leadingWave(p: LoadParameters, place: WavePlacement): WaveModel<null> {
  const { part, at, state, omega_radps: omega } = place;
  const scale = p.nominal_V ** 2 / (p.power_W ** 2 + p.reactive_var ** 2);
  const r = p.power_W * scale;
  const x = p.reactive_var * scale;
  const l = Math.max(r * SHORTEST_s, (IN_SERIES * -x) / omega);
  const perC = omega * (omega * l - x);
  const falls = (y: readonly number[]): number => r * y[state] + y[state + 1];
  return {
    ...plainWave,
    stateNames: [`current of ${p.name}`, `capacitor voltage of ${p.name}`],
    states({ walk, angle_rad, fromRest }) {
      if (fromRest) return [0, 0];
      const q = Math.SQRT2 / (r * r + x * x);
      const re = (walk.vr[at] * r + walk.vi[at] * x) * q;
      const im = (walk.vi[at] * r - walk.vr[at] * x) * q;
      const [cos, sin] = [Math.cos(angle_rad), Math.sin(angle_rad)];
      return [re * cos - im * sin, ((re * sin + im * cos) * perC) / omega];
    },
    fold(w, y) {
      w.alpha[at] -= falls(y) / l;
      w.beta[at] += 1 / l;
      w.current[at] += y[state];
    },
    unfold(w, y) {
      w.into[part] = y[state];
      w.rate[part] = (w.v[at] - falls(y)) / l;
    },
    rate(w, y, rate) {
      rate[state] = w.rate[part];
      rate[state + 1] = perC * y[state];
    },
    power(w, y) {
      const i = y[state];
      return { lost_W: r * i * i, shaft_W: 0, stored_W: i * (l * w.rate[part] + y[state + 1]) };
    },
  };
}
