import type { FuseParameters } from "@startgap/circuit";
import type { FuseFacts } from "../facts.ts";
import { CURVE_AMBIENT_C } from "../fuse/ambient.ts";
import { type FuseCurve, fuseClassNames, meltOf } from "../fuse/index.ts";
import type { Issue } from "../issue.ts";
import { textOrRecord } from "../shape/choices.ts";
import { list, pair } from "../shape/lists.ts";
import { may, need, type RecordOf, record } from "../shape/record.ts";
import { oneOf, prose, quantity, text } from "../shape/scalars.ts";
import type { Value } from "../shape/shape.ts";
import { impedance, none, ohms } from "./common.ts";
import { type Built, isField, kind, place, placeFields, type Surroundings } from "./kind.ts";

const point = pair(
  "a point of current and time",
  quantity("current", { from: "1 mA", to: "1000 kA", example: "60 A" }),
  quantity("time", { from: "0.1 ms", to: "300 h", example: "25 s" }),
);

const drawn = record(
  "a drawn curve",
  {
    points: may(
      list("points of current and time", point, { from: 2, to: 500 }),
      "Points, each a current and a time.",
    ),
    csv: may(
      prose("a curve as text in columns", 100_000, "current (A);time (s)"),
      "A datasheet curve as text: a line for each point, current and time in columns.",
    ),
    melt: may(
      oneOf("which curve of the fuse it is", ["minimum", "average", "clearing"]),
      "Which curve of the fuse this is: of text in columns, average when silent.",
    ),
  },
  {
    ways: [{ needs: ["points", "melt"] }, { needs: ["csv"], takes: ["melt"] }],
    example: `{ "points": [["30 A", "600 s"], ["50 A", "25 s"], ...], "melt": "minimum" }`,
  },
);

const fields = {
  is: isField("fuse"),
  ...placeFields,
  rating: need(
    quantity("current", { a: "a fuse rating", from: "0.1 A", to: "1200 A", example: "30 A" }),
    "Rated current.",
  ),
  poles: may(
    oneOf("how many lines are fused", [1, 2]),
    "How many of the two lines are fused: 1 when silent.",
  ),
  curve: may(
    textOrRecord(text("the class of a fuse", 60, "time-delay plug"), drawn),
    `Its time-current curve: drawn, or by class (${fuseClassNames.join(", ")}). Without one it never melts.`,
  ),
  ambient: may(
    quantity("temperature", { from: "-40 degC", to: "85 degC", example: "40 degC" }),
    "Temperature of the air around it: that of its curve, 25 degC, when silent.",
  ),
  impedance: may(impedance, "Impedance of all its poles together; none when silent."),
  interruptingRating: may(
    quantity("current", { a: "an interrupting rating", from: "100 A", to: "300 kA", example: "10 kA" }),
    "Most current that it may interrupt: that of its class when silent. Judged, not simulated.",
  ),
  wire: may(
    oneOf("which wire the fuse stands in", ["line", "neutral"]),
    "Which wire it stands in: a line when silent. Neutral is judged and warned of; it never counts as protection.",
  ),
} as const;

type Spec = RecordOf<typeof fields>;

const factsOf = (spec: Spec): FuseFacts => ({
  is: "fuse",
  className: typeof spec.curve === "string" ? spec.curve : null,
  interruptingRating_A: spec.interruptingRating?.nominal ?? null,
  wire: spec.wire ?? "line",
  ambient_C: spec.ambient?.nominal ?? CURVE_AMBIENT_C,
});

function curveOf(curve: string | Value<typeof drawn>): FuseCurve {
  if (typeof curve === "string") return curve;
  if (curve.csv !== null) return { csv: curve.csv, melt: curve.melt ?? undefined };
  const points = curve.points!.map(([current, time]) => [current.nominal, time.nominal] as const);
  return { points, melt: curve.melt! };
}

function build(spec: Spec, around: Surroundings): Built | readonly Issue[] {
  const base = {
    is: "fuse",
    ...place(around),
    ...(spec.impedance === null ? none : ohms(spec.impedance)),
    poles: spec.poles ?? 1,
    rating_A: spec.rating.nominal,
  } as const;
  const facts = factsOf(spec);
  if (spec.curve === null) {
    const parameters: FuseParameters = { ...base, melt: null, clearing: null };
    return { parameters, assumptions: [], notes: [`${around.name}: without a curve it never melts`], facts };
  }
  const found = meltOf({
    rating_A: spec.rating.nominal,
    curve: curveOf(spec.curve),
    ambient_C: spec.ambient?.nominal,
    part: around.name,
  });
  if (!("value" in found)) return found;
  return { parameters: { ...base, ...found.value }, assumptions: found.assumptions, notes: [], facts };
}

/** One fuse, or a pair in the two lines that carry the same current. */
export const fuse = kind<Spec>({
  is: "fuse",
  doc: "One fuse, or a pair in the two lines that carry the same current.",
  shape: record("a fuse", fields),
  feeds: true,
  build,
});
