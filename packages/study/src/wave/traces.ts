import { rollingRms } from "./rolling.ts";
import type { WaveSamples } from "./samples.ts";

export type WaveQuantity = "voltage" | "current" | "rms voltage" | "rms current" | "speed" | "melt fraction";

export interface WaveColumn {
  readonly quantity: WaveQuantity;
  readonly part: string;
  readonly unit: "V" | "A" | "rpm" | "";
  readonly values: Float64Array;
}

/** Equally spaced, 128 a cycle; the rms columns are over the cycle that ends at each sample. */
export interface WaveTraces {
  readonly time_s: Float64Array;
  readonly columns: readonly WaveColumn[];
}

const RPM = 30 / Math.PI;

/** Every sample as columns, for drawing and for files. */
export function tracesOf(samples: WaveSamples): WaveTraces {
  const { parts } = samples.plant.layout.circuit;
  const fill = (read: (row: number) => number): Float64Array =>
    Float64Array.from({ length: samples.rows }, (_, row) => read(row));
  const columns = parts.flatMap((p, i): WaveColumn[] => {
    const part = p.name;
    const voltage = (row: number): number => samples.voltage(i, row);
    const current = (row: number): number => samples.current(i, row);
    const state = (scale: number): Float64Array => fill((row) => scale * samples.state(i, row));
    return [
      { quantity: "voltage", part, unit: "V", values: fill(voltage) },
      { quantity: "rms voltage", part, unit: "V", values: rollingRms(voltage, samples.rows) },
      { quantity: "current", part, unit: "A", values: fill(current) },
      { quantity: "rms current", part, unit: "A", values: rollingRms(current, samples.rows) },
      ...(p.is === "motor" ? [{ quantity: "speed", part, unit: "rpm", values: state(RPM) } as const] : []),
      ...(p.is === "fuse" && p.melt !== null
        ? [{ quantity: "melt fraction", part, unit: "", values: state(1) } as const]
        : []),
    ];
  });
  return { time_s: fill(samples.time_s), columns };
}
