import type { Circuit, Machine, MotorParameters, PartParameters } from "@startgap/circuit";
import { add, type Complex, minus, of, over, type System, size, system, times } from "./complex.ts";

/** What a test sets of a part: an open contact, a motor's slip and start switch, a load's voltage level. */
export interface Setting {
  readonly open?: boolean;
  readonly slip?: number;
  readonly switchClosed?: boolean;
  /** Admittance of a load over that at its nominal voltage. */
  readonly scale?: number;
  /** A winding that is not there: of a transformer, or of a motor. */
  readonly broken?: "first winding" | "second winding" | "main winding" | "auxiliary winding" | "midpoint";
  /** Admittance of the one winding of an autotransformer that is left, at its own voltage. */
  readonly lone?: Complex;
}

export interface Nodal {
  /** Voltage at every output of a part, in the order of its outputs; empty for loads and motors. */
  readonly outputs: readonly (readonly Complex[])[];
  /** Current into every part. */
  readonly currents: readonly Complex[];
  /** Mean torque over synchronous speed's inverse: air-gap power of a motor, watt. */
  readonly gap_W: readonly number[];
}

/** Two wires: where a part is connected. Node -1 is earth. */
interface Port {
  readonly p: number;
  readonly n: number;
}

const EARTH = -1;
const zero = of(0);

interface Bench {
  readonly s: System;
  readonly circuit: Circuit;
  readonly frequency_Hz: number;
  /** Current from one node to another counts as unknown k in the current law of both. */
  flows(k: number, from: number, to: number, turns?: number): void;
  /** Row k gains value times the voltage between two nodes. */
  across(k: number, port: Port, value: Complex): void;
  admittance(port: Port, y: Complex): void;
}

/**
 * Modified nodal analysis of a circuit drawn with both wires: a node for every conductor, Kirchhoff's current
 * law at each, and a row of its own for every branch that has no admittance (ideal sources, windings, links
 * without impedance). An autotransformer has its real midpoint; a separate winding is earthed at one end.
 */
export function nodal(circuit: Circuit, settings: readonly Setting[]): Nodal {
  const s = system();
  const supply = circuit.parts[0];
  const frequency_Hz = supply.is === "supply" ? supply.frequency_Hz : 0;
  const bench: Bench = {
    s,
    circuit,
    frequency_Hz,
    flows(k, from, to, turns = 1) {
      if (from !== EARTH) s.put(from, k, of(turns));
      if (to !== EARTH) s.put(to, k, of(-turns));
    },
    across(k, { p, n }, value) {
      if (p !== EARTH) s.put(k, p, value);
      if (n !== EARTH) s.put(k, n, minus(zero, value));
    },
    admittance({ p, n }, y) {
      for (const [a, b] of [
        [p, n],
        [n, p],
      ]) {
        if (a !== EARTH) s.put(a, a, y);
        if (a !== EARTH && b !== EARTH) s.put(a, b, minus(zero, y));
      }
    },
  };
  const ports = new Map<string, readonly Port[]>();
  const entries = circuit.parts.map((p, i) => {
    const port = feeding(ports, p);
    const dead = port === null || settings[i].open === true;
    const drawn = dead ? undrawn(p) : draw(bench, p, port, settings[i]);
    ports.set(p.name, dead ? [] : drawn.ports);
    return { drawn, port };
  });
  const x = s.solve();
  const volts = ({ p, n }: Port): Complex => minus(p === EARTH ? zero : x[p], n === EARTH ? zero : x[n]);
  return {
    outputs: entries.map(({ drawn }) => [
      ...drawn.ports.map(volts),
      ...new Array<Complex>(drawn.unfed).fill(zero),
    ]),
    currents: entries.map(({ drawn, port }) => drawn.current(x, port === null ? zero : volts(port))),
    gap_W: entries.map(({ drawn }) => drawn.gap_W(x)),
  };
}

interface Drawn {
  readonly ports: readonly Port[];
  /** Outputs that are dead. */
  readonly unfed: number;
  current(x: readonly Complex[], fed: Complex): Complex;
  gap_W(x: readonly Complex[]): number;
}

const LEGS = ["first", "second", "both"];

