import { type SupplyMode, type SupplyParameters, voltageSteps } from "../supply.ts";
import { inSeries, plainWave, type WaveModel, type WavePlacement } from "./waveModel.ts";

export interface SupplyWaveMode extends SupplyMode {
  /** The angle of the supply's voltage at 0 s, rad. */
  readonly angle_rad: number;
}

/**
 * The supply: e = sqrt(2) E cos(omega t + angle) behind R and L. With what hangs on it, di/dt = alpha + beta v:
 *
 *     v = (e - R i - L alpha)/(1 + L beta)
 *
 * A story may step its voltage.
 */
export function supplyWave(p: SupplyParameters, place: WavePlacement): WaveModel<SupplyWaveMode> {
  const { part, omega_radps: omega } = place;
  const [out] = place.out;
  const r = p.r_ohm;
  const l = p.x_ohm / omega;
  const peak = Math.SQRT2 * p.voltage_V;
  const steps = voltageSteps(p.name);
  let mode: SupplyWaveMode = { angle_rad: 0, factor: 1, steps: [] };
  /** The electromotive force, kept for the balance of power. */
  const held = { e: 0 };
  return {
    ...plainWave,
    start: mode,
    enter(next) {
      mode = next;
    },
    fold: () => {},
    unfold(w, _, t) {
      const e = mode.factor * peak * Math.cos(omega * t + mode.angle_rad);
      held.e = e;
      const i = w.current[out];
      w.v[out] = (e - r * i - l * w.alpha[out]) / (1 + l * w.beta[out]);
      w.into[part] = i;
      w.rate[part] = w.alpha[out] + w.beta[out] * w.v[out];
    },
    scheduled: steps.scheduled,
    reduce: (_, __, of) => steps.next(of),
    scripted: steps.scripted,
    /** The supply's own losses, less the power that leaves its electromotive force. */
    power(w) {
      const own = inSeries(w, part, r, l);
      return { ...own, lost_W: own.lost_W - held.e * w.into[part] };
    },
  };
}
