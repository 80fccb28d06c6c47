import { examples, parseCabinet } from "@startgap/cabinet";
import { wavePlantOf } from "@startgap/circuit";
import { isFailure, wave } from "@startgap/study";
import { checksum, measure, processor_ms, row } from "./measure.ts";
import { timeWave, WAVE_FORMS, type WavePeer } from "./peers.ts";
import { solveWave, waveCircuit } from "./waveProblem.ts";

const worstOf = (a: Float64Array, b: Float64Array): number =>
  a.reduce((most, value, k) => Math.max(most, Math.abs(value - b[k])), 0);

const timedBy = (work: () => void, calls: number) => measure(work, calls, 7, processor_ms);

/** One second of two motors behind a saturable transformer, 7680 samples, against the same equations in Python. */
export function waves(): void {
  const plant = wavePlantOf(waveCircuit());
  const fine = solveWave(plant, 1e-10).current;
  const peer = timeWave();
  const apart = peer === null ? "no peer" : Math.abs(fine[fine.length - 1] - peer.last_A).toExponential(1);
  console.log(`waveform problem, last sample at 1e-10: ${apart} A from the peer`);
  for (const tolerance of [1e-4, 1e-5, 1e-6]) {
    const { current, count } = solveWave(plant, tolerance);
    const timed = timedBy(() => solveWave(plant, tolerance), 20);
    const off = `worst ${worstOf(current, fine).toExponential(1)} A; ${count.evaluations} evaluations; `;
    const note = `${ratios(peer, tolerance, timed.least_ms)}${off}checksum ${checksum(current)}`;
    console.log(row(`  one second, tolerance ${tolerance}`, timed, note));
  }
  const lamp = wavePlantOf(waveCircuit(2, true));
  const lit = timedBy(() => solveWave(lamp), 10);
  console.log(row("  the same with a lamp", lit, `checksum ${checksum(solveWave(lamp).current)}`));
  manyMotors();
  lateWindows();
}

/** What a worker takes for the visible window of a story: the whole of `wave`, 0.3 s late in 12 s. */
function lateWindows(): void {
  for (const { key, text } of examples) {
    const read = parseCabinet(text);
    if ("issues" in read) continue;
    const told = () => wave(read.cabinet, { from_s: 11.7, to_s: 12 });
    const study = told();
    if (isFailure(study)) continue;
    const line = study.traces.columns.find(({ quantity }) => quantity === "current")?.values ?? [];
    console.log(row(`  window from 11.7 s to 12 s, ${key}`, timedBy(told, 1), `checksum ${checksum(line)}`));
  }
}

/** How many times as long SciPy takes for the same equations in each form: its least time over our least. */
function ratios(peer: WavePeer | null, tolerance: number, least_ms: number): string {
  if (peer === null) return "SciPy not installed; ";
  const times = WAVE_FORMS.map((form) => {
    const ms = peer.times[form].get(tolerance) ?? Number.NaN;
    return `${(ms / least_ms).toFixed(1)} x (${form} ${ms} ms)`;
  });
  return `SciPy DOP853 ${times.join(", ")}; `;
}

/** N motors on a supply and a transformer that grow with them; all start together. */
function manyMotors(): void {
  let perMotor = 0;
  for (const count of [2, 4, 8, 16, 32, 64]) {
    const plant = wavePlantOf(waveCircuit(count));
    const timed = timedBy(() => solveWave(plant, 1e-5, 0.25, 0), Math.max(1, Math.ceil(32 / count)));
    perMotor = perMotor || timed.least_ms / count;
    const growth = (timed.least_ms / count / perMotor).toFixed(2);
    const { count: work, current } = solveWave(plant, 1e-5, 0.25, 0);
    const note = `${growth} x the time a motor of two; ${work.evaluations} evaluations; checksum ${checksum(current)}`;
    console.log(row(`  quarter second of ${count} motors`, timed, note));
  }
}
