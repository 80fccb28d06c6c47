import type { CoilBurden } from "@startgap/circuit";
import type { Assumption } from "../grade.ts";
import type { Range } from "../quantity.ts";
import { assumed } from "./common.ts";

interface BurdenKeys {
  readonly coilInrush: Range | null;
  readonly coilSealed: Range | null;
}

/** Inrush over sealed burden of a two-pole frame, and their power factors. Common practice, no source. */
const INRUSH_OVER_SEALED = 5.6;
const INRUSH_POWER_FACTOR = 0.4;
const SEALED_POWER_FACTOR = 0.3;

/** What a coil draws, when the file says anything of it: the other figure by the usual ratio. */
export function burdenOf({ coilInrush, coilSealed }: BurdenKeys): { readonly burden?: CoilBurden } {
  if (coilInrush === null && coilSealed === null) return {};
  const burden: CoilBurden = {
    inrush_VA: coilInrush?.nominal ?? INRUSH_OVER_SEALED * (coilSealed?.nominal ?? 0),
    inrushPowerFactor: INRUSH_POWER_FACTOR,
    sealed_VA: coilSealed?.nominal ?? (coilInrush?.nominal ?? 0) / INRUSH_OVER_SEALED,
    sealedPowerFactor: SEALED_POWER_FACTOR,
  };
  return { burden };
}

export function burdenAssumptions(keys: BurdenKeys, part: string): Assumption[] {
  const { burden } = burdenOf(keys);
  if (burden === undefined) return [];
  const VA = (value: number): string => `${Number(value.toPrecision(3))} VA`;
  const by = (what: string, value: number, low: number, high: number): Assumption =>
    assumed(part, what, VA(value), `${VA(low)} to ${VA(high)}`, "common practice, no source");
  const { inrush_VA, sealed_VA } = burden;
  return [
    ...(keys.coilInrush === null ? [by("coil inrush", inrush_VA, 3 * sealed_VA, 10 * sealed_VA)] : []),
    ...(keys.coilSealed === null ? [by("sealed coil burden", sealed_VA, inrush_VA / 10, inrush_VA / 3)] : []),
    assumed(part, "power factor of the coil's inrush", "0.4", "0.3 to 0.8", "common practice, no source"),
    assumed(part, "power factor of the sealed coil", "0.3", "0.2 to 0.5", "common practice, no source"),
  ];
}
