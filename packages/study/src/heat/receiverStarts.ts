import type { Circuit, MotorParameters, ReceiverParameters } from "@startgap/circuit";

/** Standard atmosphere, at which free air is counted. Source: ISO 2533. */
const ATMOSPHERE_Pa = 101_325;

/**
 * Starts an hour that a receiver's demand asks of its compressors: one each time its band is filled and drawn again,
 *
 *     V dp/pa (1/(Q - q) + 1/q)   a cycle, shortest at q = Q/2: 4 V dp/(pa Q)
 *
 * @param volume_m3 of the receiver; @param band_Pa cut-out less cut-in
 * @param delivered_m3ps free air that comes while they run, Q; @param drawn_m3ps demand, q
 * @returns 0 where nothing is drawn, or more than comes: they stand or run without a pause
 *
 * Assumes isothermal air and a steady demand. Source: Compressed Air and Gas Handbook, pump-up formula for both halves (from
 * memory). Checked by tests/published/receiver-starts, and against the simulated day by tests/invariants/day.test.ts.
 */
export function receiverStarts(
  volume_m3: number,
  band_Pa: number,
  delivered_m3ps: number,
  drawn_m3ps: number,
): number {
  if (!(drawn_m3ps > 0 && drawn_m3ps < delivered_m3ps)) return 0;
  const air_m3 = (volume_m3 * band_Pa) / ATMOSPHERE_Pa;
  return 3600 / (air_m3 * (1 / (delivered_m3ps - drawn_m3ps) + 1 / drawn_m3ps));
}

/** What the compressors of a receiver deliver together at full speed, m3/s of free air. */
export const deliveredInto = (circuit: Circuit, receiver: string): number =>
  circuit.parts.reduce((sum, p) => {
    const into = p.is === "motor" ? p.compressor?.delivers : null;
    return into?.receiver === receiver ? sum + into.flow_m3ps : sum;
  }, 0);

/** Widest band of a receiver's switches; null without one. */
function bandOf({ controls = [] }: Circuit, receiver: string): number | null {
  const mine = controls.flatMap((c) => (c.is === "pressure switch" && c.receiver === receiver ? [c] : []));
  if (mine.length === 0) return null;
  return Math.max(...mine.map((c) => c.cutOut_Pa)) - Math.min(...mine.map((c) => c.cutIn_Pa));
}

/**
 * Most starts an hour of a motor that fills a receiver with a pressure switch, over the demands that its file states; at
 * the worst demand there is where it states none.
 *
 * @returns null for a motor that fills none
 * Limitation: each receiver by itself; switches that share a contactor call more often, which `day` follows.
 */
export function startsOfReceiver(circuit: Circuit, p: MotorParameters): number | null {
  const into = p.compressor?.delivers?.receiver;
  const receiver = circuit.controls?.find(
    (c): c is ReceiverParameters => c.is === "receiver" && c.name === into,
  );
  const band_Pa = into === undefined ? null : bandOf(circuit, into);
  if (receiver === undefined || band_Pa === null || band_Pa <= 0) return null;
  const full = deliveredInto(circuit, receiver.name);
  const drawn = receiver.demand.map(({ flow_m3ps }) => flow_m3ps).filter((flow) => flow > 0);
  const demands = drawn.length > 0 ? drawn : [full / 2];
  return Math.max(...demands.map((flow) => receiverStarts(receiver.volume_m3, band_Pa, full, flow)));
}
