import { quarterHorse } from "../../../tests/support/quarterHorse.ts";
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
  PartParameters,
  SupplyParameters,
  TransformerParameters,
} from "../src/index.ts";

/** Short ways to write parts down: the values of a test stand out from what it does not care about. */
export const supply = (voltage_V: number, r_ohm = 0, x_ohm = 0, frequency_Hz = 60): SupplyParameters => ({
  is: "supply",
  name: "supply",
  voltage_V,
  frequency_Hz,
  r_ohm,
  x_ohm,
});

export const cable = (name: string, fedBy: string, r_ohm: number, x_ohm = 0): CableParameters => ({
  is: "cable",
  name,
  fedBy,
  leg: "first",
  r_ohm,
  x_ohm,
});

/** A constant-impedance load of conductance g - j b. */
export const shunt = (name: string, fedBy: string, g_S: number, b_S = 0): LoadParameters => ({
  is: "load",
  name,
  fedBy,
  leg: "first",
  nominal_V: 1,
  power_W: g_S,
  reactive_var: b_S,
  holds: "impedance",
});

export const fuse = (name: string, fedBy: string, melt: MeltTerms | null, r_ohm = 0): FuseParameters => ({
  is: "fuse",
  name,
  fedBy,
  leg: "first",
  r_ohm,
  x_ohm: 0,
  poles: 1,
  rating_A: 10,
  melt,
  clearing: null,
});

export const none = { conductance_S: 0, susceptance_S: 0 };

export const transformer = (
  name: string,
  fedBy: string,
  windings_V: readonly [number, number],
  r_ohm = 0,
  x_ohm = 0,
  excitation = none,
): TransformerParameters => ({
  is: "transformer",
  name,
  fedBy,
  leg: "first",
  windings_V,
  rating_VA: 1000,
  r_ohm,
  x_ohm,
  excitation,
});

export const autotransformer = (
  name: string,
  fedBy: string,
  windings_V: readonly [number, number],
  r_ohm = 0,
  x_ohm = 0,
  excitation = none,
): AutotransformerParameters => ({
  ...transformer(name, fedBy, windings_V, r_ohm, x_ohm, excitation),
  is: "autotransformer",
});

export const contactor = (name: string, fedBy: string, coil: Coil | null): ContactorParameters => ({
  is: "contactor",
  name,
  fedBy,
  leg: "first",
  coil,
});

export const delayRelay = (
  name: string,
  fedBy: string,
  delay_s: number,
  reset_s: number,
): DelayRelayParameters => ({ is: "delay relay", name, fedBy, leg: "first", delay_s, reset_s });

export { quarterHorse };

export const idle = { atRest_Nm: 0, atFullSpeed_Nm: 0, shape: "square" } as const;

export const motor = (name: string, fedBy: string, more: Partial<MotorParameters> = {}): MotorParameters => ({
  is: "motor",
  name,
  fedBy,
  leg: "first",
  machine: quarterHorse,
  inertia_kgm2: 0.0146,
  drives: idle,
  fullLoad_A: null,
  ...more,
});

export const circuit = (...parts: readonly PartParameters[]): Circuit => ({ title: "test", parts });
