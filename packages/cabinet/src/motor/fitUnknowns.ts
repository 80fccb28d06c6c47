import type { Impedance, Machine } from "@startgap/circuit";
import type { FitTargets } from "./fitTargets.ts";
import type { MotorType } from "./nameplate.ts";
import { USUAL_SWITCH_CLOSES, USUAL_SWITCH_OPENS } from "./usualValues.ts";

/**
 * One value that the fit looks for, as usual e^(spread x): it stays above 0, and x counts how many spreads
 * (in nepers) it lies from its usual value. A motor's x commonly lies between -1 and 1.
 */
export interface Unknown {
  readonly name: UnknownName;
  readonly usual: number;
  readonly spread: number;
}

/**
 * Resistances and reactances per unit of V/I_full-load; `deepBar...` standstill over running values; `aux...`
 * auxiliary over main, the reactance with the turns ratio squared taken out; losses as shares of all losses.
 */
export type UnknownName =
  | "r1"
  | "x1"
  | "r2"
  | "x2"
  | "xm"
  | "standstillR"
  | "standstillX"
  | "coreShare"
  | "rotationalShare"
  | "turnsRatio"
  | "auxR"
  | "auxX"
  | "startX"
  | "runX";

/**
 * Usual values: the middle of the circuits printed in Fitzgerald 9.2, Wildi 18-5, Theraja 36.1, Guru 10.2
 * and 10.3, Chapman 9-1, McPherson 6.1 and 6.2 and Krause ch. 10, per unit of their own V/I; standstill values,
 * capacitors and spreads common practice, no source.
 */
const COMMON: readonly Unknown[] = [
  { name: "r1", usual: 0.07, spread: 0.35 },
  { name: "x1", usual: 0.1, spread: 0.4 },
  { name: "r2", usual: 0.12, spread: 0.5 },
  { name: "x2", usual: 0.09, spread: 0.4 },
  { name: "xm", usual: 2.2, spread: 0.5 },
  { name: "standstillR", usual: 1.0, spread: 0.1 },
  { name: "standstillX", usual: 0.95, spread: 0.15 },
  { name: "coreShare", usual: 0.22, spread: 0.4 },
  { name: "rotationalShare", usual: 0.1, spread: 0.4 },
];

const BY_TYPE: Readonly<Record<MotorType, readonly Unknown[]>> = {
  "split-phase": [
    { name: "turnsRatio", usual: 1.1, spread: 0.3 },
    { name: "auxR", usual: 4, spread: 0.5 },
    { name: "auxX", usual: 1, spread: 0.4 },
  ],
  "capacitor-start": [
    { name: "turnsRatio", usual: 1.3, spread: 0.3 },
    { name: "auxR", usual: 4, spread: 0.5 },
    { name: "auxX", usual: 1, spread: 0.4 },
    { name: "startX", usual: 0.85, spread: 0.2 },
  ],
  "capacitor-start-capacitor-run": [
    { name: "turnsRatio", usual: 1.3, spread: 0.3 },
    { name: "auxR", usual: 4, spread: 0.5 },
    { name: "auxX", usual: 1, spread: 0.4 },
    { name: "startX", usual: 0.85, spread: 0.2 },
    { name: "runX", usual: 5, spread: 0.4 },
  ],
  "permanent-split-capacitor": [
    { name: "turnsRatio", usual: 1.5, spread: 0.3 },
    { name: "auxR", usual: 4, spread: 0.5 },
    { name: "auxX", usual: 1, spread: 0.4 },
    { name: "runX", usual: 4.5, spread: 0.5 },
  ],
};

/** Loss resistance of a capacitor as a share of its reactance: electrolytic start, film run. Common practice, no source. */
export const START_CAPACITOR_LOSS = 0.1;
export const RUN_CAPACITOR_LOSS = 0.01;

const START_SWITCH = { opens: USUAL_SWITCH_OPENS.value, closes: USUAL_SWITCH_CLOSES.value } as const;

const reactance_ohm = (capacitance_F: number, frequency_Hz: number): number =>
  1 / (2 * Math.PI * frequency_Hz * capacitance_F);

/** What the fit looks for: the type's unknowns, less the capacitors that are stated. */
export function unknownsOf(targets: FitTargets): readonly Unknown[] {
  const stated = { startX: targets.startCapacitor_F !== null, runX: targets.runCapacitor_F !== null };
  return [...COMMON, ...BY_TYPE[targets.type]].filter(
    ({ name }) => !((name === "startX" && stated.startX) || (name === "runX" && stated.runX)),
  );
}

/** The machine at a point of the search. @param x spreads from the usual values, in the order of `unknowns` */
export function machineAt(targets: FitTargets, unknowns: readonly Unknown[], x: readonly number[]): Machine {
  const at = {} as Record<UnknownName, number>;
  for (const [k, { name, usual, spread }] of unknowns.entries()) at[name] = usual * Math.exp(spread * x[k]);
  const { voltage_V: V, frequency_Hz, poles, type } = targets;
  const base = V / targets.fullLoadCurrent_A;
  const losses = lossesOf(targets);
  const r2 = at.r2 * base;
  const x2 = at.x2 * base;
  const a = at.turnsRatio;
  const capacitor = (stated_F: number | null, sought: number | undefined, loss: number): Impedance | null => {
    if (stated_F === null && sought === undefined) return null;
    const X = stated_F === null ? sought! * base : reactance_ohm(stated_F, frequency_Hz);
    return { r_ohm: loss * X, x_ohm: X };
  };
  return {
    poles,
    frequency_Hz,
    voltage_V: V,
    main: { r_ohm: at.r1 * base, x_ohm: at.x1 * base },
    rotor: { r_ohm: r2, x_ohm: x2 },
    rotorAtStandstill: { r_ohm: r2 * at.standstillR, x_ohm: x2 * at.standstillX },
    magnetising_ohm: at.xm * base,
    core_ohm: (V * V) / (at.coreShare * losses),
    rotationalLoss_W: at.rotationalShare * losses,
    auxiliary: { r_ohm: at.auxR * at.r1 * base, x_ohm: at.auxX * a * a * at.x1 * base, turnsRatio: a },
    startCapacitor: capacitor(targets.startCapacitor_F, at.startX, START_CAPACITOR_LOSS),
    runCapacitor: capacitor(targets.runCapacitor_F, at.runX, RUN_CAPACITOR_LOSS),
    startSwitch: type === "permanent-split-capacitor" ? null : START_SWITCH,
  };
}

/** All losses at full load, W. */
function lossesOf({ torque_Nm, slip, frequency_Hz, poles, efficiency }: FitTargets): number {
  const power = torque_Nm * (1 - slip) * ((4 * Math.PI * frequency_Hz) / poles);
  return power * (1 / efficiency - 1);
}
