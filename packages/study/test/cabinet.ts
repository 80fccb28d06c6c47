import type { Cabinet } from "@startgap/cabinet";
import type { Circuit } from "@startgap/circuit";

/** An invented circuit as a cabinet that was read: nothing assumed, nothing ranged, relays stated exactly. */
export const cabinetOf = (circuit: Circuit): Cabinet => ({
  title: circuit.title,
  circuit,
  assumptions: [],
  notes: [],
  relays: circuit.parts.flatMap((p) =>
    p.is === "delay relay"
      ? [{ name: p.name, delay_s: { nominal: p.delay_s, low: p.delay_s, high: p.delay_s } }]
      : [],
  ),
  file: {},
  nominalVoltage_V: {},
  ranges: [],
  facts: {},
  enclosure: null,
});
