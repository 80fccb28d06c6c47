import type { Issue } from "../issue.ts";
import { type RecordOf, record } from "../shape/record.ts";
import { type Built, isField, kind, placeFields, type Surroundings } from "./kind.ts";
import { builtFrom, windingFields } from "./windings.ts";

const fields = { is: isField("transformer"), ...placeFields, ...windingFields } as const;

type Spec = RecordOf<typeof fields>;

const build = (spec: Spec, around: Surroundings): Built | readonly Issue[] =>
  builtFrom("transformer", spec, around);

/** A transformer of two separate windings: the first is fed, the second feeds. */
export const transformer = kind<Spec>({
  is: "transformer",
  doc: "A transformer of two separate windings: the first is fed, the second feeds.",
  shape: record("a transformer", fields),
  feeds: true,
  build,
  output_V: (spec, input_V) => (input_V * spec.windings[1].nominal) / spec.windings[0].nominal,
});
