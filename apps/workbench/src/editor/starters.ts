import { beginning, type Json, type Schema } from "./schema.ts";

/** What a new part is put beside. */
export interface Neighbours {
  readonly fedBy: string;
  /** Nominal voltage there; null when it is not known. */
  readonly fed_V: number | null;
  /** Name of a receiver; null where there is none. */
  readonly receiver: string | null;
}

/** What a new part begins with besides its name: usual figures, to be replaced by those of the real part. */
export function starterOf(is: string, schema: Schema | undefined, around: Neighbours): Json {
  const known = figuresOf(is, around) ?? (schema === undefined ? {} : beginning(schema));
  const { name: _, ...figures } = known as Json;
  const links = { watches: around.fedBy, receiver: around.receiver ?? "" };
  const named = Object.entries(links).filter(([key]) => key in figures);
  const fedBy = isFed(is, schema) ? { fedBy: around.fedBy } : {};
  return { is, ...fedBy, ...figures, ...fedBy, ...Object.fromEntries(named) };
}

const isFed = (is: string, schema: Schema | undefined): boolean =>
  is !== "supply" && (schema === undefined || "fedBy" in (schema.properties ?? {}));

/** Null for a kind that begins with the examples of the schema. */
function figuresOf(is: string, { fedBy, fed_V }: Neighbours): Json | null {
  const volts = `${Number((fed_V ?? 120).toPrecision(4))} V`;
  const half = `${Number(((fed_V ?? 240) / 2).toPrecision(4))} V`;
  switch (is) {
    case "supply":
      return { voltage: "240 V", frequency: "60 Hz", faultCurrent: "1.8 kA" };
    case "cable":
      return { conductor: "12 AWG Cu", length: "40 ft" };
    case "fuse":
      return { rating: "30 A", curve: "time-delay plug" };
    case "autotransformer":
      return { rating: "3 kVA", windings: [half, half] };
    case "transformer":
      return { rating: "40 VA", windings: [volts, "24 V"] };
    case "contactor":
      return { coil: volts, coilFedBy: fedBy };
    case "delay relay":
      return { delay: "6 s +- 10 %" };
    case "motor":
      return {
        nameplate: { power: "1 hp", voltage: volts, speed: "1725 rpm", type: "capacitor-start" },
        drives: { is: "compressor", startsAgainst: "atmosphere" },
      };
    case "load":
      return { power: "400 W" };
    default:
      return null;
  }
}
