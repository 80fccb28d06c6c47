import { HORSEPOWER_W } from "@startgap/cabinet";

/** Starts that motors bear: A an hour, B starts an hour times the load's WK2 in lb ft2, C rest in s. */
interface StartsRow {
  readonly power_hp: number;
  readonly A: number;
  readonly B: number;
  readonly C: number;
}

const row = (power_hp: number, A: number, B: number, C: number): StartsRow => ({ power_hp, A, B, C });

/** Polyphase motors by poles. Source: NEMA MG 10, table 2-3; for single-phase ones an upper bound only. */
const TABLE: Readonly<Record<number, readonly StartsRow[]>> = {
  2: [row(1, 15, 1.2, 75), row(1.5, 12.9, 1.8, 76), row(2, 11.5, 2.4, 77), row(3, 9.9, 3.5, 80)],
  4: [row(1, 30, 5.8, 38), row(1.5, 25.7, 8.6, 38), row(2, 23, 11, 39), row(3, 19.8, 17, 40)],
  6: [row(1, 34, 15, 33), row(1.5, 29.1, 23, 34), row(2, 26.1, 30, 35), row(3, 22.4, 44, 36)],
};

const POUND_FOOT2_KGM2 = 0.45359237 * 0.3048 ** 2;

export interface StartsAllowed {
  readonly perHour: number;
  readonly rest_s: number;
}

/**
 * Starts an hour and rest of a motor by the table, straight between its powers; null outside 1 to 3 hp and 2 to 6 poles.
 *
 * @param inertia_kgm2 of what it drives; the rotor's counted in errs on the safe side
 * Source: NEMA MG 10, table 2-3. Checked by tests/published/heat-starts.
 */
export function startsAllowed(power_W: number, poles: number, inertia_kgm2: number): StartsAllowed | null {
  const rows = TABLE[poles];
  const hp = power_W / HORSEPOWER_W;
  if (rows === undefined || hp < rows[0].power_hp - 1e-6 || hp > rows[rows.length - 1].power_hp + 1e-6)
    return null;
  const k = Math.max(
    1,
    rows.findIndex((one) => one.power_hp >= hp - 1e-6),
  );
  const [a, b] = [rows[k - 1], rows[k]];
  const share = (hp - a.power_hp) / (b.power_hp - a.power_hp);
  const between = (key: "A" | "B" | "C"): number => a[key] + share * (b[key] - a[key]);
  const perHour = Math.min(between("A"), between("B") / (inertia_kgm2 / POUND_FOOT2_KGM2));
  return { perHour, rest_s: between("C") };
}

/** Seconds an hour that a start capacitor may be in circuit: 60 starts of 1 s, 30 of 2 s or 20 of 3 s. Common practice, no source. */
export const CAPACITOR_s = 60;

/** Starts an hour that a start capacitor bears. @param start_s above 0 */
export const capacitorStarts = (start_s: number): number => CAPACITOR_s / start_s;
