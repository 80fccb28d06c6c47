import { type Circuit, wavePlantOf } from "@startgap/circuit";
import { SAMPLES_A_CYCLE, type WaveSamples } from "../../src/wave/samples.ts";

const circuit: Circuit = {
  title: "constructed",
  parts: [
    { is: "supply", name: "supply", voltage_V: 100, frequency_Hz: 60, r_ohm: 0, x_ohm: 0 },
    {
      is: "load",
      name: "load",
      fedBy: "supply",
      leg: "first",
      nominal_V: 100,
      power_W: 100,
      reactive_var: 0,
      holds: "impedance",
    },
  ],
};

/** Samples of a current that a test writes down, in part 1; everything else is nothing. */
export function constructed(current: (row: number) => number, rows: number): WaveSamples {
  const step_s = 1 / (60 * SAMPLES_A_CYCLE);
  return {
    plant: wavePlantOf(circuit),
    step_s,
    rows,
    time_s: (row) => row * step_s,
    voltage: () => 0,
    current: (part, row) => (part === 1 ? current(row) : 0),
    state: () => 0,
  };
}
