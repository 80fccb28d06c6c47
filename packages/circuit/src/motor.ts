import type { Event } from "@startgap/ode";
import type { Place } from "./conventions.ts";
import {
  type Compressor,
  emptyHead,
  fullHead,
  type HeadEvents,
  type HeadMode,
  headEvents,
  isLoaded,
} from "./head.ts";
import type { Machine } from "./machine.ts";
import {
  atFrequency,
  auxiliaryBranch,
  blankMachineAt,
  machineAdmittance,
  synchronousSpeed_radps,
} from "./machineAdmittance.ts";
import { eventName, type PartGuard, type PartModel, type Placement, type PowerUse, plain } from "./model.ts";
import { type Script, stuckBy } from "./script.ts";
import { type LoadTorque, loadTorque_Nm } from "./torque.ts";
import type { Walk } from "./walk.ts";

/** A machine on its shaft: total inertia of rotor and load, and what the load asks. */
export interface MotorParameters extends Place {
  readonly is: "motor";
  readonly machine: Machine;
  readonly inertia_kgm2: number;
  readonly drives: LoadTorque;
  /** Full-load current when known: for findings only. */
  readonly fullLoad_A: number | null;
  /** What it drives is a compressor, whose head may be full; `drives` is what an empty one asks. */
  readonly compressor?: Compressor;
}

export interface MotorMode {
  /** Its own isolating contact, worked by the story. */
  readonly connected: boolean;
  /** When the isolating contact closes; Infinity for never. */
  readonly connects_s: number;
  readonly startSwitch: boolean;
  readonly turning: boolean;
  /** When the isolating contact opens again; never when absent. */
  readonly opens_s?: number;
  /** Its start switch has failed. */
  readonly stuck?: "open" | "closed";
  /** Its rotor is held still. */
  readonly held?: boolean;
  /** What stands on its pistons; absent where no story follows it: then `drives` is all it ever asks. */
  readonly head?: HeadMode;
}

/** Torque by which the motor must beat the load at rest to count as breaking away, N m. */
const BREAKAWAY_Nm = 1e-9;

/**
 * Backward speed at which a shaft has come to rest, rad/s. Below zero, so that a shaft that breaks away at
 * zero is not at rest, but comes to rest if the voltage is taken from it in the same moment.
 */
const AT_REST_radps = 1e-9;

/**
 * A motor as an admittance at its terminals and a shaft:
 *
 *     J d(omega)/dt = T(V, slip) - T_load(omega) - P_rot omega / omega_sync^2
 *
 * At rest the load only resists: the shaft stays still until the motor's torque exceeds it, and a shaft
 * that comes to rest stays there. Both, and the start switch at its two speeds, are events. A compressor's load
 * is its full head's while that is full.
 *
 * Limitations: windings in quasi-steady state; the rotor does not go backwards.
 */
