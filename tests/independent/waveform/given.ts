import type { Circuit, Machine, MotorParameters, PartParameters } from "@startgap/circuit";
import data from "./data.json" with { type: "json" };

type Data = typeof data;
type Start = Extract<Data[number], { given: { motors: unknown } }>;
type SwitchOn = Extract<Data[number], { given: { residual: number } }>;
type GivenMotor = Start["given"]["motors"][number];

const isStart = (entry: Data[number]): entry is Start => "motors" in entry.given;
export const [start] = data.filter(isStart);
export const [switchOn] = data.filter((entry): entry is SwitchOn => !isStart(entry));

const ohms = ([r_ohm, x_ohm]: readonly number[]): { r_ohm: number; x_ohm: number } => ({ r_ohm, x_ohm });
const omega = 120 * Math.PI;
export const synchronous_radps = omega / 2;

function machineOf(m: GivenMotor["machine"]): Machine {
  return {
    poles: m.poles,
    frequency_Hz: 60,
    voltage_V: 120,
    main: ohms(m.main),
    rotor: ohms(m.rotor),
    rotorAtStandstill: ohms(m.rotor),
    magnetising_ohm: m.magnetising,
    core_ohm: Number.POSITIVE_INFINITY,
    rotationalLoss_W: 0,
    auxiliary: { ...ohms(m.auxiliary), turnsRatio: m.turnsRatio },
    startCapacitor: ohms(m.startCapacitor),
    runCapacitor: null,
    startSwitch: { opens: m.switchOpens, closes: 0.3 },
  };
}

function motorOn(m: GivenMotor, k: number): PartParameters[] {
  const name = `motor ${k + 1}`;
  const leg = k === 0 ? ("first" as const) : ("second" as const);
  const motor: MotorParameters = {
    is: "motor",
    name,
    fedBy: `wire ${k + 1}`,
    leg: "first",
    machine: machineOf(m.machine),
    inertia_kgm2: m.inertia,
    drives: { atRest_Nm: m.atRest, atFullSpeed_Nm: m.atFullSpeed, shape: "square" },
    fullLoad_A: null,
  };
  return [{ is: "cable", name: `wire ${k + 1}`, fedBy: "transformer", leg, ...ohms(m.wire) }, motor];
}

/** What an R-L takes at a voltage, as a load states it. */
function lampOn(z: readonly number[], leg: "first" | "second", nominal_V: number): PartParameters {
  const { r_ohm: r, x_ohm: x } = ohms(z);
  const scale = nominal_V ** 2 / (r * r + x * x);
  return {
    is: "load",
    name: "lamp",
    fedBy: "transformer",
    leg,
    nominal_V,
    power_W: r * scale,
    reactive_var: x * scale,
    holds: "impedance",
  };
}

const supplyOf = ({ volts, z }: { volts: number; z: readonly number[] }): PartParameters => ({
  is: "supply",
  name: "supply",
  voltage_V: volts,
  frequency_Hz: 60,
  ...ohms(z),
});

const transformerOf = (is: "transformer" | "autotransformer", t: Start["given"]["transformer"]) => {
  const [first, second] = t.windings;
  const fed_V = is === "transformer" ? first : first + second;
  return {
    name: "transformer",
    fedBy: "supply",
    leg: "first",
    windings_V: [first, second] as const,
    rating_VA: t.rating,
    ...ohms(t.z),
    excitation: { conductance_S: 0, susceptance_S: t.exciting / fed_V },
  } as const;
};

export function startCircuit(): Circuit {
  const { given } = start;
  return {
    title: given.name,
    parts: [
      supplyOf(given.supply),
      { is: "autotransformer", ...transformerOf("autotransformer", given.transformer) },
      ...given.motors.flatMap(motorOn),
      lampOn(given.lamp, "second", 108),
    ],
  };
}

export function switchOnCircuit(): Circuit {
  const { given } = switchOn;
  return {
    title: given.name,
    parts: [
      supplyOf(given.supply),
      { is: "transformer", ...transformerOf("transformer", given.transformer) },
      lampOn(given.lamp, "first", 120),
    ],
  };
}
