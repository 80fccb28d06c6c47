import { examples, parseCabinet } from "@startgap/cabinet";
import { check, isFailure } from "@startgap/study";
import { describe, expect, it } from "vitest";
import { delayNow_s, settable } from "../src/state/delay.ts";
import { type SessionStore, sessionOf } from "../src/state/session.ts";
import { setDelay } from "../src/state/setDelay.ts";
import { axisEnd_s } from "../src/study/axis.ts";

function shown(text: string): SessionStore {
  const read = parseCabinet(text);
  if ("issues" in read) throw new RangeError("invalid example");
  const told = check(read.cabinet, { withMap: false });
  if (isFailure(told)) throw new RangeError(told.failed);
  return sessionOf({ text, shown: { text, cabinet: read.cabinet, check: told } });
}

const relaysIn = (text: string): unknown[] =>
  (JSON.parse(text) as { parts: { is: string; delay?: string }[] }).parts
    .filter((part) => part.is === "delay relay")
    .map((part) => part.delay);

const exampleText = (key: string): string => examples.find((example) => example.key === key)!.text;

describe("setting the delay", () => {
  it("writes it into the relay with the tolerance that stood there", () => {
    const store = shown(exampleText("ice-shed"));
    setDelay(store, 4.5);
    expect(relaysIn(store.get().text)).toEqual(["4.5 s +- 10 %"]);
    expect(delayNow_s(store.get())).toBe(4.5);
  });

  it("keeps longer relays in proportion", () => {
    const store = shown(exampleText("two-legs"));
    setDelay(store, 2);
    const read = parseCabinet(store.get().text);
    const relays = "cabinet" in read ? read.cabinet.relays.map((relay) => relay.delay_s.nominal) : [];
    expect(relays).toEqual([expect.closeTo(2, 6), expect.closeTo(6, 6)]);
  });

  it("is only tried where there is no relay, where it is none at all, and where the file cannot be read now", () => {
    const without = exampleText("ice-shed")
      .replace(/\{ "name": "delay relay".*\n/, "")
      .replace('"fedBy": "delay relay"', '"fedBy": "contactor"');
    const store = shown(without);
    setDelay(store, 3);
    expect(store.get()).toMatchObject({ text: without, delay_s: 3 });
    const zero = shown(exampleText("ice-shed"));
    setDelay(zero, 0);
    expect(zero.get()).toMatchObject({ text: exampleText("ice-shed"), delay_s: 0 });
    const broken = shown(exampleText("ice-shed"));
    broken.set({ text: "{ broken" });
    setDelay(broken, 3);
    expect(broken.get()).toMatchObject({ text: "{ broken", delay_s: 3 });
  });

  it("a handle's place becomes a setting to the hundredth, never below zero", () => {
    expect(settable(4.4449)).toBe(4.44);
    expect(settable(-2)).toBe(0);
    expect(settable(1e6)).toBe(600);
  });

  it("the axis has room for the last start and stays the same for delays that are near", () => {
    const { cabinet } = shown(exampleText("two-legs")).get().shown!;
    expect(axisEnd_s(cabinet, 0)).toBe(15);
    expect(axisEnd_s(cabinet, 4)).toBe(30);
    expect(axisEnd_s(cabinet, 3.9)).toBe(axisEnd_s(cabinet, 4));
  });
});
