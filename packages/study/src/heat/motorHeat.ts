import type { MotorFacts } from "@startgap/cabinet";
import { atFrequency, type Machine, type MotorParameters, steadyState } from "@startgap/circuit";
import { factsOf, type Scene } from "../protection/scene.ts";
import type { MotorHeat } from "./results.ts";
import { DENSITY_Apmm2, RATED_RISE_K, SERVICE_RISE_K, stallTime_s } from "./stall.ts";
import type { StartHeat } from "./startHeat.ts";
import { capacitorStarts, startsAllowed } from "./starts.ts";

const magnitude = ({ re, im }: { readonly re: number; readonly im: number }): number => Math.hypot(re, im);

export interface Point {
  readonly main_A: number;
  readonly loss_W: number;
}

/** The machine at rated voltage where its line current is the plate's; null when no running slip has it. */
export function fullLoadPoint(m: Machine, fullLoad_A: number): Point | null {
  const at = (slip: number) => steadyState(m, m.voltage_V, slip, false);
  let [low, high] = [1e-4, 0.3];
  if (magnitude(at(low).line_A) > fullLoad_A || magnitude(at(high).line_A) < fullLoad_A) return null;
  for (let count = 0; count < 50; count++) {
    const middle = (low + high) / 2;
    if (magnitude(at(middle).line_A) < fullLoad_A) low = middle;
    else high = middle;
  }
  const point = at(high);
  return { main_A: magnitude(point.main_A), loss_W: lossOf(point) };
}

const lossOf = (p: ReturnType<typeof steadyState>): number =>
  p.mainLoss_W + p.auxiliaryLoss_W + p.rotorLoss_W + p.coreLoss_W;

export const classOf = (facts: MotorFacts | null) => facts?.insulation ?? "B";

/**
 * Heat and duty of one motor.
 *
 * The winding's rise goes with all that is lost in the machine: its rated rise belongs to the loss at full load, and
 * each start adds its own heat, spread over the time between starts. Standing still, each winding heats by itself.
 *
 * @param taken starts an hour for the rise, and where they are from
 * Limitation: one body; the winding runs a little ahead of it. Current densities are assumed.
 */
export function motorHeat(
  scene: Scene,
  p: MotorParameters,
  started: StartHeat | undefined,
  taken: MotorHeat["taken"],
): MotorHeat {
  const facts = factsOf(scene, "motor", p.name);
  const insulation = classOf(facts);
  const rises = (facts?.serviceFactor ?? 1) > 1 ? SERVICE_RISE_K : RATED_RISE_K;
  const ratedRise_K = rises[insulation];
  const [supply] = scene.circuit.parts;
  const machine = atFrequency(
    p.machine,
    supply.is === "supply" ? supply.frequency_Hz : p.machine.frequency_Hz,
  );
  const full = p.fullLoad_A === null ? null : fullLoadPoint(machine, p.fullLoad_A);
  const running_W = scene.situations.running.lost_W(p.name);
  const energy_J = started === undefined || started.energy_J === 0 ? null : started.energy_J;
  const start_s = startSeconds(machine, started);
  const perStart_W = ((energy_J ?? 0) * taken.perHour) / 3600;
  const table = facts?.power_W == null ? null : startsAllowed(facts.power_W, machine.poles, p.inertia_kgm2);
  return {
    part: p.name,
    taken,
    startWinding_s: start_s,
    startEnergy_J: energy_J,
    rise_K: full === null ? null : (ratedRise_K * (running_W + perStart_W)) / full.loss_W,
    ratedRise_K,
    stall_s: stallTime_s(insulation, DENSITY_Apmm2.main * standstillTimes(machine, full)),
    startWindingStall_s: machine.startSwitch === null ? null : stallTime_s(insulation, DENSITY_Apmm2.start),
    startsPerHour: {
      capacitor:
        machine.startCapacitor !== null && start_s !== null && start_s > 0 ? capacitorStarts(start_s) : null,
      winding: byWinding(full, running_W, energy_J),
      table: table?.perHour ?? null,
    },
    rest_s: table?.rest_s ?? null,
  };
}

/** Null without a start switch, or when the start winding never came out. */
function startSeconds(machine: Machine, started: StartHeat | undefined): number | null {
  if (machine.startSwitch === null || started === undefined || started.staysIn) return null;
  return started.startWinding_s;
}

/** Main current at rest over that at full load; 6 where the plate does not say, as in NEC 430.251(A) over 430.248. */
function standstillTimes(m: Machine, full: Point | null): number {
  if (full === null) return 6;
  return magnitude(steadyState(m, m.voltage_V, 1, m.auxiliary !== null).main_A) / full.main_A;
}

/** Starts an hour that fill what full load leaves of the rated rise; null where that cannot be told. */
function byWinding(full: Point | null, running_W: number, energy_J: number | null): number | null {
  if (full === null || energy_J === null) return null;
  return Math.max(0, (3600 * (full.loss_W - running_W)) / energy_J);
}
