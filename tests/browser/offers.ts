import { readFile } from "node:fs/promises";
import { examples } from "@startgap/cabinet";
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { perform } from "../command-line/stage.ts";
import type { Bench } from "./support/bench.ts";
import { chooseExample, fileText, isCurrent, openTab } from "./support/page.ts";

/** The day on which the command's stage is set. */
const DAY = new Date("2026-03-04T12:00:00");

async function saved(page: Page, button: string): Promise<{ name: string; text: string; path: string }> {
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: button, exact: true }).click(),
  ]);
  const path = (await download.path())!;
  return { name: download.suggestedFilename(), text: await readFile(path, "utf8"), path };
}

/** What the command writes for the same cabinet file. */
async function commanded(name: string, text: string, argv: readonly string[] = []) {
  const told = await perform(["report", name, "-o", "r.html", "--traces", "c.csv", ...argv], {
    files: { [name]: text },
  });
  expect(told.err).toBe("");
  return { report: told.written["r.html"], table: told.written["c.csv"] };
}

/** A text as its words, and its numbers apart. */
const taken = (text: string): { words: string; numbers: number[] } => {
  const number = /-?\d+(?:\.\d+)?(?:e-\d{1,2})?/g;
  return {
    words: text.replace(number, "#"),
    numbers: [...text.matchAll(number)].map(([one]) => Number(one)),
  };
};

/**
 * The same words in the same places, and every number within the last digit that is written: two engines need not
 * agree on the last bit of an exponential.
 */
function same(got: string, expected: string, least: number): void {
  const [one, other] = [taken(got), taken(expected)];
  expect(one.words === other.words, "words").toBe(true);
  expect(expected.length).toBeGreaterThan(3000);
  const off = one.numbers.map(
    (value, i) => Math.abs(value - other.numbers[i]) / (least + 1e-5 * Math.abs(value)),
  );
  expect(off.reduce((a, b) => Math.max(a, b), 0)).toBeLessThanOrEqual(1);
}

const cabinetName = (name: string): string => name.replace(/\.(report\.html|curves\.csv)$/, ".cabinet.json");

export function offerTests(bench: Bench): void {
  for (const { key, title } of examples) {
    it(`${key}: report and table are the command's own, word for word (independent: another engine)`, async () => {
      const { page, done } = await bench.open();
      await page.clock.setFixedTime(DAY);
      if (title !== examples[0].title) {
        await chooseExample(page, title);
        await expect.poll(() => page.locator(".title").textContent()).toBe(title);
        await isCurrent(page);
      }
      const [report, table] = [await saved(page, "Report"), await saved(page, "Curves")];
      const expected = await commanded(cabinetName(report.name), await fileText(page));
      same(report.text, expected.report, 0.02);
      same(table.text, expected.table, 1e-5);
      await done();
    });
  }

  it("a delay that is only tried is in the report as the command's own option, one that was set as the file's", async () => {
    const { page, done } = await bench.open();
    await page.clock.setFixedTime(DAY);
    await page.locator("#delay").fill("0");
    await expect.poll(() => page.locator("#findings .staggered summary").textContent()).toContain("0 s");
    await isCurrent(page);
    const tried = await saved(page, "Report");
    const name = cabinetName(tried.name);
    same(tried.text, (await commanded(name, await fileText(page), ["--delay", "0 s"])).report, 0.02);
    await page.locator("#delay").fill("2.5");
    await expect.poll(() => fileText(page)).toContain('"2.5 s +- 10 %"');
    await isCurrent(page);
    const set = await saved(page, "Report");
    same(set.text, (await commanded(name, await fileText(page))).report, 0.02);
    await done();
  });

  it("opens from disk with the network off, complete, and opens in the page again as its cabinet", async () => {
    const { page, done } = await bench.open();
    const { text, path } = await saved(page, "Report");
    const context = await bench.browser.newContext({ offline: true });
    const paper = await context.newPage();
    const complaints: string[] = [];
    paper.on("console", (message) => complaints.push(message.text()));
    paper.on("request", (request) => complaints.push(request.url()));
    await paper.goto(`file://${path}`);
    await paper.setContent(text);
    expect(await paper.locator("figure svg").count()).toBeGreaterThan(4);
    expect(await paper.getByRole("heading", { name: "Test sheet" }).count()).toBe(1);
    await context.close();
    expect(complaints.filter((one) => !one.startsWith("file:"))).toEqual([]);
    const before = await fileText(page);
    await openTab(page, /^File/);
    await page.locator("#file-text").fill(before.replace('"title": "Ice', '"title": "Other'));
    await expect.poll(() => page.locator(".title").textContent()).toMatch(/^Other shed/);
    await page
      .locator("[data-open]")
      .setInputFiles({ name: "shed.report.html", mimeType: "text/html", buffer: Buffer.from(text) });
    await expect.poll(() => page.locator(".title").textContent()).toMatch(/^Ice shed/);
    expect(JSON.parse(await fileText(page))).toEqual(JSON.parse(before));
    await done();
  });

  it("says so where the cabinet cannot be run, and makes nothing", async () => {
    const { page, done } = await bench.open();
    await openTab(page, /^File/);
    await page.locator("#file-text").fill("no cabinet");
    await page.locator(".issues li").first().waitFor();
    await page.getByRole("button", { name: "Report", exact: true }).click();
    await expect.poll(() => page.locator(".notice").textContent()).toContain("once the cabinet can be run");
    await done();
  });
}
