import { describe, expect, it } from "vitest";
import { type ClosedBy, contactsOf, namesIn, pathThrough } from "../src/contacts.ts";

const names = ["a", "b", "c"];

/** A path's answer for every position of three contacts, c changing fastest. */
const tableOf = (path: ClosedBy): string => {
  const contacts = contactsOf(names);
  const isClosed = pathThrough(path, contacts);
  return Array.from({ length: 8 }, (_, n) => {
    contacts.closed.set([(n >> 2) & 1, (n >> 1) & 1, n & 1]);
    return isClosed() ? 1 : 0;
  }).join("");
};

describe("path through contacts (closed form: truth tables)", () => {
  it.each([
    ["a", "00001111"],
    [{ not: "a" }, "11110000"],
    [{ all: ["a", "b"] }, "00000011"],
    [{ any: ["a", "b"] }, "00111111"],
    [{ all: ["a", { any: ["b", "c"] }] }, "00000111"],
    [{ any: ["a", { all: ["b", { not: "c" }] }] }, "00101111"],
    [{ all: [] }, "11111111"],
    [{ any: [] }, "00000000"],
  ] as const)("%j", (path, table) => {
    expect(tableOf(path)).toBe(table);
  });

  it("names every device once", () => {
    expect(namesIn({ all: ["a", { any: ["b", "a"] }, { not: { not: "c" } }] })).toEqual(["a", "b", "c"]);
  });

  it("refuses a name that nothing has", () => {
    expect(() => pathThrough("d", contactsOf(names))).toThrow('invalid contact: "d"');
  });
});
