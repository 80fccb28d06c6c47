import type { Circuit, FuseParameters, Mode, PressureSwitchMode } from "@startgap/circuit";
import type { Recording } from "./recording.ts";
import type { Telling } from "./telling.ts";

/** The terms of one fuse among the numbers of a row. */
interface FuseTerms {
  readonly channel: number;
  readonly current: number;
  readonly share: readonly number[];
  readonly tau_s: readonly number[];
  /** 1 over the square of the current that would just melt it. */
  readonly scale: number;
}

/** The pressure of one receiver, and the pressures at which something happens. */
interface Pressure {
  readonly channel: number;
  readonly thresholds_Pa: readonly number[];
}

/**
 * States that remember how long a story has gone on, and that no current, voltage or speed asks for: heat in
 * fuses and pressure in receivers. Both are linear in what drives them, so that where the drive is the same, what
 * one story has more of than another dies away (heat) or stays (pressure) in closed form.
 */
export interface Memories {
  readonly fuses: readonly FuseTerms[];
  readonly pressures: readonly Pressure[];
  /** Channels of all of them, and the time constant of each; Infinity for a pressure. */
  readonly channels: readonly number[];
  readonly tau_s: readonly number[];
}

/** @param mode what held when the moved story left the trunk: no switch or valve has changed since */
export function memoriesOf({ plant, recording }: Telling, mode: Mode): Memories {
  const { circuit, places, controls } = plant.layout;
  const { channels } = recording;
  const fuses = circuit.parts.flatMap((p, part) =>
    p.is === "fuse" && p.melt !== null
      ? [termsAt(p.melt, channels.state + places[part].state, channels.current + part)]
      : [],
  );
  const pressures = (circuit.controls ?? []).flatMap((p, i) =>
    p.is === "receiver"
      ? [
          {
            channel: channels.state + controls[i].state,
            thresholds_Pa: thresholdsOf(p.name, circuit, mode),
          },
        ]
      : [],
  );
  return {
    fuses,
    pressures,
    channels: [
      ...fuses.flatMap(({ channel, share }) => share.map((_, k) => channel + k)),
      ...pressures.map(({ channel }) => channel),
    ],
    tau_s: [...fuses.flatMap(({ tau_s }) => tau_s), ...pressures.map(() => Number.POSITIVE_INFINITY)],
  };
}

const termsAt = (melt: NonNullable<FuseParameters["melt"]>, channel: number, current: number): FuseTerms => ({
  channel,
  current,
  share: melt.share,
  tau_s: melt.tau_s,
  scale: 1 / melt.minimumFusing_A ** 2,
});

/** The pressures at which something would happen next: of its own valve, its last air, and its switches. */
const thresholdsOf = (receiver: string, { parts, controls }: Circuit, mode: Mode): number[] =>
  (controls ?? []).flatMap((p, i) => {
    if (p.is === "receiver" && p.name === receiver) return p.relief_Pa === null ? [0] : [0, p.relief_Pa];
    if (p.is !== "pressure switch" || p.receiver !== receiver) return [];
    return (mode[parts.length + i] as PressureSwitchMode).closed ? [p.cutOut_Pa] : [p.cutIn_Pa];
  });

/**
 * Adds to a copied row what is left, `age_s` later, of what its story has more of than the other.
 *
 * @param before the row as it was copied from
 * @returns false where something happens that did not there: a fuse melts, a pressure passes a threshold
 */
export function carry(
  out: Float64Array,
  before: Float64Array,
  { channels, tau_s, fuses, pressures }: Memories,
  excess: readonly number[],
  age_s: number,
): boolean {
  for (let i = 0; i < channels.length; i++) out[channels[i]] += excess[i] * Math.exp(-age_s / tau_s[i]);
  for (const { channel, share } of fuses) {
    let melt = 0;
    for (let k = 0; k < share.length; k++) melt += out[channel + k];
    if (melt >= 1) return false;
  }
  for (const { channel, thresholds_Pa } of pressures) {
    for (const threshold of thresholds_Pa) {
      if (out[channel] > threshold !== before[channel] > threshold) return false;
    }
  }
  return true;
}

/** Lets a row stand for a while: every fuse under its own current, every pressure by its slope to the next row. */
export function stand(
  out: Float64Array,
  { fuses, pressures }: Memories,
  source: Recording,
  row: number,
  time_s: number,
): void {
  for (const { channel, current, share, tau_s, scale } of fuses) {
    const heat = out[current] ** 2 * scale;
    for (let k = 0; k < share.length; k++) {
      const end = share[k] * heat;
      out[channel + k] = end + (out[channel + k] - end) * Math.exp(-time_s / tau_s[k]);
    }
  }
  const gap_s = source.at(row + 1, 0) - source.at(row, 0);
  for (const { channel } of pressures) {
    if (gap_s > 0) out[channel] += (time_s * (source.at(row + 1, channel) - source.at(row, channel))) / gap_s;
  }
}

/** Relative difference at which two recorded currents count as the same. */
const STEADY = 1e-6;

/** True when no fuse's current changes from a row to the next. */
export const isSteady = ({ fuses }: Memories, source: Recording, row: number): boolean =>
  fuses.every(
    ({ current }) =>
      Math.abs(source.at(row + 1, current) - source.at(row, current)) <=
      STEADY * (1 + source.at(row, current)),
  );
