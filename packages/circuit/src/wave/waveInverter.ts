import { type InverterMode, type InverterSource, surgeEvents } from "../inverter.ts";
import { eventName } from "../model.ts";
import type { SupplyParameters } from "../supply.ts";
import { plainWave, type WaveModel, type WavePlacement } from "./waveModel.ts";
import { NOTCH_STATES, notch } from "./waveNotch.ts";
import { type Parting, partingGuards, signOf } from "./waveParting.ts";
import { waveOpen } from "./waveWalk.ts";

export interface InverterWaveMode extends InverterMode {
  /** The angle of its voltage at 0 s, rad. */
  readonly angle_rad: number;
  /** Shut down, it goes on to the next zero of its current. */
  readonly parting: Parting;
}

/** Offsets of its states: how far its voltage is held down, the notch's two, mean square of its current. */
const SHARE = 0;
const SWING = 1;
const FELT = SWING + NOTCH_STATES;
/** A current this far below a threshold counts as below it: what is left of ripple after a start stays inside. */
const WELL_BELOW = 0.98;

/**
 * An inverter: stiff, but for its control of the rms current. With the current's mean square q, without its swing and
 * half a cycle T/2 late, and I_limit of its present rating,
 *
 *     e = sqrt(2) u V cos(omega t + angle)      du/dt = u (1 - sqrt(q)/I_limit)/T,  no further than to u = 1
 *
 * so that it gives just its limit in the steady state, as in the envelope, and gets there in about two cycles (damped by
 * 0.7 on impedances). Surge time, the rating after it and the shut-down are the envelope's own rules, on sqrt(q)/u for
 * the current asked of it: exact for a network of impedances.
 *
 * Limitations: those of the envelope's inverter; a real one clips the peaks at once.
 * Checked by packages/circuit/test/wave/inverter.test.ts against the envelope.
 */
export function inverterWave(
  p: SupplyParameters,
  source: InverterSource,
  place: WavePlacement,
): WaveModel<InverterWaveMode> {
  const { part, state, omega_radps: omega } = place;
  const [out] = place.out;
  const cycle_s = (2 * Math.PI) / omega;
  const peak = Math.SQRT2 * p.voltage_V;
  const square = notch(omega, state + SWING);
  const events = surgeEvents(p.name, source);
  const zero = partingGuards(eventName(p.name, "current passes zero"));
  let mode: InverterWaveMode = {
    ...{ factor: 1, steps: [], angle_rad: 0, parting: 0 },
    ...{ load: "within its rating", since_s: 0, used_s: 0, limiting: false },
  };
  const held = { e: 0, i: 0 };
  const isOff = (): boolean => mode.load === "shut down" && mode.parting === 0;
  const limit = (): number => (mode.load === "held at its rating" ? source.continuous_A : source.limit_A);
  const rms = (y: readonly number[]): number => Math.sqrt(Math.max(0, y[state + FELT]));
  return {
    ...plainWave,
    stateNames: [
      `voltage share of ${p.name}`,
      ...square.names(`current of ${p.name}`),
      `mean square current of ${p.name}`,
    ],
    start: mode,
    states({ walk, angle_rad, fromRest }) {
      if (fromRest) return [1, 0, 0, 0];
      const [re, im] = [walk.ir[part], walk.ii[part]];
      return [
        Math.hypot(walk.vr[out], walk.vi[out]) / p.voltage_V || 1,
        ...square.states(re, im, angle_rad),
        re * re + im * im,
      ];
    },
    enter(next) {
      mode = next;
    },
    fold: () => {},
    unfold(w, y, t) {
      held.i = w.current[out];
      held.e = isOff() ? 0 : mode.factor * y[state + SHARE] * peak * Math.cos(omega * t + mode.angle_rad);
      if (isOff()) waveOpen(w, part, out);
      else {
        w.v[out] = held.e;
        w.into[part] = held.i;
        w.rate[part] = w.alpha[out] + w.beta[out] * held.e;
      }
    },
    rate(_, y, rate) {
      const share = y[state + SHARE];
      const mean = square.mean(held.i, y);
      const turns = (share * (1 - rms(y) / limit())) / cycle_s;
      rate[state + SHARE] = share >= 1 ? Math.min(0, turns) : turns;
      square.rate(mean, y, rate);
      rate[state + FELT] = (2 * (mean - y[state + FELT])) / cycle_s;
    },
    guards: (of) => [...events.guards(of), ...zero.guards(of.parting)],
    guardValues(w, y, values, offset) {
      const asked = rms(y) / y[state + SHARE];
      if (mode.load === "within its rating") values[offset] = asked - source.continuous_A;
      if (mode.load === "held at its rating") values[offset] = asked - source.continuous_A * WELL_BELOW;
      if (mode.load === "surging") {
        values[offset] = asked - source.continuous_A * WELL_BELOW;
        values[offset + 1] = asked - source.limit_A * (mode.limiting ? WELL_BELOW : 1);
      }
      if (mode.parting !== 0) values[offset + events.guards(mode).length] = w.current[out];
    },
    scheduled: events.scheduled,
    reduce(event, _, of) {
      if (event.name === zero.name) return { ...of, parting: 0 };
      const next = { ...of, ...events.reduce(event, of) };
      const stops = next.load === "shut down" && of.load !== "shut down";
      return stops ? { ...next, parting: signOf(held.i) } : next;
    },
    scripted: events.scripted,
    power: (w) => ({ lost_W: -held.e * w.into[part], shaft_W: 0, stored_W: 0 }),
  };
}
