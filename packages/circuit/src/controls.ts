import type { Contacts } from "./contacts.ts";
import type { Leg } from "./conventions.ts";
import { type LockOutTimerParameters, lockOutTimerModel } from "./lockOutTimer.ts";
import type { PartModel } from "./model.ts";
import type { Circuit } from "./parts.ts";
import { type PilotSwitchParameters, pilotSwitchModel } from "./pilotSwitch.ts";
import { type PressureSwitchParameters, pressureSwitchModel } from "./pressureSwitch.ts";
import { type ReceiverParameters, receiverModel } from "./receiver.ts";

/** What stands beside the tree of parts: it carries no power, and decides what closes. */
export type ControlParameters =
  | ReceiverParameters
  | PressureSwitchParameters
  | PilotSwitchParameters
  | LockOutTimerParameters;

/** Where a control stands in the arrays of the plant, and how it finds others. */
export interface ControlPlacement {
  readonly circuit: Circuit;
  /** Its index among contacts, modes and models: behind all parts. */
  readonly index: number;
  /** Index of its first state. */
  readonly state: number;
  readonly contacts: Contacts;
  /** First state of a part or control, by name. */
  readonly stateOf: (name: string) => number;
  readonly nodeOf: (name: string, leg: Leg) => number;
  /** No-load voltage of a node. */
  readonly nominalOf: (node: number) => number;
}

/** The table of controls. */
export function controlModelOf(p: ControlParameters, place: ControlPlacement): PartModel {
  switch (p.is) {
    case "receiver":
      return receiverModel(p, place) as PartModel;
    case "pressure switch":
      return pressureSwitchModel(p, place) as PartModel;
    case "switch":
      return pilotSwitchModel(p, place) as PartModel;
    case "lock-out timer":
      return lockOutTimerModel(p, place) as PartModel;
  }
}

/** How many states a control owns. */
export const controlStatesOf = (p: ControlParameters): number => (p.is === "receiver" ? 1 : 0);
