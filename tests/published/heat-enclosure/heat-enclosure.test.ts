import type { Enclosure } from "@startgap/cabinet";
import { coolingArea_m2, coolingFor, insideRise_K } from "@startgap/study";
import { describe, expect, it } from "vitest";
import data from "./data.json";

const box = (
  width_m: number,
  height_m: number,
  depth_m: number,
  more: Partial<Enclosure> = {},
): Enclosure => ({
  width_m,
  height_m,
  depth_m,
  material: "painted steel",
  mounting: "on a wall",
  ventArea_m2: 0,
  ventRise_m: 0.8 * height_m,
  sun: "shade",
  summer: { night_C: 20, day_C: 35 },
  winter: { night_C: -10, day_C: 0 },
  ...more,
});

const INCH_m = 0.0254;
const CFM_m3ps = 0.3048 ** 3 / 60;

describe("enclosures", () => {
  it("effective surface of a box on a wall (published factors, exact)", () => {
    const { width_m, height_m, depth_m, area_m2 } = data.area;
    expect(coolingArea_m2(box(width_m, height_m, depth_m))).toBeCloseTo(area_m2, 12);
  });

  it("15 K on 1.2 m2 of painted steel shed 99 W (closed form, exact)", () => {
    const { area_m2, rise_K, loss_W } = data.balance;
    const { width_m, height_m, depth_m } = data.area;
    const scale = Math.sqrt(area_m2 / data.area.area_m2);
    const scaled = box(scale * width_m, scale * height_m, scale * depth_m);
    expect(coolingArea_m2(scaled)).toBeCloseTo(area_m2, 12);
    expect(insideRise_K(scaled, loss_W, 30)).toBeCloseTo(rise_K, 9);
  });

  it("a closed box with 300 W against a chart for sealed enclosures (published, 20 % between methods)", () => {
    const { height_in, width_in, depth_in, loss_W, rise_K } = data.chart;
    const closed = box(width_in * INCH_m, height_in * INCH_m, depth_in * INCH_m, { mounting: "free" });
    expect(Math.abs(insideRise_K(closed, loss_W, 25) / rise_K - 1)).toBeLessThan(0.2);
  });

  it("the fan that carries a kilowatt off at one degree Fahrenheit (common practice, 0.5 % once the air is 40 degC)", () => {
    const { cfm, loss_W, rise_degF } = data.fan;
    const rise_K = (5 / 9) * rise_degF;
    // So small a box that its walls shed nothing beside it.
    const { fan_m3ps } = coolingFor(box(0.01, 0.01, 0.01), loss_W, 40, rise_K);
    const thinner = 313.15 / 293.15;
    expect(Math.abs((fan_m3ps ?? 0) / (cfm * CFM_m3ps * thinner) - 1)).toBeLessThan(0.005);
  });
});
