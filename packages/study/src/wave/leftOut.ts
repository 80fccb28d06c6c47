import type { Circuit } from "@startgap/circuit";

/** What of this cabinet a waveform does not follow, a sentence each; the rms resolution does. */
export function leftOut({ parts }: Circuit): string[] {
  return parts.flatMap((p) => {
    if (p.is === "supply" && p.source?.is === "inverter")
      return [
        `${p.name}: its limit acts on the rms of its current, a cycle late; a real one clips the peaks.`,
      ];
    if (p.is === "load" && p.reactive_var < 0 && p.holds !== "impedance")
      return [`${p.name}: taken as a resistance here, though its current leads.`];
    return [];
  });
}
