import type { CableSpec } from "../cable/cable.ts";
import { conductorNamed } from "../cable/conductor.ts";
import { runs } from "../cable/reactance.ts";
import { may, type RecordOf } from "../shape/record.ts";
import { oneOf, quantity } from "../shape/scalars.ts";
import { type Shape, wrong } from "../shape/shape.ts";

const CONDUCTOR = `a wire size and its metal, as "12 AWG Cu" or "2.5 mm2 Cu"`;

/** The name of a conductor that the tables know. */
const conductor: Shape<string> = {
  expected: CONDUCTOR,
  read(value, path, reading) {
    const found = conductorNamed(value);
    if (!("path" in found)) return found.name;
    return wrong(reading, path, found.expected, value, found.nearest);
  },
  schema: { type: "string", minLength: 1, maxLength: 80, examples: ["12 AWG Cu", "2.5 mm2 Cu"] },
};

/** The keys of two wires, out and back. */
export const wireFields = {
  conductor: may(conductor, "Size and metal of one wire; the other is the same."),
  length: may(
    quantity("length", { from: "1 mm", to: "10 km", example: "40 ft" }),
    "Length of the way out; the way back is the same.",
  ),
  temperature: may(
    quantity("temperature", { from: "-40 degC", to: "150 degC", example: "30 degC" }),
    "Temperature of the metal: 30 degC when silent.",
  ),
  run: may(oneOf("how the wires run", runs), "How the wires run: in plastic conduit when silent."),
} as const;

/** What the tables of wire take; conductor and length must have been stated. */
export const wireOf = (keys: RecordOf<typeof wireFields>, frequency_Hz: number): CableSpec => ({
  conductor: keys.conductor!,
  length_m: keys.length!.nominal,
  temperature_C: keys.temperature?.nominal,
  run: keys.run ?? undefined,
  frequency_Hz,
});
