import type { Story } from "@startgap/study";

/** How long a clamp meter's inrush reading averages: common practice, no source. */
export const CLAMP_WINDOW_s = 0.1;

/** Integral of a square between two samples of its root, straight in between: (a^2 + ab + b^2)/3 a second. */
const squares = (a: number, b: number): number => (a * a + a * b + b * b) / 3;

/**
 * What a clamp meter shows of one part's current: the rms over a window.
 *
 * @param part   name of the part whose wire the jaw is around
 * @param from_s start of the window on the story's clock
 * @param window_s length of the window, above 0
 * @returns rms current, A; null where the story has no such current, or ends before the window does
 *
 * Assumes the current straight between samples. Checked by test/reportClamp.test.ts against closed forms.
 */
export function clampReading_A(
  story: Story,
  part: string,
  from_s: number,
  window_s = CLAMP_WINDOW_s,
): number | null {
  const { time_s, columns } = story.traces;
  const current = columns.find((column) => column.part === part && column.quantity === "current")?.values;
  const to_s = from_s + window_s;
  if (current === undefined || time_s.length === 0 || time_s[time_s.length - 1] < to_s) return null;
  let sum = 0;
  for (let i = 1; i < time_s.length; i += 1) {
    const [a, b] = [Math.max(time_s[i - 1], from_s), Math.min(time_s[i], to_s)];
    if (b <= a) continue;
    const slope = (current[i] - current[i - 1]) / (time_s[i] - time_s[i - 1]);
    const at = (t: number): number => current[i - 1] + slope * (t - time_s[i - 1]);
    sum += squares(at(a), at(b)) * (b - a);
  }
  return Math.sqrt(sum / window_s);
}
