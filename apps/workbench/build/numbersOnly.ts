import type { Plugin } from "vite";

const stub = (file: string): string => new URL(file, import.meta.url).pathname;
const standIns: Readonly<Record<string, string>> = {
  "d3-interpolate": stub("./interpolateNumbers.ts"),
  "d3-format": stub("./noFormat.ts"),
};

/**
 * d3's scales can also mix colours and dates, and label ticks in many ways. Ours hold numbers and the figures write
 * their own labels: what does that is left out of the page, a tenth of its script.
 */
export const numbersOnly = (): Plugin => ({
  name: "numbers-only",
  apply: "build",
  enforce: "pre",
  resolveId: (source, importer) =>
    importer !== undefined && /[\\/]d3-scale[\\/]/.test(importer) ? (standIns[source] ?? null) : null,
});
