import { examples, readCabinet } from "@startgap/cabinet";
import { type FailureReport, type FailureRow, failures } from "@startgap/study";
import { describe, expect, it } from "vitest";

type Json = { [key: string]: unknown };

const panel: Json = {
  name: "panel",
  is: "supply",
  voltage: "240 V",
  frequency: "60 Hz",
  impedance: { r: "0 ohm", x: "0 ohm" },
};
const midpoint = (more: Json = {}): Json => ({
  name: "midpoint",
  is: "autotransformer",
  fedBy: "panel",
  windings: ["120 V", "120 V"],
  impedance: { r: "0.2 ohm", x: "0.1 ohm" },
  ...more,
});
const load = (name: string, leg: string, ohm: number, fedBy = "midpoint"): Json => ({
  name,
  is: "load",
  fedBy,
  ...(fedBy === "midpoint" ? { leg } : {}),
  impedance: { r: `${ohm} ohm`, x: "0 ohm" },
});

function reportOf(...parts: Json[]): FailureReport {
  const read = readCabinet({ startgap: 1, title: "a bench", parts });
  if ("issues" in read) throw new Error(JSON.stringify(read.issues));
  const report = failures(read.cabinet);
  if ("failed" in report) throw new Error(report.failed);
  return report;
}

function row(report: FailureReport, failure: string): FailureRow {
  const found = report.rows.find((one) => one.failure === failure);
  if (found === undefined) throw new Error(`no row "${failure}"`);
  return found;
}

const volts = (of: FailureRow, part: string): number =>
  of.moments[0].last.points.find((point) => point.part === part)?.voltage_V ?? Number.NaN;

describe("an open midpoint", () => {
  it("lets two loads divide the whole voltage by their resistances (closed form)", () => {
    const report = reportOf(panel, midpoint(), load("small", "first", 72), load("large", "second", 24));
    const open = row(report, "the midpoint wire of midpoint is open");
    expect(volts(open, "small")).toBeCloseTo((240 * 72) / 96, 6);
    expect(volts(open, "large")).toBeCloseTo((240 * 24) / 96, 6);
    expect(open.gravity).toBe("danger");
    expect(open.says).toContain("180 V on small (150 %)");
    expect(open.moments[0].tells).toEqual(["small: too bright, at 150 %", "large: dim, at 50 %"]);
  });

  it("is not noticed while both legs carry the same", () => {
    const report = reportOf(panel, midpoint(), load("one", "first", 50), load("other", "second", 50));
    const open = row(report, "the midpoint wire of midpoint is open");
    expect(volts(open, "one")).toBeCloseTo(120, 6);
    expect(open.gravity).toBe("unnoticed");
    expect(open.says).toContain("nothing tells");
  });
});

describe("an open winding of an autotransformer", () => {
  it("without a core that is known is an open midpoint (closed form)", () => {
    const report = reportOf(panel, midpoint(), load("small", "first", 72), load("large", "second", 24));
    for (const leg of ["first", "second"]) {
      expect(volts(row(report, `the ${leg} winding of midpoint is open`), "small")).toBeCloseTo(180, 6);
    }
  });

  it("puts the other winding in series as a choke: far below its knee by Ohm's law (closed form, 2.5 % for the bend)", () => {
    // 24 V on a unit for 240 V: the flux stays at a tenth, where the core is a straight line.
    const low = { ...panel, voltage: "24 V" };
    const core = { rating: "3 kVA", idleLoss: "0 W", excitingCurrent: "2 A" };
    const report = reportOf(low, midpoint(core), load("lamp", "first", 30));
    const open = row(report, "the first winding of midpoint is open");
    const now = open.moments[0].last;
    // 2 A across 240 V; one winding alone takes four times the admittance. At nominal flux the bend adds
    // up to 0.2 A to the crest of 4 A, which is taken off the straight line: up to 5 % on x, half of that here.
    const x_ohm = 240 / 2 / 4;
    const want = (24 * 30) / Math.hypot(30, x_ohm);
    expect(Math.abs(volts(open, "lamp") / want - 1)).toBeLessThan(0.025);
    expect(now.winding_A).toBeCloseTo(volts(open, "lamp") / 30, 6);
  });

  it("saturates at full voltage, and leaves the load between the choke's division and the whole voltage (bounds)", () => {
    const core = { rating: "3 kVA", idleLoss: "0 W", excitingCurrent: "2 A" };
    const report = reportOf(panel, midpoint(core), load("heater", "first", 30));
    const open = row(report, "the first winding of midpoint is open");
    const straight = (240 * 30) / Math.hypot(30, 240 / 2 / 4);
    expect(volts(open, "heater")).toBeGreaterThan(straight);
    expect(volts(open, "heater")).toBeLessThan(240);
    expect(open.gravity).toBe("danger");
  });
});

