/**
 * Test data: plausible stories in closed form, for pictures only. Nothing here is physics of the project: a motor's
 * speed rises as a smooth step, its current falls from locked-rotor to running with it, voltage is what one
 * resistance leaves, and a fuse is one time constant driven by the square of the current.
 */

import type {
  CaseName,
  CaseReport,
  Check,
  CheckReport,
  Column,
  DelayMap,
  Finding,
  Story,
  StoryEvent,
} from "@startgap/study";

export interface Setup {
  readonly title: string;
  readonly delay_s: number;
  readonly duration_s: number;
  readonly samples: number;
  readonly motors: readonly string[];
  readonly receptacles: string;
  readonly fuse: string;
  readonly supply_V: number;
  readonly series_ohm: number;
}

export const ordinary: Setup = {
  title: "Pump house: two pumps at the end of a long feeder",
  delay_s: 3,
  duration_s: 12,
  samples: 600,
  motors: ["pump 1", "pump 2"],
  receptacles: "receptacles",
  fuse: "line fuses",
  supply_V: 120,
  series_ohm: 0.3,
};

const locked_A = 60;
const running_A = 9;
const heat_s = 4;
const melting_A = 45;

/** 0 before 0 s, 1 well after the run-up; slower at low voltage. */
function step(t: number, runUp_s: number): number {
  if (t <= 0) return 0;
  const u = Math.min(t / runUp_s, 1);
  return u * u * (3 - 2 * u);
}

/** Times with both sides of every start, denser after a start than in the quiet. */
function times(setup: Setup, starts: readonly number[]): Float64Array {
  const out = [0];
  const each = Math.floor((setup.samples - 2 * starts.length) / (starts.length + 1));
  for (const start of starts) {
    if (start > 0) out.push(start, start);
    for (let k = 1; k <= each; k += 1) out.push(start + (1.8 * k) / each);
  }
  for (let k = 1; k <= each; k += 1) out.push((setup.duration_s * k) / each);
  return Float64Array.from(out.filter((t) => t <= setup.duration_s).sort((a, b) => a - b));
}

interface Run {
  readonly time_s: Float64Array;
  readonly speed: readonly Float64Array[];
  readonly current: readonly Float64Array[];
  readonly line: Float64Array;
  readonly volts: Float64Array;
  readonly melt: Float64Array;
}

/** Motors that start at the given times; null never starts. */
function run(setup: Setup, starts: readonly (number | null)[]): Run {
  const live = starts.filter((start) => start !== null);
  const time_s = times(setup, [...new Set(live)]);
  const crowded = live.length === 2 && live[0] === live[1] ? 2.1 : 1;
  const n = time_s.length;
  const speed = starts.map(() => new Float64Array(n));
  const current = starts.map(() => new Float64Array(n));
  const [line, volts, melt] = [new Float64Array(n), new Float64Array(n), new Float64Array(n)];
  for (let i = 0; i < n; i += 1) {
    starts.forEach((start, m) => {
      if (start === null || before(time_s, i, start)) return;
      const s = step(time_s[i] - start, (0.55 + 0.1 * m) * crowded);
      speed[m][i] = 1745 * s;
      current[m][i] = running_A + (locked_A - running_A) * (1 - s ** 4);
    });
    const asked = current.reduce((sum, column) => sum + column[i], 0) + 3;
    volts[i] = setup.supply_V / (1 + (asked * setup.series_ohm) / setup.supply_V);
    line[i] = (asked * volts[i]) / setup.supply_V;
    const dt = i === 0 ? 0 : time_s[i] - time_s[i - 1];
    const target = (line[i] / melting_A) ** 2;
    melt[i] = i === 0 ? 0 : target + (melt[i - 1] - target) * Math.exp(-dt / heat_s);
  }
  return { time_s, speed, current, line, volts, melt };
}

/** At a jump the first of the two equal times still belongs to what was before. */
function before(time_s: Float64Array, i: number, start: number): boolean {
  return time_s[i] < start || (time_s[i] === start && start > 0 && time_s[i + 1] === start);
}

function story(setup: Setup, name: CaseName, starts: readonly (number | null)[]): Story {
  const result = run(setup, starts);
  const own = (column: Float64Array, on: Float64Array) => column.map((value, i) => (on[i] > 0 ? value : 0));
  const columns: Column[] = [
    voltage(setup.receptacles, setup.supply_V, result.volts),
    { quantity: "current", part: setup.fuse, unit: "A", nominal: null, values: result.line },
    { quantity: "melt fraction", part: setup.fuse, unit: "", nominal: null, values: result.melt },
    ...setup.motors.flatMap((part, m): Column[] => [
      voltage(
        part,
        setup.supply_V,
        own(
          result.volts.map((value) => value * 0.985),
          result.current[m],
        ),
      ),
      { quantity: "current", part, unit: "A", nominal: null, values: result.current[m] },
      { quantity: "speed", part, unit: "rpm", nominal: null, values: result.speed[m] },
    ]),
  ];
  const events: StoryEvent[] = starts.flatMap((start, m) =>
    start === null ? [] : [{ at_s: start + 0.4, part: setup.motors[m], what: "start switch opens" }],
  );
  return {
    case: name,
    delay_s: name === "staggered" ? setup.delay_s : 0,
    duration_s: setup.duration_s,
    traces: { time_s: result.time_s, columns },
    events,
  };
}

