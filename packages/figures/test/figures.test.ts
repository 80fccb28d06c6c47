import { describe, expect, it } from "vitest";
import {
  delayMap,
  delayMapGeometry,
  type Nominals,
  nominalsOf,
  singleLine,
  timeCurrent,
  torqueSpeed,
  whereTheVoltsGo,
} from "../src/index.ts";
import { exampleCabinet, exampleFuse, exampleMotor } from "./plots.ts";
import { exampleCheck, exampleMap } from "./stories.ts";
import { newPage } from "./window.ts";

const words = (node: SVGSVGElement) =>
  [...node.querySelectorAll("text")].map((text) => text.firstChild?.nodeValue ?? "");
const plain = (text: string | null | undefined) => (text ?? "").replaceAll("\u00a0", " ");

describe("the delay map", () => {
  const nominal_V = nominalsOf(exampleCheck());

  it("shades exactly the passing delays and marks knee and setting", () => {
    const node = delayMap(newPage(), exampleMap(), { nominal_V, width: 800 });
    const ranges = [...node.querySelectorAll("rect.range")];
    expect(ranges).toHaveLength(3);
    expect(words(node).map(plain)).toEqual(
      expect.arrayContaining(["everything passes", "knee 1.2 s", "set 1.5 s"]),
    );
  });

  it("shades every stretch that passes, and says so when none does", () => {
    const map = exampleMap();
    const twice = { ...map, passes: map.delay_s.map((t) => t > 2 && (t < 4 || t > 6)) };
    expect(delayMap(newPage(), twice, { nominal_V }).querySelectorAll("rect.range")).toHaveLength(6);
    const advice = { recommended_s: null, shortest_s: null, knee_s: null, reason: "Nothing passes." };
    const none = delayMap(newPage(), { ...map, passes: map.passes.map(() => false), advice }, { nominal_V });
    expect(none.querySelectorAll("rect.range")).toHaveLength(0);
    expect(words(none)).toContain("no delay passes");
    expect(none.querySelector("desc")!.textContent).toBe("No delay is recommended. Nothing passes.");
  });

  it("says when a longer delay fails again", () => {
    const map = exampleMap();
    const node = delayMap(newPage(), { ...map, advice: { ...map.advice, until_s: 9.5 } });
    expect(node.querySelector("desc")!.textContent).toContain("Past 9.5 s it fails again.");
  });

  it("leaves out the voltage of a motor whose nominal voltage it is not told", () => {
    const named = (nominals: Nominals) =>
      words(delayMap(newPage(), exampleMap(), { nominal_V: nominals, width: 800 })).filter(
        (word) => word === "pump 1",
      );
    expect(named(nominal_V)).toHaveLength(2);
    expect(named({})).toHaveLength(1);
    expect(named(Object.create({ "pump 1": 120 }))).toHaveLength(1);
  });

  it("names the seven worst of many parts and counts the rest", () => {
    const motors = Array.from({ length: 20 }, (_, i) => `motor ${i + 1}`);
    const check = exampleCheck({ motors });
    const node = delayMap(newPage(), check.map!, { nominal_V: nominalsOf(check), width: 800 });
    expect(words(node)).toContain("Lowest voltage, % of nominal, 14 more parts faint");
  });

  it("tells where its panels, its axis and every delay stand (invariant: as they are drawn)", () => {
    const options = { nominal_V, width: 800 };
    const node = delayMap(newPage(), exampleMap(), options);
    const geometry = delayMapGeometry(exampleMap(), options);
    const size = [geometry.width, geometry.height].map(String);
    expect(["width", "height"].map((name) => node.getAttribute(name))).toEqual(size);
    const ranges = [...node.querySelectorAll("rect.range")];
    const drawn = (name: string) => ranges.map((range) => Number(range.getAttribute(name)));
    geometry.panels.forEach(({ top, bottom, right }, i) => {
      expect(drawn("y")[i]).toBeCloseTo(top, 1);
      expect(drawn("height")[i]).toBeCloseTo(bottom - top, 1);
      expect(drawn("x")[i] + drawn("width")[i]).toBeCloseTo(right, 1);
    });
    const setting = [...node.querySelectorAll("path.mark")].map((path) => path.getAttribute("d") ?? "");
    const at = geometry.xScale(exampleMap().advice.recommended_s!);
    expect(setting.some((d) => Math.abs(Number(/^M([\d.]+),/.exec(d)?.[1]) - at) < 0.02)).toBe(true);
  });

  it("can be drawn of a map with a single delay or none", () => {
    const map = exampleMap();
    const first = <T>(values: readonly T[]) => values.slice(0, 1);
    const single = {
      ...map,
      delay_s: first(map.delay_s),
      motors: [],
      points: map.points.map((point) => ({ ...point, lowestVoltage_V: first(point.lowestVoltage_V) })),
      fuses: [],
      contactors: [],
      passes: [true],
    };
    expect(() => delayMap(newPage(), single)).not.toThrow();
    expect(() => delayMap(newPage(), { ...single, delay_s: [], points: [], passes: [] })).not.toThrow();
  });
});

