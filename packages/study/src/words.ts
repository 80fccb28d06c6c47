/** Figures as a builder would say them: never more digits than the inputs deserve. */
export const seconds = (t: number): string => {
  if (t >= 10) return `${Math.round(t)} s`;
  if (t >= 0.95) return `${t.toFixed(1)} s`;
  return t >= 0.01 ? `${t.toFixed(2)} s` : "under 0.01 s";
};
export const volts = (v: number): string => (v >= 50 ? `${Math.round(v)} V` : `${Number(v.toFixed(1))} V`);
export const amperes = (i: number): string => (i >= 10 ? `${Math.round(i)} A` : `${i.toFixed(1)} A`);
export const percent = (p: number): string => `${Math.round(p)} %`;
export const ratio = (x: number): string => (x >= 10 ? `${Math.round(x)}` : x.toFixed(1));
/** A dial setting as it is set: no trailing zeros. */
export const setting = (t: number): string => `${Number(t.toFixed(2))} s`;
/** A time of day, as "07:05". */
export const clock = (t: number): string => {
  const minutes = Math.floor(t / 60 + 1e-6) % 1440;
  const two = (n: number): string => `${n}`.padStart(2, "0");
  return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
};
export const degrees = (t: number): string => `${Math.round(t)} degC`;
