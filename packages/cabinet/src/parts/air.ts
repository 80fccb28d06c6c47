import { may, need, type RecordOptions, record } from "../shape/record.ts";
import { quantity, text } from "../shape/scalars.ts";

const torque = quantity("torque", { from: "0 N m", to: "2000 N m", example: "9 N m" });

/** Torque against full head, stated outright. */
export const loadedTorque = record(
  "a torque",
  {
    atRest: need(torque, "At rest: what the motor must beat to break away."),
    atFullSpeed: need(torque, "At synchronous speed."),
  },
  { example: `{ "atRest": "9 N m", "atFullSpeed": "6 N m" }` },
);

/** What a compressor says of its air. */
export const airFields = {
  delivers: may(
    quantity("flow", { a: "a flow of free air", from: "0.01 cfm", to: "200 cfm", example: "5 cfm" }),
    "Free air that it delivers at full load speed.",
  ),
  into: may(text("the name of a receiver", 60, "tank"), "Name of the receiver that it delivers into."),
  unloader: may(
    text(`the name of a pressure switch, "centrifugal" or "none"`, 60, "pressure switch 1"),
    `What empties its head when it stops: the pressure switch of that name, "centrifugal" or "none". The pressure switch of its receiver when silent.`,
  ),
  leaksDown: may(
    quantity("time", { from: "1 s", to: "24 h", example: "10 min" }),
    "How long after it has stopped its head has leaked down by itself: never when silent.",
  ),
} as const;

export const airWays: RecordOptions = {
  orNone: true,
  ways: [{ needs: ["delivers", "into"], takes: ["unloader", "leaksDown"] }],
};
