import type { MeltTerms } from "@startgap/circuit";
import type { Assumption, Derived } from "../grade.ts";
import type { Issue } from "../issue.ts";
import { AMBIENT_C, ambientFactor, CURVE_AMBIENT_C, withCurrents } from "./ambient.ts";
import { type CurvePoint, type PointPlace, placeIn, say } from "./curvePoints.ts";
import { fitMelt, type MeltFit } from "./fitMelt.ts";
import { fuseFromClass } from "./fuseFromClass.ts";
import { readCurveCsv } from "./readCurveCsv.ts";

/** Which curve of a fuse the points draw. */
export type MeltKind = "minimum" | "average" | "clearing";

/** What a cabinet file says of a fuse's curve: a class by name, points, or the text of a datasheet curve. */
export type FuseCurve =
  | string
  | { readonly points: readonly CurvePoint[]; readonly melt: MeltKind }
  | { readonly csv: string; readonly melt?: MeltKind };

export interface FuseSpec {
  readonly rating_A: number;
  readonly curve: FuseCurve;
  /** Air around the fuse, degC; the curve's own 25 degC when silent. */
  readonly ambient_C?: number;
  /** Name of the part, for the assumptions. */
  readonly part?: string;
}

/** Both edges of a fuse's band. */
export interface FuseBand {
  /** Fast edge: hold is judged on it. */
  readonly melt: MeltTerms;
  /** Slow edge: protection is judged on it. */
  readonly clearing: MeltTerms;
}

/** Currents of the edges over those of the curve that is given: +-10 % about the average. */
const BAND = 0.1;
const EDGES: Readonly<Record<MeltKind, { readonly melt: number; readonly clearing: number }>> = {
  minimum: { melt: 1, clearing: (1 + BAND) / (1 - BAND) },
  average: { melt: 1 - BAND, clearing: 1 + BAND },
  clearing: { melt: (1 - BAND) / (1 + BAND), clearing: 1 },
};

/** Minimum fusing current over the rating, for curves that end above the currents at which a fuse must open. */
const TAIL: Readonly<Record<MeltKind, number>> = { minimum: 1.1, average: 1.2, clearing: 1.35 };
const MUST_OPEN = 1.35;
/** A last stretch that falls by less than this power of the time has levelled off by itself. */
const LEVEL = 0.05;
/** Beyond this the fit is told. */
const EXACT = 0.02;
const NO_SOURCE = "common practice, no source";

/**
 * The melting band of a fuse from what a cabinet file says of it.
 *
 * A curve that is given is taken outright as its own edge; the other edge, which the file does not state, is
 * assumed from it. Of an average curve both edges are assumed, 10 % in current to either side.
 *
 * @returns both edges with what was assumed; or everything that is wrong, by place: "rating", "ambient", "curve",
 *   "curve.points[3]", "curve.csv, line 3, column 2"
 *
 * Limitation: no arcing time is added, which counts below about a cycle only.
 * Checked by packages/cabinet/test/fuseMeltOf.test.ts.
 */
export function meltOf(spec: FuseSpec): Derived<FuseBand> | Issue[] {
  const stated = [...ratingIssues(spec.rating_A), ...ambientIssues(spec.ambient_C)];
  const band = stated.some(({ path }) => path === "rating") ? [] : bandOf(spec);
  const issues = [...stated, ...(Array.isArray(band) ? band : [])];
  if (Array.isArray(band) || issues.length > 0) return issues;
  const ambient_C = spec.ambient_C ?? CURVE_AMBIENT_C;
  const factor = ambientFactor(ambient_C);
  return {
    value: {
      melt: withCurrents(band.value.melt, factor),
      clearing: withCurrents(band.value.clearing, factor),
    },
    assumptions: [...band.assumptions, ambientAssumption(spec.part ?? "", ambient_C, factor)],
  };
}

/** A curve as points, and where these stand in what the builder wrote. */
interface Given {
  readonly points: readonly CurvePoint[];
  readonly kind: MeltKind;
  readonly path: string;
  readonly place: PointPlace;
}

function bandOf({ rating_A, curve, part = "" }: FuseSpec): Derived<FuseBand> | Issue[] {
  if (typeof curve === "string") return fromClass(curve, rating_A, part);
  if ("csv" in curve) return fromCsv(curve.csv, curve.melt, rating_A, part);
  const path = "curve.points";
  return fromPoints({ points: curve.points, kind: curve.melt, path, place: placeIn(path) }, rating_A, part);
}

function fromClass(name: string, rating_A: number, part: string): Derived<FuseBand> | Issue[] {
  const found = fuseFromClass(name, rating_A, part);
  if (!Array.isArray(found)) return found;
  return found.map((one) => ({ ...one, path: one.path === "name" ? "curve" : one.path }));
}

function fromCsv(
  text: string,
  kind: MeltKind | undefined,
  rating_A: number,
  part: string,
): Derived<FuseBand> | Issue[] {
  const table = readCurveCsv(text, rating_A);
  const path = (inner: string) => (inner === "" ? "curve.csv" : `curve.csv, ${inner}`);
  if (Array.isArray(table)) return table.map((one) => ({ ...one, path: path(one.path) }));
  const place: PointPlace = (index, value) =>
    path(`line ${table.lines[index]}${value === undefined ? "" : `, column ${table.columns[value]}`}`);
  const given = { points: table.points, kind: kind ?? "average", path: path(""), place };
  const band = fromPoints(given, rating_A, part);
  if (Array.isArray(band) || kind !== undefined) return band;
  return { ...band, assumptions: [kindAssumption(part), ...band.assumptions] };
}

