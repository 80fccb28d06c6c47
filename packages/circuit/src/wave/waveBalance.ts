import type { Mode } from "../guardTable.ts";
import type { WavePlant } from "./wavePlant.ts";

/**
 * Instantaneous power balance: what leaves the supply's electromotive force against losses, shaft power and
 * the rates of energy in fields, capacitors and rotors.
 *
 * Stored power is taken from each part's own fluxes and rates, not from the folded law.
 *
 * @returns |imbalance| over the largest term, 0 for an exact solution of the network
 */
export function waveBalance(plant: WavePlant, t: number, y: readonly number[], mode: Mode): number {
  const walk = plant.solve(t, y, mode);
  let sum = 0;
  let scale = 1;
  for (const model of plant.models) {
    const { lost_W, shaft_W, stored_W } = model.power(walk, y);
    sum += lost_W + shaft_W + stored_W;
    scale = Math.max(scale, Math.abs(lost_W), Math.abs(shaft_W), Math.abs(stored_W));
  }
  return Math.abs(sum) / scale;
}
