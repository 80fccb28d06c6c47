import { type Cabinet, examples, parseCabinet } from "@startgap/cabinet";
import { asStated, plantOf } from "@startgap/circuit";
import { run } from "@startgap/ode";
import { type DayReport, day } from "@startgap/study";
import { checksum } from "./measure.ts";

const PAIRS = 7;
const STARTS = 200;

function cpu_s<T>(work: () => T): { readonly s: number; readonly got: T } {
  const before = process.cpuUsage();
  const got = work();
  const { user, system } = process.cpuUsage(before);
  return { s: (user + system) / 1e6, got };
}

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1];

function told(cabinet: Cabinet): DayReport {
  const report = day(cabinet);
  if ("failed" in report) throw new Error(report.failed);
  return report;
}

/** Everything that a day comes to: a faster one that differs shows. */
const sumOf = ({ motors, fuses, energy, starts }: DayReport): string =>
  checksum([
    ...motors.flatMap((m) => [m.hottest.value, m.running_s]),
    ...fuses.map((f) => f.worst?.meltFraction ?? 0),
    energy.supply_J,
    ...starts.energy_J,
  ]);

/**
 * A day of every example: processor time for 200 starts, and how many times that of its bare arcs, both measured by turns, so
 * that what else the machine does is in both.
 */
export function days(): void {
  for (const { key, text } of examples) {
    const read = parseCabinet(text);
    if ("issues" in read) continue;
    const { cabinet } = read;
    const plant = plantOf(cabinet.circuit);
    const calls = (cabinet.circuit.controls ?? []).length > 0;
    const first = cpu_s(() => told(cabinet));
    const pairs = Array.from({ length: PAIRS }, () => {
      const bare = cpu_s(() => run(plant, plant.start(asStated), 86_400, { maxEvents: 1e6 }));
      return { bare: bare.s, whole: cpu_s(() => told(cabinet)).s };
    });
    const whole = median(pairs.map((pair) => pair.whole));
    const starts = first.got.starts.time_s.length;
    const ratio = calls
      ? `${median(pairs.map((pair) => pair.whole / pair.bare)).toFixed(2)} x its bare arcs; `
      : "";
    const each = ((STARTS * whole) / starts).toFixed(2);
    console.log(
      `day of ${key}: ${starts} starts in ${whole.toFixed(2)} s of processor (first ${first.s.toFixed(2)}), ${each} s for ${STARTS}; ${ratio}checksum ${sumOf(first.got)}`,
    );
  }
}

if (process.argv[1]?.endsWith("day.ts")) days();
