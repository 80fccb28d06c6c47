import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isolated, printable } from "../src/names.ts";
import { shorten, textWidth, wrap } from "../src/textWidth.ts";

const names = fc.string({ unit: "grapheme", maxLength: 80 });

describe("words and their width", () => {
  it("adds up the published advances (closed form: Adobe Font Metrics of Helvetica, plus the allowance)", () => {
    expect(textWidth("Hi 1", 1000)).toBeCloseTo((722 + 222 + 278 + 556) * 1.05, 9);
    expect(textWidth("Hi 1", 1000, true)).toBeCloseTo((722 + 222 + 278 + 556) * 1.05 * 1.06, 9);
    expect(textWidth("e\u0301", 10)).toBe(textWidth("e", 10));
  });

  it("shortens any name to the room there is, or to its first letter (invariant)", () => {
    fc.assert(
      fc.property(names, fc.double({ min: 12, max: 600, noNaN: true }), fc.boolean(), (name, room, bold) => {
        const short = shorten(name, room, 12, bold);
        const fits = textWidth(short, 12, bold) <= room + 0.02;
        expect(fits || [...short.normalize("NFC")].filter((c) => !/[\p{M}\p{Cf}]/u.test(c)).length <= 2).toBe(
          true,
        );
      }),
    );
  });

  it("keeps both ends of a name, where names differ", () => {
    expect(shorten("compressor at the far end, motor 2", 120, 12)).toMatch(/^compr.*\u2026.*motor 2$/);
    expect(shorten("pump", 100, 12)).toBe("pump");
  });

  it("never parts a letter from its mark", () => {
    const short = shorten("e\u0301".repeat(60), 80, 12);
    expect(short.replace(/e\u0301/g, "")).toBe("\u2026");
  });

  it("takes time in proportion to a very long name", () => {
    const long = "x".repeat(200_000);
    const started = performance.now();
    expect(shorten(long, 100, 12).length).toBeLessThan(30);
    expect(performance.now() - started).toBeLessThan(1000);
  });

  it("wraps sentences into at most the lines there are, each within its width (invariant)", () => {
    fc.assert(
      fc.property(fc.lorem({ maxCount: 40 }), fc.integer({ min: 80, max: 400 }), (words, width) => {
        const lines = wrap(words, width, 12, 2);
        expect(lines.length).toBeLessThanOrEqual(2);
        for (const line of lines) expect(textWidth(line, 12)).toBeLessThanOrEqual(width + 0.02);
      }),
    );
  });
});

describe("names of others", () => {
  it("lose what cannot be drawn and what would turn the words around them", () => {
    expect(printable("a\u0000b\u202ec\ud800d\u2067e\ufffe")).toBe("a b c d e");
  });

  it("keep their own direction", () => {
    expect(isolated("pump")).toBe("pump");
    expect(isolated("\u05d0\u05d1")).toBe("\u2068\u05d0\u05d1\u2069");
  });
});