export function motorModel(p: MotorParameters, place: Placement): PartModel<MotorMode> {
  const { part, at, state } = place;
  const machine = atFrequency(p.machine, place.frequency_Hz);
  const admittance = machineAdmittance(machine);
  const now = blankMachineAt();
  const synchronous = synchronousSpeed_radps(machine);
  const perSynchronous = 1 / synchronous;
  const perInertia = 1 / p.inertia_kgm2;
  const drag = machine.rotationalLoss_W / synchronous ** 2;
  const opens = (machine.startSwitch?.opens ?? 1) * synchronous;
  const closes = (machine.startSwitch?.closes ?? 0) * synchronous;
  const events = motorEvents(p.name, machine.startSwitch !== null);
  const head = p.compressor === undefined ? null : headEvents(p.name, p.compressor, place);
  const full = p.compressor?.loaded ?? p.drives;
  let load = p.drives;
  let mode: MotorMode = {
    connected: false,
    connects_s: Number.POSITIVE_INFINITY,
    startSwitch: machine.auxiliary !== null,
    turning: false,
    ...(p.compressor?.delivers ? { head: emptyHead } : {}),
  };
  const start = { y: [0], mode };
  let known = Number.NaN;

  /** Refreshes the admittance unless speed and mode are those it was made for. */
  const refresh = (speed: number): void => {
    if (speed === known) return;
    known = speed;
    admittance(1 - speed * perSynchronous, mode.startSwitch, now);
  };
  const torque = (w: Walk): number => (mode.connected ? now.torque * (w.vr[at] ** 2 + w.vi[at] ** 2) : 0);
  const resisting = (speed: number): number => loadTorque_Nm(load, speed, synchronous) + drag * speed;

  return {
    ...plain,
    stateNames: [`speed of ${p.name}`],
    start,
    network: [state],
    enter(next) {
      if (next.startSwitch !== mode.startSwitch) known = Number.NaN;
      mode = next;
      load = next.head !== undefined && isLoaded(next.head) ? full : p.drives;
    },
    fold(w, y) {
      if (!mode.connected) return;
      refresh(y[state]);
      w.gr[at] += now.gr;
      w.gi[at] += now.gi;
    },
    unfold(w) {
      if (!mode.connected) {
        w.ir[part] = 0;
        w.ii[part] = 0;
        return;
      }
      w.ir[part] = now.gr * w.vr[at] - now.gi * w.vi[at];
      w.ii[part] = now.gr * w.vi[at] + now.gi * w.vr[at];
    },
    rate(w, y, rate) {
      rate[state] = mode.turning ? (torque(w) - resisting(y[state])) * perInertia : 0;
    },
    guards: (of) =>
      of.head === undefined || head === null
        ? events.guards(of)
        : [...events.guards(of), head.guard(of.head)],
    guardValues(w, y, values, offset) {
      let i = offset;
      if (mode.connected || mode.turning) {
        if (events.hasSwitch && mode.stuck === undefined)
          values[i++] = y[state] - (mode.startSwitch ? opens : closes);
        if (mode.turning) values[i++] = y[state] + AT_REST_radps;
        else if (mode.held !== true) values[i++] = torque(w) - resisting(0) - BREAKAWAY_Nm;
      }
      if (mode.head !== undefined && head !== null) values[i] = head.value(mode.head, mode.turning);
    },
    scheduled: (of) =>
      of.head === undefined || head === null
        ? events.contact(of)
        : [...events.contact(of), ...head.scheduled(of.head)],
    reduce(event, y, of) {
      if (event.name === events.rests) y[state] = 0;
      const next = head !== null && of.head !== undefined ? head.reduce(event, of.head) : null;
      return next === null ? withHead(events.reduce(event, of), event, head) : { ...of, head: next };
    },
    conducts: (of) => of.connected,
    power: (w, y) => powerOf(w, y[state], torque(w), resisting(y[state])),
    scripted: (of, script) => scripted(of, script, p, machine.startSwitch !== null),
  };

  /** Rotor losses from slip times the power of each field; the shaft gets what its load takes. */
  function powerOf(w: Walk, speed: number, motorTorque: number, load: number): PowerUse {
    if (!mode.connected) return shaftOnly(speed, load, mode.turning);
    const v2 = w.vr[at] ** 2 + w.vi[at] ** 2;
    const branch = auxiliaryBranch(machine, mode.startSwitch);
    const a = machine.auxiliary?.turnsRatio ?? 0;
    const slip = 1 - speed * perSynchronous;
    const main = now.mainR ** 2 + now.mainI ** 2;
    const auxiliary = now.auxiliaryR ** 2 + now.auxiliaryI ** 2;
    const forward = (now.mainR + a * now.auxiliaryI) ** 2 + (now.mainI - a * now.auxiliaryR) ** 2;
    const backward = (now.mainR - a * now.auxiliaryI) ** 2 + (now.mainI + a * now.auxiliaryR) ** 2;
    const copper = main * machine.main.r_ohm + auxiliary * (branch?.r_ohm ?? 0);
    const rotor = slip * forward * now.forwardR + (2 - slip) * backward * now.backwardR;
    const shaft = mode.turning ? load * speed : 0;
    const stored = mode.turning ? (motorTorque - load) * speed : 0;
    return { lost_W: v2 * (copper + rotor + 1 / machine.core_ohm), shaft_W: shaft, stored_W: stored };
  }
}

