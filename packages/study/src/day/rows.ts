import { type Circuit, type CircuitPlant, meltFraction } from "@startgap/circuit";
import type { Aired } from "./derating.ts";
import type { DayColumn, DayQuantity, DayTraces } from "./results.ts";
import type { Bodies, Warmth } from "./thermal.ts";
import type { Phase } from "./watch.ts";

/** A column as it is filled, row by row. */
interface Filling {
  readonly quantity: DayQuantity;
  readonly part: string;
  readonly unit: DayColumn["unit"];
  readonly values: number[];
}

export interface Rows {
  push(time_s: number, values: readonly number[]): void;
  readonly traces: () => DayTraces;
}

export type Heading = readonly [quantity: DayQuantity, part: string, unit: DayColumn["unit"]];

/** Rows of the day under their headings. */
export function rowsOf(headings: readonly Heading[]): Rows {
  const time: number[] = [];
  const columns: Filling[] = headings.map(([quantity, part, unit]) => ({ quantity, part, unit, values: [] }));
  return {
    push(time_s, values) {
      time.push(time_s);
      for (let k = 0; k < columns.length; k++) columns[k].values.push(values[k]);
    },
    traces: () => ({
      time_s: Float64Array.from(time),
      columns: columns.map((c) => ({ ...c, values: Float64Array.from(c.values) })),
    }),
  };
}

export interface ReceiverPlace {
  readonly part: string;
  readonly state: number;
}

/** Receivers and the states of their pressures. */
export const receiversOf = ({ layout }: CircuitPlant): ReceiverPlace[] =>
  (layout.circuit.controls ?? []).flatMap((c, k) =>
    c.is === "receiver" ? [{ part: c.name, state: layout.controls[k].state }] : [],
  );

/** What a row tells, in its order. */
export function headingsOf(
  circuit: Circuit,
  { motors, wound, box }: Bodies,
  fuses: readonly number[],
  receivers: readonly { readonly part: string }[],
): Heading[] {
  return [
    ["temperature outside", "air", "degC"],
    ...(box === null ? [] : [["temperature", "enclosure", "degC"] as const]),
    ...receivers.map(({ part }): Heading => ["pressure", part, "kPa"]),
    ...motors.map(({ part }): Heading => ["running", part, ""]),
    ...motors.map(({ part }): Heading => ["winding temperature", part, "degC"]),
    ...motors.flatMap((b): Heading[] =>
      b.startWindingLimit_C === null ? [] : [["start winding temperature", b.part, "degC"]],
    ),
    ...wound.map(({ part }): Heading => ["winding temperature", part, "degC"]),
    ...wound.map(({ part }): Heading => ["core temperature", part, "degC"]),
    ...fuses.map((i): Heading => ["melt fraction", circuit.parts[i].name, ""]),
    ...fuses.map((i): Heading => ["melting current", circuit.parts[i].name, ""]),
  ];
}

/** One row under these headings. */
export function valuesOf(
  { outside_C, inside_C, motors, wound }: Warmth,
  y: readonly number[],
  bodies: Bodies,
  phases: readonly Phase[],
  receivers: readonly { readonly state: number }[],
  { plant, factors }: Aired,
  fuses: readonly number[],
): number[] {
  return [
    outside_C,
    ...(bodies.box === null ? [] : [inside_C]),
    ...receivers.map(({ state }) => y[state] / 1000),
    ...phases.map((phase) => (phase === "off" ? 0 : 1)),
    ...motors.map(({ rise_K }) => outside_C + rise_K),
    ...motors.flatMap(({ rise_K, startWinding_K }, k) =>
      bodies.motors[k].startWindingLimit_C === null ? [] : [outside_C + rise_K + startWinding_K],
    ),
    ...wound.map(({ core_K, winding_K }) => inside_C + core_K + winding_K),
    ...wound.map(({ core_K }) => inside_C + core_K),
    ...fuses.map((i) => meltNow(plant, i, y)),
    ...factors,
  ];
}

function meltNow({ layout }: CircuitPlant, i: number, y: readonly number[]): number {
  const p = layout.circuit.parts[i];
  return p.is === "fuse" && p.melt !== null
    ? meltFraction(y, layout.places[i].state, p.melt.share.length)
    : 0;
}
