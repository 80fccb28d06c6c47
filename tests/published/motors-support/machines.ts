import { type Machine, type MotorPoint, steadyState } from "@startgap/circuit";

/** [resistance, reactance], ohm; a capacitor's reactance positive. */
type Pair = readonly [number, number];

/** A machine as a book prints it. */
export interface PrintedMachine {
  readonly poles: number;
  readonly frequency_Hz: number;
  readonly main: Pair;
  readonly rotor: Pair;
  readonly magnetising: number;
  /** Resistance, leakage reactance, turns ratio. */
  readonly auxiliary?: readonly [number, number, number];
  readonly startCapacitor?: Pair;
  readonly runCapacitor?: Pair;
  /** Core, windage and friction together, taken off the shaft as a fixed wattage. */
  readonly fixedLoss_W?: number;
  /** Core loss as a resistance across the terminals, ohm. */
  readonly core?: number;
}

/** Two windings of which only the locked-rotor impedances are printed. */
export interface PrintedWindings {
  readonly frequency_Hz: number;
  readonly main: Pair;
  readonly auxiliary: Pair;
  readonly startCapacitor?: Pair;
  readonly startCapacitor_F?: number;
}

const impedance = ([r_ohm, x_ohm]: Pair) => ({ r_ohm, x_ohm });
const orNull = (pair: Pair | undefined) => (pair === undefined ? null : impedance(pair));

/** A fixed loss is a speed-proportional torque that takes the same watts at the slip asked about. */
export function machineOf(printed: PrintedMachine, slip: number): Machine {
  const { auxiliary } = printed;
  return {
    poles: printed.poles,
    frequency_Hz: printed.frequency_Hz,
    voltage_V: 100,
    main: impedance(printed.main),
    rotor: impedance(printed.rotor),
    rotorAtStandstill: impedance(printed.rotor),
    magnetising_ohm: printed.magnetising,
    core_ohm: printed.core ?? Infinity,
    rotationalLoss_W: slip === 1 ? 0 : (printed.fixedLoss_W ?? 0) / (1 - slip) ** 2,
    auxiliary:
      auxiliary === undefined ? null : { r_ohm: auxiliary[0], x_ohm: auxiliary[1], turnsRatio: auxiliary[2] },
    startCapacitor: orNull(printed.startCapacitor),
    runCapacitor: orNull(printed.runCapacitor),
    startSwitch: null,
  };
}

/** A rotor so good a conductor that it adds nothing: what is left at standstill are the impedances as printed. */
export function machineOfWindings(printed: PrintedWindings): Machine {
  const { frequency_Hz, main, auxiliary, startCapacitor, startCapacitor_F } = printed;
  const reactance = startCapacitor_F && 1 / (2 * Math.PI * frequency_Hz * startCapacitor_F);
  const capacitor = reactance ? ([0, reactance] as const) : startCapacitor;
  return machineOf(
    {
      poles: 4,
      frequency_Hz,
      main,
      rotor: [1e-9, 0],
      magnetising: 100,
      auxiliary: [auxiliary[0], auxiliary[1], 1],
      ...(capacitor && { startCapacitor: capacitor }),
    },
    1,
  );
}

const amperes = ({ re, im }: MotorPoint["line_A"]): number => Math.hypot(re, im);
const angle = ({ re, im }: MotorPoint["line_A"]): number => (Math.atan2(im, re) * 180) / Math.PI;
const displacement = (p: MotorPoint): number => angle(p.auxiliary_A) - angle(p.main_A);

/** What a book may print of an operating point, by the name used in data.json. */
export const FIGURES = {
  line_A: (p) => amperes(p.line_A),
  lineAngle_deg: (p) => angle(p.line_A),
  main_A: (p) => amperes(p.main_A),
  mainAngle_deg: (p) => angle(p.main_A),
  auxiliary_A: (p) => amperes(p.auxiliary_A),
  auxiliaryAngle_deg: (p) => angle(p.auxiliary_A),
  displacement_deg: displacement,
  /** Main x auxiliary current x sine of the angle between, A2: what starting torque goes with. */
  torqueProduct_A2: (p) =>
    amperes(p.main_A) * amperes(p.auxiliary_A) * Math.sin((displacement(p) * Math.PI) / 180),
  capacitor_V: (p) => amperes(p.capacitor_V),
  capacitorAngle_deg: (p) => angle(p.capacitor_V),
  powerFactor: (p) => p.powerFactor,
  input_W: (p) => p.inputPower_W,
  main_W: (p) => p.mainLoss_W,
  auxiliary_W: (p) => p.auxiliaryLoss_W,
  gap_W: (p) => p.airGapPower_W.forward - p.airGapPower_W.backward,
  gapForward_W: (p) => p.airGapPower_W.forward,
  gapBackward_W: (p) => p.airGapPower_W.backward,
  mechanical_W: (p) => p.mechanicalPower_W,
  shaft_W: (p) => p.shaftPower_W,
  torque_Nm: (p) => p.torque_Nm,
  shaftTorque_Nm: (p) => p.shaftTorque_Nm,
  efficiency: (p) => p.efficiency,
  speed_rpm: (p) => p.speed_rpm,
} satisfies Record<string, (point: MotorPoint) => number>;

export type FigureName = keyof typeof FIGURES;

export const pointOf = (machine: Machine, voltage_V: number, slip: number, closed: boolean): MotorPoint =>
  steadyState(machine, voltage_V, slip, closed);
