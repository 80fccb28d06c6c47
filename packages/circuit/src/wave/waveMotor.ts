import { atFrequency, synchronousSpeed_radps } from "../machineAdmittance.ts";
import { eventName, type PartGuard } from "../model.ts";
import { type MotorMode, type MotorParameters, motorEvents } from "../motor.ts";
import { loadTorque_Nm } from "../torque.ts";
import { axesOf, blankAxes, type Fluxes } from "./motorAxes.ts";
import { branch } from "./waveBranch.ts";
import { plainWave, type WaveModel, type WavePlacement } from "./waveModel.ts";

/** The envelope's mode, and what an arc adds to it: a contact parts at its next current zero. */
export interface MotorWaveMode extends MotorMode {
  /** True while the auxiliary winding can carry current. */
  readonly carries: boolean;
  /** Sign of the auxiliary current when the start switch opened; 0 while it is not parting. */
  readonly parting: -1 | 0 | 1;
}

/** Offsets of its states. */
const MAIN = 0;
const AUXILIARY = 1;
const ROTOR_Q = 2;
const ROTOR_D = 3;
const CAPACITOR = 4;
const SPEED = 5;
const CORE = 6;

const BREAKAWAY_Nm = 1e-9;
const AT_REST_radps = 1e-9;

/**
 * A motor as flux linkages on its shaft. The shaft, the start switch and the own contact obey the same rules
 * as in the envelope; the start switch, told to open, opens at the next zero of the auxiliary current.
 */
