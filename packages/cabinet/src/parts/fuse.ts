import type { FuseParameters } from "@startgap/circuit";
import { may, need, type RecordOf, record } from "../shape/composites.ts";
import { oneOf, quantity, text } from "../shape/scalars.ts";
import { impedance, none, ohms } from "./common.ts";
import { type Built, isField, kind, place, placeFields, type Surroundings } from "./kind.ts";

const fields = {
  is: isField("fuse"),
  ...placeFields,
  rating: need(
    quantity("current", { a: "a fuse rating", from: "0.1 A", to: "600 A", example: "30 A" }),
    "Rated current.",
  ),
  poles: may(
    oneOf("how many lines are fused", [1, 2]),
    "How many of the two lines are fused: 1 when silent.",
  ),
  curve: may(text("a kind of fuse", 60, "time-delay plug"), "Its time-current curve."),
  impedance: may(impedance, "Impedance of all its poles together; none when silent."),
} as const;

type Spec = RecordOf<typeof fields>;

function build(spec: Spec, around: Surroundings): Built {
  const parameters: FuseParameters = {
    is: "fuse",
    ...place(around),
    ...(spec.impedance === null ? none : ohms(spec.impedance)),
    poles: spec.poles ?? 1,
    rating_A: spec.rating.nominal,
    melt: null,
    clearing: null,
  };
  return {
    parameters,
    assumptions: [],
    notes: [`${around.name}: its curve is not known, so it never melts`],
  };
}

/** One fuse, or a pair in the two lines that carry the same current. */
export const fuse = kind<Spec>({
  is: "fuse",
  doc: "One fuse, or a pair in the two lines that carry the same current.",
  shape: record("a fuse", fields),
  feeds: true,
  build,
});
