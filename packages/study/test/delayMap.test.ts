import { type Cabinet, examples, parseCabinet } from "@startgap/cabinet";
import { type Circuit, plantOf } from "@startgap/circuit";
import { describe, expect, it } from "vitest";
import { check } from "../src/check.ts";
import { delayMap } from "../src/delayMap.ts";
import { isFailure } from "../src/failure.ts";
import type { StudyOptions } from "../src/options.ts";
import { otherOrderThan } from "../src/otherOrder.ts";
import type { DelayMap } from "../src/results.ts";
import { scriptFor, staggerOf } from "../src/stagger.ts";
import { tellWhole } from "../src/telling.ts";
import { cable, circuit, load, motor, pair, relay, supply } from "./build.ts";
import { cabinetOf } from "./cabinet.ts";

function mapOf(cabinet: Cabinet, options: StudyOptions = {}): DelayMap {
  const map = delayMap(cabinet, options);
  if (map === null || isFailure(map)) throw new Error(map === null ? "nothing to map" : map.failed);
  return map;
}

/** A feeder so long that two motors starting at once sag too far, and one after the other do not. */
const long: Circuit = circuit(
  supply(120, 0.2, 0.1),
  cable("feeder", "panel", 0.8, 0.1),
  motor("pump 1", "feeder"),
  relay("relay", "feeder", 4),
  motor("pump 2", "relay"),
  load("lamp", "feeder"),
);

const QUICK: StudyOptions = { longestDelay_s: 3, delayStep_s: 0.25, tolerance: 1e-7 };

describe("the delay map", () => {
  const map = mapOf(cabinetOf(long), QUICK);

  it("has its delays at k times the step, never accumulated", () => {
    expect(map.delay_s).toEqual(Array.from({ length: 13 }, (_, k) => Number((k * 0.25).toPrecision(12))));
    const tenths = mapOf(cabinetOf(long), { longestDelay_s: 1, delayStep_s: 0.1 });
    expect(tenths.delay_s).toEqual([0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1]);
  });

  it("has one value a delay in every column", () => {
    const { motors, points, fuses, contactors, chatters, passes } = map;
    const columns = [
      ...motors.flatMap((m) => [m.lowestVoltage_V, m.runUp_s]),
      ...points.map((p) => p.lowestVoltage_V),
      ...fuses.map((f) => f.meltFraction),
      ...contactors.map((c) => c.dropOuts),
      chatters,
      passes,
    ];
    for (const column of columns) expect(column).toHaveLength(map.delay_s.length);
    expect(motors.map((m) => m.part)).toEqual(["pump 1", "pump 2"]);
  });

  it("says where a contactor chatters without end, and counts no more there than the whole story has", () => {
    const read = parseCabinet(examples.find(({ key }) => key === "ice-shed")?.text ?? "");
    if ("issues" in read) throw new Error("bad example");
    const shed = mapOf(read.cabinet, { longestDelay_s: 1, delayStep_s: 0.5 });
    expect(shed.chatters).toEqual([true, true, false]);
    const whole = check(read.cabinet, { withMap: false });
    if (isFailure(whole)) throw new Error(whole.failed);
    const together = whole.report.cases.find((c) => c.case === "together");
    expect(shed.passes[0]).toBe(false);
    expect(shed.contactors[0].dropOuts[0]).toBeGreaterThan(2);
    expect(shed.contactors[0].dropOuts[0]).toBeLessThan(together?.contactors[0].dropOuts ?? 0);
    expect(shed.fuses[0].meltFraction[0]).toBeLessThan(together?.fuses[0].meltFraction ?? 0);
  });

  it("tells for each delay what a check of that delay tells", () => {
    const i = 4;
    const told = check(cabinetOf(long), { delay_s: map.delay_s[i], withMap: false, tolerance: 1e-7 });
    if (isFailure(told)) throw new Error(told.failed);
    const staggered = told.report.cases.find((c) => c.case === "staggered");
    staggered?.motors.forEach((motor, k) => {
      expect(map.motors[k].lowestVoltage_V[i]).toBeCloseTo(motor.lowestVoltage_V ?? 0, 4);
      expect(map.motors[k].runUp_s[i]).toBeCloseTo(motor.runUp_s ?? 0, 4);
    });
    expect(map.points[0].lowestVoltage_V[i]).toBeCloseTo(staggered?.points[0].lowestVoltage_V ?? 0, 4);
  });

  it("fails together and passes from an edge on, which is refined far beyond the grid", () => {
    expect(map.passes[0]).toBe(false);
    expect(map.passes.at(-1)).toBe(true);
    const edge = map.advice.shortest_s ?? Number.NaN;
    const at = (delay_s: number) =>
      mapOf(cabinetOf(long), { ...QUICK, longestDelay_s: delay_s, delayStep_s: delay_s });
    expect(at(edge).passes[1]).toBe(true);
    expect(at(edge - 0.0005).passes[1]).toBe(false);
  });

  it("recommends a setting whose two ends pass", () => {
    const { recommended_s, shortest_s, until_s } = map.advice;
    expect(until_s).toBeNull();
    expect((recommended_s ?? 0) * 0.9).toBeGreaterThanOrEqual(shortest_s ?? Number.POSITIVE_INFINITY);
    expect(((recommended_s ?? 0) - 0.5) * 0.9).toBeLessThan(shortest_s ?? 0);
  });

  it("tries what the relay may reach beyond the map", () => {
    const narrow = mapOf(cabinetOf(long), { ...QUICK, longestDelay_s: 0.75 });
    expect(narrow.advice.recommended_s).toBe(map.advice.recommended_s);
  });

  it("reports its progress and can be cancelled", () => {
    const told: number[] = [];
    mapOf(cabinetOf(long), { ...QUICK, onProgress: (fraction) => told.push(fraction) });
    expect(told.at(-1)).toBe(1);
    expect(told).toHaveLength(13);
    const stopped = delayMap(cabinetOf(long), { ...QUICK, signal: { aborted: true } });
    expect(isFailure(stopped)).toBe(true);
  });

  it("is none where there is one motor", () => {
    expect(delayMap(cabinetOf(circuit(supply(), motor("pump", "panel"))))).toBeNull();
  });

  it("advises that both may start together where nothing fails", () => {
    const stiff = mapOf(
      cabinetOf(circuit(supply(120, 0.01, 0), motor("a", "panel"), motor("b", "panel"))),
      QUICK,
    );
    expect(stiff.passes.every((pass) => pass)).toBe(true);
    expect(stiff.advice).toMatchObject({ recommended_s: 0, shortest_s: 0, otherOrder: null });
    expect(stiff.advice.reason).toMatch(/^Both may start together/);
  });

  it("says what stands in the way where no delay helps", () => {
    const weak = mapOf(
      cabinetOf(circuit(supply(120, 3, 1), motor("a", "panel"), motor("b", "panel"))),
      QUICK,
    );
    expect(weak.passes.some((pass) => pass)).toBe(false);
    expect(weak.advice.recommended_s).toBeNull();
    expect(weak.advice.reason).toMatch(/^No delay up to 3.0 s helps\. At 3.0 s: a: /);
  });

  it("counts all motors in its words", () => {
    const stiff = circuit(
      supply(120, 0.01, 0),
      motor("a", "panel"),
      motor("b", "panel"),
      motor("c", "panel"),
    );
    expect(mapOf(cabinetOf(stiff), QUICK).advice.reason).toMatch(/^All 3 motors may start together/);
  });
});

