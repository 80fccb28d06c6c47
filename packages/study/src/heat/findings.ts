import { FUSE_MARGIN } from "../limits.ts";
import type { ProtectionFinding } from "../protection/results.ts";
import type { Verdict } from "../results.ts";
import { ratio, seconds } from "../words.ts";
import { AIR_LIMIT_C } from "./boxHeat.ts";
import type { BoxHeat, FuseHeat, MotorHeat, TransformerHeat } from "./results.ts";

export interface HeatFigures {
  readonly box: BoxHeat | null;
  readonly transformers: readonly TransformerHeat[];
  readonly motors: readonly MotorHeat[];
  readonly fuses: readonly FuseHeat[];
}

/** Every judged question of heat and duty. */
export const heatFindings = (h: HeatFigures): ProtectionFinding[] => [
  ...(h.box === null ? [] : [boxFinding(h.box)]),
  ...h.transformers.map(transformerFinding),
  ...h.fuses.map(fuseFinding),
  ...h.motors.flatMap(motorFindings),
];

const degrees = (t: number): string => `${Math.round(t)} degC`;

const upTo = (value: number, pass: number, fail: number): Verdict =>
  value <= pass ? "pass" : value <= fail ? "caution" : "fail";

function boxFinding(box: BoxHeat): ProtectionFinding {
  const summer = box.seasons.find(({ season }) => season === "summer");
  const hottest = Math.max(...(summer?.inside_C ?? [0]));
  const outside = Math.max(...(summer?.outside_C ?? [0]));
  const outcome = upTo(hottest, AIR_LIMIT_C.pass, AIR_LIMIT_C.fail);
  const watts = `${Math.round(box.loss_W)} W inside${box.sun_W > 0 ? ` and the sun` : ""}`;
  return {
    finding: "air in the box",
    part: "enclosure",
    outcome,
    gravity: "stops work",
    value: hottest,
    limit: AIR_LIMIT_C.pass,
    unit: "degC",
    basis:
      "IEC 60947-1 6.1.1: 40 degC around devices; relays and contactors bear 55 degC, common practice, no source; IEC TR 60890 for the walls",
    says: `enclosure: ${degrees(hottest)} on the warmest day with ${watts}, ${Math.round(hottest - outside)} K above the air outside.`,
    change: outcome === "pass" ? null : coolingWords(box),
  };
}

/** What keeps a box below its limit, in words. */
export function coolingWords({ ventArea_m2, fan_m3ps, limit_C }: BoxHeat): string {
  if (ventArea_m2 === null || fan_m3ps === null)
    return "Put it in the shade or take the transformer out of it: the air outside is too warm for vents to help.";
  const area = `${Math.ceil(ventArea_m2 * 1e4)} cm2`;
  return `Open ${area} low and as much high, or fit a fan of ${Math.ceil(fan_m3ps * 3600)} m3/h, to stay below ${degrees(limit_C)}.`;
}

/** A hottest spot this near to its system's limit is told, K. */
const NEAR_K = 10;

function transformerFinding(t: TransformerHeat): ProtectionFinding {
  const summer = t.seasons.find(({ season }) => season === "summer");
  const hottest = summer?.hottest_C ?? 0;
  const outcome = upTo(hottest, t.insulation_C - NEAR_K, t.insulation_C);
  const load = t.load === null ? "" : ` at ${Math.round(100 * t.load)} % of rated winding current`;
  return {
    finding: "transformer heat",
    part: t.part,
    outcome,
    gravity: "danger",
    value: hottest,
    limit: t.insulation_C,
    unit: "degC",
    basis: "rises of NEMA ST 20 and UL 506 with load^1.6, IEEE C57.96 (exponent from memory)",
    says: `${t.part}: ${degrees(hottest)} at its hottest spot on the warmest day${load}; its insulation bears ${degrees(t.insulation_C)}.`,
    change:
      outcome === "pass" ? null : "Fit a larger transformer, share the legs more evenly, or cool the box.",
  };
}

