/** 550 ft lbf/s. Source: NIST SP 811, appendix B.8. */
export const HORSEPOWER_W = 745.69987;

/** Ratings for which the code tables of single-phase motors have a column, hp. Source: NEC Table 430.248. */
export const STANDARD_POWERS_HP = [1 / 6, 1 / 4, 1 / 3, 1 / 2, 3 / 4, 1, 1.5, 2, 3, 5, 7.5, 10] as const;

/** The table rating nearest in ratio. @param power_hp above 0 */
export function nearestStandardPower(power_hp: number): number {
  const away = (hp: number): number => Math.abs(Math.log(hp / power_hp));
  return STANDARD_POWERS_HP.reduce<number>((best, hp) => (away(hp) < away(best) ? hp : best), 1 / 6);
}
