import { ambientFactor, type Cabinet, examples, parseCabinet } from "@startgap/cabinet";
import { atFrequency, type Mode, plantOf } from "@startgap/circuit";
import { run } from "@startgap/ode";
import { check, type HeatReport, heat } from "@startgap/study";
import { describe, expect, it } from "vitest";

type Json = { [key: string]: unknown };
type File = { parts: Json[]; enclosure?: Json };

function cabinetOf(key: string, change: (file: File) => void = () => {}): Cabinet {
  const file = JSON.parse(examples.find((one) => one.key === key)?.text ?? "{}");
  change(file);
  const read = parseCabinet(JSON.stringify(file));
  if ("issues" in read) throw new Error(JSON.stringify(read.issues));
  return read.cabinet;
}

function reportOf(cabinet: Cabinet, startsPerHour?: number): HeatReport {
  const report = heat(cabinet, { startsPerHour });
  if ("failed" in report) throw new Error(report.failed);
  return report;
}

const boxed = (more: Json = {}) =>
  cabinetOf("ice-shed", (file) => {
    file.enclosure = { width: "40 cm", height: "60 cm", depth: "25 cm", ...more };
  });

describe("heat of a motor's start", () => {
  it("is what the power balance of the circuit loses in it until 90 % of synchronous speed (independent path, 1 %)", () => {
    // A capacitor without resistance: what it loses is heat too, but not the motor's.
    const cabinet = cabinetOf("quarter-horse", ({ parts }) => {
      const circuit = parts[1].circuit as Json;
      circuit.startCapacitor = { r: "0 ohm", x: "14.5 ohm" };
    });
    const plant = plantOf(cabinet.circuit);
    const i = cabinet.circuit.parts.findIndex(({ is }) => is === "motor");
    const p = cabinet.circuit.parts[i];
    if (p.is !== "motor") throw new Error("no motor");
    const machine = atFrequency(p.machine, 60);
    const up = (0.9 * 4 * Math.PI * 60) / machine.poles;
    let [energy, t0, lost0] = [0, 0, 0];
    const sample = (t: number, y: readonly number[], mode: Mode): void => {
      const walk = plant.solve(y, mode);
      const lost = y[plant.layout.places[i].state] < up ? plant.models[i].power(walk, y).lost_W : 0;
      energy += ((lost + lost0) / 2) * (t - t0);
      [t0, lost0] = [t, lost];
    };
    run(plant, plant.start(), 3, { tolerance: 1e-9, recorder: { interior: true, sample } });
    const [motor] = reportOf(cabinet).motors;
    expect(Math.abs((motor.startEnergy_J ?? 0) / energy - 1)).toBeLessThan(0.01);
  });

  it("its start winding is in circuit as long as the check says (independent path, 1 ms)", () => {
    const shed = cabinetOf("ice-shed");
    const told = check(shed, { withMap: false });
    if ("failed" in told) throw new Error(told.failed);
    const staggered = told.report.cases.find((one) => one.case === "staggered");
    for (const { part, startWinding_s } of reportOf(shed).motors) {
      const want = staggered?.motors.find((motor) => motor.part === part)?.switchOpened_s ?? Number.NaN;
      expect(Math.abs((startWinding_s ?? 0) - want)).toBeLessThan(1e-3);
    }
  });

  it("adds to the winding's rise in proportion to the starts (invariant)", () => {
    const shed = cabinetOf("ice-shed");
    const rise = (n: number): number => reportOf(shed, n).motors[0].rise_K ?? Number.NaN;
    expect(rise(20) - rise(10)).toBeCloseTo(rise(10) - rise(0), 9);
    expect(rise(20)).toBeGreaterThan(rise(0));
  });

  it("a motor at its plate's current and voltage comes to its rated rise (closed form, 2 % for the circuit's fit)", () => {
    const cabinet = cabinetOf("two-legs");
    const saw = cabinet.circuit.parts.find(({ name }) => name === "table saw");
    const { motors } = reportOf(cabinet, 0);
    const found = motors.find(({ part }) => part === "table saw");
    if (saw?.is !== "motor" || found === undefined) throw new Error("no saw");
    expect(found.ratedRise_K).toBe(80);
    expect(found.rise_K ?? 0).toBeLessThan(80 * 1.1);
  });
});

