import type { Machine } from "@startgap/circuit";

/** Quarter-horsepower capacitor-start machine: Krause, Wasynczuk, Sudhoff, 2nd ed., chapter 10 (from memory). */
export const quarterHorse: Machine = {
  poles: 4,
  frequency_Hz: 60,
  voltage_V: 110,
  main: { r_ohm: 2.02, x_ohm: 2.79 },
  rotor: { r_ohm: 4.12, x_ohm: 2.12 },
  rotorAtStandstill: { r_ohm: 4.12, x_ohm: 2.12 },
  magnetising_ohm: 66.8,
  core_ohm: Number.POSITIVE_INFINITY,
  rotationalLoss_W: 0,
  auxiliary: { r_ohm: 7.14, x_ohm: 3.22, turnsRatio: 1.18 },
  startCapacitor: { r_ohm: 3, x_ohm: 14.5 },
  runCapacitor: null,
  startSwitch: { opens: 0.75, closes: 0.45 },
};
