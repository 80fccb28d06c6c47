import { examples, parseCabinet } from "@startgap/cabinet";
import { plantOf } from "@startgap/circuit";
import { run } from "@startgap/ode";
import { check, delayMap, isFailure } from "@startgap/study";
import { days } from "./day.ts";
import { checksum, measure, row } from "./measure.ts";
import { type PeerTimes, timeC, timePython } from "./peers.ts";
import { referenceCircuit, secondAt, solveReference } from "./referenceProblem.ts";
import { waves } from "./waves.ts";

/** End state that both peers and all their methods agree on: rad/s electrical, then the terms of a fuse. */
const AGREED = [327.437569, 327.437569, 0.163197586, 0.992969722, 0.18473554];

function reference(): void {
  const plant = plantOf(referenceCircuit());
  const { y } = solveReference(plant, 3, 1e-8).end;
  const found = [2 * y[6], 2 * y[7], 4 * y[0], 4 * y[1], 4 * y[2]];
  const worst = Math.max(...found.map((value, i) => Math.abs(value / AGREED[i] - 1)));
  console.log(`reference problem, end state at 1e-8: worst relative difference ${worst.toExponential(1)}`);
  const [c, python] = [timeC(), timePython()];
  for (const tolerance of [1e-4, 1e-6, 1e-8]) {
    let k = 0;
    const ends: number[] = [];
    const timed = measure(() => {
      const { end } = solveReference(plant, 0.5 + (k++ % 200) * 0.02, tolerance);
      if (ends.length < 200) ends.push(...end.y);
    }, 200);
    const note = `${ratio(timed.median_ms, c, tolerance, "C")}${ratio(timed.median_ms, python, tolerance, "SciPy LSODA")}`;
    console.log(row(`  tolerance ${tolerance}`, timed, `${note}checksum ${checksum(ends)}`));
  }
}

function ratio(ms: number, peer: PeerTimes | null, tolerance: number, name: string): string {
  const other = peer?.get(tolerance);
  return other === undefined
    ? `${name} not installed; `
    : `${(ms / other).toFixed(2)} x ${name} (${other} ms); `;
}

function maps(): void {
  for (const { key, text } of examples) {
    const read = parseCabinet(text);
    if ("issues" in read) continue;
    const whole = delayMap(read.cabinet);
    if (whole === null || isFailure(whole)) continue;
    const timed = measure(() => delayMap(read.cabinet), 3);
    const volts = whole.motors.flatMap((motor) => motor.lowestVoltage_V.map((v) => v ?? 0));
    console.log(row(`map of ${whole.delay_s.length} delays, ${key}`, timed, `checksum ${checksum(volts)}`));
    const checked = measure(() => check(read.cabinet, { withMap: false }), 10);
    console.log(row(`check without map, ${key}`, checked, ""));
  }
}

/** N equal motors side by side on a supply that grows with them; all start together. */
function motors(): void {
  let perMotor = 0;
  for (const count of [2, 4, 8, 16, 32, 64]) {
    const circuit = referenceCircuit(count);
    const [supply, ...others] = circuit.parts;
    if (supply.is !== "supply") throw new RangeError("invalid circuit: no supply first");
    const strong = { ...supply, r_ohm: (supply.r_ohm * 2) / count, x_ohm: (supply.x_ohm * 2) / count };
    const plant = plantOf({ ...circuit, parts: [strong, ...others] });
    const work = () => run(plant, plant.start(secondAt(0)), 12);
    const timed = measure(work, Math.ceil(200 / count));
    perMotor = perMotor || timed.median_ms / count;
    const growth = timed.median_ms / count / perMotor;
    const note = `${growth.toFixed(2)} x the time a motor of two; checksum ${checksum(work().end.y)}`;
    console.log(row(`${count} motors together`, timed, note));
  }
}

reference();
waves();
maps();
motors();
days();
