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
  const fill = (read: (row: number) => number): Float64Array => {
    const values = new Float64Array(samples.rows);
    for (let row = 0; row < values.length; row++) values[row] = read(row);
    return values;
  };
  const columns = parts.flatMap((p, i): WaveColumn[] => {
    const part = p.name;
    const voltage = fill((row) => samples.voltage(i, row));
    const current = fill((row) => samples.current(i, row));
    const rms = (values: Float64Array): Float64Array => rollingRms((row) => values[row], samples.rows);
    const state = (scale: number): Float64Array => fill((row) => scale * samples.state(i, row));
    return [
      { quantity: "voltage", part, unit: "V", values: voltage },
      { quantity: "rms voltage", part, unit: "V", values: rms(voltage) },
      { quantity: "current", part, unit: "A", values: current },
      { quantity: "rms current", part, unit: "A", values: rms(current) },
      ...(p.is === "motor" ? [{ quantity: "speed", part, unit: "rpm", values: state(RPM) } as const] : []),
      ...(p.is === "fuse" && p.melt !== null
        ? [{ quantity: "melt fraction", part, unit: "", values: state(1) } as const]
        : []),
    ];
  });
  return { time_s: fill(samples.time_s), columns };
}
