import type { Compressor, LoadTorque, Machine, Unloader } from "@startgap/circuit";
import type { Assumption } from "../grade.ts";
import { driveOf, type FullLoad } from "../motor/drive.ts";
import { usualSlip } from "../motor/usualValues.ts";
import { assumed } from "./common.ts";
import { type DriveKeys, specOf } from "./drives.ts";
import type { Link } from "./kind.ts";

/** How long a head takes to fill and to empty, s. Common practice, no source. */
const FILLS_S = 2;
const VENTS_S = 2;

const RPM = Math.PI / 30;

type Air = Extract<DriveKeys, { readonly is: "compressor" | "torque" }>;

const airOf = (keys: DriveKeys | null): Air | null =>
  keys !== null && (keys.is === "compressor" || keys.is === "torque") ? keys : null;

/** The compressor on a motor's shaft; nothing for a fan, a pump or a torque without a head. */
export function compressorFrom(
  keys: DriveKeys | null,
  machine: Machine,
  rated: FullLoad | null,
): { readonly compressor?: Compressor } {
  const air = airOf(keys);
  const loaded = air === null ? null : loadedOf(air, machine, rated);
  if (air === null || loaded === null) return {};
  const { delivers, into } = air;
  return {
    compressor: {
      loaded,
      coldOil: air.is === "compressor" ? torqueAgainst("cold oil", air, machine, rated) : null,
      unloader: unloaderOf(air.unloader),
      fills_s: FILLS_S,
      vents_s: VENTS_S,
      leaks_s: air.leaksDown?.nominal ?? Number.POSITIVE_INFINITY,
      delivers:
        delivers === null || into === null
          ? null
          : { receiver: into, flow_m3ps: delivers.nominal, atSpeed_radps: fullSpeed_radps(machine, rated) },
    },
  };
}

const unloaderOf = (stated: string | null): Unloader => {
  if (stated === null || stated === "none") return "none";
  return stated === "centrifugal" ? "centrifugal" : { switch: stated };
};

/** A torque outright has a head only if the file states it, or says where its air goes: then it is the same full. */
function loadedOf(air: Air, machine: Machine, rated: FullLoad | null): LoadTorque | null {
  if (air.is === "compressor") return torqueAgainst("trapped head", air, machine, rated);
  const shape = air.shape ?? "square";
  const { loaded } = air;
  if (loaded !== null)
    return { atRest_Nm: loaded.atRest.nominal, atFullSpeed_Nm: loaded.atFullSpeed.nominal, shape };
  if (air.into === null) return null;
  return { atRest_Nm: air.atRest.nominal, atFullSpeed_Nm: air.atFullSpeed.nominal, shape };
}

/** What the same compressor asks when it starts against something else. */
function torqueAgainst(
  startsAgainst: "trapped head" | "cold oil",
  air: Air,
  machine: Machine,
  rated: FullLoad | null,
): LoadTorque {
  const spec = specOf(air);
  if (spec.is !== "compressor") throw new RangeError(`invalid drive: ${spec.is} (expected a compressor)`);
  return driveOf({ ...spec, startsAgainst, inertia_kgm2: 0 }, machine, rated).drives;
}

const fullSpeed_radps = (machine: Machine, rated: FullLoad | null): number =>
  rated === null
    ? ((1 - usualSlip(machine.frequency_Hz)) * 4 * Math.PI * machine.frequency_Hz) / machine.poles
    : rated.speed_rpm * RPM;

/** What a compressor that pumps into a receiver is taken to do without the file's saying so. */
export function airAssumptions(keys: DriveKeys | null, part: string): Assumption[] {
  const air = airOf(keys);
  if (air === null || air.into === null) return [];
  const by = (what: string, value: string, range: string): Assumption =>
    assumed(part, what, value, range, "common practice, no source");
  return [
    by("time in which the head fills", `${FILLS_S} s`, "0.5 s to 5 s"),
    by("time in which the head empties", `${VENTS_S} s`, "1 s to 10 s"),
    ...(air.is === "torque" && air.loaded === null
      ? [by("torque against full head", "the same as empty", "up to three times as much at rest")]
      : []),
  ];
}

/** Receiver and pressure switch that a drive names. */
export function airLinks(keys: DriveKeys | null): Link[] {
  const air = airOf(keys);
  if (air === null) return [];
  const unloader = unloaderOf(air.unloader);
  return [
    ...(air.into === null ? [] : [{ path: "drives.into", name: air.into, to: ["receiver"] } as const]),
    ...(typeof unloader === "string"
      ? []
      : [{ path: "drives.unloader", name: unloader.switch, to: ["pressure switch"] } as const]),
  ];
}
