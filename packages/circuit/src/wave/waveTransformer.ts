import type { AutotransformerParameters } from "../autotransformer.ts";
import type { TransformerParameters } from "../transformer.ts";
import { excitationWave } from "./waveExcitation.ts";
import { plainWave, type WaveModel, type WavePlacement } from "./waveModel.ts";

/**
 * Leakage R-L at the first winding, then the ideal ratio n = V2/V1: what hangs on the second winding is, at
 * the first, i1 = n i2, alpha' = n alpha, beta' = n^2 beta. The exciting branch stands across the input.
 */
export function transformerWave(p: TransformerParameters, place: WavePlacement): WaveModel<null> {
  const { part, at } = place;
  const [out] = place.out;
  const r = p.r_ohm;
  const l = p.x_ohm / place.omega_radps;
  const n = p.windings_V[1] / p.windings_V[0];
  const excite = excitationWave(p.name, p.excitation, p.rating_VA, place);
  return {
    ...plainWave,
    stateNames: excite.stateNames,
    states: excite.states,
    fold(w, y) {
      const i = n * w.current[out];
      const beta = n * n * w.beta[out];
      const q = 1 / (1 + l * beta);
      w.alpha[at] += (n * w.alpha[out] - beta * r * i) * q;
      w.beta[at] += beta * q;
      w.current[at] += i;
      excite.fold(w, y);
    },
    unfold(w, y) {
      const i = n * w.current[out];
      const inner = (w.v[at] - r * i - l * n * w.alpha[out]) / (1 + l * n * n * w.beta[out]);
      w.v[out] = n * inner;
      w.into[part] = i + excite.current(y);
      w.rate[part] = n * (w.alpha[out] + w.beta[out] * w.v[out]) + excite.currentRate(w, y);
    },
    rate: excite.rate,
    power(w, y) {
      const i = n * w.current[out];
      const di = n * (w.alpha[out] + w.beta[out] * w.v[out]);
      const idle = excite.power(w, y);
      return { lost_W: r * i * i + idle.lost_W, shaft_W: 0, stored_W: l * i * di + idle.stored_W };
    },
  };
}

/**
 * Two windings in series about a midpoint (see the envelope's autotransformer): with R, L = k2^2 times the
 * leakage referred to the first winding,
 *
 *     V1 = k1 V + R (i2 - i1) + L (di2/dt - di1/dt)     V2 = V - V1     i = k1 i1 + k2 i2 + i12
 *
 * and di1/dt = a1 + b1 V1, di2/dt = a2 + b2 V2:
 *
 *     V1 (1 + L (b1 + b2)) = k1 V + R (i2 - i1) + L (a2 - a1) + L b2 V,  that is V1 = c + g V.
 */
export function autotransformerWave(p: AutotransformerParameters, place: WavePlacement): WaveModel<null> {
  const { part, at } = place;
  const [first, second, both] = place.out;
  const k1 = p.windings_V[0] / (p.windings_V[0] + p.windings_V[1]);
  const k2 = 1 - k1;
  const r = k2 * k2 * p.r_ohm;
  const l = (k2 * k2 * p.x_ohm) / place.omega_radps;
  const excite = excitationWave(p.name, p.excitation, p.rating_VA, place);
  /** V1 = c + g V, kept from the fold. */
  const law = { c: 0, g: k1 };
  return {
    ...plainWave,
    stateNames: excite.stateNames,
    states: excite.states,
    fold(w, y) {
      const a1 = w.alpha[first];
      const b1 = w.beta[first];
      const i1 = w.current[first];
      const a2 = w.alpha[second];
      const b2 = w.beta[second];
      const i2 = w.current[second];
      const q = 1 / (1 + l * (b1 + b2));
      const c = (r * (i2 - i1) + l * (a2 - a1)) * q;
      const g = (k1 + l * b2) * q;
      law.c = c;
      law.g = g;
      w.alpha[at] += k1 * (a1 + b1 * c) + k2 * (a2 - b2 * c) + w.alpha[both];
      w.beta[at] += k1 * b1 * g + k2 * b2 * (1 - g) + w.beta[both];
      w.current[at] += k1 * i1 + k2 * i2 + w.current[both];
      excite.fold(w, y);
    },
    unfold(w, y) {
      const v = w.v[at];
      const v1 = law.c + law.g * v;
      w.v[first] = v1;
      w.v[second] = v - v1;
      w.v[both] = v;
      const loads = k1 * w.current[first] + k2 * w.current[second] + w.current[both];
      const rates =
        k1 * (w.alpha[first] + w.beta[first] * v1) + k2 * (w.alpha[second] + w.beta[second] * (v - v1));
      w.into[part] = loads + excite.current(y);
      w.rate[part] = rates + w.alpha[both] + w.beta[both] * v + excite.currentRate(w, y);
    },
    rate: excite.rate,
    power(w, y) {
      const i = w.current[second] - w.current[first];
      const di = w.alpha[second] + w.beta[second] * w.v[second] - w.alpha[first] - w.beta[first] * w.v[first];
      const idle = excite.power(w, y);
      return { lost_W: r * i * i + idle.lost_W, shaft_W: 0, stored_W: l * i * di + idle.stored_W };
    },
  };
}
