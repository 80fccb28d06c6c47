import type { Coil, ContactorParameters, Leg } from "@startgap/circuit";
import type { ContactorFacts } from "../facts.ts";
import type { Assumption } from "../grade.ts";
import type { Issue } from "../issue.ts";
import type { Range } from "../quantity.ts";
import { may, type RecordOf, record } from "../shape/record.ts";
import { oneOf, quantity, text } from "../shape/scalars.ts";
import { closedByOf, closedByShape, contactsIn } from "./closedBy.ts";
import { burdenAssumptions, burdenOf } from "./coilBurden.ts";
import { assumed } from "./common.ts";
import { type Built, isField, type KindName, kind, place, placeFields, type Surroundings } from "./kind.ts";

const volts = quantity("voltage", { from: "1 V", to: "600 V", example: "18 V" });
const amperes = quantity("current", { a: "a contact rating", from: "1 A", to: "5 kA", example: "40 A" });
const lag = quantity("time", { from: "0 s", to: "1 s", example: "20 ms" });

const fields = {
  is: isField("contactor"),
  ...placeFields,
  coil: may(
    quantity("voltage", { from: "5 V", to: "600 V", example: "24 V" }),
    "Rated voltage of the coil. Without a coil it follows what closes it at once, or is a switch closed by hand when the story begins.",
  ),
  coilFedBy: may(
    text("the name of the part that feeds the coil", 60, "control transformer"),
    "Name of the part that feeds the coil.",
  ),
  coilLeg: may(
    oneOf("a leg of the transformer that feeds the coil", ["first", "second", "both"]),
    "Which output of a two-leg autotransformer feeds the coil: the first when silent.",
  ),
  pullIn: may(volts, "The coil pulls in at this voltage: 75 % of the coil's when silent."),
  dropOut: may(volts, "The coil lets go below this voltage: 50 % of the coil's when silent."),
  pullInTime: may(lag, "From enough voltage to contacts closed: 20 ms when silent."),
  dropOutTime: may(lag, "From too little voltage to contacts open: 15 ms when silent."),
  coilInrush: may(
    quantity("apparentPower", { from: "0.1 VA", to: "5 kVA", example: "45 VA" }),
    "What the coil draws at its rated voltage until the armature is in: nothing when both this and the sealed burden are silent.",
  ),
  coilSealed: may(
    quantity("apparentPower", { from: "0.1 VA", to: "1 kVA", example: "8 VA" }),
    "What the coil draws at its rated voltage once the armature is in.",
  ),
  closedBy: may(
    closedByShape,
    "The contacts that its coil's current runs through, as they are wired: pressure switches, switches, timers, relays and other contactors. Always closed when silent.",
  ),
  rating: may(amperes, "Current its main contacts carry and switch as motor duty. Judged, not simulated."),
  lockedRotorRating: may(
    amperes,
    "Locked-rotor current its contacts may make: ten times the rating when silent.",
  ),
} as const;

type Spec = RecordOf<typeof fields>;

/** Kinds of parts that have a contact to wire into a coil's path. */
const WITH_CONTACTS: readonly KindName[] = [
  "pressure switch",
  "switch",
  "lock-out timer",
  "contactor",
  "delay relay",
];

const NO_SOURCE = "common practice, no source";

/** 18 V and 12 V for a coil of 24 V, and the lags of a small two-pole frame. */
const usual = { pullIn: 0.75, dropOut: 0.5, pullInTime_s: 0.02, dropOutTime_s: 0.015 };

function defaultsOf(spec: Spec, coil: Range, part: string): Assumption[] {
  const volts = (share: number): string => `${Number((share * coil.nominal).toPrecision(4))} V`;
  const span = (low: number, high: number): string => `${volts(low)} to ${volts(high)}`;
  const all: [unknown, Assumption][] = [
    [spec.pullIn, assumed(part, "pull-in voltage", volts(usual.pullIn), span(0.67, 0.85), NO_SOURCE)],
    [spec.dropOut, assumed(part, "drop-out voltage", volts(usual.dropOut), span(0.25, 0.67), NO_SOURCE)],
    [spec.pullInTime, assumed(part, "pull-in time", "20 ms", "10 ms to 35 ms", NO_SOURCE)],
    [spec.dropOutTime, assumed(part, "drop-out time", "15 ms", "8 ms to 30 ms", NO_SOURCE)],
  ];
  return all.filter(([stated]) => stated === null).map(([, assumption]) => assumption);
}

