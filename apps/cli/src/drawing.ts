import { overlay, svgText } from "@startgap/figures";
import type { Check } from "@startgap/study";
import type { Prepared } from "./prepare.ts";

/** What a picture is drawn from. */
export interface Subject extends Prepared {
  readonly check: Check;
  /** The part asked for, where the picture is of one part. */
  readonly part: string | undefined;
}

type Draw = (page: Document, subject: Subject) => SVGSVGElement;

/** Every picture by the name it is asked for. */
const drawings = {
  overlay: (page, { check }) => overlay(page, check).node,
} as const satisfies Record<string, Draw>;

export type FigureName = keyof typeof drawings;

export const figureNames = Object.keys(drawings) as FigureName[];

export const isFigureName = (name: string): name is FigureName => Object.hasOwn(drawings, name);

/**
 * A picture as a whole SVG file.
 *
 * @throws RangeError for a name that is none of `figureNames`
 */
export function draw(name: string, page: Document, subject: Subject): string {
  if (!isFigureName(name))
    throw new RangeError(`invalid figure: ${name} (expected ${figureNames.join(", ")})`);
  return svgText(drawings[name](page, subject));
}
