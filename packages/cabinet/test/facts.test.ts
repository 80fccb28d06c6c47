import { describe, expect, it } from "vitest";
import {
  cabinetOf,
  file,
  issuesOf,
  type Json,
  load,
  midpoint,
  motor,
  paths,
  supply,
} from "./support/files.ts";

const cable = (more: Json = {}): Json => ({
  name: "feeder",
  is: "cable",
  fedBy: "panel",
  conductor: "12 AWG Cu",
  length: "100 ft",
  ...more,
});
const fuse = (more: Json = {}): Json => ({
  name: "fuse",
  is: "fuse",
  fedBy: "feeder",
  rating: "20 A",
  curve: "time-delay CC",
  ...more,
});
const box = (more: Json = {}): Json => ({ width: "40 cm", height: "60 cm", depth: "25 cm", ...more });

describe("facts that protection and heat are judged by", () => {
  it("are told part by part, in SI", () => {
    const { facts } = cabinetOf(
      file(
        supply(),
        cable({ insulation: "75 degC" }),
        fuse({ interruptingRating: "200 kA", wire: "neutral", ambient: "40 degC" }),
        midpoint({ fedBy: "fuse", insulation: "150 degC" }),
        { name: "contactor", is: "contactor", fedBy: "midpoint", rating: "40 A", lockedRotorRating: "240 A" },
        motor({
          fedBy: "contactor",
          circuit: undefined,
          nameplate: { power: "1 hp", voltage: "115 V", serviceFactor: 1.15, insulation: "F" },
          overload: "18 A",
          builtInProtector: "no",
        }),
        load({ fedBy: "midpoint" }),
      ),
    );
    expect(facts.feeder).toMatchObject({ is: "cable", insulation_C: 75, conductor: { name: "12 AWG Cu" } });
    expect(facts.fuse).toEqual({
      is: "fuse",
      className: "time-delay CC",
      interruptingRating_A: 200_000,
      wire: "neutral",
      ambient_C: 40,
    });
    expect(facts.midpoint).toEqual({ is: "autotransformer", insulation_C: 150 });
    expect(facts.contactor).toEqual({ is: "contactor", rating_A: 40, lockedRotorRating_A: 240 });
    expect(facts.motor).toMatchObject({ serviceFactor: 1.15, insulation: "F", overload_A: 18 });
    expect(facts.motor).toMatchObject({ builtInProtector: false, type: "capacitor-start" });
    expect(Object.keys(facts)).not.toContain("lamps");
  });

  it("change nothing that is simulated", () => {
    const plain = cabinetOf(file(supply(), cable(), fuse(), motor({ fedBy: "fuse" })));
    const told = cabinetOf(
      file(
        supply(),
        cable({ insulation: "90 degC" }),
        fuse({ interruptingRating: "10 kA" }),
        motor({ fedBy: "fuse", overload: "5 A", builtInProtector: "yes" }),
      ),
    );
    expect(told.circuit).toEqual(plain.circuit);
  });
});

describe("the enclosure", () => {
  it("takes the usual where it is silent", () => {
    const { enclosure } = cabinetOf({ ...file(supply(), load()), enclosure: box() });
    expect(enclosure).toMatchObject({ material: "painted steel", mounting: "on a wall", ventArea_m2: 0 });
    expect(enclosure?.ventRise_m).toBeCloseTo(0.48, 12);
    expect(cabinetOf(file(supply(), load())).enclosure).toBeNull();
  });

  it("keeps its ranges out of the ranges that are varied", () => {
    const { ranges, enclosure } = cabinetOf({
      ...file(supply(), load({ power: "300 W .. 500 W" })),
      enclosure: box({ width: "38 cm .. 42 cm", ventArea: "40 cm2" }),
    });
    expect(ranges.map(({ path }) => path)).toEqual(["parts[1].power"]);
    expect(enclosure).toMatchObject({ width_m: 0.4, ventArea_m2: 0.004 });
  });

  it("is refused with every place that is wrong", () => {
    const wrong = { ...file(supply(), load()), enclosure: { width: "40", material: "wood", hight: "1 m" } };
    expect(paths(wrong)).toEqual([
      "enclosure.depth",
      "enclosure.height",
      "enclosure.hight",
      "enclosure.material",
      "enclosure.width",
    ]);
    expect(issuesOf(wrong).find(({ path }) => path === "enclosure.hight")?.nearest).toBe("height");
  });
});
