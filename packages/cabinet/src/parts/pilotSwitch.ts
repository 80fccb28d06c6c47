import type { PilotSwitchParameters } from "@startgap/circuit";
import { may, type RecordOf, record } from "../shape/record.ts";
import { oneOf } from "../shape/scalars.ts";
import { type Built, controlFields, isField, kind, type Surroundings } from "./kind.ts";

const fields = {
  is: isField("switch"),
  ...controlFields,
  position: may(oneOf("where it stands", ["on", "off"]), "Where it stands: on when silent."),
} as const;

type Spec = RecordOf<typeof fields>;

function build(spec: Spec, around: Surroundings): Built {
  const parameters: PilotSwitchParameters = {
    is: "switch",
    name: around.name,
    closed: spec.position !== "off",
  };
  return { parameters, assumptions: [], notes: [] };
}

/** A switch worked by hand in the path of a coil. */
export const pilotSwitch = kind<Spec>({
  is: "switch",
  doc: "A switch worked by hand in the path of a coil, as a master switch.",
  shape: record("a switch", fields),
  feeds: false,
  build,
});
