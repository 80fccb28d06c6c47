import { examples, parseCabinet } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { check } from "../src/check.ts";
import { isFailure } from "../src/failure.ts";
import { type Staggerer, staggerer } from "../src/staggerer.ts";

function cabinetOf(text: string) {
  const read = parseCabinet(text);
  if (!("cabinet" in read)) throw new Error("the example cannot be read");
  return read.cabinet;
}

const soundly = (told: ReturnType<Staggerer>) => {
  if (isFailure(told)) throw new Error(told.failed);
  return told;
};

/** Both ends, on and between the hundredths that are kept, past the usual story, there and back. */
const DELAYS_s = [6, 0, 1.37, 0.3, 0.005, 6, 14.99, 20];

describe("a cabinet's check at one delay after another", () => {
  for (const { key, text } of examples) {
    it(`${key}: equals the check of every delay, number by number (independent: told anew each time)`, () => {
      const cabinet = cabinetOf(text);
      const at = staggerer(cabinet);
      for (const delay_s of DELAYS_s) {
        expect(at(delay_s), `${delay_s} s`).toEqual(check(cabinet, { delay_s, withMap: false }));
      }
      const short = { delay_s: 2.5, duration_s: 8 };
      expect(at(short.delay_s, short.duration_s)).toEqual(check(cabinet, { ...short, withMap: false }));
      expect(at()).toEqual(check(cabinet, { withMap: false }));
    });
  }

  it("hands out the stories that no delay changes as the same objects", () => {
    const at = staggerer(cabinetOf(examples[0].text));
    const [a, b] = [soundly(at(2)), soundly(at(3))];
    expect(b.stories.map((story) => story.case)).toEqual(["one", "together", "staggered"]);
    expect(b.stories.map((story, i) => story === a.stories[i])).toEqual([true, true, false]);
  });

  it("is given up when its signal says so, and goes on once it no longer does", () => {
    const signal = { aborted: true };
    const at = staggerer(cabinetOf(examples[0].text), { signal });
    expect(isFailure(at(2))).toBe(true);
    signal.aborted = false;
    expect(isFailure(at(2))).toBe(false);
  });
});
