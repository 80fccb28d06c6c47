import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { examples } from "@startgap/cabinet";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findBrowser, printPdf } from "../../apps/cli/src/browser.ts";
import { perform } from "../command-line/stage.ts";
import { launch } from "./support/launch.ts";

const axeSource = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** A row of motors on one cable: its sketch is longer than a sheet. */
function manyMotors(count: number): string {
  const bench = JSON.parse(examples.find(({ key }) => key === "quarter-horse")!.text);
  const [supply, motor] = bench.parts;
  const motors = Array.from({ length: count }, (_, i) => ({ ...motor, name: `fan ${i + 1}`, fedBy: "row" }));
  const row = { name: "row", is: "cable", fedBy: supply.name, impedance: { r: "0.02 ohm", x: "0.02 ohm" } };
  return JSON.stringify({ ...bench, title: "A row of fans", parts: [supply, row, ...motors] });
}

/** The longest names that the file reader takes, in one piece and from right to left. */
function awkward(): string {
  const text = examples[0].text.replaceAll("compressor 1", "W".repeat(60));
  return text.replaceAll('"receptacles"', `"${"\u0645\u0642\u0628\u0633 ".repeat(11).trim()}"`);
}

async function reportOf(text: string, argv: readonly string[] = []): Promise<string> {
  const { written, err } = await perform(["report", "c.json", "-o", "r.html", ...argv], {
    files: { "c.json": text },
  });
  expect(err).toBe("");
  return written["r.html"];
}

/** CSS px in a millimetre, and the room between the margins of the page rules: 14 mm at the sides, 30 mm in height. */
const PX_PER_MM = 96 / 25.4;
const sheets = {
  A4: { width: (210 - 28) * PX_PER_MM, height: (297 - 30) * PX_PER_MM },
  Letter: { width: (215.9 - 28) * PX_PER_MM, height: (279.4 - 30) * PX_PER_MM },
};

interface Box {
  readonly what: string;
  readonly right: number;
  readonly height: number;
}

/** Figures and rows, which must not be cut, with what is wide enough to leave the sheet. */
const boxes = (page: Page): Promise<Box[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll("figure, figure svg, tr, table, .title-block, .caution-line, pre")].map(
      (one) => {
        const { right, height } = one.getBoundingClientRect();
        const tall = one.matches("table, pre") ? 0 : height;
        return { what: `${one.localName} ${one.textContent?.slice(0, 40)}`, right, height: tall };
      },
    ),
  );

describe("the report in a browser", () => {
  let browser: Browser;
  const pages = new Map<string, string>();
  beforeAll(async () => {
    browser = await launch();
    for (const { key, text } of examples) pages.set(key, await reportOf(text));
    pages.set("awkward", await reportOf(awkward()));
    pages.set("a row of 24", await reportOf(manyMotors(24), ["--longest", "1 s", "--step", "1 s"]));
  }, 300_000);
  afterAll(() => browser?.close());

  /** The report on a page of its own; anything that it complains of or asks for fails the test. */
  async function opened(
    key: string,
    options: BrowserContextOptions,
    look: (page: Page) => Promise<void>,
  ): Promise<void> {
    const context = await browser.newContext(options);
    const page = await context.newPage();
    const complaints: string[] = [];
    page.on("console", (message) => complaints.push(message.text()));
    page.on("pageerror", (error) => complaints.push(error.message));
    page.on("request", (request) => complaints.push(`request: ${request.url()}`));
    const url = "http://report.test/shed.html";
    await page.route(url, (route) => route.fulfill({ contentType: "text/html", body: pages.get(key) }));
    await page.goto(url);
    await look(page);
    await context.close();
    expect(complaints).toEqual([`request: ${url}`]);
  }

  const named = [...examples.map(({ key }) => key), "awkward", "a row of 24"];

  it.each(named)("%s: axe-core finds nothing", async (key) => {
    await opened(key, {}, async (page) => {
      await page.evaluate(axeSource);
      const found = (await page.evaluate("axe.run(document, { resultTypes: ['violations'] })")) as {
        violations: { id: string; nodes: { html: string; failureSummary: string }[] }[];
      };
      const lines = found.violations.flatMap(({ id, nodes }) =>
        nodes.map(({ html, failureSummary }) => `${id}: ${html.slice(0, 120)} ${failureSummary}`),
      );
      expect(lines).toEqual([]);
    });
  });

  it("reads the same where scripts are not allowed, and asks for nothing", async () => {
    await opened("ice-shed", { javaScriptEnabled: false }, async (page) => {
      await page.getByRole("heading", { name: "Test sheet" }).waitFor();
      expect(await page.getByRole("img").count()).toBe(await page.locator("figure").count());
      expect(await page.getByRole("table").count()).toBeGreaterThan(5);
    });
  });

  it("would let no script run and no picture in, should one ever get into it", async () => {
    const inject = '<script>document.title = "ran"</script><img src="http://report.test/x.png">';
    pages.set("injected", pages.get("quarter-horse")!.replace("</main>", `${inject}</main>`));
    const context = await browser.newContext();
    const page = await context.newPage();
    const asked: string[] = [];
    await page.route("**/*", (route) => {
      asked.push(route.request().url());
      return route.fulfill({ contentType: "text/html", body: pages.get("injected") });
    });
    await page.goto("http://report.test/");
    expect(await page.title()).not.toBe("ran");
    expect(asked).toEqual(["http://report.test/"]);
    await context.close();
  });

  for (const [paper, { width, height }] of Object.entries(sheets)) {
    it.each(named)(
      `%s: nothing leaves a sheet of ${paper}, and nothing that must stay whole is longer`,
      async (key) => {
        const viewport = { width: Math.floor(width), height: Math.floor(height) };
        await opened(key, { viewport }, async (page) => {
          await page.emulateMedia({ media: "print" });
          const all = await boxes(page);
          expect(all.length).toBeGreaterThan(50);
          expect(all.filter((box) => box.right > width + 0.5 || box.height > height)).toEqual([]);
          const scrolls = await page.evaluate(() => document.documentElement.scrollWidth);
          expect(scrolls).toBeLessThanOrEqual(Math.floor(width));
        });
      },
    );
  }

  it("keeps to a narrow screen: what is wider scrolls by itself, and by keyboard", async () => {
    await opened("awkward", { viewport: { width: 360, height: 700 } }, async (page) => {
      const overflow = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      expect(overflow).toBeLessThanOrEqual(0);
      const wide = page.locator(".scrolls").first();
      await wide.focus();
      await page.keyboard.press("ArrowRight");
      await expect.poll(() => wide.evaluate((one) => one.scrollLeft)).toBeGreaterThan(0);
    });
  });

  const own = findBrowser(process.env);
  it.skipIf("missing" in own)(
    "is printed by an installed browser on the paper that it asks for",
    async () => {
      const path = "path" in own ? own.path : "";
      const box = async (paper: string): Promise<number[]> => {
        const text = await reportOf(examples.find(({ key }) => key === "quarter-horse")!.text, [
          "--paper",
          paper,
        ]);
        const pdf = new TextDecoder("latin1").decode(await printPdf(path, text));
        return (/\/MediaBox\s*\[([^\]]*)\]/.exec(pdf)?.[1] ?? "").trim().split(/\s+/).map(Number);
      };
      expect(await box("letter")).toEqual([0, 0, 612, 792]);
      const [, , width, height] = await box("a4");
      expect(Math.abs(width - (210 / 25.4) * 72)).toBeLessThan(1);
      expect(Math.abs(height - (297 / 25.4) * 72)).toBeLessThan(1);
    },
  );
});
