import { type Cabinet, readCabinet } from "@startgap/cabinet";
import type { Issue } from "../../src/issue.ts";

/** A JSON object under test: changed at will. */
export type Json = { [key: string]: unknown };

export const supply = (more: Json = {}): Json => ({
  name: "panel",
  is: "supply",
  voltage: "240 V",
  frequency: "60 Hz",
  impedance: { r: "0.1 ohm", x: "0.1 ohm" },
  ...more,
});

export const midpoint = (more: Json = {}): Json => ({
  name: "midpoint",
  is: "autotransformer",
  fedBy: "panel",
  rating: "3 kVA",
  windings: ["120 V", "120 V"],
  impedance: { r: "0.2 ohm", x: "0.1 ohm" },
  ...more,
});

export const load = (more: Json = {}): Json => ({
  name: "lamps",
  is: "load",
  fedBy: "panel",
  power: "400 W",
  ...more,
});

/** The quarter-horsepower circuit of Krause, Wasynczuk and Sudhoff, 2nd ed., ch. 10 (auxiliary from memory). */
export const circuit = (more: Json = {}): Json => ({
  poles: 4,
  voltage: "110 V",
  main: { r: "2.02 ohm", x: "2.79 ohm" },
  rotor: { r: "4.12 ohm", x: "2.12 ohm" },
  magnetising: "66.8 ohm",
  auxiliary: { r: "7.14 ohm", x: "3.22 ohm", turnsRatio: 1.18 },
  startCapacitor: { r: "3 ohm", x: "14.5 ohm" },
  switchOpens: 0.75,
  inertia: "0.0146 kg m2",
  ...more,
});

export const motor = (more: Json = {}): Json => ({
  name: "motor",
  is: "motor",
  fedBy: "panel",
  circuit: circuit(),
  ...more,
});

export const file = (...parts: unknown[]): Json => ({ startgap: 1, title: "Test bench", parts });

/** The cabinet of a file that must be free of issues. */
export function cabinetOf(value: unknown): Cabinet {
  const read = readCabinet(value);
  if ("issues" in read) throw new Error(JSON.stringify(read.issues, null, 1));
  return read.cabinet;
}

export function issuesOf(value: unknown): readonly Issue[] {
  const read = readCabinet(value);
  return "issues" in read ? read.issues : [];
}

export const paths = (value: unknown): string[] => issuesOf(value).map((issue) => issue.path);

/** The parameters of one part. */
export function part(value: unknown, name: string) {
  const found = cabinetOf(value).circuit.parts.find((one) => one.name === name);
  if (found === undefined) throw new Error(`no ${name}`);
  return found;
}