/** Where a part is connected; null behind an open contact. The supply stands on earth. */
function feeding(ports: ReadonlyMap<string, readonly Port[]>, p: PartParameters): Port | null {
  if (p.is === "supply") return { p: EARTH, n: EARTH };
  const out = ports.get(p.fedBy) ?? [];
  return (out.length === 3 ? out[LEGS.indexOf(p.leg)] : out[0]) ?? null;
}

const undrawn = (p: PartParameters): Drawn => ({
  ports: [],
  unfed: { autotransformer: 3, load: 0, motor: 0 }[p.is as string] ?? 1,
  current: () => zero,
  gap_W: () => 0,
});

const drawnAs = (
  ports: readonly Port[],
  current: Drawn["current"],
  gap_W: Drawn["gap_W"] = () => 0,
): Drawn => ({
  ports,
  unfed: 0,
  current,
  gap_W,
});

function draw(bench: Bench, p: PartParameters, port: Port, setting: Setting): Drawn {
  switch (p.is) {
    case "supply":
      return link(bench, port, of(p.r_ohm, p.x_ohm), p.voltage_V);
    case "cable":
    case "fuse":
      return link(bench, port, of(p.r_ohm, p.x_ohm));
    case "contactor":
    case "delay relay":
      return link(bench, port, zero);
    case "load": {
      const k = (setting.scale ?? 1) / p.nominal_V ** 2;
      const y = of(k * p.power_W, -k * p.reactive_var);
      bench.admittance(port, y);
      return drawnAs([], (_, fed) => times(y, fed));
    }
    case "transformer":
      return separate(bench, p, port, setting);
    case "autotransformer":
      return halves(bench, p, port, setting);
    case "motor":
      return windings(bench, p, port, setting);
  }
}

/** In the first wire: V_out = V_in + E - Z I. */
function link({ s, flows, across }: Bench, port: Port, z: Complex, e = 0): Drawn {
  const p = s.unknown();
  const k = s.unknown();
  flows(k, port.p, p);
  across(k, { p: port.p, n: p }, of(1));
  s.put(k, k, minus(zero, z));
  s.right(k, of(-e));
  return drawnAs([{ p, n: port.n }], (x) => x[k]);
}

type Wound = Extract<PartParameters, { readonly windings_V: readonly [number, number] }>;

const exciting = ({ excitation: { conductance_S, susceptance_S } }: Wound): Complex =>
  of(conductance_S, -susceptance_S);

/** V1 - Z I1 = (n1/n2) V2, and the second winding gives back (n1/n2) I1. */
function separate({ s, flows, across, admittance }: Bench, t: Wound, port: Port, { broken }: Setting): Drawn {
  if (broken === "second winding") {
    admittance(port, exciting(t));
    return { ...drawnAs([], (_, fed) => times(exciting(t), fed)), unfed: 1 };
  }
  const turns = t.windings_V[0] / t.windings_V[1];
  const out: Port = { p: s.unknown(), n: EARTH };
  const k = s.unknown();
  flows(k, port.p, port.n);
  flows(k, out.n, out.p, turns);
  across(k, port, of(1));
  across(k, out, of(-turns));
  s.put(k, k, of(-t.r_ohm, -t.x_ohm));
  admittance(port, exciting(t));
  return drawnAs([out], (x, fed) => add(x[k], times(exciting(t), fed)));
}

/** Two windings in a row: n1 I1 + n2 I2 = 0 and V1 - Z I1 = (n1/n2) V2, each through its real midpoint. */
function halves(bench: Bench, t: Wound, port: Port, { broken, lone = zero }: Setting): Drawn {
  const { s, flows, across, admittance } = bench;
  if (broken === "first winding" || broken === "second winding") {
    const {
      current,
      ports: [whole],
    } = link(bench, port, zero);
    const middle = s.unknown();
    const legs = [
      { p: whole.p, n: middle },
      { p: middle, n: whole.n },
    ];
    admittance(broken === "first winding" ? legs[1] : legs[0], lone);
    return drawnAs([...legs, whole], current);
  }
  const turns = t.windings_V[0] / t.windings_V[1];
  // The line current is told by a link without impedance in front of the first wire.
  const entry = link(bench, port, zero);
  const { p, n } = entry.ports[0];
  const middle = s.unknown();
  const k = s.unknown();
  flows(k, p, middle);
  flows(k, middle, n, -turns);
  across(k, { p, n: middle }, of(1));
  across(k, { p: middle, n }, of(-turns));
  s.put(k, k, of(-t.r_ohm, -t.x_ohm));
  admittance({ p, n }, exciting(t));
  // Without the midpoint wire the loads meet somewhere else than the windings do.
  const meeting = broken === "midpoint" ? s.unknown() : middle;
  const ports = [
    { p, n: meeting },
    { p: meeting, n },
    { p, n },
  ];
  return drawnAs(ports, entry.current);
}

