import type { CableParameters } from "../cable.ts";
import { inSeries, plainWave, type WaveModel, type WavePlacement } from "./waveModel.ts";
import { waveSeries } from "./waveWalk.ts";

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
