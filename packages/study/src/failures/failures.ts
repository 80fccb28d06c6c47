import type { Cabinet } from "@startgap/cabinet";
import { type CircuitPlant, type Mode, magnitude } from "@startgap/circuit";
import type { Recorder } from "@startgap/ode";
import { isFailure, type StudyFailure } from "../failure.ts";
import type { StudyOptions } from "../options.ts";
import { nodesOf, type Watched, watchedOf } from "./instant.ts";
import { failuresOf } from "./kinds.ts";
import { momentOf, type Seen } from "./moment.ts";
import type { FailureMoment, FailureReport, FailureRow } from "./results.ts";
import { byGravity, rowOf } from "./row.ts";
import { soundOf } from "./sound.ts";

const MOMENTS: readonly FailureMoment["moment"][] = ["while running", "at the next start"];

/**
 * Every single failure of a cabinet: what stays live, what voltage every load and motor sees, what opens next, and
 * whether anything tells.
 *
 * Each failure is the same circuit altered (`failuresOf`) and followed in time, once from everything running at its
 * settled speed and once from switching on cold. Fuses melt by their fast edge, contactors follow their coils.
 *
 * @param options `delay_s`, `tolerance`, `signal` and `onProgress` as in `check`
 * @returns rows, danger first; or one sentence that says when, where and why it could not be finished
 *
 * Limitations: earth and the bond are not modelled, so no current to earth and no voltage to earth is told, and of
 * two wires that carry the same current either one may be the open one. A contact is taken to break one wire.
 * A supply that holds its voltage is behind it all.
 * Checked by tests/independent/failures (dense nodal solve of every row) and packages/study/test/failures*.test.ts.
 */
export function failures(cabinet: Cabinet, options: StudyOptions = {}): FailureReport | StudyFailure {
  const watched = watchedOf(cabinet.circuit);
  const highest_V = watched.map(() => 0);
  const sound = soundOf(cabinet, options, (plant) => highestOf(plant, watched, highest_V));
  if (isFailure(sound)) return sound;
  const list = failuresOf(cabinet.circuit);
  const rows: FailureRow[] = [];
  for (const failure of list) {
    const seen: Seen[] = [];
    for (const moment of MOMENTS) {
      const one = momentOf(sound, failure, moment);
      if (isFailure(one)) return one;
      seen.push(one);
    }
    const moments = seen.map(({ told }) => told);
    rows.push(rowOf({ circuit: sound.circuit, highest_V }, failure, moments, seen[0].live));
    options.onProgress?.(rows.length / list.length);
  }
  return { startgap: "failures 1", title: cabinet.title, rows: byGravity(rows), notes: NOTES };
}

const NOTES: readonly string[] = [
  "The earth and the bond are not in the model: currents through the earth wire, and what a part of the cabinet has to earth, are not told here. With the midpoint bonded, a motor may go on running over the earth wire after one line has opened.",
  "Which of two wires is the open one does not change these voltages, but it decides which terminals stay live: a fuse in a neutral leaves the line on the load, and is no protection.",
  "Prove dead line to line and each line to earth before touching anything.",
];

/** Keeps the highest voltage at every watched point of a story. */
function highestOf(plant: CircuitPlant, watched: readonly Watched[], highest_V: number[]): Recorder<Mode> {
  const nodes = nodesOf(plant, watched);
  return {
    interior: true,
    sample(_, y, mode) {
      const walk = plant.solve(y, mode);
      nodes.forEach((node, k) => {
        highest_V[k] = Math.max(highest_V[k], magnitude(walk, node));
      });
    },
  };
}