function coilOf(spec: Spec, rated: Range, fedBy: string): Coil {
  return {
    rated_V: rated.nominal,
    fedBy,
    leg: spec.coilLeg ?? "first",
    pullIn_V: spec.pullIn?.nominal ?? usual.pullIn * rated.nominal,
    dropOut_V: spec.dropOut?.nominal ?? usual.dropOut * rated.nominal,
    pullInTime_s: spec.pullInTime?.nominal ?? usual.pullInTime_s,
    dropOutTime_s: spec.dropOutTime?.nominal ?? usual.dropOutTime_s,
    ...burdenOf(spec),
  };
}

/** Compares edges, not middles, so that no variation within the ranges makes a coil that cannot be. */
function checkCoil(spec: Spec, coil: Coil): Issue[] {
  const ceiling = spec.coil?.low ?? coil.rated_V;
  const highest = spec.pullIn?.high ?? coil.pullIn_V;
  const lowest = spec.pullIn?.low ?? coil.pullIn_V;
  const dropOut = spec.dropOut?.high ?? coil.dropOut_V;
  const issues: Issue[] = [];
  if (highest > ceiling) {
    const expected = `a pull-in voltage no higher than the coil's ${ceiling} V`;
    issues.push({ path: "pullIn", expected, received: `${highest} V` });
  }
  if (dropOut >= lowest) {
    const expected = `a drop-out voltage below the pull-in voltage of ${lowest} V`;
    issues.push({ path: "dropOut", expected, received: `${dropOut} V` });
  }
  return issues;
}

/** A coil keeps to between 85 and 110 % of its rating. Source: IEC 60947-4-1, 8.2.1.2 (from memory). */
function coilNotes(coil: Coil, part: string, input_V: number | null): string[] {
  if (input_V === null) return [];
  const share = input_V / coil.rated_V;
  const gets = `${part}: the ${coil.rated_V} V coil gets ${Number(input_V.toPrecision(4))} V from ${coil.fedBy}`;
  if (input_V < coil.pullIn_V) return [`${gets}, less than it pulls in at: it never closes`];
  return share < 0.85 || share > 1.1 ? [`${gets}, outside 85 to 110 % of its rating`] : [];
}

function build(spec: Spec, around: Surroundings): Built | readonly Issue[] {
  const path = spec.closedBy === null ? {} : { closedBy: closedByOf(spec.closedBy) };
  const base = { is: "contactor", ...place(around), ...path } as const;
  const facts: ContactorFacts = {
    is: "contactor",
    rating_A: spec.rating?.nominal ?? null,
    lockedRotorRating_A: spec.lockedRotorRating?.nominal ?? null,
  };
  if (spec.coil === null || spec.coilFedBy === null) {
    const parameters: ContactorParameters = { ...base, coil: null };
    return { parameters, assumptions: [], notes: [], facts };
  }
  const coil = coilOf(spec, spec.coil, spec.coilFedBy);
  const issues = checkCoil(spec, coil);
  if (issues.length > 0) return issues;
  const leg: Leg = coil.leg;
  return {
    parameters: { ...base, coil },
    assumptions: [...defaultsOf(spec, spec.coil, around.name), ...burdenAssumptions(spec, around.name)],
    notes: coilNotes(coil, around.name, around.output_V(coil.fedBy, leg)),
    facts,
  };
}

/** A contactor, or a switch worked by hand. */
export const contactor = kind<Spec>({
  is: "contactor",
  doc: "Main contacts worked by a coil; without a coil, worked by what closes them, or by hand when the story begins.",
  shape: record("a contactor", fields, {
    orNone: true,
    ways: [
      {
        needs: ["coil", "coilFedBy"],
        takes: ["coilLeg", "pullIn", "dropOut", "pullInTime", "dropOutTime", "coilInrush", "coilSealed"],
      },
    ],
  }),
  feeds: true,
  build,
  links: ({ closedBy }) =>
    (closedBy === null ? [] : contactsIn(closedBy, "closedBy")).map((one) => ({ ...one, to: WITH_CONTACTS })),
});
