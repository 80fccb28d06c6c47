import type {
  AutotransformerParameters,
  CableParameters,
  Circuit,
  Coil,
  ContactorParameters,
  DelayRelayParameters,
  FuseParameters,
  LoadParameters,
  MeltTerms,
  MotorParameters,
  SupplyParameters,
  TransformerParameters,
} from "@startgap/circuit";
import { quarterHorse } from "../../../tests/support/quarterHorse.ts";

/** Short ways to write invented cabinets down: the values of a test stand out from what it does not care about. */
type Place = Pick<LoadParameters, "name" | "fedBy" | "leg">;
const place = (name: string, fedBy: string): Place => ({ name, fedBy, leg: "first" });

export const supply = (voltage_V = 120, r_ohm = 0.2, x_ohm = 0.1): SupplyParameters => ({
  is: "supply",
  name: "panel",
  voltage_V,
  frequency_Hz: 60,
  r_ohm,
  x_ohm,
});

export const cable = (name: string, fedBy: string, r_ohm: number, x_ohm = 0): CableParameters => ({
  is: "cable",
  ...place(name, fedBy),
  r_ohm,
  x_ohm,
});

export const fuse = (name: string, fedBy: string, melt: MeltTerms | null, rating_A = 20): FuseParameters => ({
  is: "fuse",
  ...place(name, fedBy),
  r_ohm: 0.01,
  x_ohm: 0,
  poles: 1,
  rating_A,
  melt,
  clearing: null,
});

/** An invented time-delay curve. */
export const slowMelt = (minimumFusing_A: number): MeltTerms => ({
  minimumFusing_A,
  share: [0.05, 0.35, 0.6],
  tau_s: [0.3, 6, 120],
});

const none = { conductance_S: 0, susceptance_S: 0 };

export const transformer = (
  name: string,
  fedBy: string,
  windings_V: readonly [number, number],
  r_ohm = 0,
): TransformerParameters => ({
  is: "transformer",
  ...place(name, fedBy),
  windings_V,
  rating_VA: 1000,
  r_ohm,
  x_ohm: 0,
  excitation: none,
});

export const autotransformer = (name: string, fedBy: string): AutotransformerParameters => ({
  ...transformer(name, fedBy, [120, 120], 0.2),
  x_ohm: 0.1,
  is: "autotransformer",
});

export const coil = (fedBy: string, more: Partial<Coil> = {}): Coil => ({
  rated_V: 120,
  fedBy,
  leg: "first",
  pullIn_V: 96,
  dropOut_V: 72,
  pullInTime_s: 0.02,
  dropOutTime_s: 0.015,
  ...more,
});

export const contactor = (name: string, fedBy: string, with_: Coil | null): ContactorParameters => ({
  is: "contactor",
  ...place(name, fedBy),
  coil: with_,
});

export const relay = (name: string, fedBy: string, delay_s: number): DelayRelayParameters => ({
  is: "delay relay",
  ...place(name, fedBy),
  delay_s,
  reset_s: 0.1,
});

export const load = (name: string, fedBy: string, power_W = 200, nominal_V = 120): LoadParameters => ({
  is: "load",
  ...place(name, fedBy),
  nominal_V,
  power_W,
  reactive_var: 0,
  holds: "impedance",
});

export { quarterHorse };

export const motor = (name: string, fedBy: string, more: Partial<MotorParameters> = {}): MotorParameters => ({
  is: "motor",
  ...place(name, fedBy),
  machine: quarterHorse,
  inertia_kgm2: 0.0146,
  drives: { atRest_Nm: 0.3, atFullSpeed_Nm: 0.9, shape: "square" },
  fullLoad_A: null,
  ...more,
});

export const circuit = (...parts: Circuit["parts"]): Circuit => ({ title: "invented", parts });

/** Two motors and a lamp on one feeder; the second behind a relay of 4 s. */
export const pair = (r_ohm = 0.5): Circuit =>
  circuit(
    supply(),
    cable("feeder", "panel", r_ohm, 0.2),
    fuse("fuse", "feeder", slowMelt(20)),
    contactor("contactor", "fuse", coil("fuse")),
    motor("pump 1", "contactor"),
    relay("relay", "contactor", 4),
    motor("pump 2", "relay"),
    load("lamp", "fuse"),
  );
