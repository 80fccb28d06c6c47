import { examples } from "@startgap/cabinet";
import fc from "fast-check";

/** One way to spoil a cabinet file, and a file spoilt so. */
export interface Malformed {
  readonly how: string;
  readonly text: string;
}

type Part = Record<string, unknown>;
interface File extends Record<string, unknown> {
  parts: Part[];
}

const anyExample = fc.constantFrom(...examples.map((example) => example.text));

/** Keys that stand for a quantity with a unit wherever they appear. */
const quantities = [
  "voltage",
  "frequency",
  "length",
  "delay",
  "fullLoadCurrent",
  "speed",
  "inertia",
  "power",
];

/** Calls `change` on one randomly chosen place of the file that it applies to. */
function places(value: unknown, applies: (record: Part, key: string) => boolean): [Part, string][] {
  if (typeof value !== "object" || value === null) return [];
  const record = value as Part;
  return Object.keys(record).flatMap((key) => [
    ...(applies(record, key) ? [[record, key] as [Part, string]] : []),
    ...places(record[key], applies),
  ]);
}

const changed = (text: string, change: (file: File) => void): string => {
  const file: File = JSON.parse(text);
  change(file);
  return JSON.stringify(file);
};

const pick = <T>(all: readonly T[], n: number): T => all[n % all.length];

const index = fc.nat(9999);

/** A file with something changed at a random part. */
const atPart = (how: string, change: (part: Part, file: File, n: number) => void): fc.Arbitrary<Malformed> =>
  fc.tuple(anyExample, index, index).map(([text, i, n]) => ({
    how,
    text: changed(text, (file) => change(pick(file.parts, i), file, n)),
  }));

const isQuantity = (record: Part, key: string): boolean =>
  quantities.includes(key) && typeof record[key] === "string";

/** A file with one of its quantities replaced. */
const atQuantity = (how: string, value: fc.Arbitrary<unknown>): fc.Arbitrary<Malformed> =>
  fc.tuple(anyExample, index, value).map(([text, i, v]) => ({
    how,
    text: changed(text, (file) => {
      const [record, key] = pick(places(file, isQuantity), i);
      record[key] = v;
    }),
  }));

const noQuantity = fc.oneof(
  fc.string({ maxLength: 20 }).map((s) => `${s} parsec`),
  fc.integer().map((n) => `${n}`),
  fc.constantFrom(
    "",
    " ",
    "-5 V",
    "1e400 V",
    "NaN s",
    "5 V 5 V",
    "0x10 V",
    "٣ V",
    "\u0000",
    "+- 10 %",
    "3 s .. 1 s",
  ),
);

const noText = fc.oneof(
  fc.integer(),
  fc.double(),
  fc.boolean(),
  fc.constant([]),
  fc.dictionary(fc.string(), fc.integer()),
);

const texts: fc.Arbitrary<Malformed>[] = [
  fc.tuple(anyExample, fc.double({ min: 0, max: 0.99, noNaN: true })).map(([text, share]) => ({
    how: "cut short",
    text: text.slice(0, Math.floor(share * text.length)),
  })),
  fc.tuple(anyExample, index).map(([text, n]) => {
    const quotes = [...text.matchAll(/"/g)].map((match) => match.index);
    const at = pick(quotes, n);
    return { how: "a quote lost", text: text.slice(0, at) + text.slice(at + 1) };
  }),
  fc.string({ unit: "binary", maxLength: 200 }).map((text) => ({ how: "no JSON", text })),
  fc.json({ maxDepth: 4 }).map((text) => ({ how: "other JSON", text })),
  fc.nat(20_000).map((n) => ({ how: "nested deep", text: "[".repeat(n) })),
  fc.nat(5_000).map((n) => ({
    how: "nested deep and closed",
    text: `${'{"parts":'.repeat(n + 1)}1${"}".repeat(n + 1)}`,
  })),
];

const trees: fc.Arbitrary<Malformed>[] = [
  atPart("fed by nobody known", (part, file, n) => {
    for (const one of [part, file.parts[file.parts.length - 1]]) one.fedBy = `nobody ${n}`;
  }),
  atPart("fed by itself", (part) => {
    part.fedBy = part.name;
  }),
  atPart("two of a name", (part, file) => {
    file.parts.push({ ...part });
  }),
  atPart("two supplies", (_part, file, n) => {
    file.parts.push({ ...file.parts[0], name: `second supply ${n}` });
  }),
  atPart("no supply", (_part, file) => {
    file.parts.shift();
  }),
  atPart("no parts", (_part, file) => {
    file.parts = [];
  }),
];

const keys: fc.Arbitrary<Malformed>[] = [
  atPart("a key too many", (part, _file, n) => {
    part[pick(["colour", "__proto", "constructor", "voltagee", "\u001b[31mred", "fedby", "toString"], n)] =
      "1 V";
  }),
  atPart("a key missing", (part, _file, n) => {
    delete part[pick(["name", "is"], n)];
  }),
  atPart("no title", (_part, file) => {
    delete file.title;
  }),
  atPart("another version", (_part, file, n) => {
    file.startgap = pick([0, 2, -1, 1.5, "1", null, [], 1e300], n);
  }),
  atPart("an unknown kind", (part, _file, n) => {
    part.is = pick(["motr", "", "Motor ", "__proto__", 7, null, "\u001b]0;title\u0007"], n);
  }),
  fc.tuple(anyExample, index, noText).map(([text, i, value]) => ({
    how: "a name that is none",
    text: changed(text, (file) => {
      pick(file.parts, i).name = value;
    }),
  })),
];

/** Files that are wrong for certain, in every way that a hand, a program or a disk spoils them. */
export const malformed: fc.Arbitrary<Malformed> = fc.oneof(
  ...texts,
  ...trees,
  ...keys,
  atQuantity("a bare number for a quantity", fc.double({ noNaN: true })),
  atQuantity("no quantity", noQuantity),
  atQuantity("another type for a quantity", noText),
);
