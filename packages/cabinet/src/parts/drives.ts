import type { LoadTorque } from "@startgap/circuit";
import { may, need, type RecordOf, record } from "../shape/composites.ts";
import { oneOf, quantity } from "../shape/scalars.ts";

const torque = quantity("torque", { from: "0 N m", to: "2000 N m", example: "4 N m" });

export const inertia = quantity("inertia", { from: "0 kg m2", to: "100 kg m2", example: "0.02 kg m2" });

const fields = {
  is: need(oneOf("what the motor drives", ["torque"]), "What the motor drives."),
  atRest: need(torque, "Torque at rest: it only resists, and never turns a motor backwards."),
  atFullSpeed: need(torque, "Torque at synchronous speed."),
  shape: may(
    oneOf("how the torque grows with speed", ["square", "linear"]),
    "How it grows from one to the other: with the square of the speed when silent.",
  ),
  inertia: need(inertia, "Inertia of what is driven, at the motor's shaft."),
} as const;

export type Drives = RecordOf<typeof fields>;

export const drives = record("a driven load", fields);

export const unloaded: LoadTorque = { atRest_Nm: 0, atFullSpeed_Nm: 0, shape: "square" };

export const torqueOf = (spec: Drives): LoadTorque => ({
  atRest_Nm: spec.atRest.nominal,
  atFullSpeed_Nm: spec.atFullSpeed.nominal,
  shape: spec.shape ?? "square",
});
