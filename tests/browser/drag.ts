import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import type { Bench } from "./support/bench.ts";

const handle = (page: Page) => page.getByRole("slider", { name: "Second start held back by" });

const runUp = async (page: Page): Promise<string> =>
  (await page.locator("#findings .staggered .finding-list").textContent()) ?? "";

/** Takes hold of the second start and lets it go so many pixels further. */
async function dragBy(page: Page, dx: number): Promise<void> {
  const box = (await handle(page).boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + dx / 2, y, { steps: 5 });
  await page.mouse.move(x + dx, y, { steps: 5 });
}

export function dragTests(bench: Bench): void {
  it("dragging the second start to the first one changes what the findings say, already during the drag", async () => {
    const { page, done } = await bench.open();
    const before = await runUp(page);
    expect(await handle(page).getAttribute("aria-valuetext")).toBe("6 s");
    await dragBy(page, -2000);
    await expect.poll(() => handle(page).getAttribute("aria-valuenow")).toBe("0");
    await expect.poll(() => runUp(page)).not.toBe(before);
    const together = await page.locator("#findings .together .finding-list").textContent();
    await expect.poll(() => runUp(page)).toBe(together);
    await page.mouse.up();
    await done();
  });

  it("arrow keys move the second start by a tenth, with Shift by a whole second", async () => {
    const { page, done } = await bench.open();
    await handle(page).focus();
    await page.keyboard.press("ArrowRight");
    await expect.poll(() => handle(page).getAttribute("aria-valuetext")).toBe("6.1 s");
    await page.keyboard.press("Shift+ArrowLeft");
    await expect.poll(() => handle(page).getAttribute("aria-valuetext")).toBe("5.1 s");
    await done();
  });
}
