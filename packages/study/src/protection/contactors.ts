import { amperes } from "../words.ts";
import type { ProtectionFinding } from "./results.ts";
import { factsOf, partsOf, type Scene } from "./scene.ts";
import { within } from "./within.ts";

/** What a contactor for motors makes and breaks, times its rating. Source: IEC 60947-4-1, AC-3 (from memory). */
const MAKES = 10;
const BREAKS = 8;

/** What carries a motor's current through contacts. */
type Contacts = "contactor" | "delay relay";

/** Every contactor with consumers behind it, and every relay with motors: running current, making and breaking a locked rotor. */
export const contactorFindings = (scene: Scene): ProtectionFinding[] => [
  ...partsOf(scene, "contactor").flatMap(({ name }) => {
    const facts = factsOf(scene, "contactor", name);
    return contactFindings(
      scene,
      "contactor",
      name,
      facts?.rating_A ?? null,
      facts?.lockedRotorRating_A ?? null,
    );
  }),
  ...partsOf(scene, "delay relay").flatMap(({ name }) => {
    const motors = scene.tree.consumersBehind(name).some((p) => p.is === "motor");
    const rating_A = factsOf(scene, "delay relay", name)?.rating_A ?? null;
    return motors ? contactFindings(scene, "delay relay", name, rating_A, null) : [];
  }),
];

function contactFindings(
  scene: Scene,
  is: Contacts,
  name: string,
  rating_A: number | null,
  lockedRotorRating_A: number | null,
): ProtectionFinding[] {
  const { running, allStanding } = scene.situations;
  const carries_A = running.current_A(name);
  const locked_A = allStanding.current_A(name);
  if (carries_A === 0 && locked_A === 0) return [];
  if (rating_A === null) return [unrated(is, name, carries_A, locked_A)];
  const makes_A = lockedRotorRating_A ?? MAKES * rating_A;
  return [
    carrying(is, name, carries_A, rating_A),
    switching(is, name, "makes", locked_A, makes_A, lockedRotorRating_A === null),
    switching(is, name, "breaks", locked_A, BREAKS * rating_A, true),
  ];
}

function unrated(is: Contacts, part: string, carries_A: number, locked_A: number): ProtectionFinding {
  const least = Math.max(carries_A, locked_A / BREAKS);
  return {
    finding: `${is} rating`,
    part,
    outcome: "caution",
    gravity: "danger",
    value: locked_A,
    limit: null,
    unit: "A",
    basis: "IEC 60947-4-1, AC-3: makes 10 and breaks 8 times its rating (from memory)",
    says: `${part}: the file does not tell its rating; it carries ${amperes(carries_A)} and meets ${amperes(locked_A)} when all motors stand still.`,
    change:
      is === "contactor"
        ? `Use one of ${amperes(least)} or more for motors, and add its rating to the file.`
        : `Use one of ${amperes(least)} or more for motors, or let it work a contactor; and add its rating to the file.`,
  };
}

function carrying(is: Contacts, part: string, value: number, limit: number): ProtectionFinding {
  const fits = within(value, limit);
  return {
    finding: `${is} carries`,
    part,
    outcome: fits ? "pass" : "fail",
    gravity: "danger",
    value,
    limit,
    unit: "A",
    basis: "its rating",
    says: `${part}: carries ${amperes(value)} with everything running and is rated ${amperes(limit)}.`,
    change: fits ? null : `Use a ${is} of ${amperes(value)} or more.`,
  };
}

function switching(
  is: Contacts,
  part: string,
  what: "makes" | "breaks",
  value: number,
  limit: number,
  usual: boolean,
): ProtectionFinding {
  const fits = within(value, limit);
  const when = what === "makes" ? "when it closes on motors at rest" : "should it let go during a start";
  return {
    finding: `${is} ${what}`,
    part,
    outcome: fits ? "pass" : "fail",
    gravity: "danger",
    value,
    limit,
    unit: "A",
    basis: usual
      ? `IEC 60947-4-1, AC-3: ${what} ${what === "makes" ? MAKES : BREAKS} times its rating (from memory)`
      : "its locked-rotor rating",
    says: `${part}: ${what} ${amperes(value)} ${when}, all motors together, and is good for ${amperes(limit)}.`,
    change: fits
      ? null
      : is === "contactor"
        ? "Use a larger contactor: one that is overtaxed so welds."
        : "Let the relay work a contactor, and that the motor: a contact that is overtaxed so welds.",
  };
}