describe("the time-current plot", () => {
  it("says how long a stall takes to open the fuse, from its own edges", () => {
    const input = {
      ...exampleFuse(),
      melt: [
        { current_A: 50, time_s: 40 },
        { current_A: 200, time_s: 2.5 },
      ],
      clearing: [
        { current_A: 50, time_s: 80 },
        { current_A: 200, time_s: 5 },
      ],
      stall_A: 100,
    };
    // closed form: both edges keep I^2 t, so at twice 50 A a quarter of the time
    expect(words(timeCurrent(newPage(), input)).map(plain)).toContain(
      "stalled 100 A: opens after 10 s to 20 s",
    );
  });

  it("says which start reaches the band", () => {
    const reaching = [
      { current_A: 60, time_s: 1 },
      { current_A: 50, time_s: 90 },
    ];
    const starts = [{ case: "together", points: reaching } as const, exampleFuse().starts[0]];
    const summary = plain(
      timeCurrent(newPage(), { ...exampleFuse(), starts }).querySelector("desc")!.textContent,
    );
    expect(summary).toContain("together reaches the band at 50 A.");
    expect(summary).toContain("one stays below the band.");
  });

  it("can be drawn without clearing, stall or starts, and without any point", () => {
    const bare = { part: "fuse", melt: [], clearing: null, starts: [], stall_A: null };
    expect(() => timeCurrent(newPage(), bare)).not.toThrow();
    expect(() => timeCurrent(newPage(), { ...bare, melt: exampleFuse().melt })).not.toThrow();
  });
});

describe("the torque plot", () => {
  it("tells a motor that runs from one that is stuck below its switch", () => {
    const summary = torqueSpeed(newPage(), exampleMotor());
    expect(words(summary).map(plain)).toEqual(
      expect.arrayContaining(["runs at 1690 rpm", "stuck at 1180 rpm"]),
    );
    expect(summary.querySelectorAll("circle.fail-stroke")).toHaveLength(1);
  });

  it("can be drawn of a motor without a switch and without a second voltage", () => {
    const node = torqueSpeed(newPage(), { ...exampleMotor(), sagged: null, switchOpens_rpm: null });
    expect(words(node)).not.toContain("switch opens");
  });
});

