import { Command } from "commander";
import manifest from "../package.json" with { type: "json" };
import { figureNames } from "./figures/draw.ts";
import type { Io } from "./io.ts";
import { wrap } from "./text/wrap.ts";

type Finish = (status: number) => void;

const EXIT_STATUS =
  "Exit status: 0 nothing fails; 1 a finding fails; 2 bad input, nothing written; 3 the work could not be finished; " +
  "130 interrupted. Where a second motor is held back, what fails when all start at once is told but does not " +
  "count: it is the reason for the delay.";

const FILE = 'a cabinet file, as "shed.cabinet.json", or a report of one; "-" reads standard input';

const examplesText = (lines: readonly string[]): string =>
  `\nExamples:\n${lines.map((line) => `  startgap ${line}\n`).join("")}`;

const exitStatus = (io: Io): string => `\n${wrap(EXIT_STATUS, io.out.width).join("\n")}`;

/** A command on a cabinet file with its examples beneath its help. */
function onFile(parent: Command, name: string, io: Io, does: string, examples: readonly string[]): Command {
  return parent
    .command(name)
    .description(does)
    .argument("<FILE>", FILE)
    .addHelpText("after", examplesText(examples) + exitStatus(io));
}

const withSettings = (command: Command): Command =>
  command
    .option("--duration <time>", 'length of every simulated story, as "15 s"')
    .option("--tolerance <number>", "relative and absolute tolerance of the solver, as 1e-6");

const withDelay = (command: Command): Command =>
  command.option("--delay <time>", 'hold the second motor back so long, as "6 s" (else as the file says)');

function addCheck(parent: Command, io: Io, finish: Finish): void {
  const command = onFile(
    parent,
    "check",
    io,
    "does everything start, do the fuses hold, and by what margin",
    [
      "check shed.cabinet.json",
      'check shed.cabinet.json --delay "4 s" --assumptions',
      "check shed.cabinet.json --json --traces traces.csv > check.json",
    ],
  );
  withSettings(withDelay(command))
    .option("--all", "every finding in its own sentence, also what passes")
    .option("--assumptions", "list every value that the file does not state")
    .option("--traces <OUT.csv>", "write what was simulated as columns")
    .option("--json", "print one JSON object and nothing else")
    .action(async (file, flags) =>
      finish(await (await import("./commands/check.ts")).checkCommand(file, flags, io)),
    );
}

function addStagger(parent: Command, io: Io, finish: Finish): void {
  const command = onFile(
    parent,
    "stagger",
    io,
    "what every delay of the second motor does, and which to set",
    ["stagger shed.cabinet.json", 'stagger shed.cabinet.json --longest "20 s" --step "0.2 s" --json'],
  );
  withSettings(command)
    .option("--longest <time>", 'longest delay tried, as "12 s"')
    .option("--step <time>", 'spacing of the delays, as "0.1 s"')
    .option("--json", "print the map as columns in one JSON object and nothing else")
    .action(async (file, flags) =>
      finish(await (await import("./commands/stagger.ts")).staggerCommand(file, flags, io)),
    );
}

function addPlot(parent: Command, io: Io, finish: Finish): void {
  const command = onFile(parent, "plot", io, "draws a picture of the start", [
    "plot shed.cabinet.json -o start.svg",
    "plot shed.cabinet.json --figure delay-map -o map.svg",
    'plot shed.cabinet.json --figure time-current --part "line fuses" -o fuse.svg',
  ]);
  withSettings(withDelay(command))
    .requiredOption("-o, --output <OUT.svg>", 'file to write; "-" for standard output')
    .option("--figure <name>", `one of ${figureNames.join(", ")}`, "overlay")
    .option("--part <name>", "the fuse or motor to draw, where the figure is of one (else the first)")
    .action(async (file, flags) =>
      finish(await (await import("./commands/plot.ts")).plotCommand(file, flags, io)),
    );
}