export function motorWave(p: MotorParameters, place: WavePlacement): WaveModel<MotorWaveMode> {
  const { part, at, state } = place;
  const machine = atFrequency(p.machine, place.frequency_Hz);
  const axes = axesOf(machine);
  const now = blankAxes();
  const f: Fluxes = { main: 0, auxiliary: 0, rotorQ: 0, rotorD: 0, capacitor_V: 0 };
  const synchronous = synchronousSpeed_radps(machine);
  const drag = machine.rotationalLoss_W / synchronous ** 2;
  const switchOpens = (machine.startSwitch?.opens ?? 1) * synchronous;
  const switchCloses = (machine.startSwitch?.closes ?? 0) * synchronous;
  const events = motorEvents(p.name, machine.startSwitch !== null);
  const parts = eventName(p.name, "auxiliary current passes zero");
  const parting: Record<string, PartGuard> = {
    "-1": { name: parts, direction: "rising", level: false, electrical: true },
    "1": { name: parts, direction: "falling", level: false, electrical: true },
  };
  const core = Number.isFinite(machine.core_ohm) ? branch(at, machine.core_ohm, 0) : null;
  const hasAuxiliary = machine.auxiliary !== null;
  let mode: MotorWaveMode = {
    connected: false,
    connects_s: Number.POSITIVE_INFINITY,
    startSwitch: hasAuxiliary,
    turning: false,
    carries: hasAuxiliary,
    parting: 0,
  };
  const start = mode;
  const resisting = (speed: number): number => loadTorque_Nm(p.drives, speed, synchronous) + drag * speed;

  const refresh = (y: readonly number[]): void => {
    f.main = y[state + MAIN];
    f.auxiliary = y[state + AUXILIARY];
    f.rotorQ = y[state + ROTOR_Q];
    f.rotorD = y[state + ROTOR_D];
    f.capacitor_V = y[state + CAPACITOR];
    axes.at(f, y[state + SPEED], mode.startSwitch || mode.parting !== 0, mode.carries, now);
  };

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
    states: () => new Array<number>(core === null ? 6 : 7).fill(0),
    enter(next) {
      mode = next;
    },
    fold(w, y) {
      refresh(y);
      if (!mode.connected) return;
      w.alpha[at] += now.alphaMain + now.alphaAuxiliary;
      w.beta[at] += now.betaMain + now.betaAuxiliary;
      w.current[at] += now.main + now.auxiliary;
      core?.fold(w, y[state + CORE]);
    },
    unfold(w, y) {
      const v = w.v[at];
      w.into[part] = mode.connected ? now.main + now.auxiliary + (core === null ? 0 : y[state + CORE]) : 0;
      w.rate[part] = mode.connected
        ? now.alphaMain +
          now.alphaAuxiliary +
          (now.betaMain + now.betaAuxiliary) * v +
          (core?.rate(w, y[state + CORE]) ?? 0)
        : 0;
    },
    rate(w, y, rate) {
      const v = w.v[at];
      const a = machine.auxiliary?.turnsRatio ?? 1;
      const closed = mode.startSwitch || mode.parting !== 0;
      const live = mode.connected;
      rate[state + MAIN] = live ? v - machine.main.r_ohm * now.main : 0;
      rate[state + AUXILIARY] =
        live && mode.carries ? (v - f.capacitor_V - axes.auxiliaryResistance(closed) * now.auxiliary) / a : 0;
      rate[state + ROTOR_Q] = live ? now.rateQ : 0;
      rate[state + ROTOR_D] = live ? now.rateD : 0;
      rate[state + CAPACITOR] = live && mode.carries ? now.auxiliary / axes.capacitance_F(closed) : 0;
      const torque = live ? now.torque : 0;
      rate[state + SPEED] = mode.turning ? (torque - resisting(y[state + SPEED])) / p.inertia_kgm2 : 0;
      if (core !== null) rate[state + CORE] = live ? core.rate(w, y[state + CORE]) : 0;
    },
    guards(of) {
      const shared = events.guards(of);
      return of.parting === 0 ? shared : [...shared, parting[String(of.parting)]];
    },
    guardValues(_, y, values, offset) {
      let i = offset;
      const speed = y[state + SPEED];
      if (mode.connected || mode.turning) {
        if (events.hasSwitch) values[i++] = speed - (mode.startSwitch ? switchOpens : switchCloses);
        values[i++] = mode.turning ? speed + AT_REST_radps : now.torque - resisting(0) - BREAKAWAY_Nm;
      }
      if (mode.parting !== 0) values[i] = now.auxiliary;
    },
    scheduled: (of) =>
      of.connected || of.connects_s === Number.POSITIVE_INFINITY ? [] : events.connects(of),
    reduce(event, y, of) {
      if (event.name === parts) return { ...of, carries: machine.runCapacitor !== null, parting: 0 };
      const next = { ...of, ...events.reduce(event, of) };
      if (event.name === events.rests) y[state + SPEED] = 0;
      if (event.name === events.opens) return opened(next);
      if (event.name === events.closes) return reclosed(next, y);
      return next;
    },
    scripted(of, script) {
      const connects_s = script.connects_s(p.name);
      return { ...of, connects_s, connected: connects_s <= 0 || of.connected };
    },
    power(w, y) {
      const closed = mode.startSwitch || mode.parting !== 0;
      const speed = y[state + SPEED];
      const load = mode.turning ? resisting(speed) * speed : 0;
      if (!mode.connected) return { lost_W: 0, shaft_W: load, stored_W: mode.turning ? -load : 0 };
      const lost = machine.main.r_ohm * now.main ** 2 + axes.auxiliaryResistance(closed) * now.auxiliary ** 2;
      const i = core === null ? 0 : y[state + CORE];
      const coreLost = core === null ? 0 : core.r * i * i;
      const field =
        now.main * (w.v[at] - machine.main.r_ohm * now.main) +
        (mode.carries ? now.auxiliary * (w.v[at] - axes.auxiliaryResistance(closed) * now.auxiliary) : 0) +
        now.rotorQ * now.rateQ +
        now.rotorD * now.rateD +
        (core === null ? 0 : core.l * i * core.rate(w, i));
      const kinetic = mode.turning ? now.torque * speed - load : 0;
      return { lost_W: lost + coreLost + now.rotorLoss, shaft_W: load, stored_W: field + kinetic };
    },
  };

  /** Told to open: with a run capacitor the branch changes at the zero, else the winding leaves there. */
  function opened(of: MotorWaveMode): MotorWaveMode {
    if (!of.carries || now.auxiliary === 0)
      return { ...of, parting: 0, carries: machine.runCapacitor !== null };
    return { ...of, parting: now.auxiliary > 0 ? 1 : -1 };
  }

  /** The auxiliary winding takes up the flux that links it without current. */
  function reclosed(of: MotorWaveMode, y: number[]): MotorWaveMode {
    if (!of.carries) y[state + AUXILIARY] = axes.idleAuxiliary(y[state + ROTOR_D], y[state + SPEED]);
    return { ...of, carries: true, parting: 0 };
  }
}
