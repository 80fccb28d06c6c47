import { examples, parseCabinet } from "@startgap/cabinet";
import { type DayReport, day, receiverStarts } from "@startgap/study";
import { describe, expect, it } from "vitest";
import { dayOf, onePump } from "../../packages/study/test/day/cabinets.ts";

const CFM_m3ps = 0.3048 ** 3 / 60;
const PSI_Pa = 6894.757293168361;
const GALLON_m3 = 3.785411784e-3;
const ATMOSPHERE_Pa = 101_325;

describe("energy of a day (invariant)", () => {
  for (const { key, text } of examples) {
    it(`${key}: what the supply gives is lost, on shafts, or in their motion (1e-5); what is lost is shed or stored (1e-9)`, () => {
      const read = parseCabinet(text);
      if ("issues" in read) throw new Error("unreadable example");
      const report = day(read.cabinet, { hours: 3 });
      if ("failed" in report) throw new Error(report.failed);
      const { supply_J, lost_J, shaft_J, kinetic_J, motors, box } = report.energy;
      expect(Math.abs(supply_J - lost_J - shaft_J - kinetic_J)).toBeLessThan(1e-5 * supply_J);
      expect(Math.abs(motors.lost_J - motors.shed_J - motors.stored_J)).toBeLessThan(1e-9 * motors.lost_J);
      expect(Math.abs(box.lost_J - box.shed_J - box.stored_J)).toBeLessThan(1e-9 * Math.max(1, box.lost_J));
      expect(motors.lost_J).toBeLessThanOrEqual(lost_J * (1 + 1e-9));
    });
  }
});

it("an interruption and loaded restarts keep the balance (1e-5)", () => {
  const shop = parseCabinet(examples.find(({ key }) => key === "shop-air")?.text ?? "");
  if ("issues" in shop) throw new Error("unreadable example");
  const report = dayOf(shop.cabinet, { hours: 9, outage: { at_s: 30_000, length_s: 20 } });
  const { supply_J, lost_J, shaft_J, kinetic_J } = report.energy;
  expect(Math.abs(supply_J - lost_J - shaft_J - kinetic_J)).toBeLessThan(1e-5 * supply_J);
});

/** Volume of the band at atmospheric pressure over a flow: V dp/(pa q). */
const band_s = (gallons: number, flow_m3ps: number): number =>
  (gallons * GALLON_m3 * 30 * PSI_Pa) / (ATMOSPHERE_Pa * flow_m3ps);

/** Free air that the pump really delivers, off its own pump-up: it turns a little slower or faster than its plate. */
function delivered_m3ps(report: DayReport, drawn_m3ps: number): number {
  const { time_s, columns } = report.traces;
  const pressure = columns.find((c) => c.quantity === "pressure")?.values ?? [];
  const running = columns.find((c) => c.quantity === "running")?.values ?? [];
  // A five-minute row inside a run, and the row before it, both well after the start.
  for (let k = 2; k < time_s.length; k++) {
    const inside = running[k] === 1 && running[k - 1] === 1 && running[k - 2] === 1;
    if (!inside || time_s[k] - time_s[k - 1] < 30) continue;
    const rate = (1000 * (pressure[k] - pressure[k - 1])) / (time_s[k] - time_s[k - 1]);
    return (rate * 60 * GALLON_m3) / ATMOSPHERE_Pa + drawn_m3ps;
  }
  throw new Error("no run long enough");
}

const known = new Map<number, DayReport>();

/** The pump's day with so much drawn, gone through once. */
function drawnDay(cfm: number): DayReport {
  const found = known.get(cfm) ?? dayOf(onePump(), { demand_m3ps: cfm * CFM_m3ps });
  known.set(cfm, found);
  return found;
}

describe("receiver and demand (closed form)", () => {
  for (const drawn_cfm of [1, 2, 3, 4, 5]) {
    it(`${drawn_cfm} cfm: starts come V dp/pa (1/(Q - q) + 1/q) apart, and so many of them in a day (0.5 %)`, () => {
      const drawn = drawn_cfm * CFM_m3ps;
      const report = drawnDay(drawn_cfm);
      const Q = delivered_m3ps(report, drawn);
      const period_s = band_s(60, Q - drawn) + band_s(60, drawn);
      expect(receiverStarts(60 * GALLON_m3, 30 * PSI_Pa, Q, drawn)).toBeCloseTo(3600 / period_s, 9);
      const at = report.starts.time_s;
      const found_s = (at[at.length - 1] - at[0]) / (at.length - 1);
      expect(Math.abs(found_s / period_s - 1)).toBeLessThan(0.005);
      expect(Math.abs(report.motors[0].starts - (86_400 / period_s + 1))).toBeLessThan(1.5);
    });
  }

  it("most starts are at half of what is delivered, fewer on both sides", () => {
    const starts = [1, 2, 3, 4, 5].map((cfm) => drawnDay(cfm).motors[0].starts);
    expect(starts[2]).toBe(Math.max(...starts));
    expect(starts[0]).toBeLessThan(starts[1]);
    expect(starts[4]).toBeLessThan(starts[3]);
  });

  it("twice the receiver has half the starts, and the running time goes with the demand alone", () => {
    const [one, two] = ["60 gal", "120 gal"].map((volume) => dayOf(onePump({ tank: { volume } })).motors[0]);
    expect(Math.abs(one.starts / two.starts - 2)).toBeLessThan(0.05);
    expect(Math.abs(one.running_s / two.running_s - 1)).toBeLessThan(0.01);
  });

  it("nothing gets cooler when more is drawn (monotone)", () => {
    const days = [1, 3, 5].map(drawnDay);
    const hottest = days.map(({ motors }) => motors[0].hottest.value);
    expect(hottest).toEqual([...hottest].sort((a, b) => a - b));
    const supplied = days.map(({ energy }) => energy.supply_J);
    expect(supplied).toEqual([...supplied].sort((a, b) => a - b));
  });
});
