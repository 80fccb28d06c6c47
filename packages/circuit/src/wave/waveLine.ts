import type { CableParameters } from "../cable.ts";
import type { SupplyParameters } from "../supply.ts";
import { inSeries, plainWave, type WaveModel, type WavePlacement } from "./waveModel.ts";
import { waveSeries } from "./waveWalk.ts";

/**
 * The supply: e = sqrt(2) E cos(omega t + angle) behind R and L. With what hangs on it, di/dt = alpha + beta v:
 *
 *     v = (e - R i - L alpha)/(1 + L beta)
 */
export function supplyWave(p: SupplyParameters, place: WavePlacement): WaveModel<SupplyWaveMode> {
  const { part, omega_radps: omega } = place;
  const [out] = place.out;
  const r = p.r_ohm;
  const l = p.x_ohm / omega;
  const peak = Math.SQRT2 * p.voltage_V;
  let angle = 0;
  let e = 0;
  return {
    ...plainWave,
    start: { angle_rad: 0 },
    enter(mode) {
      angle = mode.angle_rad;
    },
    fold: () => {},
    unfold(w, _, t) {
      e = peak * Math.cos(omega * t + angle);
      const i = w.current[out];
      w.v[out] = (e - r * i - l * w.alpha[out]) / (1 + l * w.beta[out]);
      w.into[part] = i;
      w.rate[part] = w.alpha[out] + w.beta[out] * w.v[out];
    },
    reduce: (_, __, mode) => mode,
    /** The supply's own losses, less the power that leaves its electromotive force. */
    power(w) {
      const own = inSeries(w, part, r, l);
      return { ...own, lost_W: own.lost_W - e * w.into[part] };
    },
  };
}

/** The angle of the supply's voltage at 0 s, rad. */
export interface SupplyWaveMode {
  readonly angle_rad: number;
}

/** A cable: series R-L without a state. */
export function cableWave(p: CableParameters, place: WavePlacement): WaveModel<null> {
  const { part, at, omega_radps: omega } = place;
  const link = waveSeries(part, at, place.out[0], p.r_ohm, p.x_ohm / omega);
  return {
    ...plainWave,
    fold: link.fold,
    unfold: link.unfold,
    power: (w) => inSeries(w, part, p.r_ohm, p.x_ohm / omega),
  };
}