function addReport(parent: Command, io: Io, finish: Finish): void {
  const command = onFile(
    parent,
    "report",
    io,
    "everything an inspector asks for, as one page to read or print",
    [
      "report shed.cabinet.json -o shed.html",
      "report shed.cabinet.json --pdf shed.pdf --paper letter",
      "check shed.html",
    ],
  );
  withSettings(withDelay(command))
    .option("-o, --output <OUT.html>", 'file to write; "-" for standard output')
    .option(
      "--pdf <OUT.pdf>",
      "print it as well, by a Chrome or Chromium that is installed or that CHROME names",
    )
    .option("--paper <size>", "a4 or letter (else letter at 60 Hz, a4 at 50 Hz; the page fits both)")
    .option("--traces <OUT.csv>", "write what was simulated as columns")
    .option("--longest <time>", 'longest delay tried, as "12 s"')
    .option("--step <time>", 'spacing of the delays, as "0.1 s"')
    .action(async (file, flags) =>
      finish(await (await import("./commands/report.ts")).reportCommand(file, flags, io)),
    );
}

function addMotor(parent: Command, io: Io, finish: Finish): void {
  onFile(parent, "motor", io, "a motor's circuit in ohms, what was assumed, and its curve against slip", [
    "motor shed.cabinet.json",
    'motor shed.cabinet.json "compressor 1" --json',
  ])
    .argument("[NAME]", "name of one motor; all of them when left out")
    .option("--json", "print one JSON object and nothing else")
    .action(async (file, name, flags) =>
      finish(await (await import("./commands/motor.ts")).motorCommand(file, name, flags, io)),
    );
}

function addFuse(parent: Command, io: Io, finish: Finish): void {
  const command = onFile(
    parent,
    "fuse",
    io,
    "a fuse's fitted curve and how long it holds this cabinet's start",
    ["fuse shed.cabinet.json", 'fuse shed.cabinet.json "line fuses" --json'],
  );
  withSettings(command)
    .argument("[NAME]", "name of one fuse; all of them when left out")
    .option("--json", "print one JSON object and nothing else")
    .action(async (file, name, flags) =>
      finish(await (await import("./commands/fuse.ts")).fuseCommand(file, name, flags, io)),
    );
}

function addImprove(parent: Command, io: Io, finish: Finish): void {
  const command = onFile(
    parent,
    "improve",
    io,
    "which single change helps most: wire, transformer, leg or supply, each tried by itself",
    ["improve shed.cabinet.json", "improve shed.cabinet.json --json"],
  );
  withSettings(withDelay(command))
    .option("--json", "print one JSON object and nothing else")
    .action(async (file, flags) =>
      finish(await (await import("./commands/improve.ts")).improveCommand(file, flags, io)),
    );
}

function addVary(parent: Command, io: Io, finish: Finish): void {
  const command = onFile(
    parent,
    "vary",
    io,
    "does it still pass over everything that the file only knows roughly, and which of it decides",
    ["vary shed.cabinet.json", "vary shed.cabinet.json --draws 2000 --json"],
  );
  withSettings(withDelay(command))
    .option("--draws <number>", "how many draws, from 2 to 100000 (else 500)")
    .option("--seed <number>", "another stream of chance, a whole number (else 1)")
    .option("--json", "print one JSON object and nothing else")
    .action(async (file, flags) =>
      finish(await (await import("./commands/vary.ts")).varyCommand(file, flags, io)),
    );
}

function addFailures(parent: Command, io: Io, finish: Finish): void {
  const command = onFile(
    parent,
    "failures",
    io,
    "what each single open or stuck part leaves live, at what voltage, and whether anything tells",
    ["failures shed.cabinet.json", "failures shed.cabinet.json --all", "failures shed.cabinet.json --json"],
  );
  withSettings(withDelay(command))
    .option("--all", "every voltage of every failure")
    .option("--json", "print one JSON object and nothing else")
    .action(async (file, flags) =>
      finish(await (await import("./commands/failures.ts")).failuresCommand(file, flags, io)),
    );
}

