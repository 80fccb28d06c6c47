import { type Machine, steadyState } from "@startgap/circuit";

export interface Breakdown {
  readonly slip: number;
  readonly torque_Nm: number;
}

/** Slips at which a crest is looked for first: ten, in even ratio. */
const FIRST_SLIP = 0.01;
const GRID = Array.from({ length: 10 }, (_, k) => FIRST_SLIP * (1 / FIRST_SLIP) ** (k / 9));
const GOLDEN = (Math.sqrt(5) - 1) / 2;
const NARROWINGS = 12;

/**
 * Breakdown torque: the most that the shaft can give in the running connection (start switch open).
 *
 * The best of ten slips from 0.01 to 1, then golden section between its neighbours to about 0.3 % of the
 * slip; the torque, flat at its crest, is then right to 1e-5.
 *
 * @param voltage_V rms at the terminals, as `steadyState`
 * @returns slip 0.01 to 1 and shaft torque, windage and friction taken off
 *
 * Source: NEMA MG 1 part 1, definition of breakdown torque. Checked by packages/cabinet/test/motor-fit.test.ts.
 */
export function breakdown(machine: Machine, voltage_V: number): Breakdown {
  const torque = (slip: number): number => steadyState(machine, voltage_V, slip, false).shaftTorque_Nm;
  const torques = GRID.map(torque);
  const k = torques.indexOf(Math.max(...torques));
  let low = Math.log(GRID[Math.max(0, k - 1)]);
  let high = Math.log(GRID[Math.min(GRID.length - 1, k + 1)]);
  let left = high - GOLDEN * (high - low);
  let right = low + GOLDEN * (high - low);
  let [atLeft, atRight] = [torque(Math.exp(left)), torque(Math.exp(right))];
  for (let i = 0; i < NARROWINGS; i++) {
    if (atLeft > atRight) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - GOLDEN * (high - low);
      atLeft = torque(Math.exp(left));
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + GOLDEN * (high - low);
      atRight = torque(Math.exp(right));
    }
  }
  return atLeft > atRight
    ? { slip: Math.exp(left), torque_Nm: atLeft }
    : { slip: Math.exp(right), torque_Nm: atRight };
}
