import { readCabinet } from "@startgap/cabinet";
import { type ProtectionFinding, type ProtectionReport, protect } from "@startgap/study";
import { describe, expect, it } from "vitest";

type Json = { [key: string]: unknown };

const panel: Json = {
  name: "panel",
  is: "supply",
  voltage: "240 V",
  frequency: "60 Hz",
  faultCurrent: "2 kA",
};
const fuse = (rating: string, more: Json = {}): Json => ({
  name: "fuse",
  is: "fuse",
  fedBy: "panel",
  poles: 2,
  rating,
  curve: "time-delay RK5",
  ...more,
});

function reportOf(...parts: Json[]): ProtectionReport {
  const read = readCabinet({ startgap: 1, title: "a bench", parts: [panel, ...parts] });
  if ("issues" in read) throw new Error(JSON.stringify(read.issues));
  const report = protect(read.cabinet);
  if ("failed" in report) throw new Error(report.failed);
  return report;
}

function finding(report: ProtectionReport, what: string, part: string): ProtectionFinding {
  const found = report.findings.find((f) => f.finding === what && f.part === part);
  if (found === undefined) throw new Error(`no ${what} of ${part}`);
  return found;
}

const midpoint = (more: Json = {}): Json => ({
  name: "midpoint",
  is: "autotransformer",
  fedBy: "fuse",
  rating: "3 kVA",
  windings: ["120 V", "120 V"],
  impedance: "4.5 %",
  ...more,
});
const heater: Json = { name: "heater", is: "load", fedBy: "midpoint", power: "1.2 kW" };

describe("NEC 450.4(A), autotransformers", () => {
  const judged = (rating: string): ProtectionFinding =>
    finding(reportOf(fuse(rating), midpoint(), heater), "fuse against transformer", "midpoint");

  it("a pair of windings of 3 kVA is 6 kVA at 240 V: 25 A, 125 % of it, next size 35 A (published, exact)", () => {
    expect(judged("35 A")).toMatchObject({ outcome: "pass", limit: 35 });
    expect(judged("40 A")).toMatchObject({ outcome: "fail", limit: 35 });
  });

  it("tells what one size more would let flow for ever", () => {
    expect(judged("35 A").says).toMatch(/one of 40 A \d+ %/);
  });

  it("below 9 A it is 167 % and no next size (published, exact)", () => {
    const small = reportOf(fuse("10 A"), midpoint({ rating: "600 VA" }), heater);
    expect(finding(small, "fuse against transformer", "midpoint").limit).toBeCloseTo(1.67 * 5, 9);
  });
});

describe("NEC Table 450.3(B), transformers with a primary fuse alone (published, exact)", () => {
  for (const [rating, limit] of [
    ["3 kVA", 35],
    ["1 kVA", 1.67 * (1000 / 120)],
    ["200 VA", 3 * (200 / 120)],
  ] as const) {
    it(`${rating} at 120 V`, () => {
      const unit: Json = {
        name: "unit",
        is: "transformer",
        fedBy: "midpoint",
        windings: ["120 V", "24 V"],
        rating,
        impedance: "5 %",
      };
      const lamp: Json = { name: "lamp", is: "load", fedBy: "unit", power: "20 W" };
      const found = finding(
        reportOf(fuse("20 A"), midpoint(), unit, lamp),
        "fuse against transformer",
        "unit",
      );
      expect(found.limit).toBeCloseTo(limit, 9);
    });
  }
});

const motor = (more: Json = {}): Json => ({
  name: "motor",
  is: "motor",
  fedBy: "feeder",
  nameplate: { power: "2 hp", voltage: "115 V", fullLoadCurrent: "22 A", speed: "1725 rpm", codeLetter: "J" },
  ...more,
});
const at120: Json = { ...panel, voltage: "120 V" };
const feeder = (conductor: string, more: Json = {}): Json => ({
  name: "feeder",
  is: "cable",
  fedBy: "fuse",
  conductor,
  length: "30 ft",
  ...more,
});

function onMotor(rating: string, conductor: string, more: Json = {}, wire: Json = {}): ProtectionReport {
  const parts = [at120, fuse(rating, { poles: 1 }), feeder(conductor, wire), motor(more)];
  const read = readCabinet({ startgap: 1, title: "a motor", parts });
  if ("issues" in read) throw new Error(JSON.stringify(read.issues));
  const report = protect(read.cabinet);
  if ("failed" in report) throw new Error(report.failed);
  return report;
}