function addProtect(parent: Command, io: Io, finish: Finish): void {
  const command = onFile(
    parent,
    "protect",
    io,
    "do the fuses protect wire, transformer and motors, does everything stay cool, and what to change",
    ["protect shed.cabinet.json", "protect shed.cabinet.json --all", "protect shed.cabinet.json --json"],
  );
  withSettings(withDelay(command))
    .option("--all", "every finding in its own sentence with its clause, also what passes")
    .option("--json", "print one JSON object and nothing else")
    .action(async (file, flags) =>
      finish(await (await import("./commands/protect.ts")).protectCommand(file, flags, io)),
    );
}

const dipHelp = 'with --length: what is left of the voltage in percent, as "40"';

/** One name more of an option that may be repeated. */
const gathered = (name: string, names: readonly string[] = []): readonly string[] => [...names, name];

function addCases(parent: Command, io: Io, finish: Finish): void {
  const command = onFile(
    parent,
    "cases",
    io,
    "what a cold day, a full head, a low line, a dip, a stall or a failed part brings, and what to change",
    [
      "cases shed.cabinet.json",
      'cases shed.cabinet.json --case "low line,power return" --all',
      'cases shed.cabinet.json --case dip --left 40 --length "100 ms" --json',
    ],
  );
  withSettings(withDelay(command))
    .option("--case <name>", "only this one; may be repeated, or several with commas", gathered)
    .option("--left <percent>", `the dip of the case dip, ${dipHelp}`)
    .option("--length <time>", 'how long that dip lasts, as "100 ms"')
    .option("--tries <number>", "how often a motor that is held is tried in a row (else 3)")
    .option("--all", "every finding in its own sentence, also what passes")
    .option("--json", "print one JSON object and nothing else")
    .action(async (file, flags) =>
      finish(await (await import("./commands/cases.ts")).casesCommand(file, flags, io)),
    );
}

function addDips(parent: Command, io: Io, finish: Finish): void {
  const command = onFile(
    parent,
    "dips",
    io,
    "after which dips of the line everything runs on, restarts together, or comes back one by one",
    [
      "dips shed.cabinet.json",
      "dips shed.cabinet.json -o dips.svg",
      'dips shed.cabinet.json --left 40 --length "100 ms"',
    ],
  );
  withSettings(withDelay(command))
    .option("--left <percent>", `one dip alone, ${dipHelp}`)
    .option("--length <time>", 'how long that dip lasts, as "100 ms"')
    .option("-o, --output <OUT.svg>", "draw the map: depth against length")
    .option("--json", "print one JSON object and nothing else")
    .action(async (file, flags) =>
      finish(await (await import("./commands/dips.ts")).dipsCommand(file, flags, io)),
    );
}

function addDay(parent: Command, io: Io, finish: Finish): void {
  const command = onFile(
    parent,
    "day",
    io,
    "every start of a day: how warm everything gets, and what the fuses hold in that air",
    [
      "day shop.cabinet.json",
      'day shop.cabinet.json --season winter --demand "4 cfm" -o day.svg',
      'day shop.cabinet.json --outage "14:30" --outage-for "5 s" --json --traces day.csv > day.json',
    ],
  );
  withDelay(command)
    .option("--season <name>", "summer or winter", "summer")
    .option("--hours <number>", "length from midnight on, up to 168", "24")
    .option(
      "--demand <flow>",
      'free air drawn from every receiver all day, as "4 cfm" (else as the file says)',
    )
    .option("--calls <number>", "calls an hour where no pressure switch calls (else 4)")
    .option("--outage <time>", 'the supply fails at this time of day, as "14:30"')
    .option("--outage-for <time>", 'and is back after so long, as "10 s"')
    .option("--tolerance <number>", "relative and absolute tolerance of the solver, as 1e-6")
    .option("--all", "every finding in its own sentence with its clause, also what passes")
    .option("-o, --output <OUT.svg>", "draw it")
    .option("--traces <OUT.csv>", "write pressures and temperatures as columns")
    .option("--json", "print one JSON object and nothing else")
    .action(async (file, flags) =>
      finish(await (await import("./commands/day.ts")).dayCommand(file, flags, io)),
    );
}

