import { type FuseMode, type FuseParameters, meltFraction } from "../fuse.ts";
import { eventName, type PartGuard } from "../model.ts";
import { inSeries, plainWave, type WaveModel, type WavePlacement } from "./waveModel.ts";
import { type Parting, partingGuards, signOf } from "./waveParting.ts";
import { waveOpen, waveSeries } from "./waveWalk.ts";

export interface FuseWaveMode extends FuseMode {
  /** The arc lasts from melting to the next zero of the current. */
  readonly arcing: Parting;
}

/** Series impedance, thermal terms on the square of the instantaneous current; opens at a current zero. */
export function fuseWave(p: FuseParameters, place: WavePlacement): WaveModel<FuseWaveMode> {
  const { part, at, state, omega_radps: omega } = place;
  const [out] = place.out;
  const l = p.x_ohm / omega;
  const link = waveSeries(part, at, out, p.r_ohm, l);
  const melts = eventName(p.name, "melts");
  const arc = partingGuards(eventName(p.name, "current passes zero"));
  const share = p.melt?.share ?? [];
  const tau = p.melt?.tau_s ?? [];
  const scale = p.melt === null ? 0 : 1 / p.melt.minimumFusing_A ** 2;
  const melting: readonly PartGuard[] =
    p.melt === null ? [] : [{ name: melts, direction: "rising", level: true, electrical: false }];
  let mode: FuseWaveMode = { melted: false, arcing: 0 };
  let current = 0;
  const conducts = (of: FuseWaveMode): boolean => !of.melted || of.arcing !== 0;
  return {
    ...plainWave,
    stateNames: share.map((_, k) => `melt term ${k + 1} of ${p.name}`),
    start: mode,
    states: () => share.map(() => 0),
    enter(next) {
      mode = next;
    },
    fold(w) {
      current = w.current[out];
      if (conducts(mode)) link.fold(w);
    },
    unfold(w) {
      if (conducts(mode)) link.unfold(w);
      else waveOpen(w, part, out);
    },
    rate(w, y, rate) {
      const heat = w.into[part] ** 2 * scale;
      for (let k = 0; k < share.length; k++) rate[state + k] = (share[k] * heat - y[state + k]) / tau[k];
    },
    guards: (of) => (of.melted ? arc.guards(of.arcing) : melting),
    guardValues(w, y, values, offset) {
      if (mode.melted) {
        if (mode.arcing !== 0) values[offset] = w.current[out];
      } else if (share.length > 0) values[offset] = meltFraction(y, state, share.length) - 1;
    },
    reduce(event, _, of) {
      if (event.name === arc.name) return { ...of, arcing: 0 };
      return { melted: true, arcing: signOf(current) };
    },
    power: (w) => inSeries(w, part, p.r_ohm, l),
  };
}