describe("starts that are taken", () => {
  it("are what receiver, band and demand ask for where a pressure switch calls, else four (closed form)", () => {
    const [pump] = reportOf(cabinetOf("shop-air")).motors;
    expect(pump.taken.from).toBe("receiver");
    // 60 gal, 30 psi, 5.5 cfm delivered, 3 cfm drawn by day: V dp/pa = 16.37 ft3.
    const ft3 = (60 * 231 * 30) / (1728 * 14.6959);
    expect(pump.taken.perHour).toBeCloseTo(60 / (ft3 * (1 / 2.5 + 1 / 3)), 3);
    expect(reportOf(cabinetOf("ice-shed")).motors[0].taken).toEqual({ perHour: 4, from: "assumed" });
    expect(reportOf(cabinetOf("shop-air"), 9).motors[0].taken).toEqual({ perHour: 9, from: "asked" });
  });
});

describe("fuses in the heat", () => {
  it("hold less by just the factor on their currents, the story run again (invariant of the melt terms, 0.1 %)", () => {
    const shed = boxed();
    const report = reportOf(shed);
    const [fuse] = report.fuses;
    const told = check(shed, { withMap: false });
    if ("failed" in told) throw new Error(told.failed);
    const cool =
      told.report.cases.find((one) => one.case === "staggered")?.fuses[0].currentMargin ?? Number.NaN;
    expect(fuse.factor).toBeCloseTo(ambientFactor(fuse.air_C) / ambientFactor(25), 12);
    expect(fuse.factor).toBeLessThan(1);
    expect(Math.abs((fuse.currentMargin ?? 0) / (cool * fuse.factor) - 1)).toBeLessThan(0.001);
  });

  it("count with the air that the file already gave them", () => {
    const at50 = cabinetOf("ice-shed", (file) => {
      const found = file.parts.find(({ name }) => name === "line fuses");
      if (found) found.ambient = "40 degC";
    });
    const [fuse] = reportOf(at50).fuses;
    expect(fuse.air_C).toBe(40);
    expect(fuse.factor).toBeCloseTo(1, 12);
  });
});

describe("the box", () => {
  it("is not judged where the file does not describe it, and says so", () => {
    const report = reportOf(cabinetOf("ice-shed"));
    expect(report.box).toBeNull();
    expect(report.notes.join(" ")).toContain('"enclosure"');
  });

  it("loses what its parts lose, warms the air by it, and tells what would keep it cool", () => {
    const { box, findings } = reportOf(boxed());
    if (box === null) throw new Error("no box");
    expect(box.losses.reduce((sum, one) => sum + one.loss_W, 0)).toBeCloseTo(box.loss_W, 9);
    expect(box.losses.map(({ part }) => part)).not.toContain("compressor 1");
    const [summer] = box.seasons;
    expect(summer.inside_C[15] - summer.outside_C[15]).toBeCloseTo(
      box.loss_W / (5.5 * box.coolingArea_m2),
      6,
    );
    const found = findings.find(({ finding }) => finding === "air in the box");
    expect(found?.outcome).toBe("fail");
    expect(found?.change).toMatch(/Open \d+ cm2 .* fan of \d+ m3\/h/);
  });

  it("that is opened as it was told passes the limit it was told for (invariant)", () => {
    const { box } = reportOf(boxed());
    const area = `${(1e4 * (box?.ventArea_m2 ?? 0)).toFixed(3)} cm2`;
    const opened = reportOf(boxed({ ventArea: area, ventRise: "48 cm" })).box;
    const hottest = Math.max(...(opened?.seasons[0].inside_C ?? []));
    expect(hottest).toBeLessThan((box?.limit_C ?? 0) + 0.01);
    expect(hottest).toBeGreaterThan((box?.limit_C ?? 0) - 0.5);
  });

  it("warms transformers and fuses in it", () => {
    const cool = reportOf(cabinetOf("ice-shed"));
    const warm = reportOf(boxed());
    expect(warm.transformers[0].seasons[0].hottest_C).toBeGreaterThan(
      cool.transformers[0].seasons[0].hottest_C + 5,
    );
    expect(warm.fuses[0].currentMargin ?? 0).toBeLessThan(cool.fuses[0].currentMargin ?? 0);
  });
});

describe("every example", () => {
  for (const { key } of examples) {
    it(`${key} is judged without a figure that is not finite`, () => {
      const report = reportOf(cabinetOf(key));
      const text = JSON.stringify(report, (_, value) =>
        typeof value === "number" && !Number.isFinite(value) ? "not finite" : value,
      );
      expect(text).not.toContain("not finite");
      for (const { says } of report.findings) expect(says).not.toMatch(/NaN|Infinity|undefined/);
    });
  }
});
