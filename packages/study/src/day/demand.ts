import type { Circuit, ControlParameters, ReceiverParameters } from "@startgap/circuit";
import { deliveredInto } from "../heat/receiverStarts.ts";
import type { DemandFrom } from "./results.ts";

const HOUR_s = 3600;
/** A day's work where the file is silent: half of what the compressors deliver from 7 to 17 h, a tenth leaks at night. Common practice, no source. */
const WORK = { from_s: 7 * HOUR_s, to_s: 17 * HOUR_s, share: 0.5, leak: 0.1 } as const;

/** True when pressure switches call for the cabinet. */
export const callsByPressure = ({ controls = [] }: Circuit): boolean =>
  controls.some((c) => c.is === "pressure switch");

export interface Supplied {
  readonly circuit: Circuit;
  readonly from: DemandFrom;
}

/**
 * The circuit with a demand for a day: as asked, else as its file states it, else a usual day's work.
 *
 * @param asked_m3ps free air drawn from every receiver all day
 */
export function withDemand(circuit: Circuit, asked_m3ps: number | undefined): Supplied {
  if (!callsByPressure(circuit)) return { circuit, from: "calls" };
  if (asked_m3ps !== undefined) return { circuit: drawn(circuit, () => [[0, asked_m3ps]]), from: "as asked" };
  const stated = (circuit.controls ?? []).some(
    (c) => c.is === "receiver" && c.demand.some(({ flow_m3ps }) => flow_m3ps > 0),
  );
  if (stated) return { circuit, from: "as stated" };
  const usual = (r: ReceiverParameters): [number, number][] => {
    const full = deliveredInto(circuit, r.name);
    return [
      [0, WORK.leak * full],
      [WORK.from_s, WORK.share * full],
      [WORK.to_s, WORK.leak * full],
    ];
  };
  return { circuit: drawn(circuit, usual), from: "assumed" };
}

function drawn(
  circuit: Circuit,
  stepsOf: (r: ReceiverParameters) => readonly (readonly [number, number])[],
): Circuit {
  const changed = (c: ControlParameters): ControlParameters =>
    c.is === "receiver"
      ? { ...c, demand: stepsOf(c).map(([from_s, flow_m3ps]) => ({ from_s, flow_m3ps })) }
      : c;
  return { ...circuit, controls: circuit.controls?.map(changed) };
}
