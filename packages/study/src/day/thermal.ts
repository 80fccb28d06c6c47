import type { Day, Enclosure } from "@startgap/cabinet";
import { airAt_C } from "../heat/day.ts";
import { boxAfter, boxCapacity_JpK, settledInside_C, sunNow_W } from "./boxBody.ts";
import { coldMotor, heatCapacity_JpK, type MotorBody, type MotorState, motorAfter } from "./motorBody.ts";
import type { HeatBalance } from "./results.ts";
import type { SumLayout } from "./sums.ts";
import { bodyCapacity_JpK, type WoundBody, type WoundState, woundAfter } from "./woundBody.ts";

/** Everything that has a temperature. */
export interface Bodies {
  readonly motors: readonly MotorBody[];
  readonly wound: readonly WoundBody[];
  readonly box: Enclosure | null;
  /** Air outside through the day. */
  readonly air: Day;
}

/** Temperatures of one moment. */
export interface Warmth {
  readonly time_s: number;
  readonly motors: readonly MotorState[];
  readonly wound: readonly WoundState[];
  readonly outside_C: number;
  /** Air around fuses and transformers: of the box, else outside. */
  readonly inside_C: number;
}

/** What was lost between two moments. */
export interface Lost {
  /** Sums of the stretch, as `SumLayout` has them. */
  readonly sums: ArrayLike<number>;
  readonly turning: readonly boolean[];
}

interface Account {
  lost_J: number;
  shed_J: number;
}

export interface Thermal {
  readonly now: () => Warmth;
  advance(time_s: number, lost: Lost): Warmth;
  readonly motors: () => HeatBalance;
  readonly inBox: () => HeatBalance;
}

/** Temperatures at midnight: motors as cold as the air, transformers idle for long, the box with them. */
function atMidnight({ motors, wound, box, air }: Bodies, idle_W: readonly number[]): Warmth {
  const outside_C = airAt_C(air, 0);
  const settled = wound.map((b, k) => woundAfter(b, { core_K: 0, winding_K: 0 }, SETTLED_s, 0, idle_W[k]));
  const all = idle_W.reduce((sum, w) => sum + w, 0);
  return {
    time_s: 0,
    motors: motors.map(() => coldMotor),
    wound: settled.map(({ core_K, winding_K }) => ({ core_K, winding_K })),
    outside_C,
    inside_C: box === null ? outside_C : settledInside_C(box, all, outside_C),
  };
}

const SETTLED_s = 48 * 3600;

/**
 * The temperatures of a cabinet, moved on from row to row with what was lost in between.
 *
 * Motors stand in the air outside; transformers, fuses and coils in the box. Within one stretch of at most five minutes
 * parts see the air of its beginning, and the air what they shed in it: both lag by less than the stretch.
 *
 * @param idle_W core loss of every transformer when nothing runs
 */
export function thermalOf(bodies: Bodies, layout: SumLayout, idle_W: readonly number[]): Thermal {
  const { at } = layout;
  let now = atMidnight(bodies, idle_W);
  const first = now;
  const motors: Account = { lost_J: 0, shed_J: 0 };
  const box: Account = { lost_J: 0, shed_J: 0 };

  const movedMotors = (lost: Lost, dt: number): MotorState[] =>
    bodies.motors.map((b, k) => {
      const from = now.motors[k];
      const loss_J = lost.sums[at.motor_J + k];
      const seconds = lost.sums[at.startWinding_s + k];
      const next = motorAfter(b, from, now.outside_C, dt, loss_J / dt, seconds, lost.turning[k]);
      motors.lost_J += loss_J;
      motors.shed_J += loss_J - heatCapacity_JpK(b) * (next.rise_K - from.rise_K);
      return next;
    });

  const movedWound = (lost: Lost, dt: number): { states: WoundState[]; shed_J: number } => {
    let shed = 0;
    const states = bodies.wound.map((b, k) => {
      const winding_J = lost.sums[at.winding_J + k];
      const core_J = b.core_S * lost.sums[at.square_V2s + k];
      const { shed_J, ...state } = woundAfter(b, now.wound[k], dt, winding_J / dt, core_J / dt);
      shed += shed_J;
      box.lost_J += winding_J + core_J;
      return state;
    });
    return { states, shed_J: shed };
  };

  return {
    now: () => now,
    advance(time_s, lost) {
      const dt = time_s - now.time_s;
      if (!(dt > 0)) return now;
      const { air, box: enclosure } = bodies;
      const outside_C = airAt_C(air, time_s / 3600);
      const middle_s = (now.time_s + time_s) / 2;
      const small_J = lost.sums[at.small_J];
      const { states, shed_J } = movedWound(lost, dt);
      let inside_C = outside_C;
      if (enclosure !== null) {
        const sun_J = sunNow_W(enclosure, middle_s) * dt;
        const outside = airAt_C(air, middle_s / 3600);
        const loss_W = (shed_J + small_J + sun_J) / dt;
        const next = boxAfter(enclosure, now.inside_C, outside, dt, loss_W);
        inside_C = next.air_C;
        box.lost_J += small_J + sun_J;
        box.shed_J += next.shed_J;
      } else {
        box.lost_J += small_J;
        box.shed_J += shed_J + small_J;
      }
      now = { time_s, motors: movedMotors(lost, dt), wound: states, outside_C, inside_C };
      return now;
    },
    motors: () => ({ ...motors, stored_J: storedInMotors(bodies, first, now) }),
    inBox: () => ({ ...box, stored_J: storedInBox(bodies, first, now) }),
  };
}

function storedInMotors({ motors }: Bodies, first: Warmth, now: Warmth): number {
  return motors.reduce(
    (sum, b, k) => sum + heatCapacity_JpK(b) * (now.motors[k].rise_K - first.motors[k].rise_K),
    0,
  );
}

function storedInBox({ wound, box }: Bodies, first: Warmth, now: Warmth): number {
  const cores = wound.reduce(
    (sum, b, k) => sum + bodyCapacity_JpK(b) * (now.wound[k].core_K - first.wound[k].core_K),
    0,
  );
  return box === null ? cores : cores + boxCapacity_JpK(box) * (now.inside_C - first.inside_C);
}
