import type { Enclosure } from "@startgap/cabinet";
import { coolingArea_m2, coolingFor, insideRise_K, stackFlow_m3ps } from "@startgap/study";
import { describe, expect, it } from "vitest";
import { sunAsLoss_W } from "../src/heat/box.ts";

const box = (more: Partial<Enclosure> = {}): Enclosure => ({
  width_m: 0.4,
  height_m: 0.6,
  depth_m: 0.25,
  material: "painted steel",
  mounting: "on a wall",
  ventArea_m2: 0,
  ventRise_m: 0.5,
  sun: "shade",
  summer: { night_C: 20, day_C: 35 },
  winter: { night_C: -10, day_C: 0 },
  ...more,
});

const AIR_Jpm3K = 1.127 * 1007;

describe("the air in a box", () => {
  it("rises with the loss over wall and surface while it is closed (closed form)", () => {
    for (const [material, k] of [
      ["painted steel", 5.5],
      ["stainless steel", 3.7],
      ["plastic", 3.5],
    ] as const) {
      const closed = box({ material });
      expect(insideRise_K(closed, 80, 30)).toBeCloseTo(80 / (k * coolingArea_m2(closed)), 9);
    }
  });

  it("with vents sheds exactly what is lost in it (invariant)", () => {
    for (const loss_W of [5, 80, 400]) {
      for (const ventArea_m2 of [0.001, 0.01, 0.1]) {
        const open = box({ ventArea_m2 });
        const rise = insideRise_K(open, loss_W, 30);
        const flow = stackFlow_m3ps(ventArea_m2, open.ventRise_m, 30 + rise, 30);
        const shed = (5.5 * coolingArea_m2(open) + AIR_Jpm3K * flow) * rise;
        expect(Math.abs(shed / loss_W - 1)).toBeLessThan(1e-9);
      }
    }
  });

  it("draws its air by the chimney's law: twice the height or the rise, root two the flow (closed form)", () => {
    const one = stackFlow_m3ps(0.01, 0.5, 50, 30);
    expect(one).toBeCloseTo(0.65 * 0.01 * Math.sqrt((9.80665 * 0.5 * 20) / 323.15), 9);
    expect(stackFlow_m3ps(0.01, 1, 50, 30) / one).toBeCloseTo(Math.SQRT2, 9);
    expect(stackFlow_m3ps(0.02, 0.5, 50, 30) / one).toBeCloseTo(2, 9);
    expect(stackFlow_m3ps(0.01, 0.5, 30, 30)).toBe(0);
    expect(stackFlow_m3ps(0.01, 0.5, 20, 30)).toBe(0);
  });

  it("keeps to the rise for which its vents were sized (invariant)", () => {
    for (const rise_K of [5, 10, 20]) {
      const closed = box();
      const { ventArea_m2 } = coolingFor(closed, 250, 35, rise_K);
      expect(insideRise_K(box({ ventArea_m2: ventArea_m2 ?? 0 }), 250, 35)).toBeCloseTo(rise_K, 6);
    }
  });

  it("needs neither vent nor fan where the walls do it", () => {
    expect(coolingFor(box(), 10, 30, 20)).toEqual({ ventArea_m2: null, fan_m3ps: null });
  });

  it("the fan's air carries what the walls leave (closed form)", () => {
    const { fan_m3ps } = coolingFor(box(), 250, 35, 10);
    const left = 250 - 5.5 * coolingArea_m2(box()) * 10;
    expect((fan_m3ps ?? 0) * AIR_Jpm3K * 10).toBeCloseTo(left, 9);
  });

  it("takes half of the sun on its wall as lost inside, and none in the shade", () => {
    expect(sunAsLoss_W(box())).toBe(0);
    const light = sunAsLoss_W(box({ sun: "sun on light paint" }));
    const across = (0.4 * 0.25 + 0.4 * 0.6) * Math.SQRT1_2;
    expect(light).toBeCloseTo(0.4 * 1120 * across * 0.5, 9);
    expect(sunAsLoss_W(box({ sun: "sun on dark paint" })) / light).toBeCloseTo(0.9 / 0.4, 9);
  });

  it("sheds less on a wall or under a cover than free", () => {
    const areas = (["free", "on a wall", "under a cover"] as const).map((mounting) =>
      coolingArea_m2(box({ mounting })),
    );
    expect(areas).toEqual([...areas].sort((a, b) => b - a));
  });
});
