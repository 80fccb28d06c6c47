import { examples, parseCabinet } from "@startgap/cabinet";
import { isFailure, staggerer } from "@startgap/study";
import { describe, expect, it } from "vitest";
import { delayNow_s, delayShown_s, settable } from "../src/state/delay.ts";
import { type Session, sessionOf } from "../src/state/session.ts";

/** The first example as it stands on the page, told with the second start after two seconds. */
function session(changes: Partial<Session>): Session {
  const { text } = examples[0];
  const read = parseCabinet(text);
  if (!("cabinet" in read)) throw new Error("the example cannot be read");
  const check = staggerer(read.cabinet)(2);
  if (isFailure(check)) throw new Error(check.failed);
  return sessionOf({ text, shown: { text, cabinet: read.cabinet, check }, ...changes }).get();
}

describe("the delay as the page has it", () => {
  it("is the one that was run, then where the handle is or was let go", () => {
    expect(delayNow_s(session({}))).toBe(2);
    expect(delayNow_s(session({ moving_s: 3 }))).toBe(3);
    expect(delayNow_s(session({ aimed_s: 4 }))).toBe(4);
    expect(delayNow_s(session({ shown: null, moving_s: 3 }))).toBe(null);
  });

  it("is marked where the figures are while the handle moves, and ahead of them once they are late", () => {
    expect(delayShown_s(session({ moving_s: 3 }))).toBe(2);
    expect(delayShown_s(session({ moving_s: 3, isLate: true }))).toBe(3);
    expect(delayShown_s(session({ aimed_s: 4 }))).toBe(4);
  });

  it("is set to the hundredth, within what the page tries", () => {
    expect([1.234, -1, 1e9].map(settable)).toEqual([1.23, 0, 600]);
  });
});
