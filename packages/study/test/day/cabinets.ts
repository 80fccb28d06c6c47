import { type Cabinet, examples, parseCabinet } from "@startgap/cabinet";
import { type DayOptions, type DayReport, day } from "@startgap/study";

type Json = { [key: string]: unknown };
export type File = { parts: Json[]; enclosure?: Json };

export function cabinetFrom(file: object): Cabinet {
  const read = parseCabinet(JSON.stringify(file));
  if ("issues" in read) throw new Error(JSON.stringify(read.issues));
  return read.cabinet;
}

export function exampleCabinet(key: string, change: (file: File) => void = () => {}): Cabinet {
  const file = JSON.parse(examples.find((one) => one.key === key)?.text ?? "{}");
  change(file);
  return cabinetFrom(file);
}

export function dayOf(cabinet: Cabinet, options: DayOptions = {}): DayReport {
  const report = day(cabinet, options);
  if ("failed" in report) throw new Error(report.failed);
  return report;
}

/** One compressor that fills one tank, worked by a switch in the line; nothing else. */
export const onePump = (more: { tank?: Json; fuse?: Json; enclosure?: Json; pump?: Json } = {}): Cabinet =>
  cabinetFrom({
    startgap: 1,
    title: "One pump",
    ...(more.enclosure === undefined ? {} : { enclosure: more.enclosure }),
    parts: [
      { name: "panel", is: "supply", voltage: "120 V", frequency: "60 Hz", faultCurrent: "1 kA" },
      { name: "fuse", is: "fuse", fedBy: "panel", rating: "25 A", curve: "time-delay plug", ...more.fuse },
      { name: "tank", is: "receiver", volume: "60 gal", demand: "3 cfm", ...more.tank },
      { name: "switch", is: "pressure switch", receiver: "tank", cutIn: "95 psi", cutOut: "125 psi" },
      { name: "contacts", is: "contactor", fedBy: "fuse", closedBy: "switch" },
      {
        name: "pump",
        is: "motor",
        fedBy: "contacts",
        nameplate: {
          ...{ power: "1.5 hp", voltage: "115 V", fullLoadCurrent: "18 A", speed: "1725 rpm" },
          ...{ codeLetter: "K", type: "capacitor-start" },
        },
        drives: { is: "compressor", inertia: "0.02 kg m2", delivers: "6 cfm", into: "tank", ...more.pump },
      },
    ],
  });
