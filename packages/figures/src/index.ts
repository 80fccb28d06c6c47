export type { Page } from "./context.ts";
export type { FigureOptions } from "./frame.ts";
export { type Overlay, type OverlayGeometry, type OverlayOptions, overlay } from "./overlay.ts";
export { type Reading, valuesAt } from "./readings.ts";
export { svgText } from "./svgText.ts";
