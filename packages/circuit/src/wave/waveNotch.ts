/** How many states a notch owns: the swing of the square, and its integral. */
export const NOTCH_STATES = 2;

/** Mean square of a wave: its square less what of it swings at twice the supply's frequency. */
export interface Notch {
  names(of: string): readonly string[];
  /** Its states in the steady state of a phasor, at the angle of the supply's voltage at 0 s. */
  states(re: number, im: number, angle_rad: number): number[];
  mean(wave: number, y: readonly number[]): number;
  rate(mean: number, y: readonly number[], rate: number[]): void;
}

/**
 * With a = 2 omega: (s^2 + a^2)/(s + a)^2 of the square. No swing is left of a steady wave, and a change is felt
 * 2/a late, 2.7 ms at 60 Hz.
 *
 * @param state the first of its two states
 */
export function notch(omega_radps: number, state: number): Notch {
  const a = 2 * omega_radps;
  return {
    names: (of) => [`swing of the squared ${of}`, `integrated swing of the squared ${of}`],
    states(re, im, angle) {
      const square = re * re + im * im;
      const theta = 2 * (angle + Math.atan2(im, re));
      return [square * Math.cos(theta), (square * (2 + Math.sin(theta))) / a];
    },
    mean: (wave, y) => wave * wave - y[state],
    rate(mean, y, rate) {
      rate[state] = 2 * a * mean - a * a * y[state + 1];
      rate[state + 1] = y[state];
    },
  };
}
