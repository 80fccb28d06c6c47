import { JSDOM } from "jsdom";
import { describe, expect, it } from "vitest";
import { svgText } from "../src/index.ts";
import { everyFigure } from "./everyFigure.ts";
import { awkward, type Setup } from "./stories.ts";
import { newPage } from "./window.ts";

const hostile: Partial<Setup> = {
  ...awkward,
  motors: ['</text><script>alert("1")</script>', "]]> & \u0000\u0008\ud800\ufffe"],
  receptacles: '" onload="alert(1)',
};

function parsed(text: string): Document {
  return new new JSDOM("").window.DOMParser().parseFromString(text, "image/svg+xml");
}

const figures = (setup: Partial<Setup>, theme: "light" | "dark" | "auto" = "light") =>
  Object.entries(everyFigure(newPage(), setup, { theme }));

describe("a figure as a file of its own", () => {
  it("is well-formed whatever the names are", () => {
    for (const [name, node] of figures(hostile)) {
      const root = parsed(svgText(node)).documentElement;
      expect(root.nodeName, name).toBe("svg");
      expect(root.namespaceURI).toBe("http://www.w3.org/2000/svg");
    }
  });

  it("shows markup in a name as words and never as an element or an attribute", () => {
    for (const [name, node] of figures(hostile)) {
      const root = parsed(svgText(node)).documentElement;
      expect(root.querySelector("script"), name).toBeNull();
      const attributes = [...root.querySelectorAll("*")].flatMap((element) => [...element.attributes]);
      expect(attributes.filter((attribute) => /^on|href/i.test(attribute.name))).toEqual([]);
    }
  });

  it("refers to nothing outside itself, nor by id inside", () => {
    for (const [name, node] of figures({})) {
      const text = svgText(node).replace('xmlns="http://www.w3.org/2000/svg"', "");
      expect(text, name).not.toMatch(/https?:|url\(|href|@import|\bid="/);
    }
  });

  it("writes its colours out, for readers that know no custom properties", () => {
    for (const theme of ["light", "dark", "auto"] as const)
      for (const [, node] of figures({}, theme)) expect(svgText(node)).not.toMatch(/var\(|\$\w/);
    const [[, node]] = figures({}, "auto");
    expect(svgText(node)).toContain("@media (prefers-color-scheme:dark)");
  });

  it("leaves the node as it was, and says the same twice", () => {
    const [[, node]] = figures({});
    const before = node.outerHTML;
    const text = svgText(node);
    expect(node.outerHTML).toBe(before);
    expect(svgText(node)).toBe(text);
  });
});

describe("what a figure says to those who cannot see it", () => {
  it("is an image with a title and at least one plain sentence", () => {
    for (const [name, node] of figures({})) {
      expect(node.getAttribute("role")).toBe("img");
      expect(node.children[0].nodeName).toBe("title");
      expect(node.children[0].textContent!.length, name).toBeGreaterThan(10);
      expect(node.children[1].nodeName).toBe("desc");
      expect(node.children[1].textContent, name).toMatch(/[a-z].*\.$/);
    }
  });

  it("carries ids only when given a prefix, so two figures on a page never clash", () => {
    const page = newPage();
    const ids = ["left", "right"].flatMap((prefix) =>
      Object.entries(everyFigure(page, {}, { prefix })).flatMap(([name, node]) => {
        expect(node.getAttribute("aria-labelledby"), name).toBe(`${prefix}-title`);
        return name === "overlay" ? [...node.querySelectorAll("[id]")].map(({ id }) => id) : [];
      }),
    );
    expect(ids).toEqual(["left-title", "left-desc", "right-title", "right-desc"]);
  });

  it("refuses sizes that make no figure, by name", () => {
    const draw = (width: number, height?: number) => () => everyFigure(newPage(), {}, { width, height });
    expect(draw(100)).toThrow(new RangeError("invalid width: 100 (expected 280 to 20000 px)"));
    expect(draw(Number.NaN)).toThrow("invalid width: NaN");
    expect(draw(800, 10)).toThrow("invalid height: 10 (expected 80 to 20000 px)");
    expect(draw(800, 300)).not.toThrow();
  });
});
