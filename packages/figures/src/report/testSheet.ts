/** The sheet that is filled in on commissioning: what was predicted, beside room for what was read. */

import type { Cabinet } from "@startgap/cabinet";
import type { AutotransformerParameters, FuseParameters, PartParameters } from "@startgap/circuit";
import type { CaseReport, Check, MotorResult, Story } from "@startgap/study";
import { amperes, duration, setting, space, volts } from "../format.ts";
import { CLAMP_WINDOW_s, clampReading_A } from "./clamp.ts";
import type { ReportInput } from "./input.ts";
import { html, type Inside, type Markup } from "./markup.ts";
import { statedParts } from "./stated.ts";
import { headOf, scrolling } from "./table.ts";
import { fedThrough } from "./tree.ts";
import { coilVolts, notKnown } from "./words.ts";

interface Reading {
  readonly what: Inside;
  readonly predicted: string;
  /** Read once, or three times because it scatters. */
  readonly times: 1 | 3;
}

interface Group {
  readonly name: Inside;
  readonly readings: readonly Reading[];
}

/** The story that is repeated on site: the second motor held back, where there is one. */
interface Told {
  readonly cabinet: Cabinet;
  readonly report: CaseReport;
  readonly story: Story;
}

function toldOf({ cabinet, check }: { cabinet: Cabinet; check: Check }): Told | null {
  const name = check.stories.some((story) => story.case === "staggered") ? "staggered" : "one";
  const report = check.report.cases.find((one) => one.case === name);
  const story = check.stories.find((one) => one.case === name);
  return report === undefined || story === undefined ? null : { cabinet, report, story };
}

const once = (what: Inside, predicted: string): Reading => ({ what, predicted, times: 1 });
const thrice = (what: Inside, predicted: string): Reading => ({ what, predicted, times: 3 });

const known = (value: number | null, words: (value: number) => string): string =>
  value === null ? notKnown : words(value);

const partsOf = <I extends PartParameters["is"]>({ circuit }: Cabinet, is: I) =>
  circuit.parts.filter((part): part is Extract<PartParameters, { is: I }> => part.is === is);

/** Class and amperes as the file states them; volts and interrupting rating are read off the fuse. */
function fuseWords({ name, rating_A, poles }: FuseParameters, cabinet: Cabinet): string {
  const curve = statedParts(cabinet).find((part) => part.name === name)?.curve;
  const kind = typeof curve === "string" ? `, ${curve}` : "";
  return `${poles === 2 ? "2 x " : ""}${rating_A}${space}A${kind}`;
}

const asBuilt = (cabinet: Cabinet): Group => ({
  name: "As built, dead and locked off",
  readings: [
    ...partsOf(cabinet, "fuse").map((fuse) =>
      once(
        [html`<bdi>${fuse.name}</bdi>`, ": class, amperes, volts, interrupting rating"],
        fuseWords(fuse, cabinet),
      ),
    ),
    once("Wire sizes, bond and ground points as drawn", "as the drawing"),
    once("Joints tight, motors guarded", "yes"),
  ],
});

/** With one winding fed, the other shows its share, and both in series the sum; the difference means one is reversed. */
function polarity({ name, windings_V: [first, second] }: AutotransformerParameters): Group {
  const reversed = volts(Math.abs(first - second));
  return {
    name: [
      html`<bdi>${name}</bdi>`,
      ": polarity, its first winding alone fed, with this voltage or a lower one in proportion",
    ],
    readings: [
      once("Across the first winding", volts(first)),
      once("Across the second winding", volts(second)),
      once(
        "Across both in series",
        `${volts(first + second)} (${reversed}: one is reversed, do not connect)`,
      ),
    ],
  };
}

function noLoad(cabinet: Cabinet): Group {
  const supplies = partsOf(cabinet, "supply").map((supply) =>
    once([html`<bdi>${supply.name}</bdi>`, ", line to line"], volts(supply.voltage_V)),
  );
  const legs = partsOf(cabinet, "autotransformer").flatMap(({ name, fedBy }) => {
    const first = cabinet.nominalVoltage_V[name];
    const second = cabinet.nominalVoltage_V[fedBy] - first;
    return [
      once([html`<bdi>${name}</bdi>`, ", first leg"], volts(first)),
      once([html`<bdi>${name}</bdi>`, ", second leg"], volts(second)),
    ];
  });
  return { name: "No-load volts, everything off", readings: [...supplies, ...legs] };
}

/** A delay, and between what its relay may set it. */
function delayWords(cabinet: Cabinet, motor: string, delay_s: number): string {
  const relay = cabinet.relays.find(({ name }) =>
    fedThrough(cabinet.circuit, name).some((one) => one.name === motor),
  );
  if (relay === undefined || relay.delay_s.low === relay.delay_s.high) return setting(delay_s);
  const { low, high, nominal } = relay.delay_s;
  const at = (value: number): string => setting((delay_s * value) / nominal);
  return `${setting(delay_s)} (${at(low)} to ${at(high)})`;
}

