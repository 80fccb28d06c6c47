import { USUAL_CORE } from "@startgap/circuit";
import { type Complex, of } from "../nodal/complex.ts";

/** What is known of a core: its idle branch at nominal voltage, and its rating. */
export interface Plate {
  readonly nominal_V: number;
  readonly rating_VA: number;
  readonly idle_W: number;
  readonly magnetising_VA: number;
  readonly frequency_Hz: number;
}

/** Width of the bend, of nominal peak flux. */
const BEND = 0.04;
const STEPS = 20_000;

/**
 * Rms current of the two-slope core against rms voltage, written down again: flux sinusoidal, current a line up to
 * the knee, the air-core slope beyond, joined by a hyperbola 0.04 wide. The first
 * slope is the one that gives the stated volt-amperes at nominal voltage, found by bisection; rms by Simpson's rule.
 */
export function loneWinding(plate: Plate): (voltage_V: number) => Complex {
  const { nominal_V, rating_VA, frequency_Hz } = plate;
  const omega = 2 * Math.PI * frequency_Hz;
  const peak = (Math.SQRT2 * nominal_V) / omega;
  const airSlope = (rating_VA * omega) / (USUAL_CORE.air_pu * nominal_V ** 2);
  const bend = (x: number): number => (x + Math.hypot(x, BEND * peak)) / 2;
  const beyond = (flux: number): number =>
    bend(flux - USUAL_CORE.knee * peak) - bend(-USUAL_CORE.knee * peak);
  const rms = (slope: number, amplitude: number): number => {
    const square = (theta: number): number => {
      const flux = amplitude * Math.sin(theta);
      return (slope * flux + (airSlope - slope) * beyond(flux)) ** 2;
    };
    const h = Math.PI / 2 / STEPS;
    let sum = square(0) + square(Math.PI / 2);
    for (let k = 1; k < STEPS; k++) sum += (k % 2 === 1 ? 4 : 2) * square(k * h);
    return Math.sqrt((sum * h) / 3 / (Math.PI / 2));
  };
  const wanted = plate.magnetising_VA / nominal_V;
  let [low, high] = [0, (2 * wanted) / peak];
  for (let n = 0; n < 60; n++) {
    const middle = (low + high) / 2;
    if (rms(middle, peak) < wanted) low = middle;
    else high = middle;
  }
  const g = plate.idle_W / nominal_V ** 2;
  return (v) => of(g, -rms(high, (peak * v) / nominal_V) / v);
}
