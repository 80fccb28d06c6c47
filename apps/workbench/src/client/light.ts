/**
 * Light of a filament lamp goes with about the 3.4th power of its voltage.
 *
 * Source: common practice for incandescent lamps near their rated voltage, exponents of 3.3 to 3.6 are in use.
 */
const EXPONENT = 3.4;

/** A filament follows its voltage with a lag; it also keeps a chattering contactor from flashing. */
const LAG_s = 0.08;

/** Samples a second: as often as a screen shows a picture. */
export const SAMPLES_PER_s = 60;

/** Fraction of its normal light that a lamp gives at a fraction of its voltage. */
export const lightAt = (share: number): number => Math.max(0, share) ** EXPONENT;

/**
 * Light of a lamp along a story, evenly sampled from 0 s on.
 *
 * @param time_s   ascending; equal times stand on both sides of a jump
 * @param voltage_V one for every time
 */
export function lightCurve(
  time_s: Float64Array,
  voltage_V: Float64Array,
  nominal_V: number,
  end_s: number,
): Float32Array {
  const light = new Float32Array(Math.floor(end_s * SAMPLES_PER_s) + 1);
  const follows = 1 - Math.exp(-1 / (SAMPLES_PER_s * LAG_s));
  let row = 0;
  /** Before the story the lamps burn as always. */
  light[0] = 1;
  for (let i = 1; i < light.length; i++) {
    const middle = (i - 0.5) / SAMPLES_PER_s;
    while (row < time_s.length - 1 && time_s[row + 1] <= middle) row++;
    const settled = lightAt(valueAt(time_s, voltage_V, row, middle) / nominal_V);
    light[i] = light[i - 1] + (settled - light[i - 1]) * follows;
  }
  return light;
}

function valueAt(time_s: Float64Array, values: Float64Array, row: number, t: number): number {
  if (row >= time_s.length - 1) return values[row] ?? 0;
  const part = (t - time_s[row]) / (time_s[row + 1] - time_s[row]);
  return part > 0 ? values[row] + Math.min(1, part) * (values[row + 1] - values[row]) : values[row];
}

export function lightOf(curve: Float32Array, t: number): number {
  const at = Math.min(curve.length - 1, Math.max(0, Math.round(t * SAMPLES_PER_s)));
  return curve[at] ?? 0;
}
