import { HORSEPOWER_W } from "./standardPowers.ts";
import type { Usual } from "./usualValues.ts";

/** One pound (0.45359237 kg) at one foot (0.3048 m). Source: NIST SP 811, appendix B.8. */
export const POUND_FOOT2_KGM2 = 0.45359237 * 0.3048 ** 2;

/**
 * Rotor inertia of a small induction motor by the handbook estimate
 *
 *     WK^2 = 0.02 * 2^(P/2) * hp^(1.35 - 0.05 P/2) lb ft2,   P poles.
 *
 * @param power_W at the shaft, above 0
 * @param poles 2 to 12
 * @returns kg m2, with a plausible range of 0.6 to 1.6 times
 *
 * The estimate is meant for polyphase motors of 1 hp and up; single-phase rotors are of the same build.
 * Limitation: nothing coupled is in it. The 1/4 hp machine printed in Krause ch. 10 has 25 times as much.
 * Checked by packages/cabinet/test/motor-defaults.test.ts.
 */
export function usualRotorInertia_kgm2(power_W: number, poles: number): Usual {
  const pairs = poles / 2;
  const poundFoot2 = 0.02 * 2 ** pairs * (power_W / HORSEPOWER_W) ** (1.35 - 0.05 * pairs);
  const value = poundFoot2 * POUND_FOOT2_KGM2;
  return { value, low: 0.6 * value, high: 1.6 * value };
}
