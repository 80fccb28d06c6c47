import { describe, expect, it } from "vitest";
import { overlay, valuesAt } from "../src/index.ts";
import { exampleCheck } from "./stories.ts";
import { newPage } from "./window.ts";

describe("the overlay", () => {
  it("redrawn with another check is the overlay of that check", () => {
    const page = newPage();
    const [early, late] = [exampleCheck({ delay_s: 0.4 }), exampleCheck({ delay_s: 7.3 })];
    const drawn = overlay(page, early, { width: 700 });
    expect(drawn.node.isEqualNode(overlay(page, late, { width: 700 }).node)).toBe(false);
    drawn.update(late);
    expect(drawn.node.isEqualNode(overlay(page, late, { width: 700 }).node)).toBe(true);
    drawn.update(early, { width: 380, voltageIn: "V", from_s: 0.2, to_s: 3 });
    const options = { width: 380, voltageIn: "V", from_s: 0.2, to_s: 3 } as const;
    expect(drawn.node.isEqualNode(overlay(page, early, options).node)).toBe(true);
  });

  it("keeps its node and the second start's group, so that a drag goes on", () => {
    const drawn = overlay(newPage(), exampleCheck({ delay_s: 2 }));
    const [node, handle] = [drawn.node, drawn.geometry.secondStart!.node];
    const geometry = drawn.update(exampleCheck({ delay_s: 5 }));
    expect(drawn.node).toBe(node);
    expect(geometry.secondStart!.node).toBe(handle);
    expect(handle.isConnected).toBe(node.isConnected);
    expect(node.contains(handle)).toBe(true);
    expect(drawn.geometry).toBe(geometry);
  });

  it("says where the second start stands", () => {
    const { node, geometry } = overlay(newPage(), exampleCheck({ delay_s: 3 }), { width: 800 });
    const { secondStart, xScale, plot } = geometry;
    expect(secondStart!.x).toBeCloseTo(plot.left + ((plot.right - plot.left) * 3) / 12, 9);
    expect(xScale.invert(secondStart!.x)).toBeCloseTo(3, 9);
    const mark = node.querySelector('[data-mark="second-start"]')!;
    expect(mark.getAttribute("data-time_s")).toBe("3");
    expect(mark.getAttribute("transform")).toBe(`translate(${Math.round(secondStart!.x * 10) / 10},0)`);
  });

  it("hides the second start where there is none on the axis", () => {
    const alone = overlay(newPage(), exampleCheck({ motors: ["saw"] }));
    expect(alone.geometry.secondStart).toBeNull();
    const zoomed = overlay(newPage(), exampleCheck({ delay_s: 3 }), { to_s: 2 });
    expect(zoomed.geometry.secondStart).toBeNull();
    expect(zoomed.node.querySelector(".second-start")!.getAttribute("visibility")).toBe("hidden");
  });

  it("has a panel for every quantity there is, and none for what there is not", () => {
    const check = exampleCheck();
    const quantities = overlay(newPage(), check).geometry.panels.map(({ quantity }) => quantity);
    expect(quantities).toEqual(["voltage", "current", "speed", "melt fraction"]);
    const fuseless = check.stories.map((story) => {
      const columns = story.traces.columns.filter(({ quantity }) => quantity !== "melt fraction");
      return { ...story, traces: { ...story.traces, columns } };
    });
    expect(overlay(newPage(), { ...check, stories: fuseless }).geometry.panels).toHaveLength(3);
    expect(overlay(newPage(), { ...check, stories: [] }).node.textContent).toContain("No story to show.");
  });

  it("shows every value: each curve stays inside its panel (invariant)", () => {
    for (const options of [{}, { voltageIn: "V" } as const, { from_s: 2.9, to_s: 3.2 }]) {
      const { node, geometry } = overlay(newPage(), exampleCheck(), options);
      const groups = [...node.querySelectorAll("g.several > g")];
      expect(groups).toHaveLength(geometry.panels.length);
      for (const [i, { box }] of geometry.panels.entries())
        for (const path of groups[i].querySelectorAll("path.curve")) {
          const at = path
            .getAttribute("d")!
            .match(/-?[\d.]+/g)!
            .map(Number);
          const [xs, ys] = [at.filter((_, k) => k % 2 === 0), at.filter((_, k) => k % 2 === 1)];
          expect(Math.min(...xs)).toBeGreaterThanOrEqual(box.left - 0.1);
          expect(Math.max(...xs)).toBeLessThanOrEqual(box.right + 0.1);
          expect(Math.min(...ys)).toBeGreaterThanOrEqual(box.top - 0.1);
          expect(Math.max(...ys)).toBeLessThanOrEqual(box.bottom + 0.1);
        }
    }
  });

  it("has room for readings taken on site", () => {
    const measured = [{ quantity: "current", time_s: 3.2, value: 240 } as const];
    const { node, geometry } = overlay(newPage(), exampleCheck(), { measured });
    const dot = node.querySelector("circle")!;
    const panel = geometry.panels[1];
    expect(Number(dot.getAttribute("cy"))).toBeCloseTo(panel.yScale(240), 1);
    expect(Number(dot.getAttribute("cy"))).toBeGreaterThanOrEqual(panel.box.top);
    expect(dot.textContent).toBe("measured 240\u00a0A at 3.2\u00a0s");
  });

  it("draws no more points than its pixels can show, however long the story", () => {
    const { node, geometry } = overlay(newPage(), exampleCheck({ samples: 60_000 }), { width: 400 });
    const pixels = geometry.plot.right - geometry.plot.left + 1;
    for (const path of node.querySelectorAll("path.curve"))
      expect(path.getAttribute("d")!.split(/[ML]/).length).toBeLessThan(4 * pixels + 10);
  });

  it("marks a fuse that melts and a contactor that drops out, once where they chatter", () => {
    const check = exampleCheck();
    const event = (at_s: number, part: string, what: string) => ({ at_s, part, what });
    const events = [
      event(0.5, "contactor", "opens"),
      event(0.505, "contactor", "pulls in"),
      event(0.51, "contactor", "opens"),
      event(0.52, "contactor", "opens"),
      event(6, "line fuses", "melts"),
      event(9, "contactor", "opens"),
    ];
    const stories = check.stories.map((story) => (story.case === "together" ? { ...story, events } : story));
    const { node } = overlay(newPage(), { ...check, stories });
    const marks = [...node.querySelectorAll("path.fail-line")].map((mark) => mark.textContent);
    expect(marks.map((words) => words?.replaceAll("\u00a0", " "))).toEqual([
      "together: contactor opens 3 times from 0.50 s to 0.52 s",
      "together: line fuses melts at 6.0 s",
      "together: contactor opens at 9.0 s",
    ]);
    expect([...node.querySelectorAll("text.fail")].map((text) => text.textContent)).toContain(
      "opens 3 times",
    );
  });

  it("draws chatter as hairlines, for a dash says nothing there", () => {
    const check = exampleCheck();
    const stories = check.stories.map((story) => {
      const columns = story.traces.columns.map((column) => {
        const values = column.values.map((value, i) =>
          story.case === "together" && i % 2 === 0 ? 0 : value,
        );
        return column.quantity === "voltage" ? { ...column, values } : column;
      });
      return { ...story, traces: { ...story.traces, columns } };
    });
    const dense = [...overlay(newPage(), { ...check, stories }).node.querySelectorAll("path.dense")];
    expect(dense.map((path) => path.getAttribute("class"))).toEqual(["curve together dense"]);
    expect(overlay(newPage(), check).node.querySelectorAll("path.dense")).toHaveLength(0);
  });

  it("refuses a span without length", () => {
    expect(() => overlay(newPage(), exampleCheck(), { from_s: 3, to_s: 3 })).toThrow(
      "invalid span: 3 to 3 s",
    );
  });
});

