import type { LoadParameters } from "../load.ts";
import { branch, steadyCurrent } from "./waveBranch.ts";
import { holdingWave } from "./waveHolding.ts";
import { leadingWave } from "./waveLeading.ts";
import { plainWave, type WaveModel, type WavePlacement } from "./waveModel.ts";

/**
 * A load as the R-L that takes its power and reactive power at nominal voltage. One that holds its current or power
 * follows the voltage (waveHolding.ts), one whose current leads has a capacitor (waveLeading.ts). Limitation: one that
 * does both is taken as a resistance.
 */
export function loadWave(p: LoadParameters, place: WavePlacement): WaveModel<null> {
  const { part, at, state, omega_radps: omega } = place;
  const apparent2 = p.power_W ** 2 + p.reactive_var ** 2;
  if (apparent2 === 0) return { ...plainWave, fold: () => {}, unfold: (w) => clear(w.into, w.rate, part) };
  const scale = p.nominal_V ** 2 / apparent2;
  const arm = branch(at, omega, p.power_W * scale, (Math.max(0, p.reactive_var) * scale) / omega);
  if (p.holds === "impedance" && p.reactive_var < 0) return leadingWave(p, place);
  if (p.holds !== "impedance") return holdingWave(p, arm, place);
  return {
    ...plainWave,
    stateNames: [`current of ${p.name}`],
    states: ({ walk, angle_rad, fromRest }) => [
      fromRest ? 0 : steadyCurrent(arm, omega, walk.vr[at], walk.vi[at], angle_rad),
    ],
    fold: (w, y) => arm.fold(w, y[state]),
    unfold(w, y) {
      w.into[part] = y[state];
      w.rate[part] = arm.rate(w.v[at], y[state]);
    },
    rate(w, _, rate) {
      rate[state] = w.rate[part];
    },
    power(w, y) {
      const i = y[state];
      return { lost_W: arm.r * i * i, shaft_W: 0, stored_W: arm.l * i * w.rate[part] };
    },
  };
}

function clear(into: Float64Array, rate: Float64Array, part: number): void {
  into[part] = 0;
  rate[part] = 0;
}
