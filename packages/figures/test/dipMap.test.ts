import { describe, expect, it } from "vitest";
import { dipMap } from "../src/dipMap.ts";
import { type DipScales, dipLines, dipRegions, endAtPoint } from "../src/dipRegions.ts";
import { cellsOf, roomFor } from "../src/roomFor.ts";
import { dipMapOf, exampleDips, row } from "./dipMaps.ts";
import { newPage } from "./window.ts";

/** A plot of 100 by 100 px: 10 px a second, 100 px a whole voltage. */
const scales: DipScales = {
  box: { left: 0, right: 100, top: 0, bottom: 100 },
  x: (t) => 10 * t,
  y: (left) => 100 * (1 - left),
};

describe("regions of a dip map (constructed outlines)", () => {
  it("are bounded by the lengths at which the end changes, through depths that change alike", () => {
    const edges = [
      row(0, "holds", 2, "together"),
      row(0.5, "holds", 3, "together"),
      row(1, "holds", 4, "together"),
    ];
    expect(dipRegions(edges, scales)).toEqual([
      { end: "holds", d: "M0,100L0,0L40,0L30,50L20,100Z" },
      { end: "together", d: "M20,100L30,50L40,0L100,0L100,100Z" },
    ]);
    expect(dipLines(edges, scales)).toBe("M20,100L30,50L40,0");
  });

  it("break halfway between depths that do not, with a line across where the ends differ", () => {
    const edges = [
      row(0, "holds", 2, "together", 6, "staggered"),
      row(0.5, "holds", 4, "staggered"),
      row(1, "holds"),
    ];
    const lines = dipLines(edges, scales);
    // From 20 to 40 and from 40 to 60 px the ends on both sides differ, past 60 they do not; above, from 40 on.
    expect(lines).toContain("M20,75H40M40,75H60M40,25H100");
    expect(lines).not.toContain("M60,75");
    expect(dipRegions(edges, scales).map(({ end }) => end)).toEqual([
      "holds",
      "together",
      "staggered",
      "holds",
      "staggered",
      "holds",
    ]);
  });

  it("know what stands at a point", () => {
    const edges = [row(0, "holds", 2, "together"), row(1, "holds")];
    const at = (x: number, y: number): string => endAtPoint(edges, scales, [x, y]);
    expect([at(10, 90), at(30, 90), at(30, 10)]).toEqual(["holds", "together", "holds"]);
  });
});

describe("room for words", () => {
  /** An L: everything left of 40 px, and everything below 60 px. */
  const cells = cellsOf(scales.box, (x, y) => (x < 40 || y > 60 ? "L" : "rest"));

  it("lies in its region alone, as far from its edges as can be", () => {
    const wide = roomFor(cells, "L", { width: 80, height: 12 });
    expect(wide?.top).toBeGreaterThanOrEqual(60);
    const tall = roomFor(cells, "L", { width: 12, height: 80 });
    expect(tall?.right).toBeLessThanOrEqual(40);
    const rest = roomFor(cells, "rest", { width: 12, height: 12 });
    expect([(rest?.left ?? 0) > 50, (rest?.right ?? 99) < 90, (rest?.bottom ?? 99) < 50]).toEqual([
      true,
      true,
      true,
    ]);
  });

  it("is none where words do not fit, or where all is taken", () => {
    expect(roomFor(cells, "rest", { width: 70, height: 12 })).toBeNull();
    expect(roomFor(cells, "nowhere", { width: 4, height: 4 })).toBeNull();
    const taken = [{ left: 40, right: 100, top: 0, bottom: 60 }];
    expect(roomFor(cells, "rest", { width: 8, height: 8 }, taken)).toBeNull();
  });
});

describe("the dip map", () => {
  const words = (svg: SVGElement): string[] =>
    [...svg.querySelectorAll("text")].map((t) => t.textContent ?? "");

  it("names every region in place and the lengths at which the deepest dip crosses a line", () => {
    const drawn = words(dipMap(newPage(), exampleDips()));
    for (const name of [
      "every motor runs on",
      "all restart together",
      "one after the other",
      "contacts chatter",
    ])
      expect(drawn).toContain(name);
    expect(drawn).toContain("15\u00a0ms");
    expect(drawn).toContain("80\u00a0ms");
    expect(drawn).toContain("against full heads");
  });

  it("keys what finds no room, two that share a shade once", () => {
    const sliver = dipMapOf(
      [row(0, "holds"), row(0.5, "holds", 4.8, "stays off", 4.9, "chatters"), row(0.9, "holds")],
      [0, 0.5, 0.9],
      [0.01, 5],
    );
    expect(words(dipMap(newPage(), sliver))).toContain("something stays off or contacts chatter");
  });

  it("is told in words to who cannot see it", () => {
    const desc = dipMap(newPage(), exampleDips()).querySelector("desc")?.textContent;
    expect(desc).toBe(
      "With 0 % left: every motor runs on up to 15 ms, then all restart together up to 80 ms, then one after the other. With 90 % left: every motor runs on.",
    );
  });

  it("refuses a map that is a single row or column", () => {
    expect(() => dipMap(newPage(), dipMapOf([row(0, "holds")], [0]))).toThrow(/^invalid map: /);
  });
});
