import { atFrequency, type MotorParameters } from "@startgap/circuit";
import { riseAfter_K } from "../heat/body.ts";
import { classOf, fullLoadPoint } from "../heat/motorHeat.ts";
import { DENSITY_Apmm2, LOCKED_C, RATED_RISE_K, SERVICE_RISE_K } from "../heat/stall.ts";
import { factsOf, type Scene } from "../protection/scene.ts";

/** Air that rated rises are counted from, degC. Source: NEMA MG 1 12.42. */
const RATED_AIR_C = 40;
/** Time constants of a small motor, turning and standing with its fan still: common practice, no source (20 min to an hour; twice that). */
export const MOTOR_TAU_s = { turning: 1800, still: 3600 } as const;
/** In which a start winding's heat goes over into the machine: common practice, no source (one to three minutes). */
export const WINDING_TAU_s = 120;

/** What a motor's temperatures follow from. */
export interface MotorBody {
  readonly part: string;
  /** Loss that brings it to its rated rise when it lasts. */
  readonly rated_W: number;
  readonly ratedRise_K: number;
  readonly limit_C: number;
  /** What a start winding may reach; null without a start switch. */
  readonly startWindingLimit_C: { readonly lasting: number; readonly most: number } | null;
  readonly assumed: boolean;
}

export interface MotorState {
  /** Of the winding and the body over the air. */
  readonly rise_K: number;
  /** Of the start winding over these. */
  readonly startWinding_K: number;
}

export const coldMotor: MotorState = { rise_K: 0, startWinding_K: 0 };

/** Lasting temperature of the insulation classes, degC. Source: IEC 60085. */
const CLASS_C = { A: 105, B: 130, F: 155 } as const;

export function motorBodyOf(scene: Scene, p: MotorParameters): MotorBody {
  const facts = factsOf(scene, "motor", p.name);
  const insulation = classOf(facts);
  const ratedRise_K = ((facts?.serviceFactor ?? 1) > 1 ? SERVICE_RISE_K : RATED_RISE_K)[insulation];
  const [supply] = scene.circuit.parts;
  const machine = atFrequency(
    p.machine,
    supply.is === "supply" ? supply.frequency_Hz : p.machine.frequency_Hz,
  );
  const full = p.fullLoad_A === null ? null : fullLoadPoint(machine, p.fullLoad_A);
  return {
    part: p.name,
    rated_W: full?.loss_W ?? Math.max(1, scene.situations.running.lost_W(p.name)),
    ratedRise_K,
    limit_C: RATED_AIR_C + ratedRise_K,
    startWindingLimit_C:
      machine.startSwitch === null ? null : { lasting: CLASS_C[insulation], most: LOCKED_C[insulation] },
    assumed: full === null,
  };
}

/** Heat that a kelvin of the body holds, J: its rated loss over its rated rise times its time constant. */
export const heatCapacity_JpK = (b: MotorBody): number => (b.rated_W / b.ratedRise_K) * MOTOR_TAU_s.turning;

/**
 * A motor after a time of constant losses, exactly: one body whose rise goes to rated rise times loss over rated loss.
 *
 * @param air_C around it
 * @param loss_W mean over the time
 * @param startWinding_s seconds of its locked-rotor current that the start winding carried in it
 */
export function motorAfter(
  b: MotorBody,
  from: MotorState,
  air_C: number,
  time_s: number,
  loss_W: number,
  startWinding_s: number,
  turning: boolean,
): MotorState {
  const tau = turning ? MOTOR_TAU_s.turning : MOTOR_TAU_s.still;
  const end_K = (b.ratedRise_K * loss_W * tau) / (b.rated_W * MOTOR_TAU_s.turning);
  const rise_K = riseAfter_K(from.rise_K, end_K, tau, time_s);
  const before_C = air_C + from.rise_K;
  const heated = startWinding_s > 0 ? adiabaticRise_K(before_C + from.startWinding_K, startWinding_s) : 0;
  const most = Math.max(0, MELTS_C - before_C);
  const hot = Math.min(from.startWinding_K + heated, most);
  return { rise_K, startWinding_K: riseAfter_K(hot, 0, WINDING_TAU_s, time_s) };
}

/** Where copper melts, degC: whatever heats on, nothing is left to be heated. */
const MELTS_C = 1084.6;

/** Constant of IEC 60364-5-54 annex A for copper, A s^0.5/mm2, and the temperature at which copper would lose all resistance. */
const COPPER_K = 226;
const COPPER_C = 234.5;

/**
 * Rise of a copper winding from which no heat has gone: J^2 t = k^2 ln((T2 + 234.5)/(T1 + 234.5)), solved for T2 - T1.
 *
 * @param from_C before; @param time_s at the start winding's assumed locked-rotor density
 * Source: IEC 60364-5-54 annex A. Checked by tests/published/adiabatic-start-winding.
 */
export const adiabaticRise_K = (
  from_C: number,
  time_s: number,
  density_Apmm2: number = DENSITY_Apmm2.start,
): number => (from_C + COPPER_C) * Math.expm1((density_Apmm2 ** 2 * time_s) / COPPER_K ** 2);
