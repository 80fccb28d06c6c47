import { type Cabinet, examples, readCabinet } from "@startgap/cabinet";
import type { Check } from "@startgap/study";
import { beforeAll, describe, expect, it } from "vitest";
import { type ReportInput, reportHtml } from "../src/index.ts";
import { clampReading_A } from "../src/report/clamp.ts";
import { cabinetOf, cellsBeside, checked, exampleText, inputOf, parsed, reported, words } from "./reports.ts";

const chapters = [
  "answer",
  "findings",
  "cases",
  "figures",
  "inputs",
  "stories",
  "failures",
  "test-sheet",
  "cautions",
  "source",
];

/** Whatever could run something or fetch something. */
const forbidden =
  "script, iframe, object, embed, img, link[rel=stylesheet], form, foreignObject, image, use, base";

function outsideReferences(page: Document): string[] {
  return [...page.querySelectorAll("*")].flatMap((element) =>
    [...element.attributes]
      .filter(({ name }) => /^(on.*|style|src|srcset|href|xlink:href|action|data|poster)$/.test(name))
      .map(({ name, value }) => `${element.localName} ${name}=${value}`)
      .filter((one) => !/^(a href=#[a-z-]+|link href=data:,)$/.test(one)),
  );
}

describe.each(examples)("the report of $key", ({ text }) => {
  let input: ReportInput;
  let page: Document;
  beforeAll(() => {
    input = inputOf(cabinetOf(text));
    page = reported(input);
  });

  it("runs nothing, asks for nothing, and says so in its policy", () => {
    expect(page.querySelectorAll(forbidden)).toHaveLength(0);
    expect(outsideReferences(page)).toEqual([]);
    const policy = page.querySelector("meta[http-equiv]")?.getAttribute("content");
    expect(policy).toBe(
      "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'",
    );
    expect([...page.querySelectorAll("style")].join("")).not.toMatch(/url\(|@import/);
  });

  it("has every chapter, headed in order, and a way to each", () => {
    expect([...page.querySelectorAll("main > section")].map(({ id }) => id)).toEqual(chapters);
    expect([...page.querySelectorAll("h1, h2")].map(({ localName }) => localName)).toEqual([
      "h1",
      ...chapters.map(() => "h2"),
    ]);
    for (const link of page.querySelectorAll("a"))
      expect(page.getElementById(link.getAttribute("href")?.slice(1) ?? "")).not.toBeNull();
    const ids = [...page.querySelectorAll("[id]")].map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it("tells what it is about, what made it and of what", () => {
    const block = page.querySelector("header");
    expect(words(block?.querySelector("h1"))).toBe(input.cabinet.title);
    expect(cellsBeside(block, "Date")).toEqual(["2026-03-04"]);
    expect(cellsBeside(block, "Program")).toEqual(["startgap 1.2.3"]);
    expect(words(block)).toContain(input.digest);
    expect(cellsBeside(block, "Prepared by")).toEqual([""]);
    expect(cellsBeside(block, "Prepared for")).toEqual([""]);
  });

  it("gives the setting with its reason first", () => {
    const { recommended_s, reason } = input.check.report.delay;
    const answer = words(page.querySelector("#answer"));
    expect(answer).toContain(reason);
    if (recommended_s === 0) expect(answer).toContain("No delay is needed");
    else if (recommended_s !== null)
      expect(answer).toContain(`Hold the second motor back ${recommended_s} s`);
  });

  it("has every question's gravest finding with limit and basis", () => {
    const { findings, cases } = input.check.report;
    const run = findings.filter((one) => one.case !== "together" || cases.length < 3);
    const said = [...page.querySelectorAll("#findings tr")].map(words);
    for (const { finding, part } of run) {
      const same = run.filter((one) => one.finding === finding && one.part === part);
      const gravest = ["fail", "caution", "pass"].find((outcome) =>
        same.some((one) => one.outcome === outcome),
      );
      const rows = same.filter((one) =>
        said.some((row) => row.startsWith(one.says) && row.endsWith(one.basis)),
      );
      expect(rows.map((one) => one.outcome)).toContain(gravest);
    }
  });

  it("shows every case's motors side by side", () => {
    const { cases } = input.check.report;
    const table = page.querySelector("#cases table");
    expect(table?.querySelectorAll("thead th")).toHaveLength(1 + cases.length);
    const groups = [...(table?.querySelectorAll("tr.group") ?? [])].map(words);
    for (const motor of cases[0].motors) expect(groups).toContain(motor.part);
  });

  it("has a name, words and a caption for every figure", () => {
    const figures = [...page.querySelectorAll("figure")];
    expect(figures.length).toBeGreaterThanOrEqual(3);
    for (const figure of figures) {
      const svg = figure.querySelector("svg");
      expect(svg?.getAttribute("role")).toBe("img");
      expect(words(page.getElementById(svg?.getAttribute("aria-labelledby") ?? ""))).not.toBe("");
      expect(words(page.getElementById(svg?.getAttribute("aria-describedby") ?? ""))).not.toBe("");
      expect(words(figure.querySelector("figcaption"))).toMatch(/^Figure \d+\. .+\.$/);
      expect(svg?.querySelector("style")).toBeNull();
    }
  });

  it("lists every value that the file states and every one that it does not", () => {
    const inputs = page.querySelector("#inputs");
    const rows = [...(inputs?.querySelectorAll("tbody tr") ?? [])].map((row) =>
      [...row.children].map(words).join(" "),
    );
    for (const { what, value, grade, basis } of input.cabinet.assumptions) {
      const own = rows.filter(
        (row) => row.startsWith(`${what} ${value}`) && row.endsWith(`${grade} ${basis}`),
      );
      expect(own, what).not.toHaveLength(0);
    }
    for (const { nameplate } of input.cabinet.file.parts as { nameplate?: { power: string } }[])
      if (nameplate !== undefined)
        expect(rows.join("|")).toContain(`nameplate, power ${nameplate.power} \u2013 plate`);
  });

  it("heads every column and every row", () => {
    for (const heading of page.querySelectorAll("th"))
      expect(heading.getAttribute("scope")).toMatch(/^(col|row|rowgroup)$/);
    for (const row of page.querySelectorAll("tbody tr")) expect(row.firstElementChild?.localName).toBe("th");
    expect(page.documentElement.lang).toBe("en");
  });

  it("says the cautions once at the top and in full at the end", () => {
    expect(words(page.querySelector(".caution-line"))).toContain("not a code calculation");
    const full = words(page.querySelector("#cautions"));
    for (const said of ["nameplate", "licensed electrician", "prove dead", "authority"])
      expect(full).toContain(said);
  });

  it("is the same text for the same input", () => {
    expect(reportHtml(input)).toBe(reportHtml({ ...input }));
  });
});

describe("the test sheet of the ice shed", () => {
  let input: ReportInput;
  let sheet: Element | null;
  beforeAll(() => {
    input = inputOf(cabinetOf(exampleText("ice-shed")));
    sheet = reported(input).querySelector("#test-sheet");
  });
  const bodyNamed = (name: string): Element | null =>
    [...(sheet?.querySelectorAll("tbody") ?? [])].find((body) => words(body.querySelector("tr")) === name) ??
    null;

  it("expects 120, 120 and 240 V of the windings, and knows 0 V as a reversed one (closed form)", () => {
    const body =
      [...(sheet?.querySelectorAll("tbody") ?? [])].find((one) => words(one).includes("polarity")) ?? null;
    expect(cellsBeside(body, "Across the first winding")?.[0]).toBe("120 V");
    expect(cellsBeside(body, "Across the second winding")?.[0]).toBe("120 V");
    expect(cellsBeside(body, "Across both in series")?.[0]).toMatch(/^240 V \(0 V: one is reversed/);
  });

  it("predicts what the cases tell, with room for three readings where they scatter", () => {
    const held = input.check.report.cases.find((one) => one.case === "staggered")!;
    const body = bodyNamed("Start of compressor 2");
    const motor = held.motors.find(({ part }) => part === "compressor 2")!;
    const lowest = cellsBeside(body, "Lowest volts at its terminals, over all starts");
    expect(lowest).toEqual([`${motor.lowestVoltage_V?.toFixed(0)} V`, "", "", ""]);
    expect(cellsBeside(body, "Delay from the first start")).toEqual(["6 s (5.4 s to 6.6 s)", "", "", ""]);
    expect(cellsBeside(body, "Run-up by stopwatch, from closing")).toHaveLength(4);
  });

  it("halves the amperes on a wire of the line, but for what else is on (invariant of the midpoint)", () => {
    const story = input.check.stories.find((one) => one.case === "staggered")!;
    const at = (part: string): number => clampReading_A(story, part, 0)!;
    const others = 400 / 240 + 1;
    expect(at("panel")).toBeGreaterThan(at("compressor 1") / 2);
    expect(at("panel")).toBeLessThan(at("compressor 1") / 2 + others);
    expect(words(sheet)).toContain("about half of what it shows at the motor");
  });

  it("has a line for meter, date and signature", () => {
    for (const name of ["Meter and clamp used, accuracy, window", "Date", "Signature"])
      expect(cellsBeside(sheet, name)).toEqual([""]);
  });
});

describe("a report", () => {
  it("leaves out what a cabinet does not have", () => {
    const without = { failures: undefined, cases: undefined, dips: undefined };
    const page = reported(inputOf(cabinetOf(exampleText("quarter-horse")), without));
    expect(page.getElementById("failures")).toBeNull();
    expect(page.getElementById("stories")).toBeNull();
    expect(words(page.querySelector("#figures"))).not.toContain("dip of the line");
    expect(words(page.querySelector("#answer"))).toContain("One motor: nothing to hold back");
    expect(words(page.querySelector("#test-sheet"))).not.toContain("polarity");
    expect(words(page.querySelector("#test-sheet"))).not.toContain("midpoint");
    expect(words(page.querySelector("#cautions"))).not.toContain("autotransformer");
  });

  it("tells case by case what else a day may bring, with what to change, and why a case is not told", () => {
    const page = reported(inputOf(cabinetOf(exampleText("ice-shed"))));
    const stories = page.getElementById("stories");
    const [verdict, happens, change] = cellsBeside(stories, "Stalled rotor") ?? [];
    expect(verdict).toBe("Fails");
    expect(happens).toMatch(
      /^Each motor alone, .* Compressor 1: stands still .* Much the same: compressor 2\.$/,
    );
    expect(change).toMatch(/^Give it a protector/);
    expect(words(stories)).toContain("Contactor welded: No compressor is known to fill a receiver");
    expect(words(page.querySelector("#figures"))).toContain(
      "without any voltage for 15 ms to 80 ms all motors restart together. Fit a lock-out timer",
    );
  });

  it("tells of an autotransformer what it does not do, at the top too", () => {
    const page = reported(inputOf(cabinetOf(exampleText("ice-shed"))));
    expect(words(page.querySelector(".caution-line"))).toContain("does not isolate");
    expect(words(page.querySelector("#cautions"))).toContain("lost midpoint");
  });

  it("lays down a paper only when it is asked to", () => {
    const input = inputOf(cabinetOf(exampleText("quarter-horse")));
    expect(reportHtml(input)).not.toContain("@page{size:");
    expect(reportHtml({ ...input, paper: "letter" })).toContain("@page{size:letter}");
    expect(reportHtml({ ...input, paper: "a4" })).toContain("@page{size:A4}");
  });

  it("refuses a digest that is none", () => {
    const input = inputOf(cabinetOf(exampleText("quarter-horse")));
    for (const digest of ["", "abc", "Z".repeat(64), `${"a".repeat(64)}";}`])
      expect(() => reportHtml({ ...input, digest })).toThrow(RangeError);
  });

  it("calls a finding that fails by its name in the answer", () => {
    const cabinet = cabinetOf(exampleText("ice-shed"));
    const check = checked(cabinet);
    const [first, ...rest] = check.report.findings.filter((one) => one.case === "staggered");
    const failing = { ...check.report, findings: [{ ...first, outcome: "fail" as const }, ...rest] };
    const page = reported(inputOf(cabinet, { check: { ...check, report: failing } }));
    expect(words(page.querySelector("#answer"))).toContain(`With it 1 finding fails. ${first.says}`);
    expect(words(page.querySelector("#findings tbody tr"))).toContain(first.says);
  });

  it("takes a motor's plate as plate, readings on site as measured, and shows a range in full", () => {
    const file = JSON.parse(exampleText("ice-shed"));
    const { faultCurrent: _f, xOverR: _x, ...supply } = file.parts[0];
    const readings = [
      { voltage: "240.0 V", current: "0 A" },
      { voltage: "236.5 V", current: "12.5 A" },
    ];
    file.parts[0] = { ...supply, readings };
    const read = readCabinet(file) as { cabinet: Cabinet };
    const inputs = reported(inputOf(read.cabinet)).querySelector("#inputs");
    expect(cellsBeside(inputs, "readings 2, voltage")?.slice(0, 3)).toEqual([
      "236.5 V",
      "\u2013",
      "measured",
    ]);
    expect(cellsBeside(inputs, "nameplate, code letter")?.slice(0, 3)).toEqual(["K", "\u2013", "plate"]);
    expect(cellsBeside(inputs, "delay")?.slice(0, 3)).toEqual(["6 s +- 10 %", "5.4 to 6.6 s", "stated"]);
  });

  it("draws readings taken on site as dots and says so", () => {
    const check: Check = checked(cabinetOf(exampleText("quarter-horse")));
    const measured = [{ quantity: "current", time_s: 0.1, value: 20 }] as const;
    const input = inputOf(cabinetOf(exampleText("quarter-horse")), { check });
    const dots = (page: Document): number =>
      page.querySelectorAll("figure:nth-of-type(2) circle.outline").length;
    expect(dots(reported({ ...input, measured }))).toBe(dots(reported(input)) + 1);
    expect(words(parsed(reportHtml({ ...input, measured })).querySelector("#figures"))).toContain(
      "taken on site",
    );
  });
});
