import type { Impedance, Machine } from "@startgap/circuit";
import type { MotorSheet } from "../commands/motor.ts";
import type { Io } from "../io.ts";
import type { SlipRow } from "../slipTable.ts";
import { assumptionLines } from "./assumptions.ts";
import { amperes, percent, rated, significant } from "./numbers.ts";
import { painter } from "./paint.ts";
import { table } from "./table.ts";
import { wrap } from "./wrap.ts";

const ohms = (value: number): string => `${significant(value, 3)} ohm`;
const pair = ({ r_ohm, x_ohm }: Impedance): string => `r ${ohms(r_ohm)}, x ${ohms(x_ohm)}`;
const newtonMetres = (value: number): string => `${significant(value, 3)} N m`;

/** The circuit as the file would state it. */
function circuitRows(machine: Machine): string[][] {
  const { auxiliary, startCapacitor, runCapacitor, startSwitch } = machine;
  const rows: (string[] | null)[] = [
    ["main winding", pair(machine.main)],
    ["rotor, running", pair(machine.rotor)],
    ["rotor, at rest", pair(machine.rotorAtStandstill)],
    ["magnetising", ohms(machine.magnetising_ohm)],
    auxiliary && [
      "auxiliary winding",
      `${pair(auxiliary)}, turns ratio ${significant(auxiliary.turnsRatio, 3)}`,
    ],
    startCapacitor && ["start capacitor", pair(startCapacitor)],
    runCapacitor && ["run capacitor", pair(runCapacitor)],
    startSwitch && [
      "start switch",
      `opens at ${percent(startSwitch.opens)}, closes at ${percent(startSwitch.closes)} of synchronous speed`,
    ],
  ];
  return rows.filter((row): row is string[] => row !== null);
}

/** At most so many rows in print: `--json` has them all. */
function printed(rows: readonly SlipRow[]): readonly SlipRow[] {
  return rows.filter(
    (row, i) =>
      i % 2 === 0 ||
      row.startSwitch !== rows[i - 1]?.startSwitch ||
      row.startSwitch !== rows[i + 1]?.startSwitch,
  );
}

const slipRow = (row: SlipRow): string[] => [
  row.slip.toFixed(2),
  row.speed_rpm.toFixed(0),
  amperes(row.current_A),
  newtonMetres(row.torque_Nm),
  row.powerFactor.toFixed(2),
  percent(row.efficiency),
  ...(row.startSwitch === null ? [] : [row.startSwitch]),
];

function slipRows(rows: readonly SlipRow[]): string[][] {
  const head = ["slip", "rpm", "current", "torque", "power factor", "efficiency"];
  return [rows[0]?.startSwitch === null ? head : [...head, "start switch"], ...printed(rows).map(slipRow)];
}

/** The two figures a builder asks for: what it draws at rest and how hard it then turns. */
function answer({ motor, table: rows }: MotorSheet): string {
  const { voltage_V, frequency_Hz, poles } = motor.machine;
  const rest = rows[0];
  const most = rows.reduce((best, row) => (row.torque_Nm > best.torque_Nm ? row : best), rest);
  return (
    `${motor.name}: at rest on ${rated(voltage_V)} V it draws ${amperes(rest.current_A)} and turns with ` +
    `${newtonMetres(rest.torque_Nm)}; its most is ${newtonMetres(most.torque_Nm)} at ${most.speed_rpm.toFixed(0)} rpm ` +
    `(${poles} poles, ${frequency_Hz} Hz).`
  );
}

/** One motor for a person, as lines. */
export function motorText(sheet: MotorSheet, screen: Io["out"]): string[] {
  const paint = painter(screen.colour);
  const { width } = screen;
  const { assumed, motor } = sheet;
  return [
    ...wrap(answer(sheet), width).map((line) => paint("bold", line)),
    "",
    ...table(
      [
        ["circuit", `at ${motor.machine.frequency_Hz} Hz, rotor referred to the main winding`],
        ...circuitRows(motor.machine),
      ],
      width,
    ),
    "",
    ...table(slipRows(sheet.table), width),
    ...(assumed.length === 0 ? [] : ["", paint("bold", "Assumed"), ...assumptionLines(assumed, width)]),
  ];
}
