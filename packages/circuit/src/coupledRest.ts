import type { Rest } from "@startgap/ode";
import type { Mode } from "./guardTable.ts";
import { solved } from "./linear.ts";
import type { PartModel } from "./model.ts";
import { ALONG_s, ASTRAY, CLEARLY_MOVING_radps2, commonRate, flowsOf } from "./rest.ts";
import type { Walk } from "./walk.ts";

const MOST_CORRECTIONS = 6;
/** Relative step of a difference quotient. */
const STEP = 1e-6;

type Derivative = (t: number, y: readonly number[], mode: Mode, rate: number[]) => void;

/**
 * Rest of a circuit in which shafts are not all that the network depends on: a generator's flux and regulator move
 * with them, ten times slower. A motor then follows the voltage, and its own rate tells nothing of the distance.
 *
 * The end is found by Newton's method on all these states together. It is a rest when what is left is one
 * dying exponential for all of them: f/lambda, lambda the common rate, must lead there to ten tolerances, and no
 * further than a tenth of the square root of the tolerance. Until then the run goes on as it is.
 *
 * Checked by packages/circuit/test/generator.test.ts against the same story integrated throughout.
 */
export function coupledRestOf(
  models: readonly PartModel[],
  network: readonly number[],
  derivative: Derivative,
  solve: (y: readonly number[], mode: Mode) => Walk,
): Rest<Mode> {
  const states = models.reduce((sum, model) => sum + model.stateNames.length, 0);
  const rate = new Array<number>(states).fill(0);
  const further = rate.slice();
  const flowFrom = flowsOf(models, network, solve);

  /** The common rate of what moves, seen one step along the motion. */
  const rateOf = (t: number, y: readonly number[], mode: Mode): number => {
    const moved = y.slice();
    for (const i of network) moved[i] += ALONG_s * rate[i];
    derivative(t, moved, mode, further);
    return commonRate(network, rate, further);
  };

  return (t0, y0, mode, tolerance) => {
    derivative(t0, y0, mode, rate);
    if (network.some((i) => Math.abs(rate[i]) > CLEARLY_MOVING_radps2)) return null;
    const moving = network.filter((i) => rate[i] !== 0);
    const common = moving.length === 0 ? 1 : rateOf(t0, y0, mode);
    const reach = network.map((i) => rate[i] / common);
    const near = 0.1 * Math.sqrt(tolerance);
    if (!(common > 0) || network.some((i, k) => Math.abs(reach[k]) > near * (1 + Math.abs(y0[i]))))
      return null;
    const end = steadyFrom(derivative, t0, y0, mode, moving, tolerance);
    if (end === null) return null;
    const astray = network.some(
      (i, k) => Math.abs(end[i] - y0[i] - reach[k]) > ASTRAY * tolerance * (1 + Math.abs(y0[i])),
    );
    if (astray) return null;
    return flowFrom(
      t0,
      y0,
      mode,
      end,
      network.map(() => common),
    );
  };
}

/** Where the moving states come to rest, to a tenth of the tolerance; null when it is not found. */
function steadyFrom(
  derivative: Derivative,
  t: number,
  y: readonly number[],
  mode: Mode,
  moving: readonly number[],
  tolerance: number,
): number[] | null {
  const end = y.slice();
  if (moving.length === 0) return end;
  const [rate, beside] = [y.map(() => 0), y.map(() => 0)];
  for (let count = 0; count < MOST_CORRECTIONS; count++) {
    derivative(t, end, mode, rate);
    const columns = moving.map((i) => {
      const kept = end[i];
      const step = STEP * (1 + Math.abs(kept));
      end[i] = kept + step;
      derivative(t, end, mode, beside);
      end[i] = kept;
      return moving.map((j) => (beside[j] - rate[j]) / step);
    });
    const steps = solved(
      moving.map((_, row) => columns.map((column) => column[row])),
      moving.map((i) => -rate[i]),
    );
    if (steps === null) return null;
    moving.forEach((i, k) => {
      end[i] += steps[k];
    });
    if (moving.every((i, k) => Math.abs(steps[k]) <= 0.1 * tolerance * (1 + Math.abs(end[i])))) return end;
  }
  return null;
}
