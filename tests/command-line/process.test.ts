import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { examples } from "@startgap/cabinet";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import manifest from "../../apps/cli/package.json" with { type: "json" };

const command = fileURLToPath(new URL("../../apps/cli/bin/startgap.js", import.meta.url));

const shop = examples.find(({ key }) => key === "shop-air")?.text ?? "";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "startgap-"));
  writeFileSync(join(folder, "shed.cabinet.json"), examples[0].text);
});
afterAll(() => rmSync(folder, { recursive: true }));

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

const start = (argv: readonly string[]): ChildProcess =>
  spawn(process.execPath, [command, ...argv], { cwd: folder, env: { ...process.env, NO_COLOR: "1" } });

/** The real command in a process of its own; `drive` may feed it, signal it or stop listening. */
function ended(
  argv: readonly string[],
  drive: (child: ChildProcess) => void = (c) => c.stdin?.end(),
): Promise<Ended> {
  const child = start(argv);
  const heard = { out: "", err: "" };
  child.stdout?.on("data", (data) => {
    heard.out += data;
  });
  child.stderr?.on("data", (data) => {
    heard.err += data;
  });
  drive(child);
  return new Promise((resolve, reject) => {
    child.on("error", reject);
    child.on("close", (code) => resolve({ code, ...heard }));
  });
}

describe("the command as a process", () => {
  it("tells its version", async () => {
    expect(await ended(["--version"])).toEqual({ code: 0, out: `${manifest.version}\n`, err: "" });
  });

  it("reads a cabinet from standard input and prints one JSON object and nothing else", async () => {
    const { code, out, err } = await ended(["check", "-", "--json"], (child) =>
      child.stdin?.end(examples[0].text),
    );
    expect([0, 1]).toContain(code);
    expect(err).toBe("");
    expect(JSON.parse(out)).toMatchObject({ startgap: "check 1", title: examples[0].title });
  });

  it("leaves nothing behind when the input is bad", async () => {
    const before = readdirSync(folder);
    const argv = ["check", "-", "--json", "--traces", "traces.csv"];
    const { code, out, err } = await ended(argv, (child) => child.stdin?.end("{"));
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(/expected .*; received /);
    expect(err).not.toMatch(/\n\s+at /);
    expect(readdirSync(folder)).toEqual(before);
  });

  it("writes a whole picture and nothing beside it", async () => {
    const { code } = await ended(["plot", "shed.cabinet.json", "-o", "start.svg"]);
    expect(code).toBe(0);
    expect(readFileSync(join(folder, "start.svg"), "utf8")).toMatch(/^<\?xml.*<svg .*<\/svg>\s*$/s);
    expect(readdirSync(folder).sort()).toEqual(["shed.cabinet.json", "start.svg"]);
  });

  it("ends with 130 when interrupted", async () => {
    const waiting = ["check", "-"];
    const { code, out } = await ended(waiting, (child) => {
      child.stdin?.write("{");
      // Long enough for a busy machine to have started it: a signal that comes before its handler kills it.
      setTimeout(() => child.kill("SIGINT"), 6000);
    });
    expect([code, out]).toEqual([130, ""]);
  });

  it("hears an interrupt in the midst of a day, and leaves nothing behind", async () => {
    const before = readdirSync(folder);
    const argv = ["day", "-", "--hours", "168", "--tolerance", "1e-10", "--traces", "week.csv"];
    const { code, out } = await ended(argv, (child) => {
      // A week takes several seconds; as above, the handler must be there before the signal.
      setTimeout(() => child.stdin?.end(shop), 6000);
      setTimeout(() => child.kill("SIGINT"), 7500);
    });
    expect([code, out]).toEqual([130, ""]);
    expect(readdirSync(folder)).toEqual(before);
  });

  it("ends quietly when whoever reads has gone", async () => {
    const { err } = await ended(["check", "shed.cabinet.json", "--json"], (child) => child.stdout?.destroy());
    expect(err).toBe("");
  });
});
