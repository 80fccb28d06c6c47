import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import type { Bench } from "./support/bench.ts";
import { fileText, handle, isCurrent } from "./support/page.ts";

/** Name of the element that has the focus, as a screen reader would begin. */
const focused = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const at = document.activeElement as HTMLElement;
    const label = (at as HTMLInputElement).labels?.[0]?.textContent;
    return at.getAttribute("aria-label") ?? label ?? at.textContent?.trim().slice(0, 40) ?? "";
  });

/** Presses Tab until something of that name has the focus. */
async function tabTo(page: Page, name: RegExp, most = 60): Promise<void> {
  for (let i = 0; i < most; i++) {
    await page.keyboard.press("Tab");
    if (name.test(await focused(page))) return;
  }
  throw new Error(`nothing called ${name} within ${most} steps`);
}

export function keyboardTests(bench: Bench): void {
  it("a walk by keys alone: to the figures, the handle, the reading line, a tab, a part, a figure, undo, the client", async () => {
    const { page, done } = await bench.open();
    await page.keyboard.press("Tab");
    expect(await focused(page)).toBe("Skip to the figures");
    await page.keyboard.press("Enter");
    await tabTo(page, /^Second start on the time axis$/);
    await page.keyboard.press("Shift+ArrowLeft");
    await expect.poll(() => handle(page).getAttribute("aria-valuetext")).toBe("5 s");
    await tabTo(page, /^Read the curves at$/);
    await page.keyboard.press("End");
    await expect.poll(() => page.locator(".reading output").textContent()).toBe("15.00 s");
    await tabTo(page, /^Findings/);
    await page.keyboard.press("ArrowRight");
    expect(await focused(page)).toMatch(/^Cabinet/);
    await tabTo(page, /^panel/);
    await tabTo(page, /^feeder/);
    await page.keyboard.press("Enter");
    await tabTo(page, /^length$/);
    await page.keyboard.press("Control+a");
    await page.keyboard.type("12 m");
    await isCurrent(page);
    await expect.poll(() => fileText(page)).toContain('"length": "12 m"');
    await page.keyboard.press("Control+z");
    await expect.poll(() => fileText(page)).not.toContain("12 m");
    await page.evaluate(() => (document.activeElement as HTMLElement).blur());
    await page.keyboard.press("Control+Home");
    await tabTo(page, /^Client view$/, 120);
    await page.keyboard.press("Space");
    await page.locator("#client-voltage svg").waitFor();
    await done();
  });

  it("the whole job by keys alone: an example, its delay, the map, a stretch of waves, the report", async () => {
    const { page, done } = await bench.open();
    await tabTo(page, /^Examples$/);
    await page.keyboard.press("Enter");
    await page.locator(".menu[open] button").first().waitFor();
    await tabTo(page, /pump/i, 6);
    await page.keyboard.press("Enter");
    await expect.poll(() => page.locator(".title").textContent()).not.toMatch(/^Ice shed/);
    await isCurrent(page);
    await page.getByText("Hold the second motor back").waitFor();
    await tabTo(page, /^Second start held back by/);
    await page.keyboard.press("ArrowUp");
    await tabTo(page, /^Use /);
    const set = /^Use (.*)$/.exec(await focused(page))![1];
    await page.keyboard.press("Enter");
    await expect.poll(() => handle(page).getAttribute("aria-valuetext")).toBe(set);
    await tabTo(page, /^Second start on the delay map$/);
    await page.keyboard.press("PageUp");
    await expect.poll(() => handle(page).getAttribute("aria-valuetext")).not.toBe(set);
    await tabTo(page, /^Second start$/);
    await page.keyboard.press("Enter");
    await page.locator("#wave svg").waitFor();
    await page.evaluate(() => (document.activeElement as HTMLElement).blur());
    await page.keyboard.press("Control+Home");
    await tabTo(page, /^Report$/, 90);
    const [download] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Enter")]);
    expect(download.suggestedFilename()).toMatch(/\.report\.html$/);
    await done();
  });

  it("what has the focus shows it, and nothing keeps it", async () => {
    const { page, done } = await bench.open();
    const seen: string[] = [];
    for (let i = 0; i < 40; i++) {
      await page.keyboard.press("Tab");
      // At once: between two questions the page may put another button in the place of the one that has the focus.
      const { isBody, outlined, html } = await page.evaluate(() => {
        const at = document.activeElement!;
        const outlined = getComputedStyle(at).outlineStyle !== "none";
        return { isBody: at === document.body, outlined, html: at.outerHTML.slice(0, 120) };
      });
      if (isBody) continue;
      seen.push(html);
      expect(outlined, html).toBe(true);
    }
    expect(new Set(seen).size).toBeGreaterThan(15);
    await done();
  });
}