function fuseFinding(f: FuseHeat): ProtectionFinding {
  const margin = f.currentMargin;
  const outcome =
    margin === null || margin >= FUSE_MARGIN.pass ? "pass" : margin >= FUSE_MARGIN.fail ? "caution" : "fail";
  return {
    finding: "fuse in the heat",
    part: f.part,
    outcome,
    gravity: "stops work",
    value: margin,
    limit: FUSE_MARGIN.pass,
    unit: "",
    basis: `${FUSE_MARGIN.basis}; ${Math.round(100 * f.factor)} % of its currents at ${degrees(f.air_C)}, common practice, no source (from memory)`,
    says:
      margin === null
        ? `${f.part}: no current.`
        : `${f.part}: at ${degrees(f.air_C)} around it the start could be ${ratio(margin)} times as large before it melts.`,
    change: outcome === "pass" ? null : "Move it out of the heat, cool the box, or ease the start.",
  };
}

/** Start winding out within a second; smoke after three: common practice, no source. */
const START_WINDING_s = { pass: 1, fail: 3 } as const;

function motorFindings(m: MotorHeat): ProtectionFinding[] {
  const winding = m.startWinding_s === null ? [] : [startWindingFinding(m, m.startWinding_s)];
  return [...winding, ...riseFinding(m), ...dutyFinding(m)];
}

function startWindingFinding(m: MotorHeat, value: number): ProtectionFinding {
  const outcome = upTo(value, START_WINDING_s.pass, START_WINDING_s.fail);
  const bears =
    m.startWindingStall_s === null
      ? ""
      : `; standing still it would bear about ${seconds(m.startWindingStall_s)}`;
  return {
    finding: "start winding seconds",
    part: m.part,
    outcome,
    gravity: "danger",
    value,
    limit: START_WINDING_s.pass,
    unit: "s",
    basis: "common practice, no source: below a second is sound, above three the winding is in danger",
    says: `${m.part}: its start winding is in circuit for ${seconds(value)} in a start${bears}.`,
    change:
      outcome === "pass"
        ? null
        : "Shorten the start: unload it, raise the voltage, or fit the right start capacitor.",
  };
}

function riseFinding(m: MotorHeat): ProtectionFinding[] {
  if (m.rise_K === null) return [];
  const outcome = upTo(m.rise_K, m.ratedRise_K, 1.1 * m.ratedRise_K);
  return [
    {
      finding: "motor winding heat",
      part: m.part,
      outcome,
      gravity: "danger",
      value: m.rise_K,
      limit: m.ratedRise_K,
      unit: "K",
      basis: "NEMA MG 1 12.42, rise in proportion to the losses",
      says: `${m.part}: its winding rises ${Math.round(m.rise_K)} K running without a pause with ${count(m)} starts an hour, and is made for ${Math.round(m.ratedRise_K)} K.`,
      change: outcome === "pass" ? null : "Lower its load, raise its voltage, or start it less often.",
    },
  ];
}

/** Starts an hour as a person would say them. */
const count = ({ taken }: MotorHeat): string => `${Number(taken.perHour.toPrecision(2))}`;

const RULES = {
  capacitor: "its start capacitor (60 s an hour in circuit: common practice, no source)",
  winding: "its winding (rated rise, NEMA MG 1 12.42)",
  table: "the table of starts (NEMA MG 10 table 2-3, for polyphase motors)",
} as const;

function dutyFinding(m: MotorHeat): ProtectionFinding[] {
  const { perHour: startsPerHour, from } = m.taken;
  const known = (Object.keys(RULES) as (keyof typeof RULES)[]).flatMap((rule) => {
    const starts = m.startsPerHour[rule];
    return starts === null ? [] : [{ rule, starts }];
  });
  if (known.length === 0) return [];
  const least = known.reduce((a, b) => (b.starts < a.starts ? b : a));
  const outcome: Verdict =
    least.starts >= 2 * startsPerHour ? "pass" : least.starts >= startsPerHour ? "caution" : "fail";
  const rest = m.rest_s === null ? "" : ` and rests of ${seconds(m.rest_s)}`;
  return [
    {
      finding: "starts an hour",
      part: m.part,
      outcome,
      gravity: "stops work",
      value: startsPerHour,
      limit: least.starts,
      unit: "1/h",
      basis: `set by ${RULES[least.rule]}`,
      says: `${m.part}: bears ${Math.floor(least.starts)} starts an hour${rest}; ${count(m)} are ${from === "receiver" ? "what its receiver asks for" : "taken"}.`,
      change:
        outcome === "pass" ? null : "Let it start less often: a larger receiver or a wider pressure band.",
    },
  ];
}
