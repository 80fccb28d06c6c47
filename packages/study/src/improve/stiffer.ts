import type { Cabinet } from "@startgap/cabinet";
import { type Proposal, partsOf, withKeys } from "./proposal.ts";

/** How much stiffer: what a larger utility transformer or a heavier service may bring. */
const TIMES = 2;

/** A supply of twice the fault current, where the file states one. */
export function stifferSupply(cabinet: Cabinet): Proposal[] {
  return partsOf(cabinet).flatMap((p) => {
    if (p.is !== "supply" || typeof p.faultCurrent !== "string") return [];
    const own = cabinet.circuit.parts[0];
    if (own.is !== "supply") return [];
    const part = p.name as string;
    const fault_A = own.voltage_V / Math.hypot(own.r_ohm, own.x_ohm);
    const kiloamperes = (times: number): string => `${Number(((times * fault_A) / 1000).toPrecision(3))} kA`;
    const to = kiloamperes(TIMES);
    return [
      {
        part,
        to: `${to} of fault current`,
        from: kiloamperes(1),
        file: withKeys(cabinet, part, { faultCurrent: to }),
      },
    ];
  });
}
