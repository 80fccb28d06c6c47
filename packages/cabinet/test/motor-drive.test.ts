import { type LoadTorque, type Machine, steadyState } from "@startgap/circuit";
import { describe, expect, it } from "vitest";
import { breakdown } from "../src/motor/breakdown.ts";
import { type DriveSpec, driveOf } from "../src/motor/drive.ts";
import { STARTS_AGAINST } from "../src/motor/driveDefaults.ts";
import { motorFromNameplate } from "../src/motor/motorFromNameplate.ts";

const found = motorFromNameplate({
  type: "capacitor-start",
  voltage_V: 115,
  frequency_Hz: 60,
  power_W: 1118.55,
  fullLoadCurrent_A: 18,
  speed_rpm: 1725,
  codeLetter: "K",
});
if (!("value" in found)) throw new Error("the plate is good");
const { machine, rated } = found.value;

/** Load torque at a share of synchronous speed, by its definition. */
const torqueAt = ({ atRest_Nm, atFullSpeed_Nm, shape }: LoadTorque, speed: number): number =>
  atRest_Nm + (atFullSpeed_Nm - atRest_Nm) * (shape === "square" ? speed ** 2 : speed);

const FULL = 1725 / 1800;

describe("what a motor drives", () => {
  it("is taken outright when stated, more at rest than in motion too", () => {
    const spec: DriveSpec = {
      is: "torque",
      atRest_Nm: 11,
      atFullSpeed_Nm: 4,
      shape: "linear",
      inertia_kgm2: 0.03,
    };
    const { drives, inertia_kgm2, assumptions } = driveOf(spec, machine);
    expect(drives).toEqual({ atRest_Nm: 11, atFullSpeed_Nm: 4, shape: "linear" });
    expect(inertia_kgm2).toBe(0.03);
    expect(assumptions).toEqual([]);
    expect(driveOf({ ...spec, shape: null }, machine).drives.shape).toBe("square");
  });

  it("is full-load torque at rated speed for a fan, with the square of the speed (closed form)", () => {
    const { drives } = driveOf({ is: "fan" }, machine, rated);
    expect(torqueAt(drives, FULL)).toBeCloseTo(rated.torque_Nm, 9);
    expect(drives.atRest_Nm).toBeCloseTo(0.1 * rated.torque_Nm, 9);
    expect(drives.shape).toBe("square");
  });

  it("has the static share of a pump at every speed (closed form)", () => {
    const { drives } = driveOf({ is: "pump", staticHead: 0.4 }, machine, rated);
    expect(drives.atRest_Nm).toBeCloseTo(0.4 * rated.torque_Nm, 9);
    expect(torqueAt(drives, FULL)).toBeCloseTo(rated.torque_Nm, 9);
    expect(driveOf({ is: "pump" }, machine, rated).drives).toEqual(
      driveOf({ is: "fan" }, machine, rated).drives,
    );
  });

  it("asks the most of a compressor with a trapped head, more at rest than in motion (common practice)", () => {
    const at = (startsAgainst: (typeof STARTS_AGAINST)[number]): LoadTorque =>
      driveOf({ is: "compressor", startsAgainst }, machine, rated).drives;
    const rests = STARTS_AGAINST.map((against) => at(against).atRest_Nm / rated.torque_Nm);
    expect(rests.map((share) => Number(share.toFixed(9)))).toEqual([0.2, 0.2, 0.6, 1.5]);
    expect(at("trapped head").atFullSpeed_Nm).toBeLessThan(at("trapped head").atRest_Nm);
    expect(torqueAt(at("trapped head"), FULL)).toBeCloseTo(rated.torque_Nm, 9);
    expect(driveOf({ is: "compressor" }, machine, rated).drives).toEqual(at("atmosphere"));
  });

  it("is less than this motor starts with, but for a trapped head with a weak line (invariant)", () => {
    const start = steadyState(machine, 115, 1, true).torque_Nm;
    const low = steadyState(machine, 80, 1, true).torque_Nm;
    const rest = driveOf({ is: "compressor", startsAgainst: "trapped head" }, machine, rated).drives
      .atRest_Nm;
    expect(rest).toBeLessThan(start);
    expect(rest).toBeGreaterThan(low);
  });

  it("takes a stated inertia, and tells every default with its range (common practice)", () => {
    expect(driveOf({ is: "compressor", inertia_kgm2: 0.02 }, machine, rated).inertia_kgm2).toBe(0.02);
    const { inertia_kgm2, assumptions } = driveOf({ is: "compressor" }, machine, rated, "compressor 2");
    expect(inertia_kgm2).toBeCloseTo(0.004214, 6);
    expect(driveOf({ is: "compressor", coupling: "belt" }, machine, rated).inertia_kgm2).toBeCloseTo(
      0.05478,
      5,
    );
    expect(assumptions.map(({ what }) => what)).toEqual([
      "load torque at rest",
      "load torque at full speed",
      "load inertia",
    ]);
    for (const { part, range, basis } of assumptions) {
      expect(part).toBe("compressor 2");
      expect(range).toMatch(/ to /);
      expect(basis).toContain("common practice, no source");
    }
  });

  it("takes full load from the breakdown torque where only the circuit is known (common practice)", () => {
    const { drives, assumptions } = driveOf({ is: "fan" }, machine);
    const full = breakdown(machine, 115).torque_Nm / 2.25;
    expect(torqueAt(drives, FULL)).toBeCloseTo(full, 9);
    expect(assumptions[0].what).toBe("full-load torque");
    const dead: Machine = { ...machine, rotationalLoss_W: 1e6 };
    expect(driveOf({ is: "fan" }, dead).drives.atRest_Nm).toBeGreaterThanOrEqual(0);
  });

  it("refuses figures that are negative or no numbers", () => {
    expect(() =>
      driveOf({ is: "torque", atRest_Nm: -1, atFullSpeed_Nm: 1, inertia_kgm2: 1 }, machine),
    ).toThrow("invalid atRest_Nm: -1 (expected 0 or more)");
    expect(() => driveOf({ is: "pump", staticHead: 1.5 }, machine)).toThrow("invalid staticHead: 1.5");
    expect(() => driveOf({ is: "fan", inertia_kgm2: Number.NaN }, machine)).toThrow(
      "invalid inertia_kgm2: NaN",
    );
  });
});
