import type { Circuit } from "@startgap/circuit";

const ALWAYS =
  "Estimates from stated inputs, not a code calculation. Nameplate and maker's curves win; local code and a " +
  "licensed electrician decide. De-energise and prove dead before opening.";

const AUTOTRANSFORMER =
  "An autotransformer does not isolate: one open winding can put up to the full line voltage on a load.";

/** What every answer says once, as one line; the second sentence where it applies. */
export function caution(circuit: Circuit): string {
  const auto = circuit.parts.some((part) => part.is === "autotransformer");
  return auto ? `${ALWAYS} ${AUTOTRANSFORMER}` : ALWAYS;
}
