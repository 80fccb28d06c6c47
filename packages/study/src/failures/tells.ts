import { lasting } from "./dangers.ts";
import type { FailureMoment, FailureMotor, FailurePoint } from "./results.ts";

/** Below this speed a motor under voltage only hums, rpm. */
const HUMS_rpm = 60;

const ofLoad = (point: FailurePoint): string | null => {
  const { part, state } = point;
  if (state === "dead") return `${part}: dead`;
  if (state === "low") return `${part}: dim, at ${Math.round(100 * point.share)} %`;
  return state === "high" ? `${part}: too bright, at ${Math.round(100 * point.share)} %` : null;
};

function ofMotor(point: FailurePoint, motor: FailureMotor | undefined): string | null {
  if (motor === undefined) return null;
  if (point.state === "dead") return `${point.part}: stops`;
  if (motor.speed_rpm < HUMS_rpm && motor.current_A > 0) return `${point.part}: hums and does not turn`;
  return null;
}

/** What a person beside the cabinet would notice, in words; empty when nothing tells. */
export function tellsOf(moment: Omit<FailureMoment, "tells">): string[] {
  const { last, next, chatters, meltsLater } = moment;
  const motorOf = ({ part }: FailurePoint): FailureMotor | undefined =>
    last.motors.find((motor) => motor.part === part);
  const melted = next.filter(({ what }) => what === "melts").map(({ part }) => `${part}: melts`);
  const later = meltsLater === null ? [] : [`${meltsLater.part}: melts after ${lasting(meltsLater.at_s)}`];
  const points = last.points.map((point) =>
    point.is === "load" ? ofLoad(point) : point.is === "motor" ? ofMotor(point, motorOf(point)) : null,
  );
  return [
    ...(chatters === null ? [] : [`${chatters}: chatters`]),
    ...melted,
    ...later,
    ...points.filter((word) => word !== null),
  ];
}
