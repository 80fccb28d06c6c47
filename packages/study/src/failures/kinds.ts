import type {
  AutotransformerParameters,
  Circuit,
  MotorParameters,
  PartParameters,
  TransformerParameters,
} from "@startgap/circuit";
import { freeName, openedAfter, openedBefore, openLink, replaced } from "./alter.ts";
import type { FailureKind } from "./results.ts";
import { type LoneWinding, midpointOpen, windingOpen } from "./windings.ts";

/** One thing that fails, and the circuit it leaves. */
export interface Failure {
  readonly part: string;
  readonly kind: FailureKind;
  readonly failure: string;
  readonly circuit: Circuit;
  /** The link that it holds open; null when it opens none. */
  readonly open: string | null;
  /** How its own contact is stuck; null when it is not. */
  readonly stuck: "open" | "closed" | null;
  readonly lone: LoneWinding | null;
}

const failing =
  (part: string, kind: FailureKind) =>
  (
    failure: string,
    circuit: Circuit,
    more: Partial<Pick<Failure, "open" | "stuck" | "lone">> = {},
  ): Failure => ({ part, kind, failure, circuit, open: null, stuck: null, lone: null, ...more });

/**
 * Every single thing in a cabinet that can open or stick: each fuse, each conductor, each winding, the midpoint,
 * each contact, each relay, each start switch.
 *
 * Each failure is the same cabinet altered: an open link, a winding of a billion ohms, a transformer without its
 * windings' tie; or the same cabinet under a story in which one contact is stuck. Nothing of it is judged here.
 */
export const failuresOf = (circuit: Circuit): Failure[] => [
  ...circuit.parts.flatMap((p) => ofPart(circuit, p)),
  ...(circuit.controls ?? []).flatMap((c) => (c.is === "receiver" ? [] : ofPilot(circuit, c.name))),
];

const ofPilot = (circuit: Circuit, name: string): Failure[] =>
  ofContact(circuit, name, `${name} is stuck closed`);

function ofPart(circuit: Circuit, p: PartParameters): Failure[] {
  switch (p.is) {
    case "fuse":
    case "cable":
      return [lineOpen(circuit, p)];
    case "autotransformer":
      return ofWindings(circuit, p);
    case "transformer":
      return ofSeparate(circuit, p);
    case "contactor":
      return ofContact(circuit, p.name, `the contacts of ${p.name} are welded`);
    case "delay relay":
      return ofContact(circuit, p.name, `${p.name} is stuck closed and holds nothing back`);
    case "motor":
      return ofMotor(circuit, p);
    default:
      return [];
  }
}

function lineOpen(circuit: Circuit, p: Extract<PartParameters, { readonly is: "fuse" | "cable" }>): Failure {
  const words =
    p.is === "cable"
      ? `one conductor of ${p.name} is open`
      : p.poles === 2
        ? `one of the two fuses of ${p.name} is open`
        : `${p.name} is open`;
  const link = { ...openLink(p.name, p.fedBy, p.leg), r_ohm: p.r_ohm, x_ohm: p.x_ohm };
  return failing(p.name, "one line open")(words, replaced(circuit, link), { open: p.name });
}

function ofWindings(circuit: Circuit, p: AutotransformerParameters): Failure[] {
  const open = failing(p.name, "winding open");
  const legs = ["first", "second"] as const;
  return [
    ...legs.map((leg) => {
      const altered = windingOpen(circuit, p, leg);
      return open(`the ${leg} winding of ${p.name} is open`, altered.circuit, { lone: altered.lone });
    }),
    failing(p.name, "midpoint open")(`the midpoint wire of ${p.name} is open`, midpointOpen(circuit, p)),
  ];
}

function ofSeparate(circuit: Circuit, p: TransformerParameters): Failure[] {
  const open = failing(p.name, "winding open");
  const [first, second] = ["first", "second"].map((w) => freeName(circuit, `${p.name}, ${w} winding`));
  return [
    open(`the first winding of ${p.name} is open`, openedBefore(circuit, p, first), { open: first }),
    open(`the second winding of ${p.name} is open`, openedAfter(circuit, p, second), { open: second }),
  ];
}

const shut = "contact stays closed";

/** A contact that stays as it is whatever works it. */
function ofContact(circuit: Circuit, name: string, welded: string): Failure[] {
  return [
    failing(name, "contact stays open")(`${name} does not close`, circuit, { stuck: "open" }),
    failing(name, shut)(welded, circuit, { stuck: "closed" }),
  ];
}

/** Resistance of a winding that is open, ohm. */
const OPEN_ohm = 1e9;

function ofMotor(circuit: Circuit, p: MotorParameters): Failure[] {
  const { machine, name } = p;
  const open = failing(name, "winding open");
  const main = { ...machine, main: { ...machine.main, r_ohm: OPEN_ohm } };
  const list = [open(`the main winding of ${name} is open`, replaced(circuit, { ...p, machine: main }))];
  if (machine.auxiliary === null) return list;
  const without = {
    ...machine,
    auxiliary: null,
    startCapacitor: null,
    runCapacitor: null,
    startSwitch: null,
  };
  const capacitor = machine.startCapacitor !== null || machine.runCapacitor !== null;
  const words = capacitor ? "the start winding or a capacitor" : "the start winding";
  list.push(open(`${words} of ${name} is open`, replaced(circuit, { ...p, machine: without })));
  if (machine.startSwitch === null) return list;
  const stuck = failing(name, "start winding stays in");
  list.push(stuck(`the start switch of ${name} is stuck closed`, circuit, { stuck: "closed" }));
  return list;
}
