import type {
  AutotransformerParameters,
  CableParameters,
  Circuit,
  LoadParameters,
  PartParameters,
  SupplyParameters,
} from "@startgap/circuit";

/** Short ways to write down circuits whose protection has a closed form. */
export const cabinet = (...parts: PartParameters[]): Circuit => ({ title: "a bench", parts });

export const supply = (voltage_V: number, r_ohm: number, x_ohm: number): SupplyParameters => ({
  is: "supply",
  name: "panel",
  voltage_V,
  frequency_Hz: 60,
  r_ohm,
  x_ohm,
});

export const cable = (name: string, fedBy: string, r_ohm: number, x_ohm: number): CableParameters => ({
  is: "cable",
  name,
  fedBy,
  leg: "first",
  r_ohm,
  x_ohm,
});

export const autotransformer = (
  name: string,
  fedBy: string,
  r_ohm: number,
  x_ohm: number,
): AutotransformerParameters => ({
  is: "autotransformer",
  name,
  fedBy,
  leg: "first",
  r_ohm,
  x_ohm,
  windings_V: [120, 120],
  rating_VA: 3000,
  excitation: { conductance_S: 0, susceptance_S: 0 },
});

export const load = (name: string, fedBy: string, r_ohm: number, nominal_V = 120): LoadParameters => ({
  is: "load",
  name,
  fedBy,
  leg: "first",
  nominal_V,
  power_W: nominal_V ** 2 / r_ohm,
  reactive_var: 0,
  holds: "impedance",
});