const shaftOnly = (speed: number, load: number, turning: boolean): PowerUse => ({
  lost_W: 0,
  shaft_W: turning ? load * speed : 0,
  stored_W: turning ? -load * speed : 0,
});

/** Its own contact, its failures and its head as a story asks for them. */
function scripted(of: MotorMode, script: Script, p: MotorParameters, hasSwitch: boolean): MotorMode {
  const connects_s = script.connects_s(p.name);
  const opens_s = script.opens_s?.(p.name);
  const held = script.held?.(p.name) === true;
  const asked = p.compressor === undefined ? null : (script.head?.(p.name) ?? null);
  const next = {
    ...of,
    connects_s,
    connected: connects_s <= 0 || of.connected,
    ...(opens_s === undefined && of.opens_s === undefined ? {} : { opens_s }),
    ...(held || of.held ? { held } : {}),
    ...(asked === null ? {} : { head: asked === "loaded" ? fullHead : emptyHead }),
  };
  const failed = hasSwitch ? stuckBy(next, script, p.name) : next;
  return failed.stuck === undefined ? failed : { ...failed, startSwitch: failed.stuck === "closed" };
}

/** What breaking away and coming to rest make of a full head. */
function withHead(of: MotorMode, event: Event, head: HeadEvents | null): MotorMode {
  if (head === null || of.head === undefined) return of;
  const next = of.turning ? head.breaksAway(of.head) : head.atRest(of.head, event.t);
  return next === of.head ? of : { ...of, head: next };
}

export interface MotorEvents {
  readonly hasSwitch: boolean;
  readonly opens: string;
  readonly closes: string;
  readonly rests: string;
  guards(mode: MotorMode): readonly PartGuard[];
  connects(mode: MotorMode): readonly Event[];
  /** When its own contact closes or opens next. */
  contact(mode: MotorMode): readonly Event[];
  reduce(event: Event, mode: MotorMode): MotorMode;
}

/** The events of a motor by name, and what they make of its mode. */
export function motorEvents(name: string, hasSwitch: boolean): MotorEvents {
  const connects = eventName(name, "is connected");
  const disconnects = eventName(name, "is disconnected");
  const opens = eventName(name, "start switch opens");
  const closes = eventName(name, "start switch closes");
  const rests = eventName(name, "comes to rest");
  const breaksAway = eventName(name, "breaks away");
  const guard = (
    what: string,
    direction: "rising" | "falling",
    level: boolean,
    electrical: boolean,
  ): PartGuard => ({
    name: what,
    direction,
    level,
    electrical,
  });
  const opening = guard(opens, "rising", true, false);
  const closing = guard(closes, "falling", true, false);
  const resting = guard(rests, "falling", true, false);
  const breaking = guard(breaksAway, "rising", true, true);
  return {
    hasSwitch,
    opens,
    closes,
    rests,
    guards(mode) {
      if (!mode.connected && !mode.turning) return [];
      const shaft = mode.turning ? resting : breaking;
      const ofSwitch = hasSwitch && mode.stuck === undefined;
      if (mode.held === true && !mode.turning) return ofSwitch ? [mode.startSwitch ? opening : closing] : [];
      return ofSwitch ? [mode.startSwitch ? opening : closing, shaft] : [shaft];
    },
    connects: (mode) => [{ name: connects, t: mode.connects_s }],
    contact(mode) {
      const t = mode.connected ? (mode.opens_s ?? Number.POSITIVE_INFINITY) : mode.connects_s;
      return t === Number.POSITIVE_INFINITY ? [] : [{ name: mode.connected ? disconnects : connects, t }];
    },
    reduce(event, mode) {
      if (event.name === connects) return { ...mode, connected: true };
      if (event.name === disconnects)
        return { ...mode, connected: false, connects_s: Number.POSITIVE_INFINITY, opens_s: undefined };
      if (event.name === opens) return { ...mode, startSwitch: false };
      if (event.name === closes) return { ...mode, startSwitch: true };
      if (event.name === rests) return { ...mode, turning: false };
      return { ...mode, turning: true };
    },
  };
}
