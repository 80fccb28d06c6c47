import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { placeLabels } from "../src/labels.ts";
import { profileOf } from "../src/profile.ts";

const frame = { left: 50, right: 450, top: 20, bottom: 220 };

/** A curve across the frame through the given heights. */
function curveThrough(heights: readonly number[]): Float64Array {
  const step = (frame.right - frame.left) / (heights.length - 1);
  return Float64Array.from(heights.flatMap((y, i) => [frame.left + i * step, y]));
}

/** Whether a curve enters a box, by walking it in steps of a tenth of a pixel. */
function enters(
  curve: Float64Array,
  box: { left: number; right: number; top: number; bottom: number },
): boolean {
  for (let k = 0; k + 3 < curve.length; k += 2)
    for (let x = curve[k]; x <= curve[k + 2]; x += 0.1) {
      const y = curve[k + 1] + ((curve[k + 3] - curve[k + 1]) * (x - curve[k])) / (curve[k + 2] - curve[k]);
      if (x > box.left && x < box.right && y > box.top && y < box.bottom) return true;
    }
  return false;
}

describe("the profile of a curve", () => {
  it("holds what the curve fills in every slice (closed form)", () => {
    const { low, high } = profileOf([Float64Array.of(50, 20, 450, 220)], frame);
    expect(low.length).toBe(80);
    for (let i = 0; i < 80; i += 1) {
      expect(low[i]).toBeCloseTo(20 + 2.5 * i, 9);
      expect(high[i]).toBeCloseTo(20 + 2.5 * (i + 1), 9);
    }
  });

  it("holds the whole of a jump, and nothing where there is no curve", () => {
    const { low, high } = profileOf([Float64Array.of(50, 100, 102, 100, 102, 30, 150, 30)], frame);
    expect([low[10], high[10]]).toEqual([30, 100]);
    expect([low[0], high[0]]).toEqual([100, 100]);
    expect(low[40]).toBeNaN();
  });
});

describe("words beside curves", () => {
  it("stand at the dip that they are about", () => {
    const dip = curveThrough([50, 50, 50, 180, 50, 50, 50]);
    const [place] = placeLabels(
      [profileOf([dip], frame)],
      [{ curve: 0, width: 40, about: { x: 250, y: 180 } }],
      frame,
      12,
    );
    expect(place).not.toBeNull();
    expect(Math.abs((place!.left + place!.right) / 2 - 250)).toBeLessThan(40);
    expect(place!.bottom).toBeGreaterThan(165);
  });

  it("fit nowhere in a frame too low for them", () => {
    const low = { ...frame, bottom: 30 };
    const level = profileOf([curveThrough([25, 25])], low);
    expect(placeLabels([level], [{ curve: 0, width: 40, about: { x: 100, y: 25 } }], low, 12)).toEqual([
      null,
    ]);
  });

  it("stand apart from a curve that covers theirs", () => {
    const shared = curveThrough([100, 100, 100, 100, 100]);
    const leaving = curveThrough([100, 100, 100, 200, 200]);
    const profiles = [shared, leaving].map((curve) => profileOf([curve], frame));
    const [place] = placeLabels(profiles, [{ curve: 0, width: 60, about: { x: 60, y: 100 } }], frame, 12);
    expect((place!.left + place!.right) / 2).toBeGreaterThan(250);
  });

  it("touch no curve, no other words and not the frame (invariant, against a walk along every curve)", () => {
    const heights = fc.array(fc.integer({ min: 20, max: 220 }), { minLength: 6, maxLength: 6 });
    fc.assert(
      fc.property(
        fc.array(heights, { minLength: 1, maxLength: 4 }),
        fc.integer({ min: 20, max: 120 }),
        (all, width) => {
          const curves = all.map(curveThrough);
          const profiles = curves.map((curve) => profileOf([curve], frame));
          const wanted = curves.map((curve, i) => ({ curve: i, width, about: { x: curve[4], y: curve[5] } }));
          const places = placeLabels(profiles, wanted, frame, 12).filter((place) => place !== null);
          for (const [i, place] of places.entries()) {
            expect(curves.some((curve) => enters(curve, place))).toBe(false);
            expect(place.left >= frame.left && place.right <= frame.right).toBe(true);
            expect(place.top >= frame.top - 1 && place.bottom <= frame.bottom + 0.1).toBe(true);
            const others = places.filter((_, k) => k !== i);
            const apart = others.every(
              (o) =>
                o.left >= place.right ||
                o.right <= place.left ||
                o.top >= place.bottom ||
                o.bottom <= place.top,
            );
            expect(apart).toBe(true);
          }
        },
      ),
      { numRuns: 60 },
    );
  });
});
