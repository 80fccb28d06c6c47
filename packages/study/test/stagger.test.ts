import type { Script } from "@startgap/circuit";
import { describe, expect, it } from "vitest";
import { lastStart_s, otherWayRound, type Stagger, scriptFor, staggerOf } from "../src/stagger.ts";
import { circuit, load, motor, pair, relay, supply } from "./build.ts";

/** When each relay closes after it is energised, and each motor's own contact. */
const relays = (script: Script, stated: Readonly<Record<string, number>>): Record<string, number> =>
  Object.fromEntries(Object.entries(stated).map(([name, s]) => [name, script.delay_s(name, s)]));
const contacts = (script: Script, stagger: Stagger): number[] =>
  stagger.motors.map((name) => script.connects_s(name));

describe("stagger by relays", () => {
  const three = circuit(
    supply(),
    motor("saw", "panel"),
    relay("short", "panel", 4),
    motor("fan", "short"),
    relay("long", "panel", 12),
    motor("press", "long"),
    load("lamp behind", "long"),
  );
  const stagger = staggerOf(three);

  it("takes the file's delay from the first motor to the second", () => {
    expect(stagger).toMatchObject({
      first: "saw",
      stated_s: 4,
      longest_s: 12,
      possible: true,
      byRelay: true,
    });
  });

  it("keeps several relays in proportion", () => {
    expect(relays(scriptFor(stagger, 2), { short: 4, long: 12 })).toEqual({ short: 2, long: 6 });
    expect(lastStart_s(stagger, 2)).toBe(6);
  });

  it("starts all at once after 0 s and the first alone after Infinity", () => {
    expect(relays(scriptFor(stagger, 0), { short: 4, long: 12 })).toEqual({ short: 0, long: 0 });
    const never = Number.POSITIVE_INFINITY;
    expect(relays(scriptFor(stagger, never), { short: 4, long: 12 })).toEqual({ short: never, long: never });
    expect(lastStart_s(stagger, never)).toBe(0);
  });

  it("leaves every motor's own contact closed", () => {
    expect(contacts(scriptFor(stagger, 2), stagger)).toEqual([0, 0, 0]);
  });

  it("holds back everything behind a relay, and nothing else", () => {
    expect([...stagger.heldBack].sort()).toEqual(["fan", "lamp behind", "press"]);
  });

  it("follows a relay behind a relay", () => {
    const chain = staggerOf(
      circuit(
        supply(),
        motor("a", "panel"),
        relay("r1", "panel", 8),
        motor("b", "r1"),
        relay("r2", "r1", 2),
        motor("c", "r2"),
      ),
    );
    expect(chain).toMatchObject({ stated_s: 8, longest_s: 10 });
    expect(relays(scriptFor(chain, 4), { r1: 8, r2: 2 })).toEqual({ r1: 4, r2: 1 });
    expect(lastStart_s(chain, 4)).toBe(5);
  });

  it("starts its clock with the first motor where that has a relay too", () => {
    const both = staggerOf(
      circuit(
        supply(),
        relay("early", "panel", 2),
        motor("a", "early"),
        relay("late", "panel", 6),
        motor("b", "late"),
      ),
    );
    expect(both).toMatchObject({ first: "a", stated_s: 4 });
    expect([...both.heldBack]).toEqual(["b"]);
    expect(relays(scriptFor(both, 4), { early: 2, late: 6 })).toEqual({ early: 0, late: 4 });
    expect(relays(scriptFor(both, Infinity), { early: 2, late: 6 })).toEqual({ early: 0, late: Infinity });
  });

  it("takes the motor with the shorter relay for the first, wherever it stands in the file", () => {
    const turned = staggerOf(
      circuit(
        supply(),
        relay("late", "panel", 6),
        motor("b", "late"),
        relay("early", "panel", 2),
        motor("a", "early"),
      ),
    );
    expect(turned).toMatchObject({ first: "a", stated_s: 4 });
    expect([...turned.heldBack]).toEqual(["b"]);
  });

  it("lets two equal relays be told apart by the delay alone", () => {
    const equal = staggerOf(
      circuit(supply(), relay("r1", "panel", 3), motor("a", "r1"), relay("r2", "panel", 3), motor("b", "r2")),
    );
    expect(equal.stated_s).toBeNull();
    expect(relays(scriptFor(equal, 5), { r1: 3, r2: 3 })).toEqual({ r1: 0, r2: 5 });
    expect(lastStart_s(equal, 5)).toBe(5);
  });

  it("keeps a relay of 0 s with the first motor while another one delays", () => {
    const zero = staggerOf(
      circuit(
        supply(),
        motor("a", "panel"),
        relay("none", "panel", 0),
        motor("b", "none"),
        relay("some", "panel", 3),
        motor("c", "some"),
      ),
    );
    expect([...zero.heldBack]).toEqual(["c"]);
    expect(relays(scriptFor(zero, Infinity), { none: 0, some: 3 })).toEqual({ none: 0, some: Infinity });
  });
});

describe("stagger without a relay", () => {
  const stagger = staggerOf(circuit(supply(), motor("a", "panel"), motor("b", "panel"), motor("c", "panel")));

  it("connects each further motor one delay after the one before it", () => {
    expect(stagger).toMatchObject({ stated_s: null, byRelay: false, possible: true });
    expect(contacts(scriptFor(stagger, 3), stagger)).toEqual([0, 3, 6]);
    expect(contacts(scriptFor(stagger, Infinity), stagger)).toEqual([0, Infinity, Infinity]);
    expect(contacts(scriptFor(stagger, 0), stagger)).toEqual([0, 0, 0]);
    expect(lastStart_s(stagger, 3)).toBe(6);
    expect([...stagger.heldBack]).toEqual(["b", "c"]);
  });

  it("does not take a relay for one that staggers when no motor is behind it", () => {
    const lamp = staggerOf(
      circuit(supply(), motor("a", "panel"), motor("b", "panel"), relay("r", "panel", 5), load("lamp", "r")),
    );
    expect(lamp.byRelay).toBe(false);
    expect(relays(scriptFor(lamp, 2), { r: 5 })).toEqual({ r: 5 });
    expect(contacts(scriptFor(lamp, 2), lamp)).toEqual([0, 2]);
  });

  it("nor one that all motors are behind", () => {
    const common = staggerOf(circuit(supply(), relay("r", "panel", 5), motor("a", "r"), motor("b", "r")));
    expect(common.byRelay).toBe(false);
    expect(relays(scriptFor(common, 2), { r: 5 })).toEqual({ r: 0 });
    expect(contacts(scriptFor(common, 2), common)).toEqual([0, 2]);
    expect([...common.heldBack]).toEqual(["b"]);
  });

  it("finds nothing to hold back with one motor, which starts at once even behind a relay", () => {
    const one = staggerOf(circuit(supply(), relay("r", "panel", 5), motor("a", "r")));
    expect(one.possible).toBe(false);
    expect(one.heldBack.size).toBe(0);
    expect(relays(scriptFor(one, Infinity), { r: 5 })).toEqual({ r: 0 });
    expect(lastStart_s(one, 4)).toBe(0);
  });

  it("finds nothing to hold back without a motor", () => {
    expect(staggerOf(circuit(supply(), load("lamp", "panel")))).toMatchObject({ possible: false, first: "" });
  });
});

describe("the other way round", () => {
  it("starts the second motor at 0 s and the first one later", () => {
    const stagger = staggerOf(pair());
    const script = otherWayRound(stagger, 3);
    expect(relays(script, { relay: 4 })).toEqual({ relay: 0 });
    expect(contacts(script, stagger)).toEqual([3, 0]);
  });
});
