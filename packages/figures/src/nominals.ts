/** Nominal voltages of the parts of a check, gathered from the stories behind it. */

import type { Check } from "@startgap/study";
import type { Nominals } from "./delayMapPanels.ts";

export function nominalsOf(check: Check): Nominals {
  const columns = check.stories.flatMap((story) => story.traces.columns);
  const known = columns.filter(({ quantity, nominal }) => quantity === "voltage" && nominal !== null);
  return Object.fromEntries(known.map(({ part, nominal }) => [part, nominal as number]));
}