describe("values along the reading line", () => {
  const line = (values: number[]) => {
    const check = exampleCheck();
    const columns = [
      {
        quantity: "voltage",
        part: "lamp",
        unit: "V",
        nominal: 120,
        values: Float64Array.from(values),
      } as const,
    ];
    const traces = { time_s: Float64Array.of(0, 2, 2, 4), columns };
    return { ...check, stories: [{ ...check.stories[0], duration_s: 4, traces, events: [] }] };
  };
  const at = (time_s: number) => valuesAt(line([100, 110, 90, 100]), time_s, { point: "lamp" })[0]?.value;

  it("lie on the straight line between samples (closed form)", () => {
    expect(at(0)).toBe(100);
    expect(at(1)).toBe(105);
    expect(at(3)).toBe(95);
    expect(at(4)).toBe(100);
  });

  it("are those after a jump, and none outside the story", () => {
    expect(at(2)).toBe(90);
    expect(at(-0.1)).toBeNull();
    expect(at(4.1)).toBeNull();
  });

  it("are none before a motor's terminals are first live", () => {
    const dead = valuesAt(line([0, 0, 90, 100]), 1, { point: "lamp" });
    expect(dead[0].value).toBeNull();
  });

  it("name the case, the quantity and the part of every curve shown", () => {
    const readings = valuesAt(exampleCheck(), 3.3);
    expect(readings.map((r) => `${r.case} ${r.quantity} ${r.part}`)).toEqual([
      "one voltage receptacles",
      "together voltage receptacles",
      "staggered voltage receptacles",
      "one current line fuses",
      "together current line fuses",
      "staggered current line fuses",
      "one speed pump 1",
      "together speed pump 1",
      "together speed pump 2",
      "staggered speed pump 1",
      "staggered speed pump 2",
      "one melt fraction line fuses",
      "together melt fraction line fuses",
      "staggered melt fraction line fuses",
    ]);
  });
});