function fromPoints(given: Given, rating_A: number, part: string): Derived<FuseBand> | Issue[] {
  const { points, kind, path, place } = given;
  const early_A = endsEarly(points, rating_A) ? TAIL[kind] * rating_A : undefined;
  const first = fitMelt(points, { minimumFusing_A: early_A, path, place });
  if (Array.isArray(first)) return first;
  const tail_A = early_A ?? carried_A(points, first, rating_A);
  const again = tail_A === early_A ? first : fitMelt(points, { minimumFusing_A: tail_A, path, place });
  const fit = Array.isArray(again) ? first : again;
  return {
    value: {
      melt: withCurrents(fit.terms, EDGES[kind].melt),
      clearing: withCurrents(fit.terms, EDGES[kind].clearing),
    },
    assumptions: [
      edgeAssumption(part, kind),
      ...(tail_A === undefined ? [] : [tailAssumption(part, fit, points)]),
      ...(fit.currentError > EXACT ? [fitAssumption(part, fit, place)] : []),
      ...(fit.terms.minimumFusing_A < (1 - EXACT) * rating_A ? [ratingAssumption(part, fit, rating_A)] : []),
    ],
  };
}

/** A fuse carries its rating: where the curve goes on below it although no given point lies there, it levels off. */
function carried_A(points: readonly CurvePoint[], fit: MeltFit, rating_A: number): number | undefined {
  const lowest_A = Math.min(...points.map(([current_A]) => current_A));
  if (lowest_A < rating_A || fit.terms.minimumFusing_A >= rating_A) return undefined;
  return Math.min(rating_A, (1 - EXACT) * lowest_A);
}

/** Whether the points stop, still falling, above the current at which a fuse must open within hours. */
function endsEarly(points: readonly CurvePoint[], rating_A: number): boolean {
  const sorted = [...points].sort((a, b) => a[1] - b[1]);
  const last = sorted[sorted.length - 1];
  const before = sorted.filter(([, time_s]) => time_s <= last[1] / 2).at(-1);
  if (last === undefined || last[0] <= MUST_OPEN * rating_A) return false;
  return before === undefined || Math.log(before[0] / last[0]) > LEVEL * Math.log(last[1] / before[1]);
}

function ratingIssues(rating_A: number): Issue[] {
  if (rating_A > 0 && rating_A < Number.POSITIVE_INFINITY) return [];
  return [{ path: "rating", expected: `a rating above 0, as "30 A"`, received: `${rating_A} A` }];
}

function ambientIssues(ambient_C: number | undefined): Issue[] {
  if (ambient_C === undefined || (ambient_C >= AMBIENT_C.least && ambient_C <= AMBIENT_C.most)) return [];
  return [
    {
      path: "ambient",
      expected: `an ambient of ${AMBIENT_C.least} degC to ${AMBIENT_C.most} degC, as "40 degC"`,
      received: `${ambient_C} degC`,
    },
  ];
}

function assumption(
  part: string,
  what: string,
  value: string,
  basis: string,
  range: string | null = null,
): Assumption {
  return { part, what, value, range, grade: "assumed", basis };
}

function kindAssumption(part: string): Assumption {
  return assumption(
    part,
    "kind of fuse curve",
    "average melting",
    `${NO_SOURCE}; the file does not say which`,
  );
}

function edgeAssumption(part: string, kind: MeltKind): Assumption {
  const percent = (factor: number) => `${say(100 * factor)} % of the given currents`;
  const { melt, clearing } = EDGES[kind];
  const basis = `${NO_SOURCE}: ${say(100 * BAND)} % in current to either side of the average`;
  if (kind === "minimum") return assumption(part, "total-clearing curve", percent(clearing), basis);
  if (kind === "clearing") return assumption(part, "minimum-melt curve", percent(melt), basis);
  return assumption(part, "edges of the fuse curve", `${percent(melt)} and ${percent(clearing)}`, basis);
}

function tailAssumption(part: string, fit: MeltFit, points: readonly CurvePoint[]): Assumption {
  const last_s = Math.max(...points.map(([, time_s]) => time_s));
  return assumption(
    part,
    `fuse curve beyond ${say(last_s)} s`,
    `levels off at ${say(fit.terms.minimumFusing_A)} A`,
    `${NO_SOURCE}; the given curve ends there`,
  );
}

function fitAssumption(part: string, fit: MeltFit, place: PointPlace): Assumption {
  return assumption(
    part,
    "fuse curve",
    `kept within ${say(100 * fit.currentError)} % in current, worst at ${place(fit.worstPoint)}`,
    "no heat flow in the element follows the given points more closely",
  );
}

function ratingAssumption(part: string, fit: MeltFit, rating_A: number): Assumption {
  return assumption(
    part,
    "fuse curve below its rating",
    `taken as given: it melts from ${say(fit.terms.minimumFusing_A)} A, under the rating of ${say(rating_A)} A`,
    "the given points",
  );
}

function ambientAssumption(part: string, ambient_C: number, factor: number): Assumption {
  return assumption(
    part,
    "fuse currents at its ambient",
    `${say(100 * factor)} % at ${say(ambient_C)} degC`,
    ambient_C === CURVE_AMBIENT_C
      ? `curves hold at ${CURVE_AMBIENT_C} degC: ${NO_SOURCE}`
      : `${NO_SOURCE} (from memory)`,
  );
}
