import {
  asStated,
  type Circuit,
  type CircuitPlant,
  type Mode,
  type MotorParameters,
  type Script,
} from "@startgap/circuit";
import { type Run, run } from "@startgap/ode";

/**
 * The reference problem: two motors of the published quarter-horsepower capacitor-start circuit with every
 * impedance divided by 4.5 and inertia tripled, each behind 0.08 ohm, a 30 ohm load at the bus, and two
 * fuses in the 240 V lines in front of an ideal 2:1 transformer.
 *
 * The published fuses only count heat and never open. Ours open at 1, so they are given twice the current: the
 * terms are linear in I^2 and come out at exactly a quarter of the published ones.
 */
export function referenceCircuit(motors = 2): Circuit {
  const k = 1 / 4.5;
  const ohms = (r: number, x: number): { r_ohm: number; x_ohm: number } => ({ r_ohm: r * k, x_ohm: x * k });
  const motor = (name: string, fedBy: string): MotorParameters => ({
    is: "motor",
    name,
    fedBy,
    leg: "first",
    inertia_kgm2: 0.0146 * 3,
    fullLoad_A: null,
    // 4 + 0.0002 omega^2 N m, omega_sync = 60 pi.
    drives: { atRest_Nm: 4, atFullSpeed_Nm: 4 + 0.0002 * (60 * Math.PI) ** 2, shape: "square" },
    machine: {
      poles: 4,
      frequency_Hz: 60,
      voltage_V: 110,
      main: ohms(2.02, 2.79),
      rotor: ohms(4.12, 2.12),
      rotorAtStandstill: ohms(4.12, 2.12),
      magnetising_ohm: 66.8 * k,
      core_ohm: Number.POSITIVE_INFINITY,
      rotationalLoss_W: 0,
      auxiliary: { ...ohms(7.14, 3.22), turnsRatio: 1.18 },
      startCapacitor: ohms(3, 14.5),
      runCapacitor: null,
      startSwitch: { opens: 0.75, closes: 0.45 },
    },
  });
  const melt = { minimumFusing_A: 2 * 15.625, share: [0.05, 0.35, 0.6], tau_s: [0.3, 6, 120] };
  const fuse = {
    is: "fuse",
    leg: "first",
    r_ohm: 0,
    x_ohm: 0,
    poles: 1,
    rating_A: 12.5,
    melt,
    clearing: null,
  } as const;
  const place = (name: string, fedBy: string) => ({ name, fedBy, leg: "first" }) as const;
  const parts: Circuit["parts"][number][] = [
    { is: "supply", name: "panel", voltage_V: 240, frequency_Hz: 60, r_ohm: 0.48, x_ohm: 0.4 },
    { ...fuse, ...place("fuse 1", "panel") },
    { ...fuse, ...place("fuse 2", "fuse 1") },
    {
      is: "transformer",
      ...place("transformer", "fuse 2"),
      windings_V: [240, 120],
      rating_VA: 6000,
      r_ohm: 0,
      x_ohm: 0,
      excitation: { conductance_S: 0, susceptance_S: 0 },
    },
    {
      is: "load",
      ...place("receptacles", "transformer"),
      nominal_V: 120,
      power_W: 480,
      reactive_var: 0,
      holds: "impedance",
    },
  ];
  for (let i = 1; i <= motors; i++) {
    parts.push({ is: "cable", ...place(`cable ${i}`, "transformer"), r_ohm: 0.08, x_ohm: 0 });
    parts.push(motor(`motor ${i}`, `cable ${i}`));
  }
  return { title: "reference problem", parts };
}

/** The second motor's own contact closes at `delay_s`; the others are connected from the start. */
export const secondAt = (delay_s: number): Script => ({
  ...asStated,
  connects_s: (motor) => (motor === "motor 2" ? delay_s : 0),
});

export function solveReference(plant: CircuitPlant, delay_s: number, tolerance: number): Run<Mode> {
  return run(plant, plant.start(secondAt(delay_s)), 12, { tolerance });
}