/** Half of j xm beside r2/sigma + j x2; the rotor's values go with the slip, in both fields alike. */
function field(m: Machine, sigma: number, slip: number, toReactance: number): Complex {
  const share = Math.min(1, Math.abs(slip));
  const between = (running: number, still: number): number => running + (still - running) * share;
  const r2 = between(m.rotor.r_ohm, m.rotorAtStandstill.r_ohm);
  const x2 = toReactance * between(m.rotor.x_ohm, m.rotorAtStandstill.x_ohm);
  const jxm = of(0, toReactance * m.magnetising_ohm);
  const rotor = of(r2 / sigma, x2);
  return times(of(0.5), over(times(jxm, rotor), add(jxm, rotor)));
}

/** The two winding equations of the revolving-field theory as rows of their own. */
function windings(
  { s, flows, across, admittance, frequency_Hz }: Bench,
  { machine: m }: MotorParameters,
  port: Port,
  { slip = 1, switchClosed = true, broken }: Setting,
): Drawn {
  const k = frequency_Hz / m.frequency_Hz;
  const [Zf, Zb] = [field(m, slip, slip, k), field(m, 2 - slip, slip, k)];
  const [sum, apart] = [add(Zf, Zb), minus(Zf, Zb)];
  admittance(port, of(1 / m.core_ohm));
  const main = s.unknown();
  flows(main, port.p, port.n);
  if (broken === "main winding") s.put(main, main, of(1));
  else {
    across(main, port, of(1));
    s.put(main, main, minus(zero, add(of(m.main.r_ohm, k * m.main.x_ohm), sum)));
  }
  const series = broken === "auxiliary winding" ? null : capacitors(m, switchClosed, k);
  const core = (fed: Complex): Complex => times(of(1 / m.core_ohm), fed);
  const gap = (If: Complex, Ib: Complex): number => size(If) ** 2 * Zf.re - size(Ib) ** 2 * Zb.re;
  if (m.auxiliary === null || series === null) {
    return drawnAs(
      [],
      (x, fed) => add(x[main], core(fed)),
      (x) => gap(x[main], x[main]),
    );
  }
  const a = m.auxiliary.turnsRatio;
  const auxiliary = s.unknown();
  flows(auxiliary, port.p, port.n);
  across(auxiliary, port, of(1));
  const own = add(series, of(m.auxiliary.r_ohm, k * m.auxiliary.x_ohm));
  s.put(auxiliary, auxiliary, minus(zero, add(own, times(of(a * a), sum))));
  if (broken !== "main winding") s.put(main, auxiliary, times(of(0, a), apart));
  s.put(auxiliary, main, times(of(0, -a), apart));
  return drawnAs(
    [],
    (x, fed) => add(add(x[main], x[auxiliary]), core(fed)),
    (x) => {
      const turned = times(of(0, a), x[auxiliary]);
      return gap(minus(x[main], turned), add(x[main], turned));
    },
  );
}

/** In series with the auxiliary winding; null when that is out of circuit. */
function capacitors(m: Machine, switchClosed: boolean, k: number): Complex | null {
  const list = [switchClosed ? m.startCapacitor : null, m.runCapacitor]
    .filter((c) => c !== null)
    .map((c) => of(c.r_ohm, -c.x_ohm / k));
  if (list.length === 2) return over(of(1), add(over(of(1), list[0]), over(of(1), list[1])));
  return list[0] ?? (switchClosed ? zero : null);
}
