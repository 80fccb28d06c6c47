/** Test data: a fuse, a motor and a cabinet in closed form, for pictures only. */

import type { Finding } from "@startgap/study";
import {
  exceedance,
  type SketchPart,
  type SpeedCurve,
  type TimeCurrentInput,
  type TorqueSpeedInput,
} from "../src/index.ts";
import { exampleCheck, exampleFindings, ordinary, type Setup } from "./stories.ts";

/** Melting time of one thermal time constant: tau ln(r^2 / (r^2 - 1)), r the current over the least that melts. */
function edge(least_A: number, tau_s: number) {
  const ratios = Array.from({ length: 30 }, (_, k) => 1.05 * 30 ** (k / 29));
  return ratios.map((r) => ({ current_A: r * least_A, time_s: tau_s * Math.log((r * r) / (r * r - 1)) }));
}

export function exampleFuse(setup: Partial<Setup> = {}): TimeCurrentInput {
  const check = exampleCheck(setup);
  const starts = check.stories.map(({ case: name, traces }) => {
    const line = traces.columns.find(({ quantity }) => quantity === "current")!;
    return { case: name, points: exceedance(traces.time_s, line.values) };
  });
  const part = setup.fuse ?? ordinary.fuse;
  return { part, melt: edge(38, 40), clearing: edge(45, 62), starts, stall_A: 58 };
}

/** Torque of a machine with one breakdown, and a step where the start switch opens. */
function speedCurve(says: string, voltage: number): SpeedCurve {
  const speed_rpm = Array.from({ length: 91 }, (_, k) => k * 20).flatMap((rpm) =>
    rpm === 1340 ? [rpm, rpm] : [rpm],
  );
  const switched = speed_rpm.lastIndexOf(1340);
  const run = (rpm: number, breakdown: number, peak: number) => {
    const slip = Math.max(1 - rpm / 1800, 0) / breakdown;
    return (2 * peak * slip * voltage ** 2) / (1 + slip ** 2);
  };
  return {
    says,
    speed_rpm,
    torque_Nm: speed_rpm.map((rpm, i) => (i < switched ? run(rpm, 0.75, 17) : run(rpm, 0.18, 13))),
    current_A: speed_rpm
      .map((rpm, i) => (i < switched ? 62 - 12 * (rpm / 1800) ** 2 : 46 - 38 * (rpm / 1800) ** 6))
      .map((a) => a * voltage),
  };
}

export function exampleMotor(part = "pump 1"): TorqueSpeedInput {
  return {
    part,
    nominal: speedCurve("120 V", 1),
    sagged: speedCurve("sagged to 85 V", 85 / 120),
    load: { speed_rpm: [0, 900, 1800], torque_Nm: [4.5, 5.5, 8.5] },
    switchOpens_rpm: 1340,
  };
}

export function exampleCabinet(setup: Partial<Setup> = {}): { parts: SketchPart[]; findings: Finding[] } {
  const full = { ...ordinary, ...setup };
  const [first, second] = full.motors;
  const parts: SketchPart[] = [
    { name: "panel", is: "supply" },
    { name: "feeder", is: "cable", fedBy: "panel" },
    { name: full.fuse, is: "fuse", fedBy: "feeder" },
    { name: "midpoint transformer", is: "autotransformer", fedBy: full.fuse },
    { name: "contactor", is: "contactor", fedBy: "midpoint transformer", leg: "first" },
    { name: first, is: "motor", fedBy: "contactor", leg: "first" },
    { name: "delay relay", is: "delay relay", fedBy: "contactor", leg: "first" },
    { name: second, is: "motor", fedBy: "delay relay", leg: "first" },
    { name: "control transformer", is: "transformer", fedBy: "midpoint transformer", leg: "second" },
    { name: full.receptacles, is: "load", fedBy: "midpoint transformer", leg: "second" },
  ];
  return { parts, findings: exampleFindings(full) };
}
