import { ambientFactor, examples } from "@startgap/cabinet";
import { check, type DayReport, day, dayInSteps, heat } from "@startgap/study";
import { describe, expect, it } from "vitest";
import { dayOf, exampleCabinet, onePump } from "./cabinets.ts";

const BOX = { width: "40 cm", height: "60 cm", depth: "25 cm" };

const columnOf = (report: DayReport, quantity: string, part: string): Float64Array => {
  const found = report.traces.columns.find((c) => c.quantity === quantity && c.part === part);
  if (found === undefined) throw new Error(`no ${quantity} of ${part}`);
  return found.values;
};

const findingOf = (report: DayReport, finding: string) => report.findings.find((f) => f.finding === finding);

describe("a day's starts", () => {
  it("are each as long in the start winding as the check of the same start says (independent path, 5 ms)", () => {
    const pump = onePump();
    const told = check(pump, { withMap: false });
    if ("failed" in told) throw new Error(told.failed);
    const want = told.report.cases[0].motors[0].switchOpened_s ?? Number.NaN;
    const { starts } = dayOf(pump, { hours: 3 });
    expect(starts.time_s.length).toBeGreaterThan(5);
    for (const seconds of starts.startWinding_s) expect(Math.abs(seconds - want)).toBeLessThan(5e-3);
  });

  it("bring the fuse as near to melting as the check's densely recorded story does, at the air of the hour (1 %)", () => {
    const pump = onePump();
    const told = check(pump, { withMap: false });
    if ("failed" in told) throw new Error(told.failed);
    const [story] = told.report.cases;
    const { starts } = dayOf(pump, { hours: story.duration_s / 3600 });
    const factor = ambientFactor(starts.air_C[0]);
    const want = story.fuses[0].meltFraction / factor ** 2;
    expect(Math.abs(starts.melt[0].values[0] / want - 1)).toBeLessThan(0.01);
  });

  it("lose in the motor what the heat study says one start loses (independent path, 2 %: both end at 90 % of speed, here at a step)", () => {
    const pump = onePump();
    const warm = heat(pump);
    if ("failed" in warm) throw new Error(warm.failed);
    const [energy] = dayOf(pump, { hours: 0.2 }).starts.energy_J;
    expect(Math.abs(energy / (warm.motors[0].startEnergy_J ?? 0) - 1)).toBeLessThan(0.02);
  });

  it("of a motor that is connected again at speed count as come up", () => {
    const [motor] = dayOf(exampleCabinet("quarter-horse"), { hours: 3 }).motors;
    expect(motor.starts).toBe(12);
    expect(motor.failed).toBe(0);
  });

  it("that cannot come up are told as danger, and the windings heat", () => {
    const heavy = { is: "torque", atRest: "60 N m", atFullSpeed: "60 N m" };
    const report = dayOf(onePump({ pump: heavy, fuse: { rating: "100 A", curve: "time-delay class RK5" } }), {
      hours: 1,
    });
    expect(report.motors[0].failed).toBe(1);
    expect(findingOf(report, "every start comes up")?.gravity).toBe("danger");
    expect(findingOf(report, "start winding heat over the day")?.outcome).toBe("fail");
    expect(report.findings[0].outcome).toBe("fail");
  });
});

describe("air and fuses", () => {
  const boxed = exampleCabinet("shop-air", (file) => {
    file.enclosure = BOX;
  });
  const report = dayOf(boxed);

  it("a start in the hot afternoon brings the fuse nearer to melting than one in the cool of the night", () => {
    const { time_s, motor, melt } = report.starts;
    const [{ values }] = melt;
    const mean = (from_h: number, to_h: number): number => {
      const list = [...values].filter(
        (_, k) => motor[k] === 1 && time_s[k] >= 3600 * from_h && time_s[k] < 3600 * to_h,
      );
      return list.reduce((sum, v) => sum + v, 0) / list.length;
    };
    expect(mean(13, 17)).toBeGreaterThan(1.15 * mean(1, 5));
  });

  it("the melting current goes with the air of the box, by the factor of the same fuse at that air", () => {
    const factor = columnOf(report, "melting current", "line fuses");
    const inside = columnOf(report, "temperature", "enclosure");
    const hottest = inside.indexOf(Math.max(...inside));
    expect(factor[hottest]).toBeLessThan(0.85);
    // A row lags by no more than the five minutes since fuses last saw the air.
    factor.forEach((value, k) => {
      expect(Math.abs(value / ambientFactor(inside[k]) - 1)).toBeLessThan(0.01);
    });
  });

  it("a box that gets too warm is told the vents or the fan that the heat study finds for it", () => {
    const warm = heat(boxed);
    if ("failed" in warm) throw new Error(warm.failed);
    const want = warm.findings.find((f) => f.finding === "air in the box")?.change;
    expect(findingOf(report, "air in the box over the day")?.change).toBe(want);
    expect(want).toMatch(/Open \d+ cm2/);
  });

  it("winter is kinder to the fuse than summer, and every temperature lower", () => {
    const winter = dayOf(boxed, { season: "winter" });
    expect(winter.fuses[0].worst?.meltFraction).toBeLessThan(report.fuses[0].worst?.meltFraction ?? 0);
    expect(winter.box?.hottest.value).toBeLessThan(report.box?.hottest.value ?? 0);
    for (const [k, motor] of winter.motors.entries())
      expect(motor.hottest.value).toBeLessThan(report.motors[k].hottest.value);
  });

  it("a fuse that is too small for the afternoon melts, is said to, and the story goes on without it", () => {
    const weak = onePump({ fuse: { rating: "20 A" }, enclosure: { ...BOX, sun: "sun on dark paint" } });
    const summer = dayOf(weak, { demand_m3ps: 2.6e-3 });
    const melted_s = summer.fuses[0].melted_s ?? Number.NaN;
    expect(melted_s).toBeGreaterThan(3600);
    expect(findingOf(summer, "fuse over the day")?.outcome).toBe("fail");
    expect(Math.max(...summer.starts.time_s)).toBeLessThan(melted_s);
    expect(summer.ended).toBe("Reached 24 h.");
    expect(dayOf(weak, { demand_m3ps: 2.6e-3, season: "winter" }).fuses[0].melted_s).toBeNull();
  });
});