describe("what stays live", () => {
  const fuse: Json = {
    name: "fuse",
    is: "fuse",
    fedBy: "panel",
    poles: 2,
    rating: "20 A",
    curve: "time-delay CC",
  };
  const bell: Json = {
    name: "bell transformer",
    is: "transformer",
    fedBy: "fuse",
    windings: ["240 V", "24 V"],
    impedance: { r: "1 ohm", x: "0 ohm" },
  };
  const report = reportOf(
    panel,
    fuse,
    bell,
    load("heater", "", 60, "fuse"),
    load("bell", "", 24, "bell transformer"),
  );

  it("one of two fuses leaves what is behind it joined, but nothing behind a transformer that isolates", () => {
    const open = row(report, "one of the two fuses of fuse is open");
    expect(open.live).toEqual(["panel"]);
    expect(open.joined).toEqual(["bell transformer", "heater"]);
    expect(open.gravity).toBe("danger");
  });

  it("a dead secondary leaves the rest as it was", () => {
    const open = row(report, "the second winding of bell transformer is open");
    expect(open.live).toEqual(["panel", "fuse", "bell transformer", "heater"]);
    expect(open.joined).toEqual([]);
    expect(volts(open, "heater")).toBeCloseTo(240, 9);
    expect(volts(open, "bell")).toBe(0);
  });

  it("says what is not modelled", () => {
    expect(report.notes.join(" ")).toMatch(/earth and the bond are not in the model/);
    expect(report.notes.join(" ")).toMatch(/fuse in a neutral .* no protection/);
  });
});

describe("what opens next", () => {
  const motor = JSON.parse(examples.find(({ key }) => key === "quarter-horse")?.text ?? "{}")
    .parts[1] as Json;
  const stuck = (fuse: Json): FailureRow =>
    row(
      reportOf({ ...panel, voltage: "110 V" }, fuse, { ...motor, fedBy: "fuse" }),
      "the start switch of motor is stuck closed",
    );
  const bare: Json = { name: "fuse", is: "fuse", fedBy: "panel", rating: "5 A" };

  it("is the fuse, when its single heat has run its course at the motor's settled current (closed form, 3 %)", () => {
    const settled_A = stuck(bare).moments[1].last.motors[0].current_A;
    const tau_s = 200;
    const inf_A = settled_A / 1.2;
    const points = [1.001, 1.1, 1.2, 1.5, 2, 3, 5].map((times) => [
      `${times * inf_A} A`,
      `${-tau_s * Math.log1p(-1 / times ** 2)} s`,
    ]);
    const fused = { ...bare, rating: `${inf_A / 1.05} A`, curve: { points, melt: "minimum" } };
    const { meltsLater } = stuck(fused).moments[1];
    const want = -tau_s * Math.log1p(-1 / 1.2 ** 2);
    expect(meltsLater?.part).toBe("fuse");
    expect(Math.abs((meltsLater?.at_s ?? 0) / want - 1)).toBeLessThan(0.03);
  });

  it("is nothing where no fuse has a curve", () => {
    expect(stuck(bare).moments[1].meltsLater).toBeNull();
    expect(stuck(bare).says).toContain("nothing opens next");
  });
});

describe("the order of the rows", () => {
  it("danger comes first, then what stops the work, then what nobody notices", () => {
    const report = reportOf(panel, midpoint(), load("small", "first", 72), load("large", "second", 24));
    const order = ["danger", "stops work", "unnoticed", "slight"];
    const ranks = report.rows.map(({ gravity }) => order.indexOf(gravity));
    expect(ranks).toEqual([...ranks].sort());
  });

  it("a cabinet of nothing but a supply and a lamp has no failures", () => {
    expect(reportOf(panel, load("lamp", "", 60, "panel")).rows).toEqual([]);
  });
});
