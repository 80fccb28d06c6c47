import { expect, it } from "vitest";
import type { Bench } from "./support/bench.ts";
import { keepPicture } from "./support/page.ts";

export function printTests(bench: Bench): void {
  it("paper has the figures, the findings of every case and the cautions, and nothing to press", async () => {
    const { page, done } = await bench.open({ colorScheme: "dark" });
    await page.getByText("Hold the second motor back").waitFor();
    await page.emulateMedia({ media: "print", colorScheme: "dark" });
    for (const id of ["story", "delays", "volts", "fuse", "motor", "sketch"])
      await page.locator(`#${id} svg`).waitFor();
    expect(await page.locator(".cautions").isVisible()).toBe(true);
    expect(await page.locator("#assumed").isVisible()).toBe(true);
    for (const group of ["staggered", "together", "one"])
      expect(await page.locator(`#findings .${group} .finding`).first().isVisible(), group).toBe(true);
    for (const gone of [".toolbar", ".tabs", "#cabinet", ".player", "#file"])
      expect(await page.locator(gone).first().isVisible(), gone).toBe(false);
    const paper = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    expect(paper).toBe("rgb(255, 255, 255)");
    await keepPicture(page, "print");
    await page.emulateMedia({ media: "screen" });
    await expect.poll(() => page.locator("#findings .one .finding").first().isVisible()).toBe(false);
    await done();
  });

  it("makes a document of a few pages", async () => {
    const { page, done } = await bench.open();
    const pdf = (await page.pdf({ format: "A4" })).toString("latin1");
    const pages = pdf.match(/\/Type\s*\/Page\b/g)?.length ?? 0;
    expect(pages).toBeGreaterThan(1);
    expect(pages).toBeLessThan(12);
    await done();
  });
}
