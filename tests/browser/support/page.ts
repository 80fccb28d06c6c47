import { mkdir } from "node:fs/promises";
import type { Locator, Page } from "playwright-core";
import { expect } from "vitest";

export const handle = (page: Page): Locator =>
  page.locator("#story").getByRole("slider", { name: "Second start on the time axis" });

/** The findings of the held-back case, as one text. */
export const findings = async (page: Page): Promise<string> =>
  (await page.locator("#findings .staggered .finding-list").textContent()) ?? "";

export const openTab = (page: Page, name: RegExp): Promise<void> => page.getByRole("tab", { name }).click();

/** Chooses one of the page's own examples. */
export async function chooseExample(page: Page, title: string): Promise<void> {
  await page.getByText("Examples", { exact: true }).click();
  await page.getByRole("button", { name: title, exact: true }).click();
}

/** Opens a part's figures. */
export async function openPart(page: Page, name: string): Promise<Locator> {
  await openTab(page, /^Cabinet/);
  const part = page
    .locator("#cabinet .part", { has: page.locator(`summary:has-text(${JSON.stringify(name)})`) })
    .first();
  await part.locator("summary").click();
  return part;
}

/** The cabinet file as it stands on the page. */
export const fileText = (page: Page): Promise<string> => page.locator("#file-text").inputValue();

/** Waits until the figures belong to what stands in the fields. */
export async function isCurrent(page: Page): Promise<void> {
  await nextFrames(page);
  await expect.poll(() => page.locator("#story.is-stale").count()).toBe(0);
}

/** Nothing sticks out to the right of the window. */
export async function fitsWidth(page: Page): Promise<void> {
  const [wide, there] = await page.evaluate(() => [
    document.documentElement.scrollWidth,
    document.documentElement.clientWidth,
  ]);
  expect(wide, "width of the page").toBeLessThanOrEqual(there);
}

const folder = new URL("../screenshots/", import.meta.url).pathname;

/** Kept for people to look at; nothing compares them. */
export async function keepPicture(page: Page, name: string): Promise<void> {
  await mkdir(folder, { recursive: true });
  await showAll(page);
  await page.screenshot({ path: `${folder}${name}.png`, fullPage: true });
}

/** Scrolls through the page once, so that figures which wait until they are in sight are drawn. */
export async function showAll(page: Page): Promise<void> {
  const height = await page.evaluate(() => document.documentElement.scrollHeight);
  const step = page.viewportSize()!.height;
  for (let y = 0; y < height; y += step)
    await page.evaluate((to) => scrollTo(0, to), y).then(() => nextFrames(page));
  await page.evaluate(() => scrollTo(0, 0));
}

const nextFrames = (page: Page): Promise<unknown> =>
  page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
