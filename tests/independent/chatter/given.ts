import type { Circuit, Machine, PartParameters } from "@startgap/circuit";
import data from "./data.json" with { type: "json" };

/** One cabinet of data.json with what SciPy found for it. */
export type Entry = (typeof data)[number];
type Given = Entry["given"];

export const entries: readonly Entry[] = data;

const ohms = ([r_ohm, x_ohm]: readonly number[]): { r_ohm: number; x_ohm: number } => ({ r_ohm, x_ohm });
const at = (name: string, fedBy: string) => ({ name, fedBy, leg: "first" }) as const;

function machineOf({ machine: m, volts }: Given): Machine {
  return {
    poles: m.poles,
    frequency_Hz: m.frequency,
    voltage_V: volts,
    main: ohms(m.main),
    rotor: ohms([m.r2, m.x2]),
    rotorAtStandstill: ohms([m.r2, m.x2]),
    magnetising_ohm: m.xm,
    core_ohm: Number.POSITIVE_INFINITY,
    rotationalLoss_W: 0,
    auxiliary: { ...ohms(m.auxiliary), turnsRatio: m.a },
    startCapacitor: ohms(m.capacitor),
    runCapacitor: null,
    startSwitch: { opens: m.switch[0], closes: m.switch[1] },
  };
}

function motorOf(given: Given, j: number, fedBy: string): PartParameters {
  const [atRest_Nm, atFullSpeed_Nm] = given.drives[j];
  return {
    is: "motor",
    ...at(`motor ${j + 1}`, fedBy),
    machine: machineOf(given),
    inertia_kgm2: given.inertia[j],
    drives: { atRest_Nm, atFullSpeed_Nm, shape: "square" },
    fullLoad_A: null,
  };
}

function contactorOf({ coil }: Given): PartParameters {
  const [inrush_VA, inrushPowerFactor] = coil.inrush;
  const [sealed_VA, sealedPowerFactor] = coil.sealed;
  return {
    is: "contactor",
    ...at("contactor", "line"),
    coil: {
      rated_V: coil.rated,
      fedBy: "little transformer",
      leg: "first",
      pullIn_V: coil.pull,
      dropOut_V: coil.drop,
      pullInTime_s: coil["pulls in"],
      dropOutTime_s: coil["drops in"],
      burden: { inrush_VA, inrushPowerFactor, sealed_VA, sealedPowerFactor },
    },
  };
}

/** The cabinet as a circuit: lamps, the coil's transformer and the contactor on one line. */
export function circuitOf(given: Given): Circuit {
  const { relay, coil, volts, lamps } = given;
  const held: PartParameters[] =
    relay === null
      ? []
      : [{ is: "delay relay", ...at("relay", "contactor"), delay_s: relay.delay, reset_s: relay.reset }];
  return {
    title: given.name,
    parts: [
      {
        is: "supply",
        name: "line",
        voltage_V: volts,
        frequency_Hz: given.machine.frequency,
        ...ohms(given.source),
      },
      {
        is: "load",
        ...at("lamps", "line"),
        nominal_V: volts,
        power_W: volts ** 2 / lamps,
        reactive_var: 0,
        holds: "impedance",
      },
      {
        is: "transformer",
        ...at("little transformer", "line"),
        windings_V: [volts, coil.rated],
        rating_VA: 40,
        ...ohms(coil.transformer),
        excitation: { conductance_S: 0, susceptance_S: 0 },
      },
      contactorOf(given),
      motorOf(given, 0, "contactor"),
      ...held,
      motorOf(given, 1, relay === null ? "contactor" : "relay"),
    ],
  };
}
