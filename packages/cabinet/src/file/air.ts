import type {
  ControlParameters,
  MotorParameters,
  PartParameters,
  PressureSwitchParameters,
  ReceiverParameters,
} from "@startgap/circuit";
import type { Assumption } from "../grade.ts";
import { assumed } from "../parts/common.ts";
import type { BuiltPart } from "./build.ts";

/** Parts and controls once what hangs together by air is settled, and what was assumed for it. */
export interface Settled {
  readonly parts: readonly PartParameters[];
  readonly controls: readonly ControlParameters[];
  readonly assumptions: readonly Assumption[];
  readonly notes: readonly string[];
}

const isControl = (p: PartParameters | ControlParameters): p is ControlParameters =>
  p.is === "receiver" || p.is === "pressure switch" || p.is === "switch" || p.is === "lock-out timer";

const NO_SOURCE = "common practice, no source";

/**
 * Settles what no part can say for itself: a receiver that is silent about its pressure begins at the lowest
 * cut-in of its switches, and a compressor that is silent about its unloader has it on the pressure switch of its
 * receiver: the only one, or, as many switches as compressors, each its own in the order of the file.
 */
export function settleAir(built: readonly BuiltPart[]): Settled {
  const all = built.flatMap((part) => (part.built === null ? [] : [part.built.parameters]));
  const controls = all.filter(isControl);
  const switches = controls.filter((p) => p.is === "pressure switch");
  const assumptions: Assumption[] = [];
  const parts = all.flatMap((p): PartParameters[] => {
    if (isControl(p)) return [];
    return p.is === "motor" ? [withUnloader(p, built, switches, assumptions)] : [p];
  });
  return {
    parts,
    controls: controls.map((p) => (p.is === "receiver" ? atCutIn(p, built, switches) : p)),
    assumptions,
    notes: controls.flatMap((p) => (p.is === "receiver" ? reliefNotes(p, switches) : [])),
  };
}

type Spec =
  | { readonly drives?: { readonly unloader?: string | null } | null; readonly pressure?: unknown }
  | undefined;

const specOf = (built: readonly BuiltPart[], name: string): Spec =>
  built.find((part) => part.name === name)?.spec as Spec;

function withUnloader(
  p: MotorParameters,
  built: readonly BuiltPart[],
  switches: readonly PressureSwitchParameters[],
  assumptions: Assumption[],
): MotorParameters {
  const receiver = p.compressor?.delivers?.receiver;
  if (p.compressor === undefined || receiver === undefined) return p;
  if (specOf(built, p.name)?.drives?.unloader != null) return p;
  const own = ownSwitch(p.name, receiver, built, switches);
  const value = own === null ? "none" : `a valve on ${own}`;
  assumptions.push(assumed(p.name, "unloader", value, "a valve, flyweights or none", NO_SOURCE));
  return own === null ? p : { ...p, compressor: { ...p.compressor, unloader: { switch: own } } };
}

function ownSwitch(
  motor: string,
  receiver: string,
  built: readonly BuiltPart[],
  switches: readonly PressureSwitchParameters[],
): string | null {
  const there = switches.filter((one) => one.receiver === receiver).map((one) => one.name);
  if (there.length === 1) return there[0]!;
  const pumping = built.flatMap(({ built: one, name }) =>
    one?.parameters.is === "motor" && one.parameters.compressor?.delivers?.receiver === receiver
      ? [name]
      : [],
  );
  return there.length === pumping.length ? (there[pumping.indexOf(motor)] ?? null) : null;
}

function atCutIn(
  p: ReceiverParameters,
  built: readonly BuiltPart[],
  switches: readonly PressureSwitchParameters[],
): ReceiverParameters {
  const stated = specOf(built, p.name)?.pressure;
  const cutIns = switches.filter((one) => one.receiver === p.name).map((one) => one.cutIn_Pa);
  if (stated != null || cutIns.length === 0) return p;
  return { ...p, pressure_Pa: Math.min(...cutIns) };
}

function reliefNotes(p: ReceiverParameters, switches: readonly PressureSwitchParameters[]): string[] {
  const { relief_Pa } = p;
  if (relief_Pa === null) return [];
  return switches
    .filter((one) => one.receiver === p.name && one.cutOut_Pa >= relief_Pa)
    .map((one) => `${p.name}: its relief valve lifts before ${one.name} opens`);
}