describe("what calls", () => {
  it("a clock where no pressure switch does, and it says so", () => {
    const report = dayOf(exampleCabinet("ice-shed"), { hours: 6, callsPerHour: 3 });
    expect(report.demand).toBe("calls");
    expect(report.motors.map(({ starts }) => starts)).toEqual([18, 18]);
    expect(report.notes.join(" ")).toContain("3 calls an hour");
  });

  it("the second motor follows the first by the file's delay, in every call (closed form, 1 ms)", () => {
    const { starts } = dayOf(exampleCabinet("ice-shed"), { hours: 2 });
    for (let k = 0; k < starts.time_s.length; k += 2) {
      expect([starts.motor[k], starts.motor[k + 1]]).toEqual([0, 1]);
      expect(Math.abs(starts.time_s[k + 1] - starts.time_s[k] - 6)).toBeLessThan(1e-3);
    }
  });

  it("calls that are no whole part of five minutes come when they should", () => {
    const { starts } = dayOf(exampleCabinet("quarter-horse"), { hours: 4, callsPerHour: 7 });
    expect(starts.time_s.length).toBe(28);
    starts.time_s.forEach((t, k) => {
      expect(t).toBeCloseTo((3600 / 7) * (k + 0.1), 6);
    });
  });

  it("a usual day's work where the file states no demand: few starts at night, many by day", () => {
    const report = dayOf(onePump({ tank: { demand: undefined } }));
    expect(report.demand).toBe("assumed");
    const at = [...report.starts.time_s];
    const night = at.filter((t) => t < 5 * 3600).length;
    const work = at.filter((t) => t >= 10 * 3600 && t < 15 * 3600).length;
    expect(work).toBeGreaterThan(2 * night);
  });

  it("an interruption stops what runs, and it starts again when the supply is back", () => {
    const pump = onePump({ tank: { demand: "5.4 cfm" } });
    const calm = dayOf(pump, { hours: 2 });
    const cut = dayOf(pump, { hours: 2, outage: { at_s: 1000, length_s: 30 } });
    const back = (report: DayReport): boolean =>
      [...report.starts.time_s].some((t) => Math.abs(t - 1030) < 1);
    expect([back(calm), back(cut)]).toEqual([false, true]);
  });

  it("a tank that is drawn empty, and one that a compressor fills for ever, are told", () => {
    const empty = dayOf(onePump(), { hours: 4, demand_m3ps: 6e-3 });
    expect(findingOf(empty, "air lasts")?.outcome).toBe("fail");
    expect(empty.receivers[0].ranEmpty_s).not.toBeNull();
  });
});

describe("the report", () => {
  it("is the same twice, frozen, and its columns are all of one length", () => {
    const pump = onePump();
    const [one, two] = [dayOf(pump, { hours: 2 }), dayOf(pump, { hours: 2 })];
    expect(two).toEqual(one);
    expect(Object.isFrozen(one)).toBe(true);
    const { time_s, columns } = one.traces;
    for (const { values } of columns) expect(values.length).toBe(time_s.length);
    for (let k = 1; k < time_s.length; k++) expect(time_s[k]).toBeGreaterThanOrEqual(time_s[k - 1]);
  });

  it("in steps is the report at once, and the steps rise to the end", () => {
    const pump = onePump();
    const shares: number[] = [];
    const steps = dayInSteps(pump, { hours: 1 });
    for (;;) {
      const { done, value } = steps.next();
      if (done) {
        expect(value).toEqual(dayOf(pump, { hours: 1 }));
        break;
      }
      shares.push(value);
    }
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    expect(shares.length).toBe(11);
  });

  it("stops with a sentence when it is cancelled", () => {
    const report = day(onePump(), { signal: { aborted: true } });
    expect(report).toHaveProperty("failed");
  });

  for (const { key } of examples) {
    it(`${key}: no figure that is not finite, danger before what stops work`, () => {
      const report = dayOf(exampleCabinet(key), { hours: 2 });
      const text = JSON.stringify(report, (_, v) =>
        typeof v === "number" && !Number.isFinite(v) ? "not finite" : v instanceof Float64Array ? [...v] : v,
      );
      expect(text).not.toContain("not finite");
      for (const { says, change, outcome } of report.findings) {
        expect(says).not.toMatch(/NaN|Infinity|undefined/);
        expect(change === null).toBe(outcome === "pass");
      }
      const troubles = report.findings.filter((f) => f.outcome !== "pass").map(({ gravity }) => gravity);
      const order = ["danger", "stops work", "note"];
      expect(troubles).toEqual([...troubles].sort((a, b) => order.indexOf(a) - order.indexOf(b)));
    });
  }
});
