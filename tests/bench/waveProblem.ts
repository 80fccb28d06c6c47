import { asStated, type Circuit, type LoadParameters, type WavePlant } from "@startgap/circuit";
import { run } from "@startgap/ode";
import { referenceCircuit } from "./referenceProblem.ts";

/** Samples in one cycle, as a study keeps them. */
const SAMPLES_A_CYCLE = 128;
const LATER_s = 0.5;

const LAMP: LoadParameters = {
  is: "load",
  name: "lamp",
  fedBy: "transformer",
  leg: "second",
  nominal_V: 120,
  power_W: 480,
  reactive_var: 60,
  holds: "impedance",
};

/**
 * The motors of the reference problem behind a saturable 3 kVA midpoint transformer, on its two legs by turns. A
 * lamp, being a resistance, holds an explicit integrator to shorter steps.
 */
export function waveCircuit(motors = 2, lamp = false): Circuit {
  const [supply, ...others] = referenceCircuit(motors).parts;
  if (supply.is !== "supply") throw new RangeError("invalid circuit: no supply first");
  const share = 2 / motors;
  const motorsOf = others.filter((p) => p.is === "motor");
  const ours = motorsOf.map((p, k) => ({
    ...p,
    fedBy: "transformer",
    leg: k % 2 === 0 ? ("first" as const) : ("second" as const),
  }));
  return {
    title: "waveform problem",
    parts: [
      { ...supply, r_ohm: 0.24 * share, x_ohm: 0.2 * share },
      {
        is: "autotransformer",
        name: "transformer",
        fedBy: supply.name,
        leg: "first",
        windings_V: [120, 120],
        rating_VA: 3000 / share,
        r_ohm: 0.193 * share,
        x_ohm: 0.0966 * share,
        excitation: { conductance_S: 0, susceptance_S: 0.0026 / share },
      },
      ...ours,
      ...(lamp ? [LAMP] : []),
    ],
  };
}

/** One second, sampled as a study does, the first motor at 0 s and all others later; what the samples of the supply's current and of the first speed were. */
export function solveWave(plant: WavePlant, tolerance = 1e-5, end_s = 1, others_s = LATER_s) {
  const [first] = plant.layout.circuit.parts.filter((p) => p.is === "motor");
  const script = { ...asStated, connects_s: (name: string) => (name === first.name ? 0 : others_s) };
  const rows = Math.round(end_s * 60 * SAMPLES_A_CYCLE);
  const current = new Float64Array(rows);
  let row = 0;
  const { end, count } = run(plant, plant.start({ script }), end_s, {
    method: "runge-kutta",
    tolerance,
    maxStep: 1 / 240,
    initialStep: 1e-3,
    maxSteps: 1_000_000,
    snapshots: Array.from({ length: rows }, (_, k) => (k + 1) / (60 * SAMPLES_A_CYCLE)),
    onSnapshot: (t, y, mode) => {
      current[row++] = plant.solve(t, y, mode).into[0];
    },
  });
  return { end, count, current };
}
