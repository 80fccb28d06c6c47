import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { append, appendText, svgRoot } from "../src/context.ts";
import { morphChildren } from "../src/morph.ts";
import { newPage } from "./window.ts";

const page = newPage();

interface Sketch {
  readonly name: "g" | "path" | "text";
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly Sketch[];
}

const { sketch } = fc.letrec<{ sketch: Sketch }>((tie) => ({
  sketch: fc.record({
    name: fc.constantFrom("g", "path", "text"),
    attributes: fc.dictionary(fc.constantFrom("a", "b", "c"), fc.constantFrom("1", "2")),
    children: fc.oneof({ depthSize: "small" }, fc.constant([]), fc.array(tie("sketch"), { maxLength: 3 })),
  }),
}));

function build(parent: SVGElement, { name, attributes, children }: Sketch): void {
  if (name === "text") appendText(parent, children.length.toString(), attributes);
  else for (const child of children) build(append(parent, name, attributes), child);
}

function tree(sketches: readonly Sketch[]): SVGElement {
  const root = append(svgRoot(page), "g");
  for (const one of sketches) build(root, one);
  return root;
}

describe("turning one tree into another", () => {
  it("ends with an equal tree, whatever they were (invariant)", () => {
    fc.assert(
      fc.property(fc.array(sketch, { maxLength: 4 }), fc.array(sketch, { maxLength: 4 }), (before, after) => {
        const root = tree(before);
        morphChildren(root, tree(after));
        expect(root.isEqualNode(tree(after))).toBe(true);
      }),
    );
  });

  it("keeps the elements that stay", () => {
    const path: Sketch = {
      name: "g",
      attributes: { a: "1" },
      children: [{ name: "text", attributes: {}, children: [] }],
    };
    const root = tree([path]);
    const kept = root.firstElementChild;
    morphChildren(root, tree([{ ...path, attributes: { b: "2" } }]));
    expect(root.firstElementChild).toBe(kept);
    expect(kept?.getAttribute("b")).toBe("2");
    expect(kept?.hasAttribute("a")).toBe(false);
  });
});
