import type { ControlLogic } from "../control.ts";
import { eventName, type PartGuard } from "../model.ts";
import { plainWave, type WaveModel, type WavePlacement } from "./waveModel.ts";
import { waveOpen, waveSeries } from "./waveWalk.ts";

/** A contact parts when its current next passes zero: an arc does not let go before. */
export interface ContactWaveMode<S> {
  readonly control: S;
  /** True while current can flow, also through the arc of a contact that is parting. */
  readonly conducts: boolean;
  /** Sign of the current when the contact began to part; 0 while it is not parting. */
  readonly parting: -1 | 0 | 1;
}

/** Time constant of each of the two lags through which a coil feels the square of its voltage, s. */
const COIL_LAG_s = 8e-3;

/**
 * A contact in the line, worked by the same logic as in the envelope. The coil's rms voltage is the root of
 * v^2 through two equal lags: a mean over about a cycle with 1.4 % of ripple left at 60 Hz.
 */
export function contactWave<S>(
  name: string,
  logic: ControlLogic<S>,
  place: WavePlacement,
  sensed: number,
): WaveModel<ContactWaveMode<S>> {
  const { part, at, state } = place;
  const [out] = place.out;
  const link = waveSeries(part, at, out, 0, 0);
  const parts = eventName(name, "current passes zero");
  const partingGuard = {
    "-1": [{ name: parts, direction: "rising", level: false, electrical: true }],
    "1": [{ name: parts, direction: "falling", level: false, electrical: true }],
  } satisfies Record<string, readonly PartGuard[]>;
  let mode: ContactWaveMode<S> = { control: logic.start, conducts: logic.closed(logic.start), parting: 0 };
  const start = mode;
  let current = 0;
  return {
    ...plainWave,
    stateNames: [`lagged square of the voltage at ${name}`, `mean square of the voltage at ${name}`],
    start,
    states({ walk, fromRest }) {
      const square = fromRest ? 0 : walk.vr[sensed] ** 2 + walk.vi[sensed] ** 2;
      return [square, square];
    },
    enter(next) {
      mode = next;
    },
    fold(w) {
      current = w.current[out];
      if (mode.conducts) link.fold(w);
    },
    unfold(w) {
      if (mode.conducts) link.unfold(w);
      else waveOpen(w, part, out);
    },
    rate(w, y, rate) {
      const v = w.v[sensed];
      rate[state] = (v * v - y[state]) / COIL_LAG_s;
      rate[state + 1] = (y[state] - y[state + 1]) / COIL_LAG_s;
    },
    guards(of) {
      const control = logic.guards(of.control);
      return of.parting === 0 ? control : [...control, ...partingGuard[of.parting === 1 ? "1" : "-1"]];
    },
    guardValues(w, y, values, offset) {
      let i = offset;
      if (logic.guards(mode.control).length > 0) {
        values[i++] = Math.sqrt(Math.max(0, y[state + 1])) - logic.threshold_V(mode.control);
      }
      if (mode.parting !== 0) values[i] = w.into[part];
    },
    scheduled: (of) => logic.scheduled(of.control),
    reduce(event, _, of) {
      if (event.name === parts) return { ...of, conducts: false, parting: 0 };
      const control = logic.reduce(event, of.control);
      if (logic.closed(control)) return { control, conducts: true, parting: 0 };
      if (!of.conducts || current === 0) return { control, conducts: false, parting: 0 };
      return { control, conducts: true, parting: of.parting !== 0 ? of.parting : current > 0 ? 1 : -1 };
    },
    scripted: (of, script) => ({ ...of, control: logic.scripted(of.control, script) }),
  };
}