function addWave(parent: Command, io: Io, finish: Finish): void {
  const command = onFile(
    parent,
    "wave",
    io,
    "the start as a scope and a clamp meter would show it, cycle by cycle",
    [
      'wave shed.cabinet.json --case one --to "0.5 s" -o start.svg',
      'wave shed.cabinet.json --from "5.9 s" --to "6.5 s" --part "compressor 2" -o second.svg',
      "wave shed.cabinet.json --inrush --json --traces wave.csv > wave.json",
    ],
  );
  withDelay(command)
    .option("--case <name>", "one, together or staggered (else staggered where a motor is held back)")
    .option("--from <time>", 'where the window begins, as "5.9 s"')
    .option("--to <time>", "where it ends (else one second after the last start)")
    .option("--angle <angle>", 'angle of the voltage at 0 s, as "30 deg", 90 a zero; or worst')
    .option("--inrush", "switch the supply on as well, at every angle and residual flux of the transformers")
    .option("--part <name>", "the part to draw (else the supply)")
    .option("--clamp <time>", 'window of the clamp meter, as "100 ms"')
    .option("--tolerance <number>", "relative and absolute tolerance of the solver, as 1e-5")
    .option("-o, --output <OUT.svg>", "draw it; with --inrush the switch-on")
    .option("--traces <OUT.csv>", "write every sample as columns")
    .option("--json", "print one JSON object and nothing else")
    .action(async (file, flags) =>
      finish(await (await import("./commands/wave.ts")).waveCommand(file, flags, io)),
    );
}

function addNew(parent: Command, io: Io, finish: Finish): void {
  parent
    .command("new")
    .description("writes a cabinet file to start from")
    .argument("[FILE]", 'the file to write, as "shed.cabinet.json"; "-" for standard output')
    .option("--example <key>", "which example to start from")
    .option("--list", "list the examples")
    .option("--schema", "write cabinet.schema.json beside it, from which an editor completes the file")
    .option("--force", "replace a file that is already there")
    .addHelpText(
      "after",
      examplesText([
        "new --list",
        "new shed.cabinet.json",
        "new pumps.cabinet.json --example pump-pair --schema",
      ]),
    )
    .action(async (file, flags) => finish((await import("./commands/new.ts")).newCommand(file, flags, io)));
}

function addDemo(parent: Command, io: Io, finish: Finish): void {
  parent
    .command("demo")
    .description("checks the ice shed, an example, and draws it into ./demo-output")
    .addHelpText("after", examplesText(["demo"]))
    .action(async () => finish(await (await import("./commands/demo.ts")).demoCommand(io)));
}

/** The command line with all its commands; `finish` takes the exit status of the one that ran. */
export function program(io: Io, finish: Finish): Command {
  const startgap = new Command("startgap")
    .description(
      "How long to hold a second motor back, whether the fuses ride through the start, and why the lights dim: " +
        "a start of a small single-phase power cabinet, simulated.",
    )
    .version(manifest.version)
    .exitOverride()
    .configureOutput({
      writeOut: io.out.write,
      writeErr: io.err.write,
      outputError: () => {},
      getOutHelpWidth: () => io.out.width,
      getErrHelpWidth: () => io.err.width,
      getOutHasColors: () => false,
      getErrHasColors: () => false,
    })
    .addHelpText(
      "after",
      examplesText(["demo", "new shed.cabinet.json", "check shed.cabinet.json"]) + exitStatus(io),
    );
  for (const add of [
    addCheck,
    addStagger,
    addPlot,
    addReport,
    addMotor,
    addFuse,
    addImprove,
    addVary,
    addProtect,
    addFailures,
    addCases,
    addDips,
    addWave,
    addDay,
    addNew,
    addDemo,
  ])
    add(startgap, io, finish);
  return startgap;
}
