import {
  asStated,
  type Circuit,
  type GeneratorSource,
  type InverterSource,
  type Machine,
  type Script,
} from "@startgap/circuit";
import data from "./data.json" with { type: "json" };

/** One cabinet of data.json with what SciPy found for it. */
export type Entry = (typeof data)[number];
type Given = Entry["given"];

export const entries: readonly Entry[] = data;

/** The machine of sets.py with every impedance divided by `size`. */
function machineOf({ size, volts }: Given): Machine {
  const ohms = (r: number, x: number) => ({ r_ohm: r / size, x_ohm: x / size });
  return {
    poles: 4,
    frequency_Hz: 60,
    voltage_V: volts,
    main: ohms(1.9, 2.4),
    rotor: ohms(3.2, 2),
    rotorAtStandstill: ohms(3.2, 2),
    magnetising_ohm: 58 / size,
    core_ohm: Number.POSITIVE_INFINITY,
    rotationalLoss_W: 0,
    auxiliary: { ...ohms(6.4, 2.9), turnsRatio: 1.2 },
    startCapacitor: ohms(2.5, 15),
    runCapacitor: null,
    startSwitch: { opens: 0.75, closes: 0.45 },
  };
}

function sourceOf({ generator: g, inverter: i, volts }: Given): GeneratorSource | InverterSource {
  if (g !== undefined) {
    return {
      is: "generator",
      rating_VA: volts ** 2 / 2,
      synchronous_ohm: g.xs,
      fieldTime_s: g.t0,
      ceiling: g.ceiling,
      recovery_s: g.recovery,
    };
  }
  if (i === undefined) throw new RangeError("invalid cabinet: no source");
  return {
    is: "inverter",
    continuous_A: i.continuous,
    limit_A: i.limit,
    surge_s: i.surge,
    stops_s: i.stops,
  };
}

/** The cabinet as a circuit: source, lead, lamps and both motors on the bus behind it. */
export function circuitOf(given: Given): Circuit {
  const bus = { fedBy: "lead", leg: "first" } as const;
  const motors = given.drives.map((drive, j) => ({
    ...{ is: "motor", name: `motor ${j + 1}`, ...bus, machine: machineOf(given) },
    inertia_kgm2: given.inertia[j],
    drives: { atRest_Nm: drive.rest, atFullSpeed_Nm: drive.full, shape: "square" },
    fullLoad_A: null,
  })) as unknown as Circuit["parts"];
  return {
    title: given.name,
    parts: [
      {
        is: "supply",
        name: "source",
        voltage_V: given.volts,
        frequency_Hz: 60,
        r_ohm: given.generator?.r ?? 0,
        x_ohm: given.generator?.x1 ?? 0,
        source: sourceOf(given),
      },
      {
        is: "cable",
        name: "lead",
        fedBy: "source",
        leg: "first",
        r_ohm: given.lead[0],
        x_ohm: given.lead[1],
      },
      {
        is: "load",
        name: "lamps",
        ...bus,
        nominal_V: given.volts,
        power_W: given.lamps_W,
        reactive_var: 0,
        holds: given.holds === "current" ? "current" : "impedance",
      },
      ...motors,
    ],
  };
}

export const scriptOf = ({ starts }: Given): Script => ({
  ...asStated,
  connects_s: (motor) => starts[motor === "motor 1" ? 0 : 1],
});

const short: Readonly<Record<string, string>> = {
  "field reaches its ceiling": "ceiling",
  "field leaves its ceiling": "leaves",
  "field is shut": "shut",
  "field returns": "returns",
  "gives more than its rating": "surges",
  "is back within its rating": "eases",
  "reaches its current limit": "limits",
  "leaves its current limit": "leaves",
  "surge time is up": "up",
  "shuts down": "down",
};

/** What our events are called in data.json: "switch 1", "break 2", "ceiling"; null for one that is not there. */
export function shortName(event: string): string | null {
  const [part, what] = event.split(": ");
  const motor = part.replace("motor ", "");
  if (what === "breaks away") return `break ${motor}`;
  if (what === "comes to rest") return `rest ${motor}`;
  if (what.startsWith("start switch")) return `switch ${motor}`;
  return short[what] ?? null;
}
