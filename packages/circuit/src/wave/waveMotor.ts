import { headEvents, isLoaded } from "../head.ts";
import { atFrequency, synchronousSpeed_radps } from "../machineAdmittance.ts";
import { eventName } from "../model.ts";
import { type MotorMode, type MotorParameters, motorModel } from "../motor.ts";
import type { LoadTorque } from "../torque.ts";
import { AUXILIARY, axesOf, blankAxes, CAPACITOR, MAIN, ROTOR_D, ROTOR_Q, SPEED } from "./motorAxes.ts";
import { branch } from "./waveBranch.ts";
import { plainWave, type WaveModel, type WavePlacement } from "./waveModel.ts";
import { type Parting, partingGuards, signOf } from "./waveParting.ts";

/** The envelope's mode, and what an arc adds to it: a contact parts at its next current zero. */
export interface MotorWaveMode extends MotorMode {
  /** True while the auxiliary winding can carry current. */
  readonly carries: boolean;
  /** The start switch, between being thrown and the auxiliary current's zero. */
  readonly parting: Parting;
  /** Its own contact, between being told to open and the line current's zero. */
  readonly leaving: Parting;
}

/** Offset of the core's current behind the states of its axes. */
const CORE = 6;

const BREAKAWAY_Nm = 1e-9;
const AT_REST_radps = 1e-9;

/** Load and friction against the shaft, as powers of its speed. */
function resistanceOf(load: LoadTorque, synchronous_radps: number, drag: number) {
  const rise = load.atFullSpeed_Nm - load.atRest_Nm;
  const isSquare = load.shape === "square";
  return {
    atRest: load.atRest_Nm,
    linear: drag + (isSquare ? 0 : rise / synchronous_radps),
    square: isSquare ? rise / synchronous_radps ** 2 : 0,
  };
}

/**
 * A motor as flux linkages on its shaft. Shaft, start switch, own contact and head obey the envelope's own rules;
 * the start switch, told to open, opens at the next zero of the auxiliary current, the contact at the line's.
 *
 * Cut off from the line, the windings go on with their terminal currents summing to zero, v = -alpha/beta: a lone
 * main winding carries none, and the rotor's flux decays by its own resistance; with the auxiliary branch
 * closed a current circulates through both. The envelope lets all that vanish at once.
 */