/** A clamp on one wire of the line, and on the motor's own. */
function startReadings({ cabinet, report, story }: Told, motor: MotorResult): Reading[] {
  const closed_s = motor.closed_s ?? 0;
  const line = partsOf(cabinet, "supply")[0]?.name ?? "";
  const clamp = (part: string): string => known(clampReading_A(story, part, closed_s), amperes);
  const window = `${1000 * CLAMP_WINDOW_s}${space}ms`;
  const delay =
    closed_s > 0 ? [thrice("Delay from the first start", delayWords(cabinet, motor.part, closed_s))] : [];
  const low =
    report.case === "one"
      ? "Lowest volts at its terminals"
      : "Lowest volts at its terminals, over all starts";
  return [
    ...delay,
    thrice(`Inrush amperes, one of its wires, first ${window}`, clamp(motor.part)),
    thrice(`Inrush amperes, one wire of the line, first ${window}`, clamp(line)),
    thrice(low, known(motor.lowestVoltage_V, volts)),
    thrice("Run-up by stopwatch, from closing", known(motor.runUp_s, duration)),
  ];
}

const starts = (told: Told): Group[] =>
  told.report.motors
    .filter((motor) => motor.closed_s !== null)
    .map((motor) => ({
      name: ["Start of ", html`<bdi>${motor.part}</bdi>`],
      readings: startReadings(told, motor),
    }));

/** The worst moment of the whole story, for lamps and coils. */
function worst({ report }: Told): Group {
  const coils = report.contactors.filter(({ lowestCoil_V }) => lowestCoil_V !== null);
  return {
    name: "Worst moment of the starts",
    readings: [
      ...report.points.map((point) =>
        thrice(["Lowest volts at ", html`<bdi>${point.part}</bdi>`], volts(point.lowestVoltage_V)),
      ),
      ...coils.map((coil) =>
        thrice(["Lowest coil volts of ", html`<bdi>${coil.part}</bdi>`], known(coil.lowestCoil_V, coilVolts)),
      ),
    ],
  };
}

function finalLine_A({ cabinet, story }: Told): number | null {
  const line = partsOf(cabinet, "supply")[0]?.name;
  const column = story.traces.columns.find((one) => one.part === line && one.quantity === "current");
  return column?.values.at(-1) ?? null;
}

const running = (told: Told): Group => ({
  name: "All running",
  readings: [
    ...told.report.motors
      .filter((motor) => motor.closed_s !== null)
      .map((motor) =>
        once([html`<bdi>${motor.part}</bdi>`, ", amperes in one wire"], amperes(motor.finalCurrent_A)),
      ),
    once("Amperes in one wire of the line", known(finalLine_A(told), amperes)),
    ...told.report.points.map((point) =>
      once(["Volts at ", html`<bdi>${point.part}</bdi>`], volts(point.finalVoltage_V)),
    ),
    once("Temperature in the box after an hour, and of the air outside", "no prediction"),
  ],
});

function rowOf({ what, predicted, times }: Reading): Markup {
  const blanks =
    times === 3
      ? html`<td class="blank"></td><td class="blank"></td><td class="blank"></td>`
      : html`<td class="blank" colspan="3"></td>`;
  return html`<tr><th scope="row">${what}</th><td>${predicted}</td>${blanks}</tr>\n`;
}

const HEAD = ["Reading", "Predicted", "Read 1", "Read 2", "Read 3"];

const bodyOf = ({ name, readings }: Group): Markup =>
  html`<tbody>
<tr class="group"><th scope="rowgroup" colspan="${HEAD.length}">${name}</th></tr>
${readings.map(rowOf)}</tbody>
`;

const SIGNED = [
  "Meter and clamp used, accuracy, window",
  "Input changed to agree, and to what",
  "Delay set on the dial",
  "Air temperature, line volts of the day",
  "Date",
  "Name and licence",
  "Signature",
] as const;

/** Half the line current, where there is a midpoint, is what surprises most. */
function advice(cabinet: Cabinet): Markup {
  const half =
    partsOf(cabinet, "autotransformer").length === 0
      ? ""
      : " Behind a midpoint transformer each wire of the line carries half the sum of the leg currents: with equal windings a clamp on it shows about half of what it shows at the motor.";
  return html`<p>Clamp around one wire, not both.${half} A slow meter reads a short dip too high: use minimum and maximum hold with a
trigger. Switch off what is not up to speed in 5 s. Predictions hold for the nominal inputs of this report; where readings differ
by more than the meters may, change one input (supply impedance, locked-rotor current or load torque), note which, and run it again.</p>
`;
}

/** Readings to take on commissioning, each with its prediction; nothing where nothing was simulated. */
export function testSheet(input: ReportInput): Markup | null {
  const told = toldOf(input);
  if (told === null) return null;
  const { cabinet } = input;
  const groups = [
    asBuilt(cabinet),
    ...partsOf(cabinet, "autotransformer").map(polarity),
    noLoad(cabinet),
    ...starts(told),
    worst(told),
    running(told),
  ].filter(({ readings }) => readings.length > 0);
  const says = "Readings on commissioning";
  return html`<section id="test-sheet" class="sheet" aria-labelledby="test-sheet-heading">
<h2 id="test-sheet-heading">Test sheet</h2>
${advice(cabinet)}${scrolling(says, html`<table class="readings">\n<caption>${says}</caption>\n${headOf(HEAD)}${groups.map(bodyOf)}</table>\n`)}<table class="facts signed"><tbody>
${SIGNED.map((name) => html`<tr><th scope="row">${name}</th><td class="blank"></td></tr>\n`)}</tbody></table>
</section>
`;
}
