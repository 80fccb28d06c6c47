import type { Assumption, Cabinet } from "@startgap/cabinet";
import type { MotorParameters } from "@startgap/circuit";
import type { Io } from "../io.ts";
import { jsonText } from "../json.ts";
import { named } from "../named.ts";
import { prepare, refuse } from "../prepare.ts";
import { type SlipRow, slipTable } from "../slipTable.ts";
import { exit } from "../status.ts";
import { motorText } from "../text/motor.ts";
import { lines } from "../text/plain.ts";
import { wrap } from "../text/wrap.ts";

export interface MotorSheet {
  readonly motor: MotorParameters;
  readonly assumed: readonly Assumption[];
  readonly table: readonly SlipRow[];
}

const sheet = (cabinet: Cabinet, motor: MotorParameters): MotorSheet => ({
  motor,
  assumed: cabinet.assumptions.filter((a) => a.part === motor.name),
  table: slipTable(motor.machine),
});

/** Flat words for the JSON: the circuit in ohms as the file would state it, then the shaft, then the table. */
function motorJson({ motor, assumed, table }: MotorSheet): object {
  const { name, machine, inertia_kgm2, drives, fullLoad_A } = motor;
  return { part: name, circuit: machine, inertia_kgm2, drives, fullLoad_A, assumed, table };
}

/** Everything about a motor but its name and place. */
const likeness = ({ motor, table }: MotorSheet): string =>
  JSON.stringify([motor.machine, motor.inertia_kgm2, motor.drives, table]);

/** One motor's sheet, or that it is the same as one that was told before. */
function told(sheet: MotorSheet, before: readonly MotorSheet[], io: Io): string[] {
  const twin = before.find((other) => likeness(other) === likeness(sheet));
  const gap = before.length === 0 ? [] : [""];
  if (twin === undefined) return [...gap, ...motorText(sheet, io.out)];
  return [...gap, ...wrap(`${sheet.motor.name}: the same as ${twin.motor.name}.`, io.out.width)];
}

/** `startgap motor FILE [NAME]`: the circuit behind a nameplate, and what it does at every slip. */
export async function motorCommand(
  file: string,
  name: string | undefined,
  flags: { readonly json?: boolean },
  io: Io,
): Promise<number> {
  const ready = await prepare({ file }, io);
  if (typeof ready === "number") return ready;
  const { cabinet } = ready;
  const motors = cabinet.circuit.parts.filter((part) => part.is === "motor");
  const chosen = named(motors, "motor", name);
  if ("issues" in chosen) return refuse(chosen.issues, io, file);
  const sheets = chosen.parts.map((motor) => sheet(cabinet, motor));
  io.out.write(
    flags.json
      ? jsonText({ startgap: "motor 1", title: cabinet.title, motors: sheets.map(motorJson) })
      : lines(sheets.flatMap((s, i) => told(s, sheets.slice(0, i), io))),
  );
  return exit.passed;
}
