import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import type { Bench } from "./support/bench.ts";
import { keepPicture } from "./support/page.ts";

const words = async (page: Page): Promise<string> =>
  (await page.locator("#client-words").textContent()) ?? "";
const time = (page: Page) => page.getByLabel("Time after the first start");
const lamps = (page: Page): Promise<string[]> => page.locator(".lamp-words").allTextContents();

async function openClient(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Client view" }).click();
  await page.locator("#client-voltage svg").waitFor();
}

export function clientTests(bench: Bench): void {
  it("tells it in sentences with the builder's own names and without symbols, and says what a delay cannot do", async () => {
    const { page, done } = await bench.open();
    await openClient(page);
    const told = await words(page);
    for (const name of ["compressor 1", "compressor 2", "receptacles"]) expect(told).toContain(name);
    expect(told).toContain("No delay can do better than that");
    expect(told).not.toMatch(/[%Ω±]|\d V\b|\d A\b|\d s\b/);
    await keepPicture(page, "client-1280");
    await done();
  });

  it("the lamps follow the time, can be played and paused, and nothing moves by itself", async () => {
    const { page, done } = await bench.open();
    await openClient(page);
    expect(await time(page).inputValue()).toBe("0");
    await time(page).fill("6.1");
    const dip = await lamps(page);
    await time(page).fill("5");
    const calm = await lamps(page);
    expect(Number.parseInt(dip[1], 10)).toBeLessThan(Number.parseInt(calm[1], 10) - 10);
    expect(calm[1]).toMatch(/^9\d % of its light$/);
    await page.getByRole("button", { name: "Play" }).click();
    await expect.poll(async () => Number(await time(page).inputValue())).toBeGreaterThan(5.2);
    await page.getByRole("button", { name: "Pause" }).click();
    const paused = await time(page).inputValue();
    await page.waitForTimeout(120);
    expect(await time(page).inputValue()).toBe(paused);
    await done();
  });

  it("the delay is set here as well, and the words follow", async () => {
    const { page, done } = await bench.open();
    await openClient(page);
    const before = await words(page);
    await page.locator(".client .handle").focus();
    for (let i = 0; i < 6; i++) await page.keyboard.press("Shift+ArrowLeft");
    await expect.poll(() => words(page)).not.toBe(before);
    await expect.poll(() => words(page)).toContain("With no delay set");
    await done();
  });

  it("where less motion is asked for, time moves by the slider alone", async () => {
    const { page, done } = await bench.open({ reducedMotion: "reduce" });
    await openClient(page);
    expect(await page.getByRole("button", { name: "Play" }).count()).toBe(0);
    expect(await time(page).isVisible()).toBe(true);
    await done();
  });
}
