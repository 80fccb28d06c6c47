import type { LoadTorque } from "@startgap/circuit";
import { POUND_FOOT2_KGM2 } from "./rotorInertia.ts";
import type { Usual } from "./usualValues.ts";

/**
 * atmosphere: heads and tank empty. unloaded: an unloader holds the heads open to the air. cold oil: as
 * atmosphere, on a cold morning. trapped head: full pressure stands on the pistons.
 */
export const STARTS_AGAINST = ["atmosphere", "unloaded", "cold oil", "trapped head"] as const;
export type StartsAgainst = (typeof STARTS_AGAINST)[number];

/** Load torque as shares of the motor's full-load torque. */
export interface Shares {
  readonly atRest: Usual;
  readonly atFullSpeed: Usual;
  readonly shape: LoadTorque["shape"];
}

const usual = (value: number, low: number, high: number): Usual => ({ value, low, high });

/** Common practice, no source. The full-speed shares are those of the start, before pressure has built up. */
export const COMPRESSOR_SHARES: Readonly<Record<StartsAgainst, Shares>> = {
  atmosphere: { atRest: usual(0.2, 0.1, 0.4), atFullSpeed: usual(0.6, 0.4, 0.8), shape: "linear" },
  unloaded: { atRest: usual(0.2, 0.1, 0.4), atFullSpeed: usual(0.4, 0.25, 0.6), shape: "linear" },
  "cold oil": { atRest: usual(0.6, 0.4, 1.2), atFullSpeed: usual(0.8, 0.6, 1.1), shape: "linear" },
  "trapped head": { atRest: usual(1.5, 1, 2.5), atFullSpeed: usual(1, 0.8, 1.2), shape: "linear" },
};

/** Bearings and seals at rest, the rated point at full speed. Common practice, no source. */
export const FAN_SHARES: Shares = {
  atRest: usual(0.1, 0.05, 0.2),
  atFullSpeed: usual(1, 0.8, 1.1),
  shape: "square",
};

const poundFoot2 = (value: number, low: number, high: number): Usual =>
  usual(value * POUND_FOOT2_KGM2, low * POUND_FOOT2_KGM2, high * POUND_FOOT2_KGM2);

/**
 * A compressor's inertia at the motor's shaft: 0.1 lb ft2 coupled directly, 1.3 lb ft2 by a belt (a 20 lb
 * flywheel at half speed). Common practice, no source.
 */
export const COUPLED_INERTIA_KGM2: Readonly<Record<"direct" | "belt", Usual>> = {
  direct: poundFoot2(0.1, 0.03, 0.3),
  belt: poundFoot2(1.3, 0.5, 3),
};

/** Inertia over that of the motor's rotor. Common practice, no source. */
export const shareOfRotor: Readonly<Record<"fan" | "pump", Usual>> = {
  fan: usual(5, 2, 15),
  pump: usual(0.3, 0.1, 0.6),
};
