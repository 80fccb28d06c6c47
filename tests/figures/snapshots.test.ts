import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { overlay, svgText } from "@startgap/figures";
import { JSDOM } from "jsdom";
import { describe, expect, it } from "vitest";
import { everyFigure } from "../../packages/figures/test/everyFigure.ts";
import { awkward, exampleCheck, type Setup } from "../../packages/figures/test/stories.ts";
import { normalised } from "./normalised.ts";

/**
 * Regression: every figure against its answer. These are pictures to be looked at; a changed one is written beside its
 * answer as NAME-changed.svg. Accept all changes with REGENERATE=1.
 */
const answers = new URL("answers/", import.meta.url);
const regenerate = process.env.REGENERATE === "1";
const page = () => new JSDOM("").window.document;
const samples = 160;

/** Two cases that go wrong: the first melts its fuse, the second lets its contactor chatter. */
function troubled() {
  const check = exampleCheck({ samples });
  const event = (at_s: number, part: string, what: string) => ({ at_s, part, what });
  const stories = check.stories.map((story) => {
    if (story.case !== "together") return story;
    const gone = story.traces.time_s.findIndex((t) => t > 2.5);
    const columns = story.traces.columns.map((column) => {
      const after = column.quantity === "melt fraction" ? 1 : 0;
      return { ...column, values: column.values.map((value, i) => (i >= gone ? after : value)) };
    });
    const events = [event(0.8, "contactor", "drops out"), event(2.5, "line fuses", "melts")];
    return { ...story, traces: { ...story.traces, columns }, events };
  });
  return { ...check, stories };
}

function drawings(): Map<string, SVGSVGElement> {
  const out = new Map<string, SVGSVGElement>();
  const draw = (tag: string, setup: Partial<Setup>, options: object) => {
    for (const [name, node] of Object.entries(everyFigure(page(), { ...setup, samples }, options)))
      out.set(`${name}-${tag}`, node);
  };
  draw("800", {}, { width: 800 });
  draw("360-dark", {}, { width: 360, theme: "dark" });
  draw("320-awkward", awkward, { width: 320, prefix: "awkward" });
  out.set("overlay-troubled", overlay(page(), troubled(), { width: 800 }).node);
  out.set("overlay-alone", overlay(page(), exampleCheck({ motors: ["saw"], samples }), { width: 640 }).node);
  const measured = [{ quantity: "voltage", time_s: 3.1, value: 103 } as const];
  const zoom = { width: 800, from_s: 2.8, to_s: 4, voltageIn: "V", measured } as const;
  out.set("overlay-zoomed", overlay(page(), exampleCheck({ samples }), zoom).node);
  return out;
}

/** All figures carry the same style: it is compared in one of each theme. */
function compared(svg: string, name: string): string {
  return name.startsWith("overlay-800") || name.startsWith("overlay-360")
    ? svg
    : svg.replace(/<style>.*?<\/style>/s, "");
}

describe("every figure is the picture that was accepted (regression)", () => {
  const all = drawings();

  for (const [name, node] of all)
    it(name, () => {
      const got = normalised(svgText(node));
      const [answer, changed] = [new URL(`${name}.svg`, answers), new URL(`${name}-changed.svg`, answers)];
      if (regenerate) writeFileSync(answer, got);
      const same = existsSync(answer) && compared(readFileSync(answer, "utf8"), name) === compared(got, name);
      if (same) rmSync(changed, { force: true });
      else writeFileSync(changed, got);
      expect(same, `look at tests/figures/answers/${name}-changed.svg`).toBe(true);
    });

  it("has no answer that nothing draws any more", () => {
    const kept = readdirSync(answers).filter(
      (name) => name.endsWith(".svg") && !name.endsWith("-changed.svg"),
    );
    expect(kept.sort()).toEqual([...all.keys()].map((name) => `${name}.svg`).sort());
  });
});

describe("normalised text", () => {
  it("does not change with the last digits of a number nor with the names of ids", () => {
    expect(normalised('<g x="1.2000001" id="a"/>')).toBe(normalised('<g x="1.1999999" id="b"/>'));
    expect(normalised('<g x="1.2" id="a"/>')).not.toBe(normalised('<g x="1.4" id="a"/>'));
    const ids = normalised('<g id="a"/><g id="b" aria-labelledby="a"/>');
    expect(ids).toBe('<g id="id1"/><g id="id2" aria-labelledby="id1"/>');
    expect(normalised('<text x="1.04">1.04 s</text>')).toBe('<text x="1">1.04 s</text>');
  });
});
