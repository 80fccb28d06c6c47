import { STANDARD_POWERS_HP } from "./standardPowers.ts";

export type TableVoltage = 115 | 200 | 208 | 230;
export type Design = "O" | "N" | "L";

/** Amperes in the order of `STANDARD_POWERS_HP`. Source: NEC Table 430.248. */
const FULL_LOAD: Readonly<Record<TableVoltage, readonly number[]>> = {
  115: [4.4, 5.8, 7.2, 9.8, 13.8, 16, 20, 24, 34, 56, 80, 100],
  200: [2.5, 3.3, 4.1, 5.6, 7.9, 9.2, 11.5, 13.8, 19.6, 32.2, 46, 57.5],
  208: [2.4, 3.2, 4, 5.4, 7.6, 8.8, 11, 13.2, 18.7, 30.8, 44, 55],
  230: [2.2, 2.9, 3.6, 4.9, 6.9, 8, 10, 12, 17, 28, 40, 50],
};

/** For picking controllers, from 1/2 hp; well above what the usual code letters give. Source: NEC Table 430.251(A). */
const LOCKED_ROTOR: Readonly<Record<115 | 208 | 230, readonly number[]>> = {
  115: [58.8, 82.8, 96, 120, 144, 204, 336, 480, 600],
  208: [32.5, 45.8, 53, 66, 80, 113, 186, 265, 332],
  230: [29.4, 41.4, 48, 60, 72, 102, 168, 240, 300],
};

const FRACTIONAL = [1 / 6, 1 / 4, 1 / 3, 1 / 2, 3 / 4, 1];

/** Greatest locked-rotor current at 60 Hz. Source: NEMA MG 1 12.33 and 12.34 (from memory). */
const LIMITS: Readonly<Record<Design, Readonly<Record<115 | 230, readonly (readonly [number, number])[]>>>> =
  {
    O: {
      115: [
        [1 / 6, 50],
        [1 / 4, 50],
        [1 / 3, 50],
        [1 / 2, 50],
      ],
      230: [
        [1 / 6, 25],
        [1 / 4, 25],
        [1 / 3, 25],
        [1 / 2, 25],
      ],
    },
    N: {
      115: FRACTIONAL.map((hp, k) => [hp, [20, 26, 31, 45, 61, 80][k]]),
      230: FRACTIONAL.map((hp, k) => [hp, [12, 15, 18, 25, 35, 45][k]]),
    },
    L: {
      115: [
        [1 / 2, 45],
        [3 / 4, 61],
        [1, 80],
      ],
      230: [
        [1 / 2, 25],
        [3 / 4, 35],
        [1, 45],
        [1.5, 50],
        [2, 65],
        [3, 90],
        [5, 135],
        [7.5, 200],
        [10, 260],
      ],
    },
  };

const column = (power_hp: number): number =>
  STANDARD_POWERS_HP.findIndex((hp) => Math.abs(hp - power_hp) < 1e-9);

/**
 * Full-load current of a single-phase motor by the code's table, A.
 *
 * @param power_hp one of the table's ratings, else undefined is returned
 * Source: NEC Table 430.248. The 115 V row serves 110 to 120 V systems, the 230 V row 220 to 240 V.
 * Checked by tests/published/motors-current-tables.
 */
export function tableFullLoadCurrent_A(power_hp: number, voltage_V: TableVoltage): number | undefined {
  return FULL_LOAD[voltage_V][column(power_hp)];
}

/**
 * Locked-rotor current by which controllers are picked, A: six times the full-load table.
 *
 * @param power_hp 1/2 hp and up, one of the table's ratings, else undefined is returned
 * Source: NEC Table 430.251(A). Checked by tests/published/motors-current-tables.
 */
export function tableLockedRotorCurrent_A(power_hp: number, voltage_V: 115 | 208 | 230): number | undefined {
  return LOCKED_ROTOR[voltage_V][column(power_hp) - 3];
}

/**
 * Most locked-rotor current that a single-phase motor of a design letter may draw, A.
 *
 * @returns undefined where the standard sets no limit for that rating
 * Source: NEMA MG 1 12.33 (O and N), 12.34 (L) (from memory). Checked by tests/published/motors-current-tables.
 */
export function lockedRotorLimit_A(
  design: Design,
  power_hp: number,
  voltage_V: 115 | 230,
): number | undefined {
  return LIMITS[design][voltage_V].find(([hp]) => Math.abs(hp - power_hp) < 1e-9)?.[1];
}

/**
 * Full-load current to expect of a motor whose plate does not say: the 230 V row (115 V below 160 V),
 * straight between ratings, carried to another voltage at the same volt-amperes.
 *
 * @param power_hp above 0; beyond the table the end rating's amperes per horsepower
 * @param voltage_V above 0
 */
export function usualFullLoadCurrent_A(power_hp: number, voltage_V: number): number {
  const row = voltage_V < 160 ? 115 : 230;
  return (alongTable(power_hp, FULL_LOAD[row]) * row) / nominal(voltage_V, row);
}

/** Voltages that a row serves as they stand: 110 to 120 V and 220 to 240 V. */
const nominal = (voltage_V: number, row: number): number =>
  voltage_V >= row * (110 / 115) && voltage_V <= row * (120 / 115) ? row : voltage_V;

function alongTable(power_hp: number, amperes: readonly number[]): number {
  const powers: readonly number[] = STANDARD_POWERS_HP;
  const k = powers.findIndex((hp) => hp >= power_hp);
  if (k === 0) return (amperes[0] * power_hp) / powers[0];
  if (k < 0) return (amperes[amperes.length - 1] * power_hp) / powers[powers.length - 1];
  const share = (power_hp - powers[k - 1]) / (powers[k] - powers[k - 1]);
  return amperes[k - 1] + share * (amperes[k] - amperes[k - 1]);
}
