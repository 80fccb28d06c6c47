import { expect, it } from "vitest";
import type { Bench } from "./support/bench.ts";
import { fitsWidth, handle, keepPicture, openPart, openTab, showAll } from "./support/page.ts";

export function narrowTests(bench: Bench): void {
  it("everything fits a window of 360 pixels, in every tab and view", async () => {
    const { page, done } = await bench.open({ viewport: { width: 360, height: 740 } });
    await showAll(page);
    await fitsWidth(page);
    for (const menu of ["Examples", "Earlier work"]) {
      await page.getByText(menu, { exact: true }).click();
      await page.locator(".menu[open] .menu-lines").waitFor();
      await fitsWidth(page);
      await page.keyboard.press("Escape");
    }
    await openPart(page, "compressor 1");
    await fitsWidth(page);
    await keepPicture(page, "cabinet-360");
    for (const tab of [/^Assumed/, /^File/, /^Findings/]) {
      await openTab(page, tab);
      await fitsWidth(page);
    }
    const grip = (await handle(page).boundingBox())!;
    expect(grip.width).toBeGreaterThanOrEqual(44);
    await page.getByRole("button", { name: "Client view" }).click();
    await page.locator("#client-voltage svg").waitFor();
    await fitsWidth(page);
    await keepPicture(page, "client-360");
    await done();
  });

  it("figures take the room there is when the window changes", async () => {
    const { page, done } = await bench.open({ viewport: { width: 1400, height: 900 } });
    const width = () => page.locator("#story svg").getAttribute("width").then(Number);
    expect(await width()).toBeGreaterThan(700);
    await page.setViewportSize({ width: 500, height: 900 });
    await expect.poll(width).toBeLessThan(500);
    await done();
  });

  it("a window narrower than any figure stops nothing", async () => {
    const { page, done } = await bench.open({ viewport: { width: 700, height: 900 } });
    const width = () => page.locator("#story svg").getAttribute("width").then(Number);
    await page.setViewportSize({ width: 90, height: 900 });
    await expect.poll(width).toBe(280);
    await page.getByRole("button", { name: "Client view" }).click({ force: true });
    await page.locator("#client-voltage svg").waitFor();
    expect(await page.locator("#client-voltage svg").getAttribute("width").then(Number)).toBe(280);
    await done();
  });
}