describe("the other order", () => {
  /** The same pair, its heavy motor last or first: from rest it draws 2.5 times what the light one does. */
  const uneven = (heavyFirst: boolean): Circuit => {
    const heavy = motor("heavy", "feeder", { machine: scaled(0.4), inertia_kgm2: 0.0365 });
    const light = motor("light", "feeder", {
      drives: { atRest_Nm: 0.3, atFullSpeed_Nm: 1.8, shape: "square" },
    });
    return circuit(
      supply(120, 0.1, 0.02),
      cable("feeder", "panel", 0.5, 0.05),
      ...(heavyFirst ? [heavy, light] : [light, heavy]),
      load("lamp", "feeder"),
    );
  };

  it("is better where the heavy motor would start on top of the running light one", () => {
    const late = mapOf(cabinetOf(uneven(false)), QUICK).advice.otherOrder;
    const early = mapOf(cabinetOf(uneven(true)), QUICK).advice.otherOrder;
    expect(late).toMatchObject({ first: "heavy", better: true });
    expect(early).toMatchObject({ first: "light", better: false });
  });

  it("is the story of the file that has them the other way round (invariant, 1e-4 %)", () => {
    const compared = (of: Circuit) => {
      const stagger = staggerOf(of);
      const pace = { tolerance: 1e-7 };
      const asFiled = tellWhole(plantOf(of), scriptFor(stagger, 1), 1, 6, pace);
      if (isFailure(asFiled)) throw new Error(asFiled.failed);
      const other = otherOrderThan(asFiled, stagger, pace);
      if (other === null || isFailure(other)) throw new Error("no other order");
      return other;
    };
    const [one, two] = [compared(uneven(false)), compared(uneven(true))];
    expect(one.lowestVoltage_percent).toBeCloseTo(two.asFiled_percent, 4);
    expect(one.asFiled_percent).toBeCloseTo(two.lowestVoltage_percent, 4);
    expect(Math.abs(one.lowestVoltage_percent - one.asFiled_percent)).toBeGreaterThan(0.01);
  });

  it("is told in the reason when it is better, and not otherwise", () => {
    for (const { key, text } of examples) {
      const read = parseCabinet(text);
      if ("issues" in read) throw new Error(key);
      const map = delayMap(read.cabinet, { longestDelay_s: 2, delayStep_s: 0.5 });
      if (map === null || isFailure(map)) continue;
      const { otherOrder, reason } = map.advice;
      expect(reason.includes("does better"), key).toBe(otherOrder?.better ?? false);
    }
  });

  it("is not asked of three motors", () => {
    const three = circuit(supply(120, 0.5, 0), motor("a", "panel"), motor("b", "panel"), motor("c", "panel"));
    expect(mapOf(cabinetOf(three), QUICK).advice.otherOrder).toBeNull();
  });

  it("works with a relay as well as without", () => {
    expect(mapOf(cabinetOf(pair(0.8)), QUICK).advice.otherOrder).toMatchObject({
      first: "pump 2",
      better: false,
    });
  });
});

/** The machine with every impedance times `factor`. */
function scaled(factor: number) {
  const { main, rotor, rotorAtStandstill, auxiliary, startCapacitor, magnetising_ohm, ...rest } = motor(
    "",
    "",
  ).machine;
  const z = <T extends { r_ohm: number; x_ohm: number }>(one: T): T => ({
    ...one,
    r_ohm: one.r_ohm * factor,
    x_ohm: one.x_ohm * factor,
  });
  if (auxiliary === null || startCapacitor === null) throw new RangeError("a capacitor-start motor has both");
  return {
    ...rest,
    main: z(main),
    rotor: z(rotor),
    rotorAtStandstill: z(rotorAtStandstill),
    auxiliary: z(auxiliary),
    startCapacitor: z(startCapacitor),
    magnetising_ohm: magnetising_ohm * factor,
  };
}