describe("where the volts go", () => {
  const cases = exampleCheck().report.cases;

  it("draws bars as long as the volts they stand for (invariant)", () => {
    const node = whereTheVoltsGo(newPage(), cases, { width: 800 });
    const bars = [...node.querySelectorAll("rect.segment")].slice(0, 15);
    const lost = cases.flatMap((report) => report.worst!.shares.map(({ lost_V }) => lost_V));
    const scale = Number(bars[0].getAttribute("width")) / lost[0];
    for (const [i, bar] of bars.entries())
      expect(Math.abs(Number(bar.getAttribute("width")) - lost[i] * scale)).toBeLessThan(0.2);
  });

  it("gathers what is too small to see, and shows a rise to the left of zero", () => {
    const shares = [
      { part: "feeder", lost_V: 12 },
      { part: "other leg", lost_V: -2 },
      ...Array.from({ length: 4 }, (_, i) => ({ part: `joint ${i}`, lost_V: 0.06 })),
    ];
    const one = { ...cases[0], worst: { ...cases[0].worst!, shares } };
    const node = whereTheVoltsGo(newPage(), [one], { width: 800 });
    expect(words(node).map(plain)).toEqual(
      expect.arrayContaining(["other leg", "\u22122.0 V", "all else", "0.2 V"]),
    );
    expect(words(node)).not.toContain("joint 0");
    const [feeder, rise] = [...node.querySelectorAll("rect.segment")].map((bar) =>
      Number(bar.getAttribute("x")),
    );
    expect(rise).toBeLessThan(feeder);
  });

  it("can be drawn of cases that lost nothing", () => {
    const node = whereTheVoltsGo(newPage(), [{ ...cases[0], worst: null }]);
    expect(words(node)).toContain("No case lost any voltage.");
  });
});

describe("the single line", () => {
  it("shows every part once, under what feeds it", () => {
    const { parts, findings } = exampleCabinet();
    const node = singleLine(newPage(), [...parts].reverse(), findings);
    const shown = words(node);
    for (const { name } of parts) expect(shown.filter((word) => word === name)).toHaveLength(1);
    expect(node.querySelectorAll(".symbol")).toHaveLength(parts.length);
    expect(shown.indexOf("panel")).toBeLessThan(shown.indexOf("feeder"));
    expect(shown.indexOf("delay relay")).toBeLessThan(shown.indexOf("pump 2"));
  });

  it("gives the gravest verdict of a part, by shape as well as colour", () => {
    const { parts, findings } = exampleCabinet();
    const graver = [...findings, { ...findings[0], outcome: "fail" as const, says: "They melt." }];
    const node = singleLine(newPage(), parts, graver);
    const plates = [...node.querySelectorAll(".badge .plate")].map((plate) => plate.getAttribute("class"));
    expect(plates.filter((plate) => plate === "plate fail")).toHaveLength(3);
    expect(words(node)).toContain("They melt.");
    const shapes = new Set(
      [...node.querySelectorAll(".badge .plate")].map((plate) => plate.getAttribute("d")),
    );
    expect(shapes.size).toBe(3);
  });

  it("says a leg only of what hangs on one, and a case only where there are several", () => {
    const { parts, findings } = exampleCabinet();
    const led = parts.map((part) => ({ ...part, leg: part.leg ?? ("first" as const) }));
    const shown = words(singleLine(newPage(), led, findings, { width: 800 }));
    expect(shown).toEqual(expect.arrayContaining(["cable", "first leg", "motor", "load, second leg"]));
    expect(shown).not.toContain("cable, first leg");
    expect(shown.filter((word) => word.includes("(staggered)"))).toEqual([]);
    const both = [...findings, { ...findings[0], case: "together" as const, says: "Less margin." }];
    expect(words(singleLine(newPage(), led, both, { width: 800 }))).toContain("Less margin. (together)");
  });

  it("shows parts of an unknown kind, of an unknown feeder and of a ring", () => {
    const parts = [
      { name: "a", is: "constructor", fedBy: "b" },
      { name: "b", is: "cable", fedBy: "a" },
      { name: "c", is: "motor", fedBy: "nobody" },
      { name: "__proto__", is: "load", fedBy: "c" },
    ];
    const node = singleLine(newPage(), parts, []);
    expect(node.querySelectorAll(".symbol")).toHaveLength(4);
    expect(singleLine(newPage(), [], []).querySelectorAll(".symbol")).toHaveLength(0);
  });
});
