import {
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { obstacle } from "../../apps/cli/src/node.ts";
import { writeAll } from "../../apps/cli/src/write.ts";

let folder = "";
const at = (name: string): string => join(folder, name);
const text = (name: string): string => readFileSync(at(name), "utf8");

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "startgap-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

describe("writing files", () => {
  it("replaces a whole file by a whole file and leaves nothing else behind", () => {
    writeFileSync(at("a"), "old");
    writeAll([
      { path: at("a"), text: "new" },
      { path: at("b"), text: "second" },
    ]);
    expect([text("a"), text("b")]).toEqual(["new", "second"]);
    expect(readdirSync(folder).sort()).toEqual(["a", "b"]);
  });

  it("touches none when one cannot be written", () => {
    writeFileSync(at("a"), "old");
    const files = [
      { path: at("a"), text: "new" },
      { path: at("missing/b"), text: "second" },
    ];
    expect(() => writeAll(files)).toThrow(/ENOENT/);
    expect(text("a")).toBe("old");
    expect(readdirSync(folder)).toEqual(["a"]);
  });

  it("keeps a link a link, and the permissions of what it replaces", () => {
    writeFileSync(at("a"), "old");
    chmodSync(at("a"), 0o640);
    symlinkSync(at("a"), at("link"));
    writeAll([{ path: at("link"), text: "new" }]);
    expect(text("a")).toBe("new");
    expect(statSync(at("a")).mode & 0o777).toBe(0o640);
    expect(readdirSync(folder).sort()).toEqual(["a", "link"]);
  });

  it("writes into a null device instead of replacing it", () => {
    writeAll([{ path: "/dev/null", text: "gone" }]);
    expect(statSync("/dev/null").isCharacterDevice()).toBe(true);
  });
});

describe("what stands in the way", () => {
  it("is told before anything is tried", () => {
    mkdirSync(at("folder"));
    expect(obstacle(at("new"))).toBeNull();
    expect(obstacle(at("folder"))).toBe("a folder");
    expect(obstacle(at("missing/new"))).toBe("no such file or folder");
  });
});
