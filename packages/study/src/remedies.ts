import type { Finding, FindingGravity, Verdict } from "./results.ts";

/** What a bad answer to a question would mean, and what to change. */
interface Remedy {
  readonly gravity: FindingGravity;
  readonly change: string;
}

/** By question; common practice, no source. */
const REMEDIES: Readonly<Record<string, Remedy>> = {
  "run-up": {
    gravity: "stops work",
    change:
      "Give it more volts while it starts, by a thicker feeder or a larger transformer, or start it with an empty head.",
  },
  "stands still": {
    gravity: "danger",
    change:
      "Switch it off within 5 s when it hums, and start it with more volts or an empty head; fit a protector that does so by itself.",
  },
  "lowest motor voltage": {
    gravity: "stops work",
    change:
      "Thicken or shorten the feeder, or feed the motors through a larger transformer; where another motor starts at that moment, hold it back.",
  },
  "receptacle sag": {
    gravity: "stops work",
    change:
      "Thicken the feeder, feed the receptacles from the other leg or from elsewhere, or keep electronics off them.",
  },
  "contactor holds": {
    gravity: "stops work",
    change:
      "Feed the coil from what sags less, through a larger control transformer, or fit a contactor that holds down to a lower voltage.",
  },
  "contacts weld": {
    gravity: "danger",
    change:
      "Cure the chatter before this is run again: feed the coil from what sags less, hold the motors back from each other, or put a lock-out timer in the coil's path.",
  },
  "fuse holds": {
    gravity: "stops work",
    change:
      "Fit a time-delay fuse, or the next rating that the wire still allows, and leave the fuses time to cool between starts.",
  },
  "generator dip": {
    gravity: "stops work",
    change: "Start the motors one after the other, the largest first, or take a larger generator.",
  },
  "generator recovery": {
    gravity: "stops work",
    change: "Wait longer between the starts, or take a generator with a stronger field.",
  },
  "inverter holds": {
    gravity: "stops work",
    change: "Start the motors one after the other, or take an inverter with a higher surge current.",
  },
};

type Worth = Pick<Finding, "outcome" | "gravity" | "change">;

/** The verdict with what it would mean and what to change; nothing to change where it passes. */
export function worth(question: string, outcome: Verdict): Worth {
  const remedy = REMEDIES[question];
  if (remedy === undefined) throw new RangeError(`invalid question: "${question}"`);
  return { outcome, gravity: remedy.gravity, change: outcome === "pass" ? null : remedy.change };
}
