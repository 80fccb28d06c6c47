import { examples } from "@startgap/cabinet";

/** Small random source with a seed (mulberry32): the same seed gives the same file. */
export function randomSource(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

type Place = { readonly holder: Record<string, unknown> | unknown[]; readonly key: string | number };

/** Every place below a value that can be changed. */
function places(value: unknown): Place[] {
  if (typeof value !== "object" || value === null) return [];
  const holder = value as Record<string, unknown>;
  const keys = Array.isArray(value) ? value.map((_, i) => i) : Object.keys(value);
  return keys.flatMap((key) => [{ holder, key }, ...places(holder[key])]);
}

const odd: readonly unknown[] = [
  null,
  true,
  0,
  -1,
  1e308,
  7,
  "",
  " ",
  "x",
  "NaN V",
  "1e999 A",
  "-0 ohm",
  "12 parsec",
  "5 s .. 3 s",
  "3 +- 4",
  "240",
  "\u0000",
  "\ud800",
  "x".repeat(500),
  [],
  [[]],
  {},
  { r: "1 ohm" },
  { is: "load" },
  ["120 V", "120 V"],
];

const keys = [
  "__proto__",
  "constructor",
  "prototype",
  "fedby",
  "Name",
  "leg",
  "impedance",
  "toString",
  "",
  "é",
];

export interface Mutation {
  readonly what: string;
  readonly value: unknown;
}

const pick = <T>(random: () => number, from: readonly T[]): T => from[Math.floor(random() * from.length)]!;

const changes: Readonly<Record<string, (place: Place, random: () => number, root: unknown) => void>> = {
  delete({ holder, key }) {
    if (Array.isArray(holder)) holder.splice(key as number, 1);
    else delete holder[key];
  },
  rename({ holder, key }, random) {
    if (Array.isArray(holder)) return;
    const value = holder[key];
    delete holder[key];
    const name = random() < 0.5 ? `${key}s` : pick(random, keys);
    Object.defineProperty(holder, name, { value, enumerable: true, configurable: true, writable: true });
  },
  retype({ holder, key }, random) {
    (holder as Record<string | number, unknown>)[key] = structuredClone(pick(random, odd));
  },
  "change the unit"({ holder, key }, random) {
    const value = (holder as Record<string | number, unknown>)[key];
    if (typeof value !== "string") return;
    const unit = pick(random, ["V", "A", "ohm", "kW", "s", "%", "", "furlong", "mA"]);
    (holder as Record<string | number, unknown>)[key] = value.replace(/[A-Za-z%]+\d*$/, unit);
  },
  "change the number"({ holder, key }, random) {
    const value = (holder as Record<string | number, unknown>)[key];
    const factor = pick(random, [-1, 0, 1e-6, 1e6, 1e300]);
    const target = holder as Record<string | number, unknown>;
    if (typeof value === "number") target[key] = value * factor;
    if (typeof value === "string") target[key] = value.replace(/[\d.]+/, (n) => String(Number(n) * factor));
  },
  splice({ holder, key }, random, root) {
    const from = pick(random, places(root));
    const value = structuredClone((from.holder as Record<string | number, unknown>)[from.key]);
    (holder as Record<string | number, unknown>)[key] = value;
  },
  repeat({ holder, key }) {
    if (Array.isArray(holder)) holder.push(structuredClone(holder[key as number]));
  },
};

/** An example with one to three things changed at random. */
export function mutated(seed: number): Mutation {
  const random = randomSource(seed);
  const value: unknown = JSON.parse(pick(random, examples).text);
  const done: string[] = [];
  for (let n = 1 + Math.floor(random() * 3); n > 0; n--) {
    const all = places(value);
    if (all.length === 0) break;
    const what = pick(random, Object.keys(changes));
    changes[what]!(pick(random, all), random, value);
    done.push(what);
  }
  return { what: done.join(", "), value };
}
