import type { FuseParameters, MotorParameters } from "@startgap/circuit";
import {
  delayMap,
  nominalsOf,
  singleLine,
  timeCurrent,
  timeCurrentOf,
  torqueSpeed,
  torqueSpeedOf,
  whereTheVoltsGo,
} from "@startgap/figures";
import type { Session, SessionStore } from "../state/session.ts";
import { figureCard } from "./figureCard.ts";
import { mapMark } from "./mapMark.ts";
import { partPick } from "./partPick.ts";

/** The figures beside the overlay, each from the figures package. */
export function figureCards(store: SessionStore): HTMLElement[] {
  return [delaysCard(store), voltsCard(store), fuseCard(store), motorCard(store), sketchCard(store)];
}

/** What every delay would do. It belongs to the cabinet, so a drag moves only the mark of the delay now set. */
const delaysCard = (store: SessionStore): HTMLElement =>
  figureCard(store, {
    id: "delays",
    title: "What every delay would do",
    says: "The upright mark is the delay now set: drag it, or click where you want it.",
    from: ({ map }) => map,
    over: (stage) => mapMark(stage, store),
    draw({ map, shown }, canvas) {
      if (map === null) return "Trying every delay …";
      if (map.failure !== null) return map.failure;
      if (map.map === null) return "There is one motor: nothing to hold back.";
      return delayMap(document, map.map, { ...canvas, nominal_V: nominalsOf(shown!.check) });
    },
  });

const voltsCard = (store: SessionStore): HTMLElement =>
  figureCard(store, {
    id: "volts",
    title: "Where the volts go",
    says: "At the worst moment of every case, split among the parts that took them.",
    from: ({ shown }) => shown?.check,
    draw: ({ shown }, canvas) => whereTheVoltsGo(document, shown!.check.report.cases, canvas),
  });

function fuseCard(store: SessionStore): HTMLElement {
  const pick = partPick(store, "fuse", "Fuse");
  return figureCard(store, {
    id: "fuse",
    title: "The fuse and the start",
    says: "For how long each current flows or is exceeded, laid on what the fuse stands.",
    controls: pick.root,
    from: ({ shown }) => [shown?.check, pick.chosen()],
    draw({ shown }, canvas) {
      const fuse = partNamed<FuseParameters>(shown, pick.chosen(), "fuse");
      if (fuse === null) return "This cabinet has no fuse.";
      const input = timeCurrentOf(fuse, shown!.check);
      return input === null
        ? "This fuse states no curve, so it never melts here."
        : timeCurrent(document, input, canvas);
    },
  });
}

function motorCard(store: SessionStore): HTMLElement {
  const pick = partPick(store, "motor", "Motor");
  return figureCard(store, {
    id: "motor",
    title: "The motor and its load",
    says: "Where the motor's torque stays above what the load asks, it goes on speeding up.",
    controls: pick.root,
    from: ({ shown }) => [shown?.cabinet, pick.chosen(), lowest_V(shown, pick.chosen())],
    draw({ shown }, canvas) {
      const name = pick.chosen();
      const motor = partNamed<MotorParameters>(shown, name, "motor");
      if (motor === null) return "This cabinet has no motor.";
      return torqueSpeed(document, torqueSpeedOf(motor, lowest_V(shown, name)), canvas);
    },
  });
}

const sketchCard = (store: SessionStore): HTMLElement =>
  figureCard(store, {
    id: "sketch",
    title: "The cabinet as a single line",
    says: "Marked by what was found with the second motor held back.",
    from: ({ shown }) => shown?.check,
    draw({ shown }, canvas) {
      const { cabinet, check } = shown!;
      const name = check.stories.length > 1 ? "staggered" : "one";
      const findings = check.report.findings.filter((finding) => finding.case === name);
      return singleLine(document, cabinet.circuit.parts, findings, canvas);
    },
  });

function partNamed<T>(shown: Session["shown"], name: string | null, is: string): T | null {
  return (
    (shown?.cabinet.circuit.parts.find((part) => part.is === is && part.name === name) as T | undefined) ??
    null
  );
}

/** The lowest voltage that a motor saw with the second held back, whole volts: a curve need not move for less. */
function lowest_V(shown: Session["shown"], name: string | null): number | null {
  const cases = shown?.check.report.cases ?? [];
  const told = cases.find((one) => one.case === "staggered") ?? cases[0];
  const lowest = told?.motors.find((motor) => motor.part === name)?.lowestVoltage_V ?? null;
  return lowest === null ? null : Math.round(lowest);
}
