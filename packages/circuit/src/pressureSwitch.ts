import type { ControlPlacement } from "./controls.ts";
import { eventName, type PartGuard, type PartModel, plain } from "./model.ts";
import { stuckBy } from "./script.ts";

/** A contact that calls for air: closes as the pressure falls to its cut-in, opens as it rises to its cut-out. */
export interface PressureSwitchParameters {
  readonly is: "pressure switch";
  readonly name: string;
  readonly receiver: string;
  /** Gauge pressures; the cut-in is the lower one. */
  readonly cutIn_Pa: number;
  readonly cutOut_Pa: number;
}

export interface PressureSwitchMode {
  readonly closed: boolean;
  readonly stuck?: "open" | "closed";
}

/** Hysteresis is the switch's own: two pressures, two events. It begins closed unless the pressure is above its cut-in. */
export function pressureSwitchModel(
  p: PressureSwitchParameters,
  place: ControlPlacement,
): PartModel<PressureSwitchMode> {
  const { index } = place;
  const { closed } = place.contacts;
  const pressure = place.stateOf(p.receiver);
  const guard = (what: string, direction: PartGuard["direction"]): PartGuard => ({
    name: eventName(p.name, what),
    direction,
    level: true,
    electrical: false,
  });
  const cutsIn = [guard("cuts in", "falling")];
  const cutsOut = [guard("cuts out", "rising")];
  let mode: PressureSwitchMode = { closed: startingPressure(p, place) <= p.cutIn_Pa };
  return {
    ...plain,
    start: { y: [], mode },
    enter(next) {
      mode = next;
      closed[index] = (next.stuck === undefined ? next.closed : next.stuck === "closed") ? 1 : 0;
    },
    fold: () => {},
    unfold: () => {},
    guards: (of) => (of.closed ? cutsOut : cutsIn),
    guardValues(_, y, values, offset) {
      values[offset] = y[pressure] - (mode.closed ? p.cutOut_Pa : p.cutIn_Pa);
    },
    reduce: (event, _, of) => ({ ...of, closed: event.name === cutsIn[0].name }),
    scripted: (of, script) => stuckBy(of, script, p.name),
  };
}

function startingPressure(p: PressureSwitchParameters, place: ControlPlacement): number {
  const receiver = place.circuit.controls?.find((one) => one.name === p.receiver);
  if (receiver?.is !== "receiver")
    throw new RangeError(`invalid receiver of ${p.name}: "${p.receiver}" (expected a receiver)`);
  return receiver.pressure_Pa;
}
