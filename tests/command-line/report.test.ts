import { spawnSync } from "node:child_process";
import { chmodSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { examples, parseCabinet } from "@startgap/cabinet";
import { cabinetInReport } from "@startgap/figures";
import { check } from "@startgap/study";
import { JSDOM } from "jsdom";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { findBrowser, printPdf } from "../../apps/cli/src/browser.ts";
import { type Performance, perform } from "./stage.ts";

const exampleOf = (key: string): string => examples.find((example) => example.key === key)!.text;
const files = {
  "shed.cabinet.json": exampleOf("ice-shed"),
  "bench.cabinet.json": exampleOf("quarter-horse"),
};
const pdf = "%PDF-1.4 printed %%EOF";
const printer = async (): Promise<Uint8Array> => new TextEncoder().encode(pdf);

const report = (argv: readonly string[], more: Parameters<typeof perform>[1] = {}): Promise<Performance> =>
  perform(["report", ...argv], { files, ...more });

const commandIn = (html: string): string =>
  [...new JSDOM(html).window.document.querySelectorAll("#source code")][0].textContent ?? "";

describe("startgap report", () => {
  it("writes one page, says so, and ends as a check does", async () => {
    const { status, out, err, written } = await report(["bench.cabinet.json", "-o", "out.html"]);
    expect({ status, out, err }).toEqual({ status: 0, out: "Wrote out.html\n", err: "" });
    expect(Object.keys(written)).toEqual(["out.html"]);
    const { document } = new JSDOM(written["out.html"]).window;
    expect(document.querySelector("h1")?.textContent).toContain("quarter-horsepower");
    expect(document.querySelector("header")?.textContent).toContain("2026-03-04");
  });

  it("ends with 1 and says why when the way the cabinet is run fails", async () => {
    const file = JSON.parse(files["shed.cabinet.json"]);
    file.parts[1].length = "700 ft";
    const { status, out } = await report(["long.json", "-o", "out.html"], {
      files: { "long.json": JSON.stringify(file) },
    });
    expect(status).toBe(1);
    expect(out).toMatch(/^Wrote out\.html\nFails: .+\.\n$/);
  });

  it("prints the page alone on standard output", async () => {
    const { out, written } = await report(["bench.cabinet.json", "-o", "-"]);
    expect(out).toMatch(/^<!doctype html>[\s\S]*<\/html>\n$/);
    expect(written).toEqual({});
  });

  it("names settings and file so that the command makes the same report again", async () => {
    const argv = ["shed.cabinet.json", "--delay", "4 s", "--tolerance", "1e-7", "--step", "500 ms"];
    const { written } = await report([...argv, "-o", "out.html"]);
    const command = commandIn(written["out.html"]);
    expect(command).toBe(
      "startgap report shed.cabinet.json --delay '4 s' --tolerance 1e-7 --step '0.5 s' -o report.html",
    );
    const words = spawnSync("sh", ["-c", `printf '%s\\n' ${command}`], { encoding: "utf8" }).stdout;
    const again = await perform(words.trim().split("\n").slice(1), { files });
    expect(again.written["report.html"]).toBe(written["out.html"]);
  });

  it("writes what was simulated as columns beside it", async () => {
    const { written } = await report(["bench.cabinet.json", "-o", "a.html", "--traces", "a.csv"]);
    expect(written["a.csv"]).toMatch(/^case,time_s,.*motor speed_rpm/);
  });

  it("is read again in place of its cabinet, by every command that reads one", async () => {
    const { written } = await report(["shed.cabinet.json", "-o", "shed.html"]);
    const held = cabinetInReport(written["shed.html"]);
    expect(parseCabinet(held ?? "")).toHaveProperty("cabinet");
    for (const argv of [["check"], ["fuse"], ["motor"]]) {
      const from = await perform([...argv, "shed.html"], { files: written });
      expect(from).toEqual(await perform([...argv, "shed.cabinet.json"], { files }));
    }
  });

  it("refuses a page that holds no cabinet", async () => {
    const page = { "page.html": "<!doctype html><p>Hello" };
    const { status, err, written } = await report(["page.html", "-o", "out.html"], { files: page });
    expect(status).toBe(2);
    expect(err).toContain("expected a cabinet file, or a report that holds one; received a page without one");
    expect(written).toEqual({});
  });

  it("tells every wrong argument at once and writes nothing", async () => {
    const { status, err, written } = await report(["nothing.json", "--paper", "a5", "--delay", "soon"]);
    expect(status).toBe(2);
    for (const place of ["--output", "--paper", "--delay", "a cabinet file that can be read"])
      expect(err).toContain(place);
    expect(written).toEqual({});
  });

  it("states the tolerance that a check has when none is given", async () => {
    const { written } = await report(["bench.cabinet.json", "-o", "a.html"]);
    expect(written["a.html"]).toContain("1e-6, the usual");
    const read = parseCabinet(files["bench.cabinet.json"]);
    if ("issues" in read) throw new Error("the example is not read");
    expect(check(read.cabinet, { tolerance: 1e-6 })).toEqual(check(read.cabinet));
  });
});

describe("startgap report --pdf", () => {
  it("has the page printed, on Letter at 60 Hz, on A4 at 50 Hz, or as told", async () => {
    const printed: string[] = [];
    const noting = async (html: string): Promise<Uint8Array> => {
      printed.push(/@page\{size:(\w+)\}/.exec(html)?.[1] ?? "");
      return printer();
    };
    const pumps = { "pumps.json": exampleOf("pump-pair") };
    await report(["bench.cabinet.json", "--pdf", "a.pdf"], { printer: noting });
    await report(["pumps.json", "--pdf", "a.pdf"], { printer: noting, files: pumps });
    await report(["bench.cabinet.json", "--pdf", "a.pdf", "--paper", "a4"], { printer: noting });
    expect(printed).toEqual(["letter", "A4", "A4"]);
  });

  it("writes page and print together, and leaves the page's paper to the printer", async () => {
    const { out, written } = await report(["bench.cabinet.json", "-o", "a.html", "--pdf", "a.pdf"], {
      printer,
    });
    expect(out).toBe("Wrote a.html, a.pdf\n");
    expect(written["a.pdf"]).toBe(pdf);
    expect(written["a.html"]).not.toContain("@page{size:");
  });

  it("ends with 3, says why and writes nothing when no browser is there or it cannot print", async () => {
    const failing = async (): Promise<Uint8Array> => {
      throw new Error("the browser ended with 1");
    };
    for (const [broken, why] of [
      ["no Chrome was found", "no Chrome was found"],
      [failing, "the browser ended with 1"],
    ] as const) {
      const { status, err, written } = await report(
        ["bench.cabinet.json", "-o", "a.html", "--pdf", "a.pdf"],
        {
          printer: broken,
        },
      );
      expect(status).toBe(3);
      expect(err).toContain(`no PDF: ${why}; nothing was written`);
      expect(written).toEqual({});
    }
  });

  it("ends with 2 rather than 3 when the input is bad as well", async () => {
    expect((await report(["nothing.json", "--pdf", "a.pdf"])).status).toBe(2);
  });
});

describe.skipIf(process.platform === "win32")("a browser that prints", () => {
  let folder = "";
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), "startgap-"));
  });
  afterEach(() => rmSync(folder, { recursive: true }));

  /** A stand-in for a browser: a script that is given the PDF's path as PDF. */
  function standIn(name: string, body: string): string {
    const path = join(folder, name);
    const find = `for a; do case "$a" in --print-to-pdf=*) PDF="\${a#--print-to-pdf=}";; file://*) PAGE="$a";; esac; done`;
    writeFileSync(path, `#!/bin/sh\n${find}\n${body}\n`);
    chmodSync(path, 0o755);
    return path;
  }

  it("is the one that CHROME names, else the first that the path leads to", () => {
    const own = standIn("mine", "");
    const other = standIn("chromium", "");
    expect(findBrowser({ CHROME: own, PATH: folder })).toEqual({ path: own });
    expect(findBrowser({ PATH: ["/nowhere", folder].join(delimiter) })).toEqual({ path: other });
    expect(findBrowser({ CHROME: join(folder, "none"), PATH: folder })).toHaveProperty("missing");
  });

  it("is given the page and gives the PDF back", async () => {
    const path = standIn(
      "good",
      `printf '%%PDF-1.4\\n' > "$PDF"; cat "\${PAGE#file://}" >> "$PDF"; printf '%%%%EOF' >> "$PDF"`,
    );
    const printed = await printPdf(path, "<p>the page");
    expect(new TextDecoder().decode(printed)).toBe("%PDF-1.4\n<p>the page%%EOF");
  });

  it("is not believed when it fails, writes half, or writes nothing", async () => {
    await expect(printPdf(standIn("bad", "echo no display >&2; exit 4"), "")).rejects.toThrow(
      "the browser ended with 4: no display",
    );
    await expect(printPdf(standIn("half", `printf '%%PDF-1.4' > "$PDF"`), "")).rejects.toThrow("whole PDF");
    await expect(printPdf(standIn("idle", "exit 0"), "")).rejects.toThrow("whole PDF");
    await expect(printPdf(join(folder, "none"), "")).rejects.toThrow("ENOENT");
  });

  it("leaves nothing behind", async () => {
    vi.stubEnv("TMPDIR", folder);
    const path = standIn("bad", "exit 1");
    await expect(printPdf(path, "")).rejects.toThrow("ended with 1");
    expect(readdirSync(folder)).toEqual(["bad"]);
    vi.unstubAllEnvs();
  });
});