describe("NEC 430, one motor of 2 hp at 115 V (published, exact)", () => {
  it("24 A by Table 430.248: a time-delay fuse of 42 A, next size 45 A", () => {
    expect(finding(onMotor("45 A", "10 AWG Cu"), "fuse against motors", "fuse")).toMatchObject({
      outcome: "pass",
      limit: 45,
    });
    expect(finding(onMotor("50 A", "10 AWG Cu"), "fuse against motors", "fuse").outcome).toBe("caution");
    expect(finding(onMotor("60 A", "10 AWG Cu"), "fuse against motors", "fuse").outcome).toBe("fail");
  });

  it("its conductor is to bear 30 A: 10 AWG just does at 60 degC, 12 AWG does not", () => {
    const found = finding(onMotor("45 A", "10 AWG Cu"), "conductor against load", "feeder");
    expect(found).toMatchObject({ outcome: "pass", limit: 30 });
    expect(found.value).toBeCloseTo(30, 6);
    expect(finding(onMotor("45 A", "12 AWG Cu"), "conductor against load", "feeder").outcome).toBe("fail");
  });

  it("a motor's own circuit may have the larger fuse on small wire, with an overload relay: 240.4(G)", () => {
    const found = finding(onMotor("45 A", "10 AWG Cu"), "fuse against conductor", "feeder");
    expect(found).toMatchObject({ outcome: "caution", limit: 30 });
    expect(found.basis).toContain("240.4(G)");
  });

  it("columns of Table 310.16 follow the insulation that the file states", () => {
    const limits = ["60 degC", "75 degC", "90 degC"].map(
      (insulation) =>
        finding(onMotor("45 A", "10 AWG Cu", {}, { insulation }), "conductor against load", "feeder").limit,
    );
    expect(limits).toEqual([30, 35, 40]);
  });

  for (const [more, plate, limit, outcome] of [
    [{ overload: "25.3 A" }, {}, 1.15 * 22, "pass"],
    [{ overload: "26 A" }, {}, 1.15 * 22, "caution"],
    [{ overload: "29 A" }, {}, 1.15 * 22, "fail"],
    [{ overload: "27.5 A" }, { serviceFactor: 1.15 }, 1.25 * 22, "pass"],
    [{ overload: "30 A" }, { serviceFactor: 1.15 }, 1.25 * 22, "caution"],
    [{ overload: "31 A" }, { serviceFactor: 1.15 }, 1.25 * 22, "fail"],
  ] as const) {
    it(`430.32: ${more.overload} with ${JSON.stringify(plate)} is ${outcome}`, () => {
      const nameplate = { ...(motor().nameplate as Json), ...plate };
      const found = finding(onMotor("45 A", "10 AWG Cu", { ...more, nameplate }), "motor overload", "motor");
      expect(found.outcome).toBe(outcome);
      expect(found.limit).toBeCloseTo(limit, 9);
    });
  }

  it("430.32(A)(2): a built-in protector counts, and 140 % is told above 20 A", () => {
    const found = finding(
      onMotor("45 A", "10 AWG Cu", { builtInProtector: "yes" }),
      "motor overload",
      "motor",
    );
    expect(found.outcome).toBe("pass");
    expect(found.says).toContain("140 %");
  });

  it("430.36: a fuse small enough is the overload protection", () => {
    expect(finding(onMotor("25 A", "10 AWG Cu"), "motor overload", "motor").outcome).toBe("pass");
  });
});

describe("NEC 240.4(D) and 240.22", () => {
  it("14, 12 and 10 AWG may have 15, 20 and 30 A where more than motors hang on them (published, exact)", () => {
    const lamps: Json = { name: "lamps", is: "load", fedBy: "feeder", power: "200 W" };
    for (const [conductor, limit] of [
      ["14 AWG Cu", 15],
      ["12 AWG Cu", 20],
      ["10 AWG Cu", 30],
      ["8 AWG Cu", 40],
    ] as const) {
      const report = reportOf(fuse("40 A"), feeder(conductor), lamps);
      const found = finding(report, "fuse against conductor", "feeder");
      expect(found.limit).toBe(limit);
      expect(found.outcome).toBe(limit < 40 ? "fail" : "pass");
    }
  });

  it("a fuse in a neutral is never passed, whatever the curves say", () => {
    const parts = [
      fuse("20 A", { poles: 1 }),
      { ...fuse("100 A", { poles: 1, wire: "neutral" }), name: "neutral fuse", fedBy: "fuse" },
      { name: "lamps", is: "load", fedBy: "neutral fuse", power: "200 W" },
    ];
    const found = finding(reportOf(...parts), "fuse in a neutral", "neutral fuse");
    expect(found.outcome).toBe("caution");
    expect(found.says).toContain("opens first at every current");
    expect(found.says).toContain("no protection");
    expect(found.basis).toContain("240.22");
  });
});

