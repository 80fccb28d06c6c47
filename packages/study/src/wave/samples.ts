import { type Mode, meltFraction, type WavePlant } from "@startgap/circuit";

/** Samples in one cycle of the supply. */
export const SAMPLES_A_CYCLE = 128;

/** Equally spaced samples of everything a waveform story tells, one row a sample. */
export interface WaveSamples {
  readonly plant: WavePlant;
  readonly step_s: number;
  readonly rows: number;
  /** Time of a row: first_s + row step_s, never accumulated. */
  time_s(row: number): number;
  /** By part: voltage where it is told, and current into it. */
  voltage(part: number, row: number): number;
  current(part: number, row: number): number;
  /** rad/s of a motor, melt fraction of a fuse; 0 elsewhere. */
  state(part: number, row: number): number;
}

export interface Sampler {
  readonly samples: WaveSamples;
  /** Ascending times to ask the solver for. */
  readonly times: readonly number[];
  take(t: number, y: readonly number[], mode: Mode): void;
}

/** Makes room, a column a quantity, for the samples of [from, to]; they are filled by `take`, in order. */
export function sampler(plant: WavePlant, from_s: number, to_s: number): Sampler {
  const { circuit, places, told } = plant.layout;
  const parts = circuit.parts.length;
  const step_s = 1 / (places[0].frequency_Hz * SAMPLES_A_CYCLE);
  const first = Math.ceil(from_s / step_s - 1e-6);
  const count = Math.max(0, Math.floor(to_s / step_s + 1e-6) - first + 1);
  const data = new Float64Array(3 * parts * count);
  let rows = 0;
  const extra = circuit.parts.map((p, i) => {
    const at = plant.firstState[i];
    const speed = plant.speedStates[i];
    if (speed >= 0) return (y: readonly number[]) => y[speed];
    const terms = p.is === "fuse" ? (p.melt?.share.length ?? 0) : 0;
    return (y: readonly number[]) => (terms > 0 ? meltFraction(y, at, terms) : 0);
  });
  const read = (kind: number, part: number, row: number): number => data[(kind * parts + part) * count + row];
  return {
    samples: {
      plant,
      step_s,
      get rows() {
        return rows;
      },
      time_s: (row) => (first + row) * step_s,
      voltage: (part, row) => read(0, part, row),
      current: (part, row) => read(1, part, row),
      state: (part, row) => read(2, part, row),
    },
    times: Array.from({ length: count }, (_, k) => (first + k) * step_s),
    take(t, y, mode) {
      const walk = plant.solve(t, y, mode);
      for (let i = 0; i < parts; i++) {
        data[i * count + rows] = walk.v[told[i]];
        data[(parts + i) * count + rows] = walk.into[i];
        data[(2 * parts + i) * count + rows] = extra[i](y);
      }
      rows++;
    },
  };
}
