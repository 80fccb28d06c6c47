import type { AutotransformerParameters, Circuit, LoadParameters } from "@startgap/circuit";
import { idleOf } from "../heat/idle.ts";
import { addedAfter, freeName, replaced } from "./alter.ts";

/** The winding of an autotransformer that is left when the other one is open: a choke across its own leg. */
export interface LoneWinding {
  /** The load that stands for it in the altered circuit. */
  readonly name: string;
  readonly leg: "first" | "second";
  readonly nominal_V: number;
  /** Its idle loss and exciting current, referred to itself alone. */
  readonly conductance_S: number;
  readonly susceptance_S: number;
  readonly rating_VA: number;
}

/** Leakage that stands for no transformer action at all, ohm: the legs are in series and divide by their loads. */
const NO_LINK_ohm = 1e13;

/**
 * Midpoint open: the loads of both legs have lost the wire between the windings.
 *
 * In V1/V = (k1 + z Y2)/(1 + z (Y1 + Y2)) the leakage z ties the legs to the turns. Without that tie they are two
 * loads in series, V1/V = Y2/(Y1 + Y2), which is the limit of the same formula for z without end.
 */
export const midpointOpen = (circuit: Circuit, p: AutotransformerParameters): Circuit =>
  replaced(circuit, { ...p, r_ohm: NO_LINK_ohm, x_ohm: 0 });

/**
 * One winding open: the legs are in series as above, and the other winding is left across its own leg as a choke.
 *
 * Its exciting branch: the same flux a turn takes the same ampere-turns. At voltage k V and turns share k of the
 * whole, the current is I0/k, so its admittance is Y0/k^2. Where the file does not state it, the usual is taken.
 *
 * Limitation: its own resistance and leakage, a small part of its magnetising impedance, are left out.
 */
export function windingOpen(
  circuit: Circuit,
  p: AutotransformerParameters,
  open: "first" | "second",
): { readonly circuit: Circuit; readonly lone: LoneWinding } {
  const leg = open === "first" ? "second" : "first";
  const k = p.windings_V[leg === "first" ? 0 : 1] / (p.windings_V[0] + p.windings_V[1]);
  const { conductance_S, susceptance_S } = idleOf(p).excitation;
  const lone: LoneWinding = {
    name: freeName(circuit, `${p.name}, ${leg} winding`),
    leg,
    // Its rated voltage, not what it is fed with: that is where its knee belongs.
    nominal_V: p.windings_V[leg === "first" ? 0 : 1],
    conductance_S: conductance_S / k ** 2,
    susceptance_S: susceptance_S / k ** 2,
    rating_VA: p.rating_VA,
  };
  const apart = replaced(circuit, {
    ...p,
    r_ohm: NO_LINK_ohm,
    x_ohm: 0,
    excitation: { conductance_S: 0, susceptance_S: 0 },
  });
  return { circuit: addedAfter(apart, p.name, loneLoad(p.name, lone, lone.susceptance_S)), lone };
}

/** The lone winding as a load of a given susceptance. */
export const loneLoad = (fedBy: string, w: LoneWinding, susceptance_S: number): LoadParameters => ({
  is: "load",
  name: w.name,
  fedBy,
  leg: w.leg,
  nominal_V: w.nominal_V,
  power_W: w.conductance_S * w.nominal_V ** 2,
  reactive_var: susceptance_S * w.nominal_V ** 2,
  holds: "impedance",
});
