import { type Cabinet, currentMargin, examples, parseCabinet } from "@startgap/cabinet";
import { check, type ProtectionReport, protect } from "@startgap/study";
import { describe, expect, it } from "vitest";
import { soundOf } from "../src/failures/sound.ts";
import { type Profile, peakMelt, profilesOf } from "../src/protection/profile.ts";

function cabinetOf(key: string, change: (file: { parts: Json[] } & Json) => void = () => {}): Cabinet {
  const file = JSON.parse(examples.find((one) => one.key === key)?.text ?? "{}");
  change(file);
  const read = parseCabinet(JSON.stringify(file));
  if ("issues" in read) throw new Error(JSON.stringify(read.issues));
  return read.cabinet;
}

type Json = { [key: string]: unknown };

function reportOf(cabinet: Cabinet): ProtectionReport {
  const report = protect(cabinet);
  if ("failed" in report) throw new Error(report.failed);
  return report;
}

const part = (file: { parts: Json[] }, name: string): Json => {
  const found = file.parts.find((one) => one.name === name);
  if (found === undefined) throw new Error(name);
  return found;
};

describe("the ice shed's protection", () => {
  const shed = cabinetOf("ice-shed");
  const report = reportOf(shed);

  it("asks every question that it is to answer, each with its basis and, where it is not passed, what to change", () => {
    const asked = new Set(report.findings.map(({ finding }) => finding));
    for (const finding of [
      "conductor against load",
      "fuse against conductor",
      "interrupting rating",
      "fuse against transformer",
      "fuse against transformer damage",
      "fuse against inrush",
      "fuse against motors",
      "motor overload",
      "fuse against a stalled motor",
      "contactor rating",
      "fuse window",
      "running voltage drop",
      "starting voltage drop",
      "voltage drop in all",
    ])
      expect(asked, finding).toContain(finding);
    for (const { basis, says, change, outcome } of report.findings) {
      expect(basis.length).toBeGreaterThan(5);
      expect(says).toMatch(/\.$/);
      if (outcome === "pass") expect(change).toBeNull();
      else expect(change).toMatch(/\.$/);
    }
  });

  it("puts danger first, then what stops the work, and passes last", () => {
    const troubles = report.findings.filter(({ outcome }) => outcome !== "pass");
    expect(report.findings.slice(0, troubles.length)).toEqual(troubles);
    const ranks = troubles.map(({ gravity }) => ["danger", "stops work", "note"].indexOf(gravity));
    expect(ranks).toEqual([...ranks].sort());
  });

  it("replays the fuse's current to the margin of the check's own story (independent path, 1 %)", () => {
    const told = check(shed, { withMap: false });
    if ("failed" in told) throw new Error(told.failed);
    const want =
      told.report.cases.find((one) => one.case === "staggered")?.fuses[0].currentMargin ?? Number.NaN;
    let profiles: ReadonlyMap<string, Profile> = new Map();
    soundOf(shed, {}, (plant) => {
      const recorded = profilesOf(plant);
      profiles = recorded.profiles;
      return recorded.recorder;
    });
    const fuse = shed.circuit.parts.find(({ name }) => name === "line fuses");
    const profile = profiles.get("line fuses");
    if (fuse?.is !== "fuse" || fuse.melt === null || profile === undefined) throw new Error("no fuse");
    expect(Math.abs((currentMargin(peakMelt(fuse.melt, profile)) ?? 0) / want - 1)).toBeLessThan(0.01);
    // The window's margin is the lesser of that and what running for ever leaves.
    const [window] = report.windows;
    const fitted = window.candidates.find(({ rating_A }) => rating_A === window.fitted_A);
    expect(fitted?.currentMargin ?? Number.NaN).toBeLessThanOrEqual(want * 1.01);
  });

  it("finds a window that opens upwards as the conductor thickens, and holds the same start", () => {
    const [thin] = report.windows;
    const [thick] = reportOf(
      cabinetOf("ice-shed", (file) => {
        part(file, "feeder").conductor = "6 AWG Cu";
      }),
    ).windows;
    expect(thick.largest_A ?? 0).toBeGreaterThan(thin.largest_A ?? 0);
    expect(Math.abs((thick.smallest_A ?? 0) - (thin.smallest_A ?? 0))).toBeLessThanOrEqual(5);
    const margins = thick.candidates.map(({ currentMargin }) => currentMargin ?? 0);
    expect(margins).toEqual([...margins].sort((a, b) => a - b));
  });

  it("passes the contactor that is large enough and fails the one that is not", () => {
    const rated = (rating: string) =>
      reportOf(
        cabinetOf("ice-shed", (file) => {
          part(file, "contactor").rating = rating;
        }),
      ).findings.filter(({ finding }) => finding.startsWith("contactor"));
    expect(rated("40 A").map(({ outcome }) => outcome)).toEqual(["pass", "pass", "pass"]);
    const small = rated("12 A");
    expect(small.find(({ finding }) => finding === "contactor carries")?.outcome).toBe("fail");
    expect(small.find(({ finding }) => finding === "contactor breaks")).toMatchObject({
      outcome: "fail",
      limit: 96,
    });
  });

  it("compares a fault with the interrupting rating that the file states", () => {
    const weak = reportOf(
      cabinetOf("ice-shed", (file) => {
        part(file, "line fuses").interruptingRating = "200 A";
      }),
    );
    expect(weak.findings.find(({ finding }) => finding === "interrupting rating")?.outcome).toBe("fail");
  });
});

describe("cabinets that tell little", () => {
  for (const { key } of examples) {
    it(`${key} is judged without a figure that is not finite`, () => {
      const report = reportOf(cabinetOf(key));
      for (const { value, limit, says } of report.findings) {
        if (value !== null) expect(Number.isFinite(value), says).toBe(true);
        if (limit !== null) expect(Number.isFinite(limit), says).toBe(true);
        expect(says).not.toMatch(/NaN|Infinity|undefined|null/);
      }
    });
  }

  it("a supply without impedance gives a fault no bounds, and says so", () => {
    const report = reportOf(
      cabinetOf("ice-shed", (file) => {
        const panel = part(file, "panel");
        delete panel.faultCurrent;
        delete panel.xOverR;
        panel.impedance = { r: "0 ohm", x: "0 ohm" };
        part(file, "line fuses").fedBy = "panel";
      }),
    );
    const found = report.findings.find(({ finding }) => finding === "interrupting rating");
    expect(found).toMatchObject({ outcome: "caution", value: null });
    expect(found?.says).toContain("no bounds");
  });

  it("names that mean something to the language are names like any other", () => {
    const file = { parts: [] as Json[] };
    const odd = cabinetOf("ice-shed", (shed) => {
      const text = JSON.stringify(shed.parts)
        .replaceAll("compressor 1", "constructor")
        .replaceAll("line fuses", "__proto_");
      shed.parts = JSON.parse(text);
      file.parts = shed.parts;
    });
    expect(reportOf(odd).findings.some(({ part: name }) => name === "constructor")).toBe(true);
  });
});
