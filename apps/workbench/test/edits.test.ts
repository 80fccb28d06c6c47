import { cabinetSchema, examples, parseCabinet } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { addPart, put, removePart, rename } from "../src/editor/edits.ts";
import { pathText, rawFile, rawParts, withAt, wordOf } from "../src/editor/raw.ts";
import { namesFor, referencesTo } from "../src/editor/references.ts";
import { change, endStep, redo, undo } from "../src/state/history.ts";
import { sessionOf } from "../src/state/session.ts";

const text = examples[0].text;
const open = () => sessionOf({ text, schema: cabinetSchema });
const part = (from: string, index: number) => rawParts(rawFile(from))[index];
const indexOf = (from: string, name: string) =>
  rawParts(rawFile(from)).findIndex((one) => wordOf(one, "name") === name);

describe("editing the file", () => {
  it("a place is written as the reader's issues write it", () => {
    expect(pathText(["parts", 4, "circuit", "main", "r"])).toBe("parts[4].circuit.main.r");
    expect(pathText(["parts", 0, "two words"])).toBe('parts[0]."two words"');
  });

  it("changes one place and nothing else", () => {
    const value = { a: [{ b: 1 }, { b: 2 }], c: 3 };
    expect(withAt(value, ["a", 1, "b"], 5)).toEqual({ a: [{ b: 1 }, { b: 5 }], c: 3 });
    expect(withAt(value, ["a", 0], undefined)).toEqual({ a: [{ b: 2 }], c: 3 });
    expect(withAt(value, ["c"], undefined)).toEqual({ a: [{ b: 1 }, { b: 2 }] });
    expect(value).toEqual({ a: [{ b: 1 }, { b: 2 }], c: 3 });
  });

  it("a key called __proto__ is a key like any other", () => {
    const file = JSON.parse('{"parts":[{"__proto__":{"x":1},"name":"n"}]}') as unknown;
    const changed = withAt(file, ["parts", 0, "name"], "m") as { parts: object[] };
    expect(Object.hasOwn(changed.parts[0], "__proto__")).toBe(true);
    expect(({} as { x?: number }).x).toBeUndefined();
  });

  it("what refers to a part follows its name, also past a name that another part has", () => {
    const store = open();
    const index = indexOf(text, "midpoint transformer");
    const places = referencesTo(text, "midpoint transformer");
    expect(places.length).toBeGreaterThanOrEqual(3);
    for (const name of ["feeder", "feeder 2"]) rename(store, index, name, places, { place: "name" });
    const now = store.get().text;
    expect(referencesTo(now, "feeder 2")).toEqual(places);
    expect(wordOf(part(now, indexOf(now, "line fuses")), "fedBy")).toBe("feeder");
    expect("cabinet" in parseCabinet(now)).toBe(true);
  });

  it("a part that is taken out leaves what it fed with its feeder", () => {
    const store = open();
    removePart(store, indexOf(text, "line fuses"));
    const now = store.get().text;
    expect(indexOf(now, "line fuses")).toBe(-1);
    expect(wordOf(part(now, indexOf(now, "midpoint transformer")), "fedBy")).toBe("feeder");
    expect("cabinet" in parseCabinet(now)).toBe(true);
    expect(store.get().notice).toContain("line fuses");
  });

  it("a part that is added has a name of its own", () => {
    const store = open();
    addPart(store, "cable", "panel");
    addPart(store, "cable", "panel");
    const names = rawParts(rawFile(store.get().text)).map((one) => wordOf(one, "name"));
    expect(names.slice(-2)).toEqual(["cable", "cable 2"]);
  });

  it("names stand wherever one part speaks of another, and nowhere else", () => {
    const file = {
      parts: [
        { name: "K", is: "switch", note: "K" },
        { name: "main", is: "contactor", fedBy: "K", closedBy: { all: ["K", { not: "K" }] } },
        { name: "m", is: "motor", fedBy: "main", nameplate: { codeLetter: "K" }, drives: { into: "K" } },
      ],
    };
    expect(referencesTo(JSON.stringify(file), "K").map(pathText)).toEqual([
      "parts[1].fedBy",
      "parts[1].closedBy.all[0]",
      "parts[1].closedBy.all[1].not",
      "parts[2].drives.into",
    ]);
  });

  it("a part may be fed by all that carry power but itself", () => {
    const names = namesFor(text, cabinetSchema, ["parts", indexOf(text, "feeder"), "fedBy"])!;
    expect(names).toContain("panel");
    expect(names).toContain("contactor");
    for (const out of ["feeder", "compressor 1", "receptacles"]) expect(names).not.toContain(out);
    expect(namesFor(text, cabinetSchema, ["parts", 1, "length"])).toBeNull();
  });

  it("a text that is no file is left as it is", () => {
    const store = sessionOf({ text: "{ half a fi" });
    put(store, ["title"], "x");
    removePart(store, 0);
    expect(addPart(store, "cable", "panel")).toBeNull();
    expect(store.get().text).toBe("{ half a fi");
  });
});

describe("undo and redo", () => {
  it("typing into one field is one step, and every step goes back and forth", () => {
    const store = sessionOf({ text: "a" });
    for (const next of ["b", "bc", "bcd"]) change(store, { text: next }, { place: "field" });
    endStep();
    change(store, { text: "e" }, { place: "field" });
    expect(store.get().past.map((step) => step.text)).toEqual(["a", "bcd"]);
    undo(store);
    expect(store.get().text).toBe("bcd");
    undo(store);
    expect(store.get().text).toBe("a");
    undo(store);
    redo(store);
    redo(store);
    redo(store);
    expect(store.get().text).toBe("e");
  });

  it("a change after undo drops what was undone, and no change is no step", () => {
    const store = sessionOf({ text: "a" });
    change(store, { text: "b" });
    undo(store);
    change(store, { text: "a" });
    expect(store.get().future).toHaveLength(1);
    change(store, { text: "c" });
    expect(store.get().future).toHaveLength(0);
  });
});
