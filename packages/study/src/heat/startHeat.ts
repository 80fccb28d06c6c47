import {
  atFrequency,
  type CircuitPlant,
  type Machine,
  type Mode,
  type MotorMode,
  magnitude,
  steadyState,
  synchronousSpeed_radps,
} from "@startgap/circuit";
import type { Recorder } from "@startgap/ode";

/** What the starts of a story did to one motor. */
export interface StartHeat {
  /** Its start winding was in circuit and live for so long. */
  readonly startWinding_s: number;
  /** True when its start winding was still in circuit at the end. */
  readonly staysIn: boolean;
  /** Heat lost in it while it was in start: until its speed had settled within a twentieth. */
  readonly energy_J: number;
}

interface Sum {
  startWinding_s: number;
  energy_J: number;
  t: number;
  live: boolean;
  inStart: boolean;
  loss_W: number;
  staysIn: boolean;
}

/** A start is over once the motor turns at this part of synchronous speed. */
const UP = 0.9;

/** All that a machine turns to heat at one instant, W. */
export function loss_W(machine: Machine, voltage_V: number, slip: number, switchClosed: boolean): number {
  const at = steadyState(machine, voltage_V, slip, switchClosed);
  return at.mainLoss_W + at.auxiliaryLoss_W + at.rotorLoss_W + at.coreLoss_W;
}

/** Watches every motor of a story: how long its start winding is in, what a start loses in it. */
export function startHeatOf(plant: CircuitPlant): {
  readonly recorder: Recorder<Mode>;
  readonly heats: () => ReadonlyMap<string, StartHeat>;
} {
  const { circuit, places } = plant.layout;
  const motors = circuit.parts.flatMap((p, i) => {
    if (p.is !== "motor") return [];
    const machine = atFrequency(p.machine, places[i].frequency_Hz);
    const sum: Sum = {
      startWinding_s: 0,
      energy_J: 0,
      t: 0,
      live: false,
      inStart: false,
      loss_W: 0,
      staysIn: false,
    };
    return [{ name: p.name, i, machine, synchronous: synchronousSpeed_radps(machine), sum }];
  });
  const recorder: Recorder<Mode> = {
    interior: true,
    sample(t, y, mode) {
      const walk = plant.solve(y, mode);
      for (const { i, machine, synchronous, sum } of motors) {
        const { connected, startSwitch } = mode[i] as MotorMode;
        const volts = magnitude(walk, places[i].at);
        const share = y[places[i].state] / synchronous;
        const live = connected && startSwitch && machine.auxiliary !== null && volts > 1;
        const inStart = connected && volts > 1 && share < UP;
        const lost = inStart ? loss_W(machine, volts, 1 - share, startSwitch) : 0;
        const dt = t - sum.t;
        if (live && sum.live) sum.startWinding_s += dt;
        if (sum.inStart) sum.energy_J += (dt * (lost + sum.loss_W)) / (inStart ? 2 : 1);
        Object.assign(sum, { t, live, inStart, loss_W: lost, staysIn: live });
      }
    },
  };
  const heats = (): Map<string, StartHeat> =>
    new Map(
      motors.map(({ name, sum: { startWinding_s, staysIn, energy_J } }) => [
        name,
        { startWinding_s, staysIn, energy_J },
      ]),
    );
  return { recorder, heats };
}
