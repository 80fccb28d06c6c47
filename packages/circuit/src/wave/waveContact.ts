import type { ContactorParameters } from "../contactor.ts";
import type { DelayRelayParameters } from "../delayRelay.ts";
import { eventName, type PartModel } from "../model.ts";
import { plainWave, type WaveModel, type WavePlacement } from "./waveModel.ts";
import { type Parting, partingGuards, signOf } from "./waveParting.ts";
import { type Sensed, waveSense } from "./waveSense.ts";
import { waveOpen, waveSeries } from "./waveWalk.ts";

/** A contact parts when its current next passes zero: an arc does not let go before. */
export interface ContactWaveMode {
  /** The envelope's mode of the same device. */
  readonly rules: unknown;
  /** True while current can flow, also through the arc of a contact that is parting. */
  readonly conducts: boolean;
  readonly parting: Parting;
}

/**
 * A contact in the line, worked by the envelope's own rules on the rms values that its coil feels.
 *
 * @param rules the device in the envelope
 */
export function contactWave(
  name: string,
  rules: PartModel,
  sensed: Sensed,
  place: WavePlacement,
): WaveModel<ContactWaveMode> {
  const { part, at } = place;
  const [out] = place.out;
  const link = waveSeries(part, at, out, 0, 0);
  const sense = waveSense(name, sensed, place.state);
  const zero = partingGuards(eventName(name, "current passes zero"));
  const standing = (of: unknown): ContactWaveMode => ({
    rules: of,
    conducts: rules.conducts(of),
    parting: 0,
  });
  let mode = standing(rules.start.mode);
  let current = 0;
  return {
    ...plainWave,
    stateNames: sense.stateNames,
    start: mode,
    states: sense.states,
    enter(next) {
      mode = next;
      rules.enter(next.rules);
    },
    fold(w) {
      current = w.current[out];
      if (mode.conducts) link.fold(w);
    },
    unfold(w) {
      if (mode.conducts) link.unfold(w);
      else waveOpen(w, part, out);
    },
    rate: sense.rate,
    guards: (of) =>
      of.parting === 0 ? rules.guards(of.rules) : [...rules.guards(of.rules), ...zero.guards(of.parting)],
    guardValues(w, y, values, offset) {
      rules.guardValues(sense.reading(y), y, values, offset);
      if (mode.parting !== 0) values[offset + rules.guards(mode.rules).length] = w.current[out];
    },
    scheduled: (of) => rules.scheduled(of.rules),
    reduce(event, y, of) {
      if (event.name === zero.name) return { ...of, conducts: false, parting: 0 };
      const next = standing(rules.reduce(event, y, of.rules));
      if (next.conducts || !of.conducts || current === 0) return next;
      return { ...next, conducts: true, parting: of.parting !== 0 ? of.parting : signOf(current) };
    },
    scripted: (of, script) => standing(rules.scripted(of.rules, script)),
  };
}

/** What a contactor's coil feels: nothing where it has none. */
export const sensedByContactor = ({ coil }: ContactorParameters, place: WavePlacement): Sensed => ({
  nodes: coil === null ? [] : [place.nodeOf(coil.fedBy, coil.leg)],
  parts: [],
});

/** What a relay feels: the voltage it is fed with, and the current of a motor that it waits for. */
export const sensedByRelay = ({ waitsFor }: DelayRelayParameters, place: WavePlacement): Sensed => ({
  nodes: [place.at],
  parts: waitsFor === undefined ? [] : [place.partOf(waitsFor.part)],
});
