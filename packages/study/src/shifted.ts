import type { FuseParameters, Mode } from "@startgap/circuit";
import type { Standing } from "@startgap/ode";
import type { Recording } from "./recording.ts";
import type { Stagger } from "./stagger.ts";
import type { Telling, Trunk } from "./telling.ts";

/** A told branch that others may be told from, and where it left the trunk. */
export interface Base {
  readonly told: Telling;
  readonly from: Standing<Mode>;
}

/** Relative difference at which two recorded currents count as the same. */
const STEADY = 1e-6;

/** The terms of one fuse among the numbers of a row. */
interface Terms {
  readonly channel: number;
  readonly current: number;
  readonly share: readonly number[];
  readonly tau_s: readonly number[];
  /** 1 over the square of the current that would just melt it. */
  readonly scale: number;
}

/**
 * The story of a later second start, without running it, where it is an earlier one moved in time.
 *
 * Once the first motor has settled, a later start meets the same speeds and contacts; only the fuses have had
 * longer to warm. Their terms are linear in I^2 and the currents are the same, so
 *
 *     x(t) = x_base(t - shift) + (x_trunk(delay) - x_base(delay_base)) e^(-(t - delay)/tau)
 *
 * exactly, and after the last sample before the end, currents steady, x relaxes to its end in closed form.
 *
 * @returns null where the stories differ by more than the solver's tolerance, time plays a part in them, or a
 *   fuse would melt: it must be run then
 *
 * Checked by packages/study/test/shifted.test.ts against the same stories run.
 */
export function tellShifted(
  trunk: Trunk,
  stagger: Stagger,
  base: Base,
  delay_s: number,
  tolerance: number,
  buffer?: Float64Array,
): Telling | null {
  const { told } = base;
  const from = trunk.moments.get(delay_s);
  if (from === undefined || !oneLaterStart(stagger) || told.outcome.ending !== "finished") return null;
  if (told.events.some(({ name }) => name.endsWith(": melts"))) return null;
  const terms = termsOf(told);
  if (!isSame(trunk, base.from, from, terms, told.recording.channels.state, tolerance)) return null;
  const recording = trunk.recording.branch(delay_s, buffer);
  const excess = terms.map((fuse) =>
    fuse.share.map((_, k) => {
      const state = fuse.channel + k - told.recording.channels.state;
      return from.y[state] - base.from.y[state];
    }),
  );
  if (!append(recording, told, base.from.t, delay_s, terms, excess)) return null;
  const shift = delay_s - base.from.t;
  const events = [
    ...trunk.events.filter((event) => event.t < delay_s),
    ...told.events.filter(({ t }) => t >= base.from.t).map(({ name, t }) => ({ name, t: t + shift })),
  ];
  return { ...told, delay_s, recording, events };
}

/** With more than one later start their spacing changes with the delay. */
const oneLaterStart = ({ holds, byRelay, motors }: Stagger): boolean =>
  byRelay ? holds.filter((hold) => !hold.leads).length === 1 : motors.length === 2;

function termsOf({ plant, recording }: Telling): Terms[] {
  const { channels } = recording;
  return plant.layout.circuit.parts.flatMap((p, part) =>
    p.is === "fuse" && p.melt !== null
      ? [termsAt(p.melt, channels.state + plant.layout.places[part].state, channels.current + part)]
      : [],
  );
}

const termsAt = (melt: NonNullable<FuseParameters["melt"]>, channel: number, current: number): Terms => ({
  channel,
  current,
  share: melt.share,
  tau_s: melt.tau_s,
  scale: 1 / melt.minimumFusing_A ** 2,
});

/** The same mode, nothing timed in it, and every state but the fuses' alike to the solver's tolerance. */
function isSame(
  trunk: Trunk,
  one: Standing<Mode>,
  other: Standing<Mode>,
  terms: readonly Terms[],
  firstState: number,
  tolerance: number,
): boolean {
  if (one.mode !== other.mode || trunk.plant.scheduled(one.mode).length > 0) return false;
  const heat = new Set(terms.flatMap(({ channel, share }) => share.map((_, k) => channel + k - firstState)));
  return one.y.every((y, i) => heat.has(i) || Math.abs(y - other.y[i]) <= tolerance * (1 + Math.abs(y)));
}

/** Appends the base's rows after its start, moved and warmed, and one at the very end; false if that fails. */
function append(
  recording: Recording,
  told: Telling,
  left_s: number,
  delay_s: number,
  terms: readonly Terms[],
  excess: readonly (readonly number[])[],
): boolean {
  const source = told.recording;
  const shift = delay_s - left_s;
  let row = 0;
  while (row < source.rows && source.at(row, 0) < left_s) row++;
  let last = -1;
  for (; row < source.rows; row++) {
    const t = source.at(row, 0) + shift;
    if (t > told.duration_s) break;
    const melt = recording.copy(source, row, t, (out) => warm(out, terms, excess, t - delay_s));
    if (melt >= 1) return false;
    last = row;
  }
  if (row === source.rows) return true;
  if (last < 0 || !isSteady(source, last, row, terms)) return false;
  const rest_s = told.duration_s - (source.at(last, 0) + shift);
  const melt = recording.copy(source, last, told.duration_s, (out) => {
    relax(out, terms, rest_s);
    return warm(out, terms, excess, told.duration_s - delay_s);
  });
  return melt < 1;
}

/** Adds what is left of the excess heat; returns the highest melt fraction. */
function warm(
  out: Float64Array,
  terms: readonly Terms[],
  excess: readonly (readonly number[])[],
  age_s: number,
): number {
  let highest = 0;
  terms.forEach(({ channel, share, tau_s }, f) => {
    let sum = 0;
    for (let k = 0; k < share.length; k++) {
      out[channel + k] += excess[f][k] * Math.exp(-age_s / tau_s[k]);
      sum += out[channel + k];
    }
    highest = Math.max(highest, sum);
  });
  return highest;
}

/** Moves every term towards its end under the row's own current. */
function relax(out: Float64Array, terms: readonly Terms[], time_s: number): void {
  for (const { channel, current, share, tau_s, scale } of terms) {
    const heat = out[current] ** 2 * scale;
    for (let k = 0; k < share.length; k++) {
      const end = share[k] * heat;
      out[channel + k] = end + (out[channel + k] - end) * Math.exp(-time_s / tau_s[k]);
    }
  }
}

const isSteady = (source: Recording, row: number, next: number, terms: readonly Terms[]): boolean =>
  terms.every(
    ({ current }) =>
      Math.abs(source.at(next, current) - source.at(row, current)) <= STEADY * (1 + source.at(row, current)),
  );
