import { motorFromNameplate, type Nameplate } from "@startgap/cabinet";
import { steadyState } from "@startgap/circuit";
import { describe, expect, it } from "vitest";
import { checkBook } from "../motors-support/checkBook.ts";
import book from "./data.json" with { type: "json" };

checkBook(book);

describe("Kosow, Example 10-4, p. 345: a 1/3 hp plate with 400 W, torques 4.5 and 2.5 times 1 lb ft", () => {
  const poundFoot_Nm = 1.3558179;
  const plate: Nameplate = {
    type: "capacitor-start",
    voltage_V: 115,
    frequency_Hz: 60,
    power_W: 745.7 / 3,
    fullLoadCurrent_A: 5.35,
    speed_rpm: 1750,
    powerFactor: 400 / (115 * 5.35),
    lockedRotorTorque_Nm: 4.5 * poundFoot_Nm,
    breakdownTorque_Nm: 2.5 * poundFoot_Nm,
  };
  const motor = motorFromNameplate(plate);

  it("is one circuit: 1 lb ft, 400 W in, 62.2 % at 1750 rpm (published, 2 %)", () => {
    if (!("value" in motor)) throw new Error(JSON.stringify(motor));
    const point = steadyState(motor.value.machine, 115, 1 - 1750 / 1800, false);
    expect(Math.abs(point.shaftTorque_Nm / poundFoot_Nm - 1)).toBeLessThan(0.02);
    expect(Math.abs(point.inputPower_W / 400 - 1)).toBeLessThan(0.02);
    expect(Math.abs(point.efficiency / 0.622 - 1)).toBeLessThan(0.02);
    expect(Math.abs(point.powerFactor / 0.6501 - 1)).toBeLessThan(0.02);
  });

  it("starts with 4.5 lb ft and breaks down at 2.5 (published, 10 %)", () => {
    if (!("value" in motor)) throw new Error(JSON.stringify(motor));
    const { machine } = motor.value;
    const start = steadyState(machine, 115, 1, true).torque_Nm / poundFoot_Nm;
    const running = Array.from({ length: 200 }, (_, k) => steadyState(machine, 115, (k + 1) / 200, false));
    const crest = Math.max(...running.map((p) => p.shaftTorque_Nm)) / poundFoot_Nm;
    expect(Math.abs(start / 4.5 - 1)).toBeLessThan(0.1);
    expect(Math.abs(crest / 2.5 - 1)).toBeLessThan(0.1);
  });
});
