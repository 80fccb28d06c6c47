/** Figures that a new part begins with: usual ones, to be replaced by those of the real part. */
export function starterOf(
  is: string,
  fedBy: string,
  fed_V: number | null,
): Readonly<Record<string, unknown>> {
  const volts = `${Number((fed_V ?? 120).toPrecision(4))} V`;
  switch (is) {
    case "supply":
      return { voltage: "240 V", frequency: "60 Hz", faultCurrent: "1.8 kA" };
    case "cable":
      return { conductor: "12 AWG Cu", length: "40 ft" };
    case "fuse":
      return { rating: "30 A", curve: "time-delay plug" };
    case "autotransformer":
      return { rating: "3 kVA", windings: [half(fed_V), half(fed_V)] };
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
      return {};
  }
}

const half = (fed_V: number | null): string => `${Number(((fed_V ?? 240) / 2).toPrecision(4))} V`;