describe("NEC 240.4(F) and 240.21(C), wire behind a transformer", () => {
  const leg = (conductor: string): Json => ({ ...feeder(conductor), fedBy: "midpoint" });
  const lamps: Json = { name: "lamps", is: "load", fedBy: "feeder", power: "200 W" };
  const judged = (conductor: string): ProtectionFinding =>
    finding(reportOf(fuse("20 A"), midpoint(), leg(conductor), lamps), "fuse against conductor", "feeder");

  it("a 20 A fuse at 240 V lets 40 A flow on a 120 V leg: 12 AWG fails (closed form, exact)", () => {
    expect(judged("12 AWG Cu")).toMatchObject({ outcome: "fail", value: 40, limit: 20 });
    expect(judged("12 AWG Cu").says).toContain("lets 40 A through");
  });

  it("and wire that bears it is not passed either: the fuse ahead does not count for it", () => {
    const found = judged("6 AWG Cu");
    expect(found).toMatchObject({ outcome: "caution", value: 40 });
    expect(found.basis).toContain("240.4(F)");
    expect(found.change).not.toBeNull();
  });

  it("the fuse of a control transformer counts by what it lets through at its voltage", () => {
    const unit: Json = {
      ...{ name: "unit", is: "transformer", fedBy: "midpoint", windings: ["120 V", "24 V"] },
      ...{ rating: "200 VA", impedance: "5 %" },
    };
    const lamp: Json = { name: "lamp", is: "load", fedBy: "unit", power: "20 W" };
    const found = finding(reportOf(fuse("20 A"), midpoint(), unit, lamp), "fuse against transformer", "unit");
    expect(found.value).toBe(40);
  });
});

describe("what a fuse's window counts in", () => {
  const unit = (rating: string): Json => ({
    ...{ name: "unit", is: "transformer", fedBy: "fuse", windings: ["240 V", "120 V"], rating },
    impedance: "4 %",
  });
  const lamps: Json = { name: "lamps", is: "load", fedBy: "unit", power: "300 W" };

  it("an isolating transformer, as its own finding does: 3 kVA at 240 V takes 12.5 A, 125 % of it is 20 A at most", () => {
    const report = reportOf(fuse("20 A"), unit("3 kVA"), lamps);
    const limit = finding(report, "fuse against transformer", "unit").limit ?? 0;
    expect(limit).toBe(20);
    expect(report.windows[0].largest_A).toBeLessThanOrEqual(limit);
    const large = report.windows[0].candidates.find(({ rating_A }) => rating_A === 60);
    expect(large?.reasons.join(" ")).toContain("unit may have 20 A");
  });
});

describe("contacts of a relay that carries a motor itself", () => {
  const held = (more: Json = {}): ProtectionReport => {
    const relay: Json = { name: "relay", is: "delay relay", fedBy: "fuse", delay: "6 s", ...more };
    const driven = { ...motor(), fedBy: "relay" };
    const read = readCabinet({
      startgap: 1,
      title: "a relay",
      parts: [at120, fuse("45 A", { poles: 1 }), relay, driven],
    });
    if ("issues" in read) throw new Error(JSON.stringify(read.issues));
    const report = protect(read.cabinet);
    if ("failed" in report) throw new Error(report.failed);
    return report;
  };

  it("are asked for where the file does not tell them, and judged like a contactor's where it does", () => {
    expect(finding(held(), "delay relay rating", "relay")).toMatchObject({ outcome: "caution", limit: null });
    expect(finding(held({ rating: "30 A" }), "delay relay carries", "relay").outcome).toBe("pass");
    expect(finding(held({ rating: "10 A" }), "delay relay breaks", "relay")).toMatchObject({
      outcome: "fail",
      limit: 80,
    });
  });
});
