import type { MeltTerms } from "@startgap/circuit";
import type { Assumption, Derived } from "../grade.ts";
import type { Issue } from "../issue.ts";
import { nearestName } from "../nearest.ts";
import { amBand, type ClassBand, type ClassCurve, ggBand, northAmericanBand } from "./classCurves.ts";
import { say } from "./curvePoints.ts";
import { fitMelt } from "./fitMelt.ts";
import { type Gate, NORTH_AMERICAN, type NorthAmericanName, northAmericanGates } from "./gates.ts";
import { amGates, GG_ROWS, ggGates } from "./gatesIec.ts";

/** A fuse known by its class alone: its band, and the gates that the band keeps. */
export interface ClassFuse {
  /** As in `fuseClassNames`. */
  readonly name: string;
  readonly rating_A: number;
  /** Fast edge: minimum melting. */
  readonly melt: MeltTerms;
  /** Middle of the band. */
  readonly average: MeltTerms;
  /** Slow edge: total clearing. */
  readonly clearing: MeltTerms;
  readonly gates: readonly Gate[];
}

const northAmerican = Object.keys(NORTH_AMERICAN) as NorthAmericanName[];

/** The names that a cabinet file may give for a fuse's curve; "class" before one and capitals do not matter. */
export const fuseClassNames: readonly string[] = Object.freeze([
  ...northAmerican.map((name) => `time-delay ${name}`),
  ...northAmerican,
  "gG",
  "aM",
]);

const LEAST_A = 0.1;
const MOST_AM_A = 630;

/**
 * The melting band of a fuse of which only the class and the rating are known.
 *
 * Hold is to be judged on `melt`, protection on `clearing`: both keep every gate of the class's standard, and
 * between the gates they and the middle are assumed curves (common practice, no source).
 *
 * @param name one of `fuseClassNames`, as "time-delay plug", "RK5", "gG"
 * @param rating_A above 0, up to the largest of the class; gG in its standard sizes from 16 to 100 A
 * @param part name of the part, for the assumptions
 * @returns the band, or what is wrong: path "name" or "rating"
 *
 * Limitation: a real fuse of the class lies anywhere in the band; its maker's curve wins.
 * Source: UL 248 series and IEC 60269-1, each gate with its clause (`ClassFuse.gates`).
 * Checked by packages/cabinet/test/fuseClass.test.ts for every class and rating.
 */
export function fuseFromClass(name: string, rating_A: number, part = ""): Derived<ClassFuse> | Issue[] {
  const known = fuseClassNames.find((one) => plain(one) === plain(name));
  if (known === undefined) return [unknownName(name)];
  const found = known === "gG" ? ofGg(rating_A) : known === "aM" ? ofAm(rating_A) : ofUl(known, rating_A);
  if ("expected" in found) return [found];
  const terms = (curve: ClassCurve) => fitted(curve, known);
  const value: ClassFuse = Object.freeze({
    name: known,
    rating_A,
    melt: terms(found.band.fast),
    average: terms(found.band.middle),
    clearing: terms(found.band.slow),
    gates: Object.freeze(found.gates),
  });
  return { value, assumptions: [gateAssumption(value, part), curveAssumption(value, found.band, part)] };
}

interface Found {
  readonly band: ClassBand;
  readonly gates: Gate[];
}

function ofUl(name: string, rating_A: number): Found | Issue {
  const timeDelay = name.startsWith("time-delay ");
  const own = (timeDelay ? name.slice("time-delay ".length) : name) as NorthAmericanName;
  const most_A = NORTH_AMERICAN[own].most_A;
  if (!(rating_A >= LEAST_A && rating_A <= most_A)) return badRating(name, rating_A, most_A);
  return {
    band: northAmericanBand(own, rating_A, timeDelay),
    gates: northAmericanGates(own, rating_A, timeDelay),
  };
}

function ofGg(rating_A: number): Found | Issue {
  const row = GG_ROWS.find((one) => one.rating_A === rating_A);
  if (row !== undefined) return { band: ggBand(row), gates: ggGates(row) };
  const sizes = GG_ROWS.map((one) => one.rating_A).join(", ");
  return { path: "rating", expected: `a rating of gG: ${sizes} A`, received: `${rating_A} A` };
}

function ofAm(rating_A: number): Found | Issue {
  if (!(rating_A >= LEAST_A && rating_A <= MOST_AM_A)) return badRating("aM", rating_A, MOST_AM_A);
  return { band: amBand(rating_A), gates: amGates(rating_A) };
}

function badRating(name: string, rating_A: number, most_A: number): Issue {
  return {
    path: "rating",
    expected: `a rating of ${LEAST_A} A to ${most_A} A for ${name}`,
    received: `${rating_A} A`,
  };
}

function unknownName(name: string): Issue {
  const nearest = name.trim() === "" ? undefined : nearestName(name, fuseClassNames);
  return {
    path: "name",
    expected: `a class of fuse: ${fuseClassNames.join(", ")}`,
    received: JSON.stringify(name.slice(0, 78)),
    ...(nearest === undefined ? {} : { nearest }),
  };
}

/** "Class CC, time delay" and "time-delay CC" are the same. */
function plain(name: string): string {
  const words = name.toLowerCase().split(/[\s,-]+/);
  const own = words.filter((word) => !["", "class", "time", "delay", "fuse"].includes(word)).join(" ");
  return words.includes("time") && words.includes("delay") ? `time-delay ${own}` : own;
}

/** The tables are kept by a test to curves that fit, so a refusal here is an error of the program. */
function fitted(curve: ClassCurve, name: string): MeltTerms {
  const fit = fitMelt(curve.points, { minimumFusing_A: curve.minimumFusing_A });
  if (Array.isArray(fit)) throw new RangeError(`invalid curve of ${name}: ${fit[0].expected}`);
  return fit.terms;
}

function gateAssumption(fuse: ClassFuse, part: string): Assumption {
  const text = (gate: Gate) =>
    gate.time_s === Number.POSITIVE_INFINITY
      ? `${gate.says} ${say(gate.current_A)} A`
      : `${gate.says} ${say(gate.time_s)} s at ${say(gate.current_A)} A`;
  return {
    part,
    what: "fuse gates",
    value: `${fuse.name}, ${fuse.rating_A} A: ${fuse.gates.map(text).join("; ")}`,
    range: null,
    grade: "table",
    basis: [...new Set(fuse.gates.map((gate) => gate.clause))].join("; "),
  };
}

function curveAssumption(fuse: ClassFuse, { middle }: ClassBand, part: string): Assumption {
  const shown = middle.points.map(([current_A, time_s]) => `${say(current_A)} A for ${say(time_s)} s`);
  return {
    part,
    what: "fuse curve between the gates",
    value: `${fuse.name}, ${fuse.rating_A} A, middle: ${shown.join(", ")}`,
    range: "edges: the gates where the standard speaks, an assumed band between",
    grade: "assumed",
    basis: "common practice, no source; the maker's curve wins",
  };
}
