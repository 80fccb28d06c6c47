import { delayMap, overlay, svgText } from "@startgap/figures";
import type { Check } from "@startgap/study";
import type { Prepared } from "./prepare.ts";

/** What a picture is drawn from. */
export interface Subject extends Prepared {
  readonly check: Check;
}

/** A figure, or why this cabinet has none of that kind. */
type Draw = (page: Document, subject: Subject) => SVGSVGElement | string;

/** Every picture by the name it is asked for. */
const drawings = {
  overlay: (page, { check }) => overlay(page, check).node,
  "delay-map": (page, { check, cabinet }) =>
    check.map === null
      ? "a cabinet with one motor, which has no delay to map"
      : delayMap(page, check.map, { nominal_V: cabinet.nominalVoltage_V }),
} as const satisfies Record<string, Draw>;

export type FigureName = keyof typeof drawings;

export const figureNames = Object.keys(drawings) as FigureName[];

export const isFigureName = (name: string): name is FigureName => Object.hasOwn(drawings, name);

/**
 * A picture as a whole SVG file, or why there is none.
 *
 * @throws RangeError for a name that is none of `figureNames`
 */
export function draw(name: string, page: Document, subject: Subject): { svg: string } | { none: string } {
  if (!isFigureName(name))
    throw new RangeError(`invalid figure: ${name} (expected ${figureNames.join(", ")})`);
  const drawn = drawings[name](page, subject);
  return typeof drawn === "string" ? { none: drawn } : { svg: svgText(drawn) };
}
