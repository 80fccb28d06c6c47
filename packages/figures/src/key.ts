/** A key of the cases, for when their curves have no room for words. */

import type { CaseName } from "@startgap/study";
import { append, appendText } from "./context.ts";
import { caseWords } from "./overlayWords.ts";
import { path } from "./path.ts";
import { textWidth } from "./textWidth.ts";

/** Width that a key takes with the room before it, px. */
export function keyRoomOf(cases: readonly CaseName[], size: number): number {
  return cases.reduce((sum, name) => sum + size * 3.4 + textWidth(caseWords[name], size, true), size);
}

export function drawKey(
  parent: SVGElement,
  cases: readonly CaseName[],
  left: number,
  y: number,
  size: number,
): void {
  const group = append(parent, "g", { class: "key" });
  let x = left;
  for (const name of cases) {
    append(group, "path", { class: `curve ${name}`, d: path`M${x},${y - size * 0.35}h${size * 2}` });
    x += size * 2.4;
    appendText(group, caseWords[name], { class: `strong ${name}-words`, x, y });
    x += textWidth(caseWords[name], size, true) + size;
  }
}
