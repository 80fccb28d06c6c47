import { type ContactorMode, plantOf } from "@startgap/circuit";
import { describe, expect, it } from "vitest";
import { contactorResult } from "../../src/judge/contactor.ts";
import { fuseResult } from "../../src/judge/fuse.ts";
import { circuit, coil, contactor, fuse, load, relay, slowMelt, supply } from "../build.ts";
import { tellingOf } from "../invented.ts";

describe("a fuse", () => {
  const shop = circuit(supply(), fuse("fuse", "panel", slowMelt(10)), load("lamp", "fuse"));
  const plant = plantOf(shop);
  const part = shop.parts[1];
  if (part.is !== "fuse") throw new RangeError("the fuse is a fuse");

  it("tells the highest sum of its terms and the margin 1/sqrt of it (closed form)", () => {
    const told = tellingOf(plant, [
      { t: 0, states: [0, 0, 0], amps: { fuse: 0 } },
      { t: 1, states: [0.1, 0.05, 0.1], amps: { fuse: 40 } },
      { t: 9, states: [0, 0.02, 0.12], amps: { fuse: 12 } },
    ]);
    const result = fuseResult(told, 1, part);
    expect(result.meltFraction).toBeCloseTo(0.25, 15);
    expect(result.currentMargin).toBeCloseTo(2, 14);
    expect(result).toMatchObject({ peakCurrent_A: 40, opened_s: null });
  });

  it("that melted has come to 1 and has no margin left", () => {
    const told = tellingOf(
      plant,
      [
        { t: 0, states: [0, 0, 0] },
        { t: 4, states: [0.3, 0.3, 0.3999] },
      ],
      {
        events: [{ name: "fuse: melts", t: 3.5 }],
      },
    );
    expect(fuseResult(told, 1, part)).toMatchObject({ meltFraction: 1, currentMargin: 1, opened_s: 3.5 });
  });

  it("without current has no margin to tell", () => {
    const told = tellingOf(plant, [{ t: 0 }, { t: 4 }]);
    expect(fuseResult(told, 1, part)).toMatchObject({ meltFraction: 0, currentMargin: null });
  });
});

describe("a contactor", () => {
  const shop = circuit(
    supply(),
    relay("relay", "panel", 3),
    contactor("contactor", "relay", coil("relay")),
    load("lamp", "contactor"),
  );
  const plant = plantOf(shop);
  const part = shop.parts[2];
  if (part.is !== "contactor") throw new RangeError("the contactor is a contactor");
  const mode = (own: Partial<ContactorMode>): readonly unknown[] =>
    plant.start().mode.map((one, i) => (i === 2 ? { ...(one as ContactorMode), ...own } : one));

  it("tells its lowest coil voltage while the coil is fed, its first closing and its drop-outs", () => {
    const told = tellingOf(
      plant,
      [
        { t: 0, coil_V: { contactor: 0 }, dead: ["relay", "contactor", "lamp"] },
        { t: 3, coil_V: { contactor: 118 } },
        { t: 4, coil_V: { contactor: 90 } },
        { t: 9, coil_V: { contactor: 117 } },
      ],
      {
        modes: [[0, mode({ dropOuts: 2 })]],
        events: [
          { name: "contactor: pulls in", t: 3.02 },
          { name: "contactor: pulls in", t: 5 },
        ],
      },
    );
    expect(contactorResult(told, 2, part)).toEqual({
      part: "contactor",
      dropOuts: 2,
      lowestCoil_V: 90,
      closed_s: 3.02,
      closesAgain: { times: 1, inOneSecond: 1, most_A: 0 },
    });
  });

  it("whose coil is never fed has no coil voltage and never closes", () => {
    const told = tellingOf(plant, [
      { t: 0, dead: ["relay", "contactor", "lamp"] },
      { t: 9, dead: ["relay", "contactor", "lamp"] },
    ]);
    expect(contactorResult(told, 2, part)).toMatchObject({ lowestCoil_V: null, closed_s: null });
  });

  it("without a coil is closed from the start", () => {
    const byHand = circuit(supply(), contactor("switch", "panel", null), load("lamp", "switch"));
    const at = byHand.parts[1];
    if (at.is !== "contactor") throw new RangeError("the switch is a contactor");
    const told = tellingOf(plantOf(byHand), [{ t: 0 }, { t: 9 }]);
    expect(contactorResult(told, 1, at)).toEqual({
      part: "switch",
      dropOuts: 0,
      lowestCoil_V: null,
      closed_s: 0,
    });
  });
});
