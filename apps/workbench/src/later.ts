/** What the first picture does not need: it follows once that is drawn. */

export { waveform } from "@startgap/figures";
export { clientView } from "./client/clientView.ts";
export { reportOf } from "./report/reportOf.ts";
export { figureCards } from "./view/figureCards.ts";
export { waveCard } from "./view/waveCard.ts";
