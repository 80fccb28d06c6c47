import { motorFromNameplate } from "@startgap/cabinet";
import { steadyState } from "@startgap/circuit";
import { describe, expect, it } from "vitest";
import { checkBook } from "../motors-support/checkBook.ts";
import book from "./data.json" with { type: "json" };

checkBook(book);

describe("Kulshreshtha, Example 17.1: 375 W, 230 V, 2.9 A, power factor 0.71, 50 Hz, 1410 rpm", () => {
  const plate = {
    voltage_V: 230,
    frequency_Hz: 50,
    power_W: 375,
    fullLoadCurrent_A: 2.9,
    speed_rpm: 1410,
    powerFactor: 0.71,
  };
  const motor = motorFromNameplate({ ...plate, type: "capacitor-start" });

  it("has four poles, 6 % slip and 79.2 % efficiency (published, 2 %)", () => {
    if (!("value" in motor)) throw new Error(JSON.stringify(motor));
    const { machine, rated } = motor.value;
    expect(machine.poles).toBe(4);
    expect(1 - rated.speed_rpm / 1500).toBeCloseTo(0.06, 12);
    const point = steadyState(machine, 230, 0.06, false);
    expect(Math.abs(point.shaftPower_W / 375 - 1)).toBeLessThan(0.02);
    expect(Math.abs(point.efficiency / 0.7919 - 1)).toBeLessThan(0.02);
  });
});
