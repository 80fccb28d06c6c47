import type { CoilBurden, ContactorParameters } from "./contactor.ts";
import { pathThrough } from "./contacts.ts";
import { type PartModel, type Placement, plain } from "./model.ts";

interface Admittance {
  readonly g_S: number;
  readonly b_S: number;
}

/**
 * What a coil draws from the part that feeds it, as an admittance Y = S (pf - j sqrt(1 - pf^2))/V^2 at its rated
 * voltage: the inrush as long as its contactor is open, the sealed burden once it is closed, nothing while its
 * path is open. The control transformer's regulation under both follows from its own impedance.
 *
 * It stands behind all parts, so that it is folded before whatever feeds it.
 */
export function coilBurdenModel(
  p: ContactorParameters,
  burden: CoilBurden,
  contactor: number,
  place: Placement,
): PartModel<null> {
  const { part, at } = place;
  const { closed } = place.contacts;
  const rated_V = p.coil?.rated_V ?? 0;
  const called = p.closedBy === undefined ? () => true : pathThrough(p.closedBy, place.contacts);
  const inrush = admittance(burden.inrush_VA, burden.inrushPowerFactor, rated_V);
  const sealed = admittance(burden.sealed_VA, burden.sealedPowerFactor, rated_V);
  const off: Admittance = { g_S: 0, b_S: 0 };
  let now = off;
  return {
    ...plain,
    fold(w) {
      now = !called() ? off : closed[contactor] === 1 ? sealed : inrush;
      w.gr[at] += now.g_S;
      w.gi[at] += now.b_S;
    },
    unfold(w) {
      w.ir[part] = now.g_S * w.vr[at] - now.b_S * w.vi[at];
      w.ii[part] = now.g_S * w.vi[at] + now.b_S * w.vr[at];
    },
    power: (w) => ({ lost_W: now.g_S * (w.vr[at] ** 2 + w.vi[at] ** 2), shaft_W: 0, stored_W: 0 }),
  };
}

const admittance = (S_VA: number, powerFactor: number, rated_V: number): Admittance => ({
  g_S: (S_VA * powerFactor) / rated_V ** 2,
  b_S: (-S_VA * Math.sqrt(1 - powerFactor * powerFactor)) / rated_V ** 2,
});
