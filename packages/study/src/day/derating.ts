import { AMBIENT_C, ambientFactor } from "@startgap/cabinet";
import { type CircuitPlant, type Mode, plantOf } from "@startgap/circuit";
import type { Standing } from "@startgap/ode";
import { inAir } from "../heat/heat.ts";
import { factsOf, type Scene } from "../protection/scene.ts";

const USUAL_FILE_C = 25;

/** Factor on the melting currents of a fuse in air of a temperature, over those at the air that its file states. */
export function factorIn(scene: Scene, fuse: string, air_C: number): number {
  const inside = Math.min(AMBIENT_C.most, Math.max(AMBIENT_C.least, air_C));
  return ambientFactor(inside) / ambientFactor(factsOf(scene, "fuse", fuse)?.ambient_C ?? USUAL_FILE_C);
}

/** A plant whose fuses stand in other air, and its standing. */
export interface Aired {
  readonly plant: CircuitPlant;
  readonly factors: readonly number[];
}

/** Fuses see the air anew once it moves their currents by this part: by a third of a kelvin's worth. */
const FELT = 1e-3;

export const isOtherAir = (
  scene: Scene,
  { factors }: Aired,
  fuses: readonly number[],
  air_C: number,
): boolean =>
  fuses.some((i, k) => Math.abs(factorIn(scene, scene.circuit.parts[i].name, air_C) / factors[k] - 1) > FELT);

/** The plant with every fuse's melting currents times its factor. */
export function airedPlant(scene: Scene, fuses: readonly number[], air_C: number): Aired {
  const { circuit } = scene;
  const factors = fuses.map((i) => factorIn(scene, circuit.parts[i].name, air_C));
  const byName = new Map(fuses.map((i, k) => [circuit.parts[i].name, factors[k]]));
  const plant = plantOf(inAir({ ...scene.cabinet, circuit }, (name) => byName.get(name) ?? 1));
  return { plant, factors };
}

/**
 * The same standing in the other air. A term counts how far the element is from where it stood to where it melts: the
 * heat in it is what it was, and the way is as (1/I_inf)^2.
 */
export function inOtherAir(
  from: Standing<Mode>,
  before: Aired,
  after: Aired,
  fuses: readonly number[],
): Standing<Mode> {
  const y = from.y.slice();
  fuses.forEach((i, k) => {
    const p = before.plant.layout.circuit.parts[i];
    if (p.is !== "fuse" || p.melt === null) return;
    const { state } = before.plant.layout.places[i];
    const scale = (before.factors[k] / after.factors[k]) ** 2;
    for (let term = 0; term < p.melt.share.length; term++) y[state + term] *= scale;
  });
  return { ...from, y };
}
