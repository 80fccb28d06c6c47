import type { Machine } from "@startgap/circuit";
import { type Drive, type DriveSpec, driveOf, type FullLoad } from "../motor/drive.ts";
import { STARTS_AGAINST } from "../motor/driveDefaults.ts";
import { byKind } from "../shape/choices.ts";
import { may, need, record } from "../shape/record.ts";
import { number, oneOf, quantity } from "../shape/scalars.ts";
import type { Value } from "../shape/shape.ts";
import { airFields, airWays, loadedTorque } from "./air.ts";

const torque = quantity("torque", { from: "0 N m", to: "2000 N m", example: "4 N m" });

export const inertia = quantity("inertia", { from: "0 kg m2", to: "100 kg m2", example: "0.02 kg m2" });

const inertiaOrUsual = may(
  inertia,
  "Inertia of what is driven, at the motor's shaft; a usual one when silent.",
);
const is = <const K extends string>(kind: K) =>
  need(oneOf("what the motor drives", [kind]), "What the motor drives.");

/** Everything that a motor may drive. */
export const drives = byKind(
  "what the motor drives",
  {
    torque: record(
      "a torque",
      {
        is: is("torque"),
        atRest: need(torque, "Torque at rest: it only resists, and never turns a motor backwards."),
        atFullSpeed: need(torque, "Torque at synchronous speed."),
        shape: may(
          oneOf("how the torque grows with speed", ["square", "linear"]),
          "How it grows from one to the other: with the square of the speed when silent.",
        ),
        inertia: need(inertia, "Inertia of what is driven, at the motor's shaft."),
        loaded: may(
          loadedTorque,
          "Torque against full head, when it is a compressor's: the torque above is then what an empty one asks.",
        ),
        ...airFields,
      },
      airWays,
    ),
    compressor: record(
      "a compressor",
      {
        is: is("compressor"),
        startsAgainst: may(
          oneOf("what the compressor starts against", STARTS_AGAINST),
          "What stands on its pistons at rest: the atmosphere when silent.",
        ),
        coupling: may(
          oneOf("how the compressor is coupled", ["direct", "belt"]),
          "How it is coupled, which tells its inertia: directly when silent.",
        ),
        inertia: inertiaOrUsual,
        ...airFields,
      },
      airWays,
    ),
    fan: record("a fan", { is: is("fan"), inertia: inertiaOrUsual }),
    pump: record("a pump", {
      is: is("pump"),
      staticHead: may(
        number({ a: "a share of the full-load torque", from: 0, to: 1, example: 0.3 }),
        "Share of the full-load torque that does not fall with the speed: none when silent.",
      ),
      inertia: inertiaOrUsual,
    }),
  },
  {
    torque: "A torque stated outright.",
    compressor: "A piston compressor.",
    fan: "A fan, or whatever moves air.",
    pump: "A centrifugal pump.",
  },
  `{ "is": "compressor", "startsAgainst": "atmosphere" }`,
);

export type DriveKeys = Value<typeof drives>;

export const unloaded: Drive = {
  drives: { atRest_Nm: 0, atFullSpeed_Nm: 0, shape: "square" },
  inertia_kgm2: 0,
  assumptions: [],
};

export function specOf(keys: DriveKeys): DriveSpec {
  const inertia_kgm2 = keys.inertia?.nominal ?? null;
  switch (keys.is) {
    case "torque":
      return {
        is: "torque",
        atRest_Nm: keys.atRest.nominal,
        atFullSpeed_Nm: keys.atFullSpeed.nominal,
        shape: keys.shape,
        inertia_kgm2: keys.inertia.nominal,
      };
    case "compressor":
      return { is: "compressor", startsAgainst: keys.startsAgainst, coupling: keys.coupling, inertia_kgm2 };
    case "pump":
      return { is: "pump", staticHead: keys.staticHead?.nominal ?? null, inertia_kgm2 };
    case "fan":
      return { is: "fan", inertia_kgm2 };
  }
}

/** Torque and inertia of what a motor drives; `rated` is null when only its circuit is known. */
export const driveFrom = (keys: DriveKeys, machine: Machine, rated: FullLoad | null, part: string): Drive =>
  driveOf(specOf(keys), machine, rated, part);
