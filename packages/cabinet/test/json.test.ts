import { parseCabinet } from "@startgap/cabinet";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseJson } from "../src/text/json.ts";

const parsed = (text: string): unknown => {
  const read = parseJson(text);
  if ("issues" in read) throw new Error(JSON.stringify(read.issues));
  return read.value;
};

const issueOf = (text: string) => {
  const read = parseJson(text);
  return "issues" in read ? read.issues[0]! : null;
};

describe("reading JSON text", () => {
  it("gives what the language's own reader gives (independent code, 300 random values)", () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 6 }), fc.integer({ min: 0, max: 4 }), (value, indent) => {
        const text = JSON.stringify(value, null, indent);
        expect(parsed(text)).toEqual(JSON.parse(text));
      }),
      { numRuns: 300, seed: 1 },
    );
  });

  it("accepts and refuses just what the language's own reader does (independent code, 3000 damaged texts)", () => {
    const base = `{"a": [1, -2.5e3, "x\\n\\u00e9\\"", true, null, {}], "b": {"c": []}}`;
    const damage = fc.tuple(
      fc.integer({ min: 0, max: base.length }),
      fc.integer({ min: 0, max: 3 }),
      fc.constantFrom(
        "",
        ",",
        '"',
        "}",
        "]",
        "{",
        "[",
        "0",
        "-",
        ".",
        "e",
        "\\",
        "\n",
        "\t",
        ":",
        "tru",
        "\u0000",
      ),
    );
    fc.assert(
      fc.property(damage, ([at, cut, put]) => {
        const text = base.slice(0, at) + put + base.slice(at + cut);
        expect("value" in parseJson(text)).toBe(isJson(text));
      }),
      { numRuns: 3000, seed: 2 },
    );
  });

  it.each([
    ['{\n  "a": 1\n  "b": 2\n}', "line 3, column 3", '"," or "}"'],
    ['{\r\n\r\n"a" 1}', "line 3, column 5", '":" after the key'],
    ["[1, 2", "line 1, column 6", '"," or "]"'],
    ["[1,]", "line 1, column 4", "a value"],
    ["{'a': 1}", "line 1, column 2", "a key in double quotes"],
    ["{a: 1}", "line 1, column 2", "a key in double quotes"],
    ['{"a": 1,}', "line 1, column 9", "a key in double quotes"],
    ['["a]', "line 1, column 2", "text in double quotes"],
    ['["\\x"]', "line 1, column 2", "text in double quotes"],
    ["[01]", "line 1, column 2", "a value"],
    ["[NaN]", "line 1, column 2", "a value"],
    ["[1] 2", "line 1, column 5", "nothing after the closing bracket"],
    ["// note\n{}", "line 1, column 1", "a value"],
    ["\ufeff{,", "line 1, column 2", "a key"],
  ])("says where %j stops being JSON", (text, place, says) => {
    expect(issueOf(text)).toMatchObject({ path: place });
    expect(issueOf(text)!.expected).toContain(says);
    expect(issueOf(text)!.received).not.toBe("");
  });

  it("reports every key that stands twice, with its place", () => {
    const read = parseJson('{"parts": [{"fedBy": "a", "fedBy": "b"}],\n "title": "x", "title": "y"}');
    expect("issues" in read && read.issues).toEqual([
      {
        path: "parts[0].fedBy",
        expected: "each key once in an object",
        received: "a second one at line 1, column 27",
      },
      {
        path: "title",
        expected: "each key once in an object",
        received: "a second one at line 2, column 16",
      },
    ]);
  });

  it("keeps a key named as the prototype an ordinary key", () => {
    const value = parsed('{"__proto__": {"x": 1}}') as object;
    expect(Object.getPrototypeOf(value)).toBe(Object.prototype);
    expect(Object.keys(value)).toEqual(["__proto__"]);
  });

  it("reads 20 levels and refuses the 21st, however many follow", () => {
    const nested = (n: number) => "[".repeat(n) + "]".repeat(n);
    expect("value" in parseJson(nested(20))).toBe(true);
    expect(issueOf(nested(21))!.expected).toContain("no deeper than 20");
    expect(issueOf("[".repeat(900_000))!.expected).toContain("no deeper than 20");
  });
});

describe("the text of a file", () => {
  const text = `{"startgap":1,"title":"x","parts":[
    {"name":"panel","is":"supply","voltage":"240 V","frequency":"60 Hz","impedance":{"r":"0 ohm","x":"0 ohm"}},
    {"name":"lamps","is":"load","fedBy":"panel","power":"1 W"}]}`;
  const first = (read: ReturnType<typeof parseCabinet>) => ("issues" in read ? read.issues[0]! : null);

  it("may begin with a byte order mark", () => {
    expect(first(parseCabinet(`\ufeff${text}`))).toBeNull();
  });

  it.each(["", "  \n\t ", "\ufeff"])("may not be empty (%j)", (empty) => {
    expect(first(parseCabinet(empty))).toMatchObject({ path: "", received: "an empty file" });
  });

  it("may have a million characters and no more, which is told at once", () => {
    const padded = (n: number) => text + " ".repeat(n - text.length);
    expect(first(parseCabinet(padded(1_000_000)))).toBeNull();
    expect(first(parseCabinet(padded(1_000_001)))!.received).toBe("1000001 characters");
    expect(first(parseCabinet("[".repeat(10_000_000)))!.received).toBe("10000000 characters");
  });

  it.each([
    ["keys", `{${Array.from({ length: 90_000 }, (_, i) => `"k${i}":1`).join(",")}}`],
    ["the same key", `{${'"k":1,'.repeat(150_000)}"k":1}`],
    ["parts", `{"parts":[${'{"is":"load"},'.repeat(60_000)}{}]}`],
    ["values", `[${"1,".repeat(490_000)}1]`],
    ["a long text", `{"title":"${"x".repeat(900_000)}"}`],
    ["a long quantity", `{"parts":[{"is":"load","power":"${"9".repeat(900_000)} W"}]}`],
    ["a long key", `{"${"k".repeat(900_000)}":1}`],
  ])("may be full of %s, and is refused with few issues", (_, full) => {
    const read = parseCabinet(full);
    if (!("issues" in read)) throw new Error("was read");
    expect(read.issues.length).toBeGreaterThan(0);
    expect(read.issues.length).toBeLessThan(300);
    for (const issue of read.issues) expect(issue.received.length + issue.path.length).toBeLessThan(300);
  });

  it("may have 200 parts and no more", () => {
    const lamps = (n: number) => ({
      ...JSON.parse(text),
      parts: [
        JSON.parse(text).parts[0],
        ...Array.from({ length: n }, (_, i) => ({
          name: `lamp ${i}`,
          is: "load",
          fedBy: "panel",
          power: "1 W",
        })),
      ],
    });
    expect(first(parseCabinet(JSON.stringify(lamps(199))))).toBeNull();
    expect(first(parseCabinet(JSON.stringify(lamps(200))))).toMatchObject({ received: "a list of 201" });
  });
});

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}
