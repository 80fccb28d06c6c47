import { describe, expect, it } from "vitest";
import { dark, light, type Palette } from "../src/palette.ts";

type Vector = readonly [number, number, number];

/** sRGB to linear light, IEC 61966-2-1. */
function linear(hex: string): Vector {
  const channel = (at: number) => {
    const value = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  };
  return [channel(1), channel(3), channel(5)];
}

const luminance = ([r, g, b]: Vector) => 0.2126 * r + 0.7152 * g + 0.0722 * b;

/** Contrast ratio of WCAG 2.2. */
function contrast(a: string, b: string): number {
  const [x, y] = [luminance(linear(a)), luminance(linear(b))];
  return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
}

const times = (matrix: readonly Vector[], v: Vector): Vector =>
  matrix.map((row) => row[0] * v[0] + row[1] * v[1] + row[2] * v[2]) as unknown as Vector;

/** Linear RGB to cone responses and back: Vienot, Brettel and Mollon 1999 (from memory). */
const toCones: Vector[] = [
  [17.8824, 43.5161, 4.11935],
  [3.45565, 27.1554, 3.86714],
  [0.0299566, 0.184309, 1.46709],
];
const fromCones: Vector[] = [
  [0.0809444479, -0.130504409, 0.116721066],
  [-0.0102485335, 0.0540193266, -0.113614708],
  [-0.000365296938, -0.00412161469, 0.693511405],
];
/** What the missing cone would have said, from the two that are there. */
const missing: Readonly<Record<string, (cones: Vector) => Vector>> = {
  none: (cones) => cones,
  protanopia: ([, m, s]) => [2.02344 * m - 2.52581 * s, m, s],
  deuteranopia: ([l, , s]) => [l, 0.494207 * l + 1.24827 * s, s],
};

/** CIE 1976 L*a*b* under D65. */
function lab(rgb: Vector): Vector {
  const [x, y, z] = times(
    [
      [0.4124, 0.3576, 0.1805],
      [0.2126, 0.7152, 0.0722],
      [0.0193, 0.1192, 0.9505],
    ],
    rgb.map((value) => Math.min(Math.max(value, 0), 1)) as unknown as Vector,
  );
  const f = (t: number) => (t > 216 / 24389 ? Math.cbrt(t) : ((24389 / 27) * t + 16) / 116);
  const [fx, fy, fz] = [f(x / 0.9505), f(y), f(z / 1.089)];
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
}

function difference(a: string, b: string, sight: (cones: Vector) => Vector): number {
  const [p, q] = [a, b].map((hex) => lab(times(fromCones, sight(times(toCones, linear(hex))))));
  return Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
}

const themes: readonly [string, Palette][] = [
  ["light", light],
  ["dark", dark],
];
const cases = ["one", "together", "staggered"] as const;
const parts = ["part1", "part2", "part3", "part4", "part5", "part6", "part7"] as const;

describe.each(themes)("the %s palette", (_, palette) => {
  it("lets words be read: 4.5 to 1 (published: WCAG 2.2, 1.4.3)", () => {
    for (const name of ["ink", "soft", ...cases, "pass", "caution", "fail"] as const)
      expect(contrast(palette[name], palette.paper), name).toBeGreaterThanOrEqual(4.5);
    for (const name of parts)
      expect(contrast(palette[name], palette.paper), name).toBeGreaterThanOrEqual(4.5);
    for (const band of ["dim", "drop", "stall", "range"] as const)
      expect(contrast(palette.ink, palette[band]), band).toBeGreaterThanOrEqual(4.5);
  });

  it("lets lines be seen on every ground: 3 to 1 (published: WCAG 2.2, 1.4.11)", () => {
    for (const ground of ["paper", "dim", "drop", "stall", "range"] as const)
      for (const name of cases)
        expect(contrast(palette[name], palette[ground]), `${name} on ${ground}`).toBeGreaterThanOrEqual(3);
    for (const name of parts)
      expect(contrast(palette[name], palette.range), `${name} on range`).toBeGreaterThanOrEqual(3);
  });

  it("keeps the cases apart for dichromats: 20 in CIE L*a*b* (published: Vienot et al. 1999)", () => {
    for (const [sight, see] of Object.entries(missing))
      for (const [i, a] of cases.entries())
        for (const b of cases.slice(i + 1))
          expect(difference(palette[a], palette[b], see), `${a}, ${b}, ${sight}`).toBeGreaterThanOrEqual(20);
  });
});

it("the simulation itself makes a red and a green alike that differ to most (sanity)", () => {
  expect(difference("#c1272d", "#5a7d1e", missing.none)).toBeGreaterThan(60);
  expect(difference("#c1272d", "#5a7d1e", missing.deuteranopia)).toBeLessThan(45);
  expect(difference("#123456", "#123456", missing.protanopia)).toBe(0);
});
