import { examples, parseCabinet, writeCabinet } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { cabinetInReport, reportHtml } from "../src/index.ts";
import { commandOf } from "../src/report/source.ts";
import { cabinetOf, exampleText, inputOf, parsed, sha256 } from "./reports.ts";

const hostile = (): string => {
  const file = JSON.parse(exampleText("quarter-horse"));
  file.title = '</pre><pre id="cabinet-file">{}</pre> &lt; &#60; &amp;amp; "\u05d0\u05d1" \u2028 \u{1f44d}';
  file.notes = "line\r\nline\ttab & \u00a0 hard blank";
  return JSON.stringify(file);
};

describe("the cabinet in a report", () => {
  for (const { key, text } of [...examples, { key: "hostile", text: hostile() }]) {
    it(`${key}: comes out to the last character, with the digest that is printed (round trip)`, () => {
      const cabinet = cabinetOf(text);
      const report = reportHtml(inputOf(cabinet));
      const held = cabinetInReport(report) ?? "";
      expect(held).toBe(writeCabinet(cabinet.file));
      expect(parseCabinet(held)).toMatchObject({ cabinet: { file: cabinet.file } });
      const printed = [...parsed(report).querySelectorAll("#source code")].at(-1)?.textContent;
      expect(printed).toBe(sha256(held));
    });
  }

  it("comes out of a page that a browser saved, or that was sent with other line ends", () => {
    const cabinet = cabinetOf(hostile());
    const report = reportHtml(inputOf(cabinet));
    const saved = `<!DOCTYPE html>\n${parsed(report).documentElement.outerHTML}`;
    expect(saved).toContain("&nbsp;");
    for (const text of [saved, report.replaceAll("\n", "\r\n"), saved.replaceAll("&lt;", "&#x3C;")])
      expect(cabinetInReport(text)).toBe(writeCabinet(cabinet.file));
  });

  it("is null for anything else", () => {
    for (const text of ["", "{}", exampleText("ice-shed"), "<pre>{}</pre>", '<pre id="cabinet-file">'])
      expect(cabinetInReport(text)).toBeNull();
  });
});

describe("the command that makes it again", () => {
  it("has the settings that were given and no others", () => {
    expect(commandOf({ fileName: "shed.cabinet.json", options: {} })).toBe(
      "startgap report shed.cabinet.json -o report.html",
    );
    const options = { delay_s: 4, duration_s: 0.5, tolerance: 1e-8, longestDelay_s: 20, delayStep_s: 0.25 };
    expect(commandOf({ fileName: "a.json", options, paper: "a4" })).toBe(
      "startgap report a.json --delay '4 s' --duration '0.5 s' --tolerance 1e-8 --longest '20 s' --step '0.25 s' " +
        "--paper a4 -o report.html",
    );
  });

  it("quotes a name that a shell would take apart, and shields one that looks like an option", () => {
    const of = (fileName: string): string => commandOf({ fileName, options: {} });
    expect(of("Bob's shed; rm x.json")).toContain(` 'Bob'\\''s shed; rm x.json' `);
    expect(of("--delay")).toContain(" ./--delay ");
    expect(of("$(id).json")).toContain(" '$(id).json' ");
  });
});
