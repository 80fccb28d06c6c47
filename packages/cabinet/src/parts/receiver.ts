import type { DemandStep, ReceiverParameters } from "@startgap/circuit";
import type { Issue } from "../issue.ts";
import type { Range } from "../quantity.ts";
import { list, pair } from "../shape/lists.ts";
import { may, need, type RecordOf, record } from "../shape/record.ts";
import { quantity } from "../shape/scalars.ts";
import { type Shape, wrong } from "../shape/shape.ts";
import { type Built, controlFields, isField, kind, type Surroundings } from "./kind.ts";

export const pressure = (a: string, example: string) =>
  quantity("pressure", { a, from: "0 psi", to: "600 psi", example });

const flow = quantity("flow", { a: "a flow of free air", from: "0 cfm", to: "200 cfm", example: "3 cfm" });
const clock = quantity("time", { a: "a time of day", from: "0 h", to: "24 h", example: "7 h" });
const throughDay = list("times of day with their flow", pair("a time of day and a flow", clock, flow), {
  from: 1,
  to: 100,
});

type Demand = Range | readonly (readonly [Range, Range])[];

const demandExpected = `${flow.expected}; or through the day, as [["0 h", "1 cfm"], ["7 h", "6 cfm"]]`;

/** One flow, or one from each of several times of day on. */
const demand: Shape<Demand> = {
  expected: demandExpected,
  read(value, path, reading) {
    if (typeof value === "string") return flow.read(value, path, reading);
    return Array.isArray(value)
      ? throughDay.read(value, path, reading)
      : wrong(reading, path, demandExpected, value);
  },
  schema: { anyOf: [flow.schema, throughDay.schema] },
};

const fields = {
  is: isField("receiver"),
  ...controlFields,
  volume: need(
    quantity("volume", { from: "0.1 gal", to: "5000 gal", example: "60 gal" }),
    "Volume of the tank.",
  ),
  pressure: may(
    pressure("a gauge pressure", "90 psi"),
    "Gauge pressure when a story begins: the lowest cut-in of its pressure switches when silent, so that all of them call.",
  ),
  demand: may(demand, "Free air drawn: one flow, or flows from times of day on. None when silent."),
  relief: may(
    pressure("a gauge pressure", "150 psi"),
    "Gauge pressure at which its relief valve lifts: none when silent.",
  ),
} as const;

export type ReceiverSpec = RecordOf<typeof fields>;

/** Times must rise; what stands last reaches over midnight to the first. */
function demandOf(spec: ReceiverSpec): DemandStep[] | Issue[] {
  const { demand } = spec;
  if (demand === null) return [{ from_s: 0, flow_m3ps: 0 }];
  if (!Array.isArray(demand)) return [{ from_s: 0, flow_m3ps: (demand as Range).nominal }];
  const steps = (demand as readonly (readonly [Range, Range])[]).map(([at, drawn]) => ({
    from_s: at.nominal,
    flow_m3ps: drawn.nominal,
  }));
  const back = steps.findIndex((step, i) => i > 0 && step.from_s <= steps[i - 1]!.from_s);
  if (back > 0) {
    const expected = `a later time of day than the one before it`;
    return [{ path: `demand[${back}][0]`, expected, received: `${steps[back]!.from_s / 3600} h` }];
  }
  const last = steps[steps.length - 1]!;
  return steps[0]!.from_s === 0 ? steps : [{ from_s: 0, flow_m3ps: last.flow_m3ps }, ...steps];
}

function build(spec: ReceiverSpec, around: Surroundings): Built | readonly Issue[] {
  const steps = demandOf(spec);
  if (isIssueList(steps)) return steps;
  const parameters: ReceiverParameters = {
    is: "receiver",
    name: around.name,
    volume_m3: spec.volume.nominal,
    pressure_Pa: spec.pressure?.nominal ?? 0,
    demand: steps,
    relief_Pa: spec.relief?.nominal ?? null,
  };
  return { parameters, assumptions: [], notes: [] };
}

const isIssueList = (steps: DemandStep[] | Issue[]): steps is Issue[] =>
  steps.length > 0 && "expected" in steps[0]!;

/** An air receiver. */
export const receiver = kind<ReceiverSpec>({
  is: "receiver",
  doc: "An air receiver, which compressors fill and demand draws down.",
  shape: record("a receiver", fields),
  feeds: false,
  build,
});
