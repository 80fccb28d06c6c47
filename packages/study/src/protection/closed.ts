import type { Circuit, ContactorParameters, PartParameters, SupplyParameters } from "@startgap/circuit";

/** The circuit with every contact closed, no fuse that melts, nothing that works a contact, and heads that stay empty. */
export const allClosed = (circuit: Circuit): Circuit => ({
  title: circuit.title,
  parts: circuit.parts.map(closed),
});

function closed(p: PartParameters): PartParameters {
  if (p.is === "fuse") return { ...p, melt: null, clearing: null };
  if (p.is === "motor") return { ...p, compressor: undefined };
  if (p.is !== "contactor" && p.is !== "delay relay") return p;
  const link: ContactorParameters = { is: "contactor", name: p.name, fedBy: p.fedBy, leg: p.leg, coil: null };
  return link;
}

/** A generator or inverter as the impedance that it shows first: what a fault meets. */
export const firstImpedance = (p: SupplyParameters): SupplyParameters => ({
  is: "supply",
  name: p.name,
  voltage_V: p.voltage_V,
  frequency_Hz: p.frequency_Hz,
  r_ohm: p.r_ohm,
  x_ohm: p.x_ohm,
});
