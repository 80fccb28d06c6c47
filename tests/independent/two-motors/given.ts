import type { Circuit, FuseParameters, Impedance, Machine, PartParameters, Script } from "@startgap/circuit";
import { asStated } from "@startgap/circuit";
import data from "./data.json" with { type: "json" };

type Pair = readonly number[];

/** One cabinet of data.json with what SciPy found for it. */
export type Entry = (typeof data)[number];
type Given = Entry["given"];

export const entries: readonly Entry[] = data;

const ohms = ([r_ohm, x_ohm]: Pair): Impedance => ({ r_ohm, x_ohm });
const maybe = (pair: Pair | null): Impedance | null => (pair === null ? null : ohms(pair));

function machineOf({ machine: m, volts }: Given): Machine {
  return {
    poles: m.poles,
    frequency_Hz: m.frequency,
    voltage_V: volts,
    main: ohms([m.r1, m.x1]),
    rotor: ohms([m.r2, m.x2]),
    rotorAtStandstill: ohms([m.r2, m.x2]),
    magnetising_ohm: m.xm,
    core_ohm: Number.POSITIVE_INFINITY,
    rotationalLoss_W: 0,
    auxiliary: { ...ohms([m.ra, m.xa]), turnsRatio: m.a },
    startCapacitor: maybe(m.start),
    runCapacitor: maybe(m.run),
    startSwitch: m.switch === null ? null : { opens: m.switch[0], closes: m.switch[1] },
  };
}

function fuseOf({ fuse, "fuse r": r_ohm }: Given): FuseParameters {
  const melt = { minimumFusing_A: fuse.minimum, share: fuse.share, tau_s: fuse.tau };
  const place = { name: "fuse", fedBy: "feeder", leg: "first" } as const;
  return { is: "fuse", ...place, r_ohm, x_ohm: 0, poles: 1, rating_A: 20, melt, clearing: null };
}

/** The transformer, if there is one: its name is what the branches are fed by. */
function middle(given: Given): PartParameters[] {
  const { form, windings, leakage, exciting } = given;
  if (form === "straight" || windings === undefined) return [];
  const [first_V, second_V] = windings;
  const [conductance_S, susceptance_S] = exciting;
  return [
    {
      is: form === "autotransformer" ? "autotransformer" : "transformer",
      name: "middle",
      fedBy: "fuse",
      leg: "first",
      windings_V: [first_V, second_V],
      rating_VA: 5000,
      ...ohms(leakage),
      excitation: { conductance_S, susceptance_S },
    },
  ];
}

/** The cabinet as a circuit: motor 1 and the lamps on the first leg, motor 2 on the second if there is one. */
export function circuitOf(given: Given): Circuit {
  const line = { leg: "first", fedBy: "supply" } as const;
  const between = middle(given);
  const fedBy = between[0]?.name ?? "fuse";
  const shape = (name: string): "square" | "linear" => (name === "square" ? "square" : "linear");
  const branches = given.branch.flatMap((z, j): PartParameters[] => [
    { is: "cable", name: `branch ${j + 1}`, fedBy, leg: j === 0 ? "first" : "second", ...ohms(z) },
    {
      is: "motor",
      name: `motor ${j + 1}`,
      fedBy: `branch ${j + 1}`,
      leg: "first",
      machine: machineOf(given),
      inertia_kgm2: given.inertia[j],
      drives: {
        atRest_Nm: given.drives[j].rest,
        atFullSpeed_Nm: given.drives[j].full,
        shape: shape(given.drives[j].shape),
      },
      fullLoad_A: null,
    },
  ]);
  const lamps = { nominal_V: 1, power_W: 1 / given.lamps, reactive_var: 0, holds: "impedance" } as const;
  return {
    title: given.name,
    parts: [
      {
        is: "supply",
        name: "supply",
        voltage_V: given.volts,
        frequency_Hz: given.frequency,
        ...ohms(given.source),
      },
      { is: "cable", name: "feeder", ...line, ...ohms(given.feeder) },
      fuseOf(given),
      ...between,
      { is: "load", name: "lamps", fedBy, leg: "first", ...lamps },
      ...branches,
    ],
  };
}

export const scriptOf = ({ starts }: Given): Script => ({
  ...asStated,
  connects_s: (motor) => starts[motor === "motor 1" ? 0 : 1],
});

/** What our events are called in data.json: "switch 1", "break 2", "rest 1", "melt". */
export function shortName(event: string): string | null {
  const [part, what] = event.split(": ");
  const motor = part.replace("motor ", "");
  if (what === "melts") return "melt";
  if (what === "breaks away") return `break ${motor}`;
  if (what === "comes to rest") return `rest ${motor}`;
  return what.startsWith("start switch") ? `switch ${motor}` : null;
}
