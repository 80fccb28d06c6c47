import { type MotorMode, type MotorParameters, synchronousSpeed_radps } from "@startgap/circuit";
import type { MotorOutcome, MotorResult } from "../results.ts";
import { runUp_s } from "../runUp.ts";
import type { Telling } from "../telling.ts";

const RPM = 30 / Math.PI;
/** A motor that ends below this fraction of synchronous speed has stalled, where it has no start switch. */
const RUNS_ABOVE = 0.75;
/** Its speed has settled when it changes by less than this fraction of synchronous speed a second. */
const SETTLED_per_s = 0.02;

export function motorResult(told: Telling, part: number, p: MotorParameters): MotorResult {
  const { recording, plant } = told;
  const { channels } = recording;
  const speed = channels.state + plant.layout.places[part].state;
  const live = channels.live + part;
  const last = recording.rows - 1;
  let closedRow = -1;
  let peak = 0;
  let lowest = Number.POSITIVE_INFINITY;
  for (let row = 0; row <= last; row++) {
    if (recording.at(row, live) === 0) continue;
    if (closedRow < 0) closedRow = row;
    peak = Math.max(peak, recording.at(row, channels.current + part));
    lowest = Math.min(lowest, recording.at(row, channels.voltage + part));
  }
  const outcome = outcomeOf(told, part, p, speed);
  const settles = outcome === "running" && isSettled(told, part, p);
  const closed_s = closedRow < 0 ? null : recording.at(closedRow, 0);
  return {
    part: p.name,
    outcome,
    closed_s,
    switchOpened_s: closed_s === null ? null : switchOpened_s(told, p.name, closed_s),
    runUp_s: closedRow < 0 ? null : runUp_s(recording, speed, closedRow, settles),
    peakCurrent_A: peak,
    lowestVoltage_V: closedRow < 0 ? null : lowest,
    finalSpeed_rpm: recording.at(last, speed) * RPM,
    finalCurrent_A: recording.at(last, channels.current + part),
  };
}

function outcomeOf(told: Telling, part: number, p: MotorParameters, speed: number): MotorOutcome {
  const { recording, plant } = told;
  const last = recording.rows - 1;
  if (recording.at(last, recording.channels.live + part) === 0) {
    return behindMeltedFuse(told, part) ? "tripped" : "off";
  }
  const synchronous =
    synchronousSpeed_radps(p.machine) * (plant.layout.places[part].frequency_Hz / p.machine.frequency_Hz);
  const threshold = (p.machine.startSwitch?.opens ?? RUNS_ABOVE) * synchronous;
  const mode = recording.modeAt(last)[part] as MotorMode;
  const outOfStart = p.machine.startSwitch === null || !mode.startSwitch;
  return outOfStart && recording.at(last, speed) >= Math.min(threshold, RUNS_ABOVE * synchronous)
    ? "running"
    : "stalled";
}

function behindMeltedFuse(told: Telling, part: number): boolean {
  const { feeders, circuit } = told.plant.layout;
  const { models } = told.plant;
  const mode = told.recording.modeAt(told.recording.rows - 1);
  for (let i = feeders[part]; i >= 0; i = feeders[i]) {
    if (circuit.parts[i].is === "fuse" && !models[i].conducts(mode[i])) return true;
  }
  return false;
}

function isSettled(told: Telling, part: number, p: MotorParameters): boolean {
  const { recording, plant } = told;
  const last = recording.rows - 1;
  const states = plant.layout.states;
  const y = Array.from({ length: states }, (_, i) => recording.at(last, recording.channels.state + i));
  const rate = new Array<number>(states).fill(0);
  plant.derivative(recording.at(last, 0), y, recording.modeAt(last), rate);
  return Math.abs(rate[plant.layout.places[part].state]) < SETTLED_per_s * synchronousSpeed_radps(p.machine);
}

function switchOpened_s(told: Telling, name: string, closed_s: number): number | null {
  const opened = told.events.find(
    ({ name: event, t }) => event === `${name}: start switch opens` && t >= closed_s,
  );
  return opened === undefined ? null : opened.t - closed_s;
}
