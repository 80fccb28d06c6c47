import { readFile } from "node:fs/promises";
import { examples } from "@startgap/cabinet";
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import type { Bench } from "./support/bench.ts";
import { chooseExample, fileText, findings, isCurrent, openTab } from "./support/page.ts";

const asFile = (name: string, text: string) => ({
  name,
  mimeType: "application/json",
  buffer: Buffer.from(text),
});

async function dropFile(page: Page, name: string, text: string): Promise<void> {
  const transfer = await page.evaluateHandle(
    ([file, content]) => {
      const data = new DataTransfer();
      data.items.add(new File([content], file, { type: "application/json" }));
      return data;
    },
    [name, text],
  );
  await page.dispatchEvent("body", "dragover", { dataTransfer: transfer });
  await page.dispatchEvent("body", "drop", { dataTransfer: transfer });
}

export function fileTests(bench: Bench): void {
  it("every example opens and is run; undo brings the cabinet before it back", async () => {
    const { page, done } = await bench.open();
    for (const { title, text } of examples.slice(1)) {
      await chooseExample(page, title);
      await expect.poll(() => page.locator(".title").textContent()).toBe(title);
      await isCurrent(page);
      expect(await fileText(page)).toBe(text);
    }
    expect(await page.locator("#findings").textContent()).toContain("First motor alone");
    await page.getByRole("button", { name: "Undo" }).click();
    await expect.poll(() => page.locator(".title").textContent()).toBe(examples.at(-2)!.title);
    await done();
  });

  it("a saved file comes back as it was", async () => {
    const { page, done } = await bench.open();
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save", exact: true }).click(),
    ]);
    expect(download.suggestedFilename()).toBe("ice-shed-two-refrigeration-compressors-a.cabinet.json");
    const saved = await readFile((await download.path())!, "utf8");
    expect(saved).toBe(examples[0].text);
    const changed = saved.replace('"title": "Ice shed', '"title": "Cold store');
    await page.locator("[data-open]").setInputFiles(asFile("mine.cabinet.json", changed));
    await expect.poll(() => page.locator(".title").textContent()).toMatch(/^Cold store/);
    expect(await fileText(page)).toBe(changed);
    await done();
  });

  it("a file dropped on the page opens; a bad one is told with its places and leaves the last figures", async () => {
    const { page, done } = await bench.open();
    await dropFile(page, "pumps.cabinet.json", examples[1].text);
    await expect.poll(() => page.locator(".title").textContent()).toBe(examples[1].title);
    const before = await findings(page);
    await dropFile(
      page,
      "bad.json",
      examples[1].text.replace('"900 A"', '"900 bananas"').replace('"85 m', '"85 mice'),
    );
    await page.locator(".issues").waitFor();
    expect(await page.locator(".issues li").count()).toBe(2);
    expect(await page.locator(".title").textContent()).toBe(examples[1].title);
    expect(await findings(page)).toBe(before);
    await dropFile(page, "notes.txt", "not a cabinet at all");
    await expect.poll(() => page.locator(".issues li").count()).toBe(1);
    await openTab(page, /^File/);
    expect(await fileText(page)).toBe("not a cabinet at all");
    await done();
  });

  it("a link carries the cabinet and the delay that was tried to another browser", async () => {
    const { page, done } = await bench.open();
    await page.locator("#delay").fill("0");
    await expect.poll(() => page.locator("#findings .staggered summary").textContent()).toContain("0 s");
    await page.getByRole("button", { name: "Share" }).click();
    const address = page.getByLabel("Link to this cabinet");
    await expect.poll(() => address.inputValue()).toContain("#cabinet=");
    const link = await address.inputValue();
    expect(link.length).toBeLessThan(4000);
    const other = await bench.open({ hash: new URL(link).hash });
    await expect
      .poll(() => other.page.locator("#findings .staggered summary").textContent())
      .toContain("0 s");
    expect(await fileText(other.page)).toBe(await fileText(page));
    expect(new URL(other.page.url()).hash).toBe("");
    await other.done();
    const damaged = await bench.open({ hash: "#cabinet=AAAA-broken" });
    expect(await damaged.page.locator(".notice").textContent()).toContain("damaged");
    await damaged.done();
    await done();
  });

  it("what was typed, right or wrong, is there again after the page was closed, with its undo", async () => {
    const { page, done } = await bench.open();
    await openTab(page, /^File/);
    const text = await fileText(page);
    const typed = text.replace(/"length": "[^"]*"/, '"length": "half a mile and then some"');
    expect(typed).not.toBe(text);
    await page.locator("#file-text").fill(typed);
    const again = await page.context().newPage();
    // Asked to run its last words, a page closes in its own time: closing returns before that.
    const closed = page.waitForEvent("close");
    await page.close({ runBeforeUnload: true });
    await closed;
    await again.goto(bench.site.url);
    await expect.poll(() => again.locator("#file-text").inputValue()).toBe(typed);
    await again.locator(".issues").waitFor();
    await again.getByRole("button", { name: "Undo" }).click();
    await again.locator("#story svg").waitFor();
    expect(await again.locator("#file-text").inputValue()).toBe(text);
    await again.getByText("Earlier work", { exact: true }).click();
    expect(await again.locator(".menu[open] li button").count()).toBeGreaterThan(0);
    await again.keyboard.press("Escape");
    expect(await again.locator(".menu[open]").count()).toBe(0);
    await done();
  });
}
