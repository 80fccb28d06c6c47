/** Readings taken on site, as dots on the curves that predicted them. */

import type { Quantity } from "@startgap/study";
import { append, appendTitle } from "./context.ts";
import { duration } from "./format.ts";
import type { OverlayLayout } from "./overlayLayout.ts";
import type { Content } from "./overlaySelection.ts";
import { valueWords } from "./overlayWords.ts";

export interface Measured {
  readonly quantity: Quantity;
  /** On the story's clock. */
  readonly time_s: number;
  /** V, A, rpm or fraction. */
  readonly value: number;
}

/** Panels with room for the readings of their quantity. */
export function withMeasured(contents: readonly Content[], measured: readonly Measured[]): Content[] {
  return contents.map((content) => {
    const own = measured.filter(
      ({ quantity, value }) => quantity === content.quantity && Number.isFinite(value),
    );
    return { ...content, also: own.map(({ value }) => value) };
  });
}

export function drawMeasured(parent: SVGElement, layout: OverlayLayout, measured: readonly Measured[]): void {
  const [from, to] = layout.x.domain();
  for (const { quantity, time_s, value } of measured) {
    const panel = layout.panels.find(({ content }) => content.quantity === quantity);
    const known = Number.isFinite(value) && time_s >= from && time_s <= to;
    if (panel === undefined || !known) continue;
    const cy = panel.y(value * panel.factor);
    const dot = append(parent, "circle", {
      class: "outline",
      cx: layout.x(time_s),
      cy,
      r: layout.size * 0.32,
    });
    appendTitle(
      dot,
      `measured ${valueWords(value, panel.content, panel.factor === 1)} at ${duration(time_s)}`,
    );
  }
}
