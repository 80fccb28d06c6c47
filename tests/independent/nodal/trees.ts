import type { Circuit, Machine, MotorParameters, PartParameters } from "@startgap/circuit";
import type { Setting } from "./nodal.ts";

export interface Tree {
  readonly circuit: Circuit;
  readonly settings: readonly Setting[];
}

type Random = () => number;

/** Seeded numbers from 0 to 1 (Lehmer, modulus 2^31 - 1). */
export function random(seed: number): Random {
  let state = seed;
  return () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
}

const between = (next: Random, low: number, high: number): number => low + (high - low) * next();
const pick = <T>(next: Random, list: readonly T[]): T => list[Math.floor(next() * list.length)];

/** Resistance and reactance; every fourth time none at all. */
const impedance = (next: Random, scale: number) =>
  next() < 0.25 ? { r_ohm: 0, x_ohm: 0 } : { r_ohm: between(next, 0, scale), x_ohm: between(next, 0, scale) };

const excitation = (next: Random) =>
  next() < 0.3
    ? { conductance_S: 0, susceptance_S: 0 }
    : { conductance_S: between(next, 0, 2e-3), susceptance_S: between(next, 0, 1e-2) };

const positive = (next: Random, scale: number) => ({
  r_ohm: between(next, 0.2, 1) * scale,
  x_ohm: between(next, 0.2, 1) * scale,
});

function machine(next: Random): Machine {
  const type = pick(next, ["split-phase", "start", "start and run", "run", "main alone"]);
  return {
    poles: pick(next, [2, 4, 6]),
    frequency_Hz: pick(next, [50, 60]),
    voltage_V: 120,
    main: positive(next, 3),
    rotor: positive(next, 4),
    rotorAtStandstill: positive(next, 5),
    magnetising_ohm: between(next, 40, 120),
    core_ohm: next() < 0.5 ? Number.POSITIVE_INFINITY : between(next, 200, 900),
    rotationalLoss_W: 0,
    auxiliary: type === "main alone" ? null : { ...positive(next, 9), turnsRatio: between(next, 0.7, 1.7) },
    startCapacitor: type.startsWith("start")
      ? { r_ohm: between(next, 0, 4), x_ohm: between(next, 8, 30) }
      : null,
    runCapacitor: type.endsWith("run") ? { r_ohm: between(next, 0, 9), x_ohm: between(next, 40, 200) } : null,
    startSwitch: type === "run" ? null : { opens: 0.75, closes: 0.4 },
  };
}

const kinds = [
  "cable",
  "cable",
  "fuse",
  "autotransformer",
  "autotransformer",
  "transformer",
  "contactor",
  "delay relay",
  "load",
  "load",
  "motor",
  "motor",
] as const;

type Kind = (typeof kinds)[number];

function part(next: Random, is: Kind, name: string, fedBy: string): PartParameters {
  const place = { name, fedBy, leg: pick(next, ["first", "second", "both"] as const) };
  switch (is) {
    case "cable":
      return { is, ...place, ...impedance(next, 0.3) };
    case "fuse":
      return { is, ...place, ...impedance(next, 0.05), poles: 1, rating_A: 20, melt: null, clearing: null };
    case "autotransformer":
    case "transformer":
      return {
        is,
        ...place,
        ...impedance(next, 0.4),
        windings_V: [between(next, 60, 240), between(next, 60, 240)],
        rating_VA: 1000,
        excitation: excitation(next),
      };
    case "contactor":
      return { is, ...place, coil: null };
    case "delay relay":
      return { is, ...place, delay_s: 1, reset_s: 1 };
    case "load":
      return {
        is,
        ...place,
        nominal_V: 120,
        power_W: between(next, 0, 600),
        reactive_var: between(next, -100, 300),
        holds: "impedance",
      };
    case "motor":
      return {
        is,
        ...place,
        machine: machine(next),
        inertia_kgm2: 0.02,
        drives: { atRest_Nm: 0, atFullSpeed_Nm: 0, shape: "square" },
        fullLoad_A: null,
      };
  }
}

/** What a random part is set to: one link in twelve is open; motors at any slip, either switch position. */
function setting(next: Random, p: PartParameters): Setting {
  const open = next() < 1 / 12;
  if (p.is === "motor") return { open, slip: between(next, -0.1, 1.1), switchClosed: canSwitch(p, next) };
  return ["contactor", "delay relay", "fuse"].includes(p.is) ? { open } : {};
}

/** A machine without an auxiliary winding starts with its switch counted as open. */
const canSwitch = (p: MotorParameters, next: Random): boolean => p.machine.auxiliary !== null && next() < 0.5;

/** A random cabinet: 5 to 30 parts of every kind, some without impedance, at random standings. */
export function tree(seed: number): Tree {
  const next = random(seed);
  for (let k = 0; k < 5; k++) next();
  const frequency_Hz = pick(next, [50, 60]);
  const parts: PartParameters[] = [
    {
      is: "supply",
      name: "supply",
      voltage_V: between(next, 100, 480),
      frequency_Hz,
      ...impedance(next, 0.4),
    },
  ];
  const feeders = ["supply"];
  const count = 4 + Math.floor(26 * next());
  for (let k = 1; k <= count; k++) {
    const p = part(next, pick(next, kinds), `part ${k}`, pick(next, feeders));
    parts.push(p);
    if (p.is !== "load" && p.is !== "motor") feeders.push(p.name);
  }
  return { circuit: { title: `tree ${seed}`, parts }, settings: parts.map((p) => setting(next, p)) };
}