export function motorWave(p: MotorParameters, place: WavePlacement): WaveModel<MotorWaveMode> {
  const { part, at, state } = place;
  const machine = atFrequency(p.machine, place.frequency_Hz);
  const rules = motorModel(p, { ...place, state: state + SPEED });
  const head = p.compressor === undefined ? null : headEvents(p.name, p.compressor, place);
  const axes = axesOf(machine);
  const now = blankAxes();
  /** Voltage at its own terminals and its acceleration, kept from fold to rate. */
  const held = { v: 0, accelerates: 0 };
  const synchronous = synchronousSpeed_radps(machine);
  const drag = machine.rotationalLoss_W / synchronous ** 2;
  const switchOpens = (machine.startSwitch?.opens ?? 1) * synchronous;
  const switchCloses = (machine.startSwitch?.closes ?? 0) * synchronous;
  const hasSwitch = machine.startSwitch !== null;
  const always = machine.runCapacitor !== null;
  const r1 = machine.main.r_ohm;
  const perA = 1 / (machine.auxiliary?.turnsRatio ?? 1);
  const perJ = 1 / p.inertia_kgm2;
  const core = Number.isFinite(machine.core_ohm) ? branch(at, place.omega_radps, machine.core_ohm, 0) : null;
  const thrown = partingGuards(eventName(p.name, "auxiliary current passes zero"));
  const opened = partingGuards(eventName(p.name, "line current passes zero"));
  const withArm = (of: MotorMode): MotorWaveMode => ({
    ...of,
    carries: machine.auxiliary !== null && (of.startSwitch || always),
    parting: 0,
    leaving: 0,
  });
  let mode = withArm(rules.start.mode);
  const start = mode;
  let arm = axes.arm(mode.startSwitch, mode.carries);
  let resists = resistanceOf(p.drives, synchronous, drag);
  let live = false;
  let turning = false;
  const resisting = (speed: number): number =>
    resists.atRest + speed * (resists.linear + speed * resists.square);
  const isDead = (y: readonly number[]): boolean =>
    y[state] === 0 && y[state + ROTOR_Q] === 0 && y[state + ROTOR_D] === 0 && y[state + CAPACITOR] === 0;

  return {
    ...plainWave,
    stateNames: [
      `main flux of ${p.name}`,
      `auxiliary flux of ${p.name}`,
      `rotor q flux of ${p.name}`,
      `rotor d flux of ${p.name}`,
      `capacitor voltage of ${p.name}`,
      `speed of ${p.name}`,
      ...(core === null ? [] : [`core current of ${p.name}`]),
    ],
    start,
    speedState: state + SPEED,
    states: () => new Array<number>(core === null ? 6 : 7).fill(0),
    enter(next) {
      mode = next;
      live = next.connected || next.leaving !== 0;
      turning = next.turning;
      arm = axes.arm(next.startSwitch || next.parting !== 0, next.carries);
      const loaded = next.head !== undefined && isLoaded(next.head) && p.compressor;
      resists = resistanceOf(loaded ? p.compressor.loaded : p.drives, synchronous, drag);
    },
    fold(w, y) {
      refresh(y);
      if (!live) {
        held.v = now.beta > 0 ? -now.alpha / now.beta : 0;
        return;
      }
      w.alpha[at] += now.alpha;
      w.beta[at] += now.beta;
      w.current[at] += now.line;
    },
    unfold(w) {
      if (live) held.v = w.v[at];
      w.into[part] = live ? now.line : 0;
      w.rate[part] = live ? now.alpha + now.beta * held.v : 0;
    },
    rate(_, y, rate) {
      const { carries, r, perC } = arm;
      const { v } = held;
      rate[state + MAIN] = v - r1 * now.main;
      rate[state + AUXILIARY] = carries ? (v - y[state + CAPACITOR] - r * now.auxiliary) * perA : 0;
      rate[state + ROTOR_Q] = now.rateQ;
      rate[state + ROTOR_D] = now.rateD;
      rate[state + CAPACITOR] = now.auxiliary * perC;
      rate[state + SPEED] = held.accelerates;
      if (core !== null) rate[state + CORE] = core.rate(v, y[state + CORE]);
    },
    guards(of) {
      const guards = rules.guards(of);
      if (of.parting === 0 && of.leaving === 0) return guards;
      return [...guards, ...thrown.guards(of.parting), ...opened.guards(of.leaving)];
    },
    guardValues(_, y, values, offset) {
      let i = offset;
      const speed = y[state + SPEED];
      if (mode.connected || mode.turning) {
        if (hasSwitch && mode.stuck === undefined)
          values[i++] = speed - (mode.startSwitch ? switchOpens : switchCloses);
        if (mode.turning) values[i++] = speed + AT_REST_radps;
        else if (mode.held !== true) values[i++] = now.torque - resisting(0) - BREAKAWAY_Nm;
      }
      if (mode.head !== undefined && head !== null) values[i++] = head.value(mode.head, mode.turning);
      if (mode.parting !== 0) values[i++] = now.auxiliary;
      if (mode.leaving !== 0) values[i] = now.line;
    },
    scheduled: rules.scheduled,
    reduce(event, y, of) {
      if (event.name === thrown.name) return { ...of, parting: 0, carries: always };
      if (event.name === opened.name) return { ...of, leaving: 0 };
      const next = { ...of, ...rules.reduce(event, y, of) };
      if (next.connected !== of.connected) return { ...next, leaving: next.connected ? 0 : signOf(now.line) };
      if (next.startSwitch === of.startSwitch) return next;
      return next.startSwitch ? reclosed(next, y) : throwsOut(next);
    },
    scripted(of, script) {
      const asked = rules.scripted(of, script);
      return asked.startSwitch === of.startSwitch ? { ...of, ...asked } : withArm(asked);
    },
    power(_, y) {
      const { v, accelerates } = held;
      const speed = y[state + SPEED];
      const i = core === null ? 0 : y[state + CORE];
      const ra = arm.r;
      const shaft_W = mode.turning ? resisting(speed) * speed : 0;
      const copper = r1 * now.main ** 2 + ra * now.auxiliary ** 2;
      const field =
        now.main * (v - r1 * now.main) +
        now.auxiliary * (v - ra * now.auxiliary) +
        now.rotorQ * now.rateQ +
        now.rotorD * now.rateD;
      const idle = core === null ? 0 : core.l * i * core.rate(v, i);
      const kinetic = mode.turning ? p.inertia_kgm2 * accelerates * speed : 0;
      const rotor = now.r2 * (now.rotorQ ** 2 + now.rotorD ** 2);
      const lost_W = copper + rotor + (core === null ? 0 : core.r * i * i);
      return { lost_W, shaft_W, stored_W: field + idle + kinetic };
    },
  };

  function refresh(y: readonly number[]): void {
    const speed = y[state + SPEED];
    if (live || !isDead(y)) axes.solve(y, state, arm, now);
    else if (now.beta !== 0) Object.assign(now, blankAxes());
    const accelerates = turning ? (now.torque - resisting(speed)) * perJ : 0;
    held.accelerates = accelerates;
    if (axes.stiffens) axes.accelerate(speed, accelerates, arm, now);
    if (core === null || now.beta === 0) return;
    const idle = y[state + CORE];
    now.line += idle;
    now.alpha -= core.r * core.beta * idle;
    now.beta += core.beta;
  }

  /** With a run capacitor the branch changes at the zero, else the winding leaves there. */
  function throwsOut(of: MotorWaveMode): MotorWaveMode {
    const sign = of.carries ? signOf(now.auxiliary) : 0;
    return { ...of, parting: sign, carries: sign !== 0 || always };
  }

  /** The auxiliary winding takes up the flux that links it without current. */
  function reclosed(of: MotorWaveMode, y: number[]): MotorWaveMode {
    if (!of.carries) y[state + AUXILIARY] = axes.idleAuxiliary(y[state + ROTOR_D], y[state + SPEED]);
    return { ...of, carries: true, parting: 0 };
  }
}
