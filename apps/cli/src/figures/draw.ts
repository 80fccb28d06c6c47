import type { Issue } from "@startgap/cabinet";
import {
  delayMap,
  lowestVoltageOf,
  overlay,
  singleLine,
  svgText,
  timeCurrent,
  timeCurrentOf,
  torqueSpeed,
  torqueSpeedOf,
  whereTheVoltsGo,
} from "@startgap/figures";
import { type Check, deciding } from "@startgap/study";
import { named } from "../named.ts";
import type { Prepared } from "../prepare.ts";

/** What a picture is drawn from. */
export interface Subject extends Prepared {
  readonly check: Check;
  /** The part asked for; the first of its kind when absent. */
  readonly part?: string;
}

/** A figure, or why this cabinet has none of that kind. */
type Draw = (page: Document, subject: Subject) => SVGSVGElement | readonly Issue[];

const none = (received: string): readonly Issue[] => [
  { path: "--figure", expected: "a figure that this cabinet has", received },
];

const drawMap: Draw = (page, { check, cabinet }) =>
  check.map === null
    ? none("a cabinet with one motor, which has no delay to map")
    : delayMap(page, check.map, { nominal_V: cabinet.nominalVoltage_V });

const drawFuse: Draw = (page, { check, cabinet, part }) => {
  const fuses = cabinet.circuit.parts.filter((one) => one.is === "fuse");
  const chosen = named(fuses, "fuse", part, "--part");
  if ("issues" in chosen) return chosen.issues;
  const input = timeCurrentOf(chosen.parts[0], check);
  return input === null ? none(`${chosen.parts[0].name}, a fuse without a curve`) : timeCurrent(page, input);
};

const drawMotor: Draw = (page, { check, cabinet, part }) => {
  const motors = cabinet.circuit.parts.filter((one) => one.is === "motor");
  const chosen = named(motors, "motor", part, "--part");
  if ("issues" in chosen) return chosen.issues;
  const [motor] = chosen.parts;
  return torqueSpeed(page, torqueSpeedOf(motor, lowestVoltageOf(motor.name, check.report)));
};

/** Every picture by the name it is asked for. */
const drawings = {
  overlay: (page, { check }) => overlay(page, check).node,
  "delay-map": drawMap,
  volts: (page, { check }) => whereTheVoltsGo(page, check.report.cases),
  "time-current": drawFuse,
  "torque-speed": drawMotor,
  "single-line": (page, { check, cabinet }) =>
    singleLine(page, cabinet.circuit.parts, deciding(check.report)),
} as const satisfies Record<string, Draw>;

export type FigureName = keyof typeof drawings;

export const figureNames = Object.keys(drawings) as FigureName[];

export const isFigureName = (name: string): name is FigureName => Object.hasOwn(drawings, name);

/**
 * A picture as a whole SVG file, or why there is none.
 *
 * @throws RangeError for a name that is none of `figureNames`
 */
export function draw(
  name: string,
  page: Document,
  subject: Subject,
): { svg: string } | { issues: readonly Issue[] } {
  if (!isFigureName(name))
    throw new RangeError(`invalid figure: ${name} (expected ${figureNames.join(", ")})`);
  const drawn = drawings[name](page, subject);
  return "nodeType" in drawn ? { svg: svgText(drawn) } : { issues: drawn };
}
