import type { Circuit } from "@startgap/circuit";

/** What of this cabinet a waveform does not follow, a sentence each; the rms resolution does. */
export function leftOut({ parts }: Circuit): string[] {
  return parts.flatMap((p) => {
    if (p.is === "supply" && p.source?.is === "inverter")
      return [
        `${p.name}: its current limit and shut-down are not followed here, only an impedance in their place.`,
      ];
    if (p.is === "load" && p.reactive_var < 0)
      return [`${p.name}: taken as a resistance here, though its current leads.`];
    return [];
  });
}
