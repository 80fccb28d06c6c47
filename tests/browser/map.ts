import type { Locator, Page } from "playwright-core";
import { expect, it } from "vitest";
import type { Bench } from "./support/bench.ts";
import { fileText, findings, handle, isCurrent } from "./support/page.ts";

const mark = (page: Page): Locator =>
  page.locator("#delays").getByRole("slider", { name: "Second start on the delay map" });

/** From the middle of the mark to that of the plot's left edge: 0 s. */
async function markAt(page: Page): Promise<{ x: number; y: number; from: number }> {
  const stage = (await page.locator("#delays .stage").boundingBox())!;
  const box = (await mark(page).boundingBox())!;
  return { x: box.x + box.width / 2, y: box.y + box.height / 2, from: stage.x };
}

async function open(bench: Bench) {
  const { page, done } = await bench.open();
  await page.getByText("Hold the second motor back").waitFor();
  await page.locator("#delays").scrollIntoViewIfNeeded();
  await mark(page).waitFor();
  return { page, done };
}

export function mapTests(bench: Bench): void {
  it("marks the delay now set, wherever it was set", async () => {
    const { page, done } = await open(bench);
    expect(await mark(page).getAttribute("aria-valuetext")).toBe("6 s");
    const before = (await markAt(page)).x;
    await page.locator("#delay").fill("3");
    await expect.poll(() => mark(page).getAttribute("aria-valuetext")).toBe("3 s");
    expect((await markAt(page)).x).toBeLessThan(before - 50);
    await done();
  });

  it("a click sets the delay to what is under it, in the file as well", async () => {
    const { page, done } = await open(bench);
    const { x, y } = await markAt(page);
    await page.mouse.click(x - 100, y);
    await expect.poll(() => mark(page).getAttribute("aria-valuetext")).not.toBe("6 s");
    expect(Math.abs((await markAt(page)).x - (x - 100))).toBeLessThan(3);
    const set = (await mark(page).getAttribute("aria-valuetext"))!;
    await expect.poll(() => fileText(page)).toContain(`"${set} +- 10 %"`);
    expect(await handle(page).getAttribute("aria-valuetext")).toBe(set);
    await done();
  });

  it("is dragged and moved by keys like the handle on the time axis", async () => {
    const { page, done } = await open(bench);
    const before = await findings(page);
    const { x, y } = await markAt(page);
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x - 900, y, { steps: 5 });
    await expect.poll(() => mark(page).getAttribute("aria-valuenow")).toBe("0");
    await expect.poll(() => findings(page)).not.toBe(before);
    await page.mouse.up();
    await isCurrent(page);
    await mark(page).focus();
    await page.keyboard.press("Shift+ArrowRight");
    await page.keyboard.press("ArrowRight");
    await expect.poll(() => mark(page).getAttribute("aria-valuetext")).toBe("1.1 s");
    await done();
  });
}