function voltage(part: string, nominal: number, values: Float64Array): Column {
  return { quantity: "voltage", part, unit: "V", nominal, values };
}

/** Three stories and the report that goes with them. */
export function exampleCheck(changes: Partial<Setup> = {}): Check {
  const setup = { ...ordinary, ...changes };
  const others = setup.motors.slice(1);
  const stories = [story(setup, "one", [0, ...others.map(() => null)])];
  if (others.length > 0) {
    stories.push(story(setup, "together", [0, ...others.map(() => 0)]));
    stories.push(story(setup, "staggered", [0, ...others.map((_, i) => setup.delay_s * (i + 1))]));
  }
  return { report: reportOf(setup, stories), stories, map: others.length > 0 ? exampleMap(setup) : null };
}

function reportOf(setup: Setup, stories: readonly Story[]): CheckReport {
  return {
    startgap: "check 1",
    title: setup.title,
    cases: stories.map((each) => caseOf(setup, each)),
    delay: { recommended_s: 1.5, shortest_s: 1.1, knee_s: 1.2, reason: "Test data." },
    findings: exampleFindings(setup),
  };
}

function caseOf(setup: Setup, each: Story): CaseReport {
  const values = each.traces.columns[0].values;
  const lowest = values.reduce((a, b) => Math.min(a, b));
  const at_s = each.traces.time_s[values.indexOf(lowest)];
  const lost = setup.supply_V - lowest;
  const shares = [
    ["service", 0.16],
    ["feeder", 0.52],
    [setup.fuse, 0.05],
    ["midpoint transformer", 0.22],
    ["branch wire", 0.05],
  ] as const;
  return {
    case: each.case,
    delay_s: each.delay_s,
    duration_s: each.duration_s,
    ended: "test data",
    motors: [],
    fuses: [],
    points: [],
    contactors: [],
    worst: {
      point: setup.receptacles,
      at_s,
      nominal_V: setup.supply_V,
      voltage_V: lowest,
      shares: shares.map(([part, share]) => ({ part, lost_V: share * lost })),
    },
  };
}

/** A map whose curves bend at a second: below it the two starts overlap. */
export function exampleMap(setup: Setup = ordinary): DelayMap {
  const delay_s = Array.from({ length: 121 }, (_, k) => k * 0.1);
  const overlap = delay_s.map((t) => 1 / (1 + Math.exp((t - 0.8) / 0.15)));
  const falls = (deep: number, plain: number) =>
    overlap.map((o) => setup.supply_V * (plain - (plain - deep) * o));
  return {
    delay_s,
    motors: setup.motors.map((part, m) => ({
      part,
      lowestVoltage_V: falls(0.71 - 0.01 * m, 0.86 - 0.012 * m),
      runUp_s: overlap.map((o, k) => (k < 3 && m === 1 ? null : 0.55 + 0.1 * m + 0.9 * o * (m + 1))),
    })),
    points: [{ part: setup.receptacles, nominal_V: setup.supply_V, lowestVoltage_V: falls(0.74, 0.885) }],
    fuses: [
      { part: setup.fuse, meltFraction: overlap.map((o, k) => 0.3 + 0.5 * o + 0.12 * Math.exp(-k / 40)) },
    ],
    contactors: [{ part: "contactor", dropOuts: overlap.map((o) => Math.round(4 * o)) }],
    chatters: delay_s.map(() => false),
    passes: delay_s.map((t) => t >= 1.1),
    advice: { recommended_s: 1.5, shortest_s: 1.1, knee_s: 1.2, reason: "Test data." },
  };
}

export function exampleFindings(setup: Setup = ordinary): Finding[] {
  const finding = (name: string, part: string, outcome: Finding["outcome"], says: string): Finding => ({
    finding: name,
    part,
    case: "staggered",
    outcome,
    value: 1,
    limit: 1,
    unit: "",
    basis: "test data",
    says,
    gravity: "stops work",
    change: null,
  });
  return [
    finding(
      "fuse holds",
      setup.fuse,
      "pass",
      `${setup.fuse} hold with a margin of 2.2 times the whole start.`,
    ),
    finding(
      "receptacle sag",
      setup.receptacles,
      "caution",
      "Lamps dim: 0.4 s below 90 % of nominal voltage.",
    ),
    finding("lowest motor voltage", setup.motors[0], "pass", `${setup.motors[0]} keeps 86 % of its voltage.`),
    finding(
      "motor starts",
      setup.motors[setup.motors.length - 1],
      "fail",
      `${setup.motors[setup.motors.length - 1]} does not reach the speed at which its start switch opens.`,
    ),
  ];
}

/** Names that nobody should use and somebody will. */
export const awkward: Partial<Setup> = {
  title: 'Names & <marks> "quoted"',
  motors: [
    "the compressor on the far side of the refrigerated store behind the second partition, motor 1",
    "the compressor on the far side of the refrigerated store behind the second partition, motor 2",
  ],
  receptacles: "مقابس الورشة",
  fuse: '<b onclick="alert(1)">fuses</b> & "holders"',
};
