import type { Impedance, Place } from "./conventions.ts";
import type { MeltTerms } from "./melt.ts";
import { eventName, lostInSeries, type PartGuard, type PartModel, type Placement, plain } from "./model.ts";
import { series, unfoldOpen, type Walk } from "./walk.ts";

/** One fuse, or a pair in the two lines that carry the same current; impedance is that of all poles. */
export interface FuseParameters extends Place, Impedance {
  readonly is: "fuse";
  /** 1 or 2: how many lines are fused. All carry the same current and melt together in the model. */
  readonly poles: number;
  readonly rating_A: number;
  /** Fast edge of the band: hold is judged on it and the story opens on it. Null: never melts. */
  readonly melt: MeltTerms | null;
  /** Slow edge (total clearing): protection is judged on it. */
  readonly clearing: MeltTerms | null;
}

export interface FuseMode {
  readonly melted: boolean;
}

/**
 * Series impedance, thermal terms on I^2, open for good once the sum of its terms reaches 1.
 *
 * Under a drive h(t) = h_end + c e^(-lambda t), h = (I/I_inf)^2, every term moves exactly:
 *
 *     x(t) = a h_end + (x0 - a h_end) e^(-t/tau) + a c (e^(-lambda t) - e^(-t/tau))/(1 - lambda tau)
 */
export function fuseModel(p: FuseParameters, place: Placement): PartModel<FuseMode> {
  const { part, at, state } = place;
  const [out] = place.out;
  const melts = eventName(p.name, "melts");
  const share = p.melt?.share ?? [];
  const tau = p.melt?.tau_s ?? [];
  const perTau = tau.map((one) => 1 / one);
  const terms = share.length;
  const scale = p.melt === null ? 0 : 1 / p.melt.minimumFusing_A ** 2;
  const guards: readonly PartGuard[] =
    p.melt === null ? [] : [{ name: melts, direction: "rising", level: true, electrical: false }];
  const link = series(part, at, out, p.r_ohm, p.x_ohm);
  let melted = false;
  const heat = (w: Walk): number => (w.ir[part] ** 2 + w.ii[part] ** 2) * scale;
  return {
    ...plain,
    stateNames: share.map((_, k) => `melt term ${k + 1} of ${p.name}`),
    start: { y: share.map(() => 0), mode: { melted: false } },
    enter(mode) {
      melted = mode.melted;
    },
    fold(w) {
      if (!melted) link.fold(w);
    },
    unfold(w) {
      if (melted) unfoldOpen(w, part, out);
      else link.unfold(w);
    },
    rate(w, y, rate) {
      const h = heat(w);
      for (let k = 0; k < terms; k++) rate[state + k] = (share[k] * h - y[state + k]) * perTau[k];
    },
    guards: (mode) => (mode.melted ? [] : guards),
    guardValues(_, y, values, offset) {
      if (!melted && terms > 0) values[offset] = meltFraction(y, state, terms) - 1;
    },
    reduce: () => ({ melted: true }),
    conducts: (mode) => !mode.melted,
    power: (w) => lostInSeries(w, part, p.r_ohm),
    drive: heat,
    coast(end, change, lambda, y0, dt, y) {
      for (let k = 0; k < terms; k++) {
        const steady = share[k] * end;
        const faded = Math.exp(-dt / tau[k]);
        const dying = share[k] * change * afterglow(lambda, tau[k], dt);
        y[state + k] = steady + (y0[state + k] - steady) * faded + dying;
      }
    },
  };
}

/** Melt fraction: the sum of a fuse's terms. */
export function meltFraction(y: readonly number[], state: number, terms: number): number {
  let sum = 0;
  for (let k = 0; k < terms; k++) sum += y[state + k];
  return sum;
}

/** Response of tau dx/dt = e^(-lambda t) - x from 0: (e^(-lambda t) - e^(-t/tau))/(1 - lambda tau). */
function afterglow(lambda: number, tau: number, t: number): number {
  const apart = 1 - lambda * tau;
  if (Math.abs(apart) < 1e-6) return (t / tau) * Math.exp(-t / tau);
  return (Math.exp(-lambda * t) - Math.exp(-t / tau)) / apart;
}
