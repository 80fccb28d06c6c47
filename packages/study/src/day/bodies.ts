import type { Cabinet } from "@startgap/cabinet";
import type { PartParameters } from "@startgap/circuit";
import { lossesInside } from "../heat/boxHeat.ts";
import { insulationOf, USUAL_DAYS } from "../heat/heat.ts";
import type { Wound } from "../heat/transformerHeat.ts";
import { partsOf, type Scene } from "../protection/scene.ts";
import { motorBodyOf } from "./motorBody.ts";
import type { Season } from "./results.ts";
import type { SmallLoss } from "./sums.ts";
import type { Bodies } from "./thermal.ts";
import { woundBodyOf } from "./woundBody.ts";

const isRated = (p: PartParameters): p is Wound =>
  (p.is === "autotransformer" || p.is === "transformer") && Number.isFinite(p.rating_VA);

/** Everything of a cabinet that has a temperature, in the order of its parts. */
export function bodiesOf(cabinet: Cabinet, scene: Scene, season: Season): Bodies {
  const { enclosure } = cabinet;
  return {
    motors: partsOf(scene, "motor").map((p) => motorBodyOf(scene, p)),
    wound: scene.circuit.parts
      .filter(isRated)
      .map((p) => woundBodyOf(p, insulationOf(cabinet, p.name), scene.situations.running.input_V(p.name))),
    box: enclosure,
    air: (enclosure ?? USUAL_DAYS)[season],
  };
}

/** Fuses by the resistance that their loss with everything running asks for; coils and relays while they hold. */
export function smallLosses(scene: Scene): SmallLoss[] {
  const index = new Map(scene.circuit.parts.map((p, i) => [p.name, i]));
  return lossesInside(scene).flatMap(({ part: name, loss_W }): SmallLoss[] => {
    const part = index.get(name) ?? -1;
    const p = scene.circuit.parts[part];
    if (p === undefined || p.is === "transformer" || p.is === "autotransformer") return [];
    if (p.is !== "fuse") return [{ part, ohm: 0, held_W: loss_W }];
    const running_A = scene.situations.running.current_A(name);
    return running_A > 0 ? [{ part, ohm: loss_W / running_A ** 2, held_W: 0 }] : [];
  });
}
