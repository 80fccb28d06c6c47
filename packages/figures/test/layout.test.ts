import { describe, expect, it } from "vitest";
import { everyFigure } from "./everyFigure.ts";
import { awkward, type Setup } from "./stories.ts";
import { type TextBox, textBoxes } from "./textBoxes.ts";
import { newPage } from "./window.ts";

const setups: Readonly<Record<string, Partial<Setup>>> = {
  "plain names": {},
  "awkward names": awkward,
  "an early second start": { delay_s: 0.1 },
  "a late second start": { delay_s: 11.95 },
  "one letter": { motors: ["a", "b"], fuse: "c", receptacles: "d" },
  "wide letters": {
    motors: ["電動機".repeat(12), "👷🏽".repeat(20)],
    fuse: "W".repeat(80),
    receptacles: "é".repeat(60),
  },
};

function overlaps(boxes: readonly TextBox[]): string[] {
  return boxes.flatMap((a, i) =>
    boxes
      .slice(i + 1)
      .filter(
        (b) => a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 1 && b.top < a.bottom - 1,
      )
      .map((b) => `"${a.words}" meets "${b.words}"`),
  );
}

const outside = (boxes: readonly TextBox[], width: number, height: number): string[] =>
  boxes
    .filter(
      ({ left, right, top, bottom }) => left < -1 || right > width + 1 || top < -1 || bottom > height + 1,
    )
    .map(
      ({ words, left, right, top, bottom }) => `"${words}" at ${[left, right, top, bottom].map(Math.round)}`,
    );

// invariant: no words leave the figure and no words meet, at any width and with any names
describe("words of every figure", () => {
  for (const [names, setup] of Object.entries(setups))
    for (const width of [280, 320, 360, 500, 640, 800, 1200, 1600, 4000])
      it(`stay inside and apart with ${names} at ${width} px`, () => {
        for (const [name, node] of Object.entries(everyFigure(newPage(), setup, { width }))) {
          const boxes = textBoxes(node).filter(({ words }) => words !== "");
          expect(boxes.length, name).toBeGreaterThan(5);
          expect(outside(boxes, width, Number(node.getAttribute("height"))), name).toEqual([]);
          expect(overlaps(boxes), name).toEqual([]);
        }
      });
});
