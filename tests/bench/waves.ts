import { wavePlantOf } from "@startgap/circuit";
import { checksum, measure, row } from "./measure.ts";
import { timeWave } from "./peers.ts";
import { solveWave, waveCircuit } from "./waveProblem.ts";

const worstOf = (a: Float64Array, b: Float64Array): number =>
  a.reduce((most, value, k) => Math.max(most, Math.abs(value - b[k])), 0);

/** One second of two motors behind a saturable transformer, 7680 samples, against the same equations in Python. */
export function waves(): void {
  const plant = wavePlantOf(waveCircuit());
  const fine = solveWave(plant, 1e-10).current;
  const peer = timeWave();
  const apart = peer === null ? "no peer" : Math.abs(fine[fine.length - 1] - peer.last_A).toExponential(1);
  console.log(`waveform problem, last sample at 1e-10: ${apart} A from the peer`);
  for (const tolerance of [1e-4, 1e-5, 1e-6]) {
    const { current } = solveWave(plant, tolerance);
    const timed = measure(() => solveWave(plant, tolerance), 20);
    const other = peer?.times.get(tolerance);
    const times = other === undefined ? "" : `${(other / timed.median_ms).toFixed(1)} times SciPy DOP853; `;
    const off = `worst ${worstOf(current, fine).toExponential(1)} A; `;
    console.log(
      row(`  one second, tolerance ${tolerance}`, timed, `${times}${off}checksum ${checksum(current)}`),
    );
  }
  const lamp = wavePlantOf(waveCircuit(2, true));
  const lit = measure(() => solveWave(lamp), 10);
  console.log(row("  the same with a lamp", lit, `checksum ${checksum(solveWave(lamp).current)}`));
  manyMotors();
}

/** N motors on a supply and a transformer that grow with them. */
function manyMotors(): void {
  let perMotor = 0;
  for (const count of [2, 4, 8, 16, 32, 64]) {
    const plant = wavePlantOf(waveCircuit(count));
    const timed = measure(() => solveWave(plant, 1e-5, 0.25), Math.max(1, Math.ceil(16 / count)));
    perMotor = perMotor || timed.median_ms / count;
    const growth = (timed.median_ms / count / perMotor).toFixed(2);
    const { count: work, current } = solveWave(plant, 1e-5, 0.25);
    const note = `${growth} x the time a motor of two; ${work.evaluations} evaluations; checksum ${checksum(current)}`;
    console.log(row(`  quarter second of ${count} motors`, timed, note));
  }
}
