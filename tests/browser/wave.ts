import type { Locator, Page } from "playwright-core";
import { expect, it } from "vitest";
import type { Bench } from "./support/bench.ts";
import { handle, keepPicture } from "./support/page.ts";

const card = (page: Page): Locator => page.locator("#wave");
const press = (page: Page, name: string): Promise<void> =>
  card(page).getByRole("button", { name, exact: true }).click();
/** Of the figure, which is drawn while it is in sight. */
async function title(page: Page): Promise<string> {
  await card(page).scrollIntoViewIfNeeded();
  return (await card(page).locator("svg > title").textContent()) ?? "";
}
const fields = (page: Page): Promise<string[]> =>
  Promise.all(["From, s", "To, s"].map((name) => card(page).getByLabel(name).inputValue()));

export function waveTests(bench: Bench): void {
  it("follows a stretch about either start, of any case and part, and follows the delay", async () => {
    const { page, done } = await bench.open();
    await card(page).scrollIntoViewIfNeeded();
    await expect.poll(() => card(page).textContent()).toContain("Choose a stretch");
    await press(page, "First start");
    await card(page).locator("svg").waitFor();
    expect(await title(page)).toBe("Voltage and current of panel as waves, 0 to 0.3 s");
    await press(page, "Second start");
    await expect.poll(() => title(page)).toBe("Voltage and current of panel as waves, 6 to 6.3 s");
    expect(await fields(page)).toEqual(["6", "6.3"]);
    await card(page).getByLabel("Part").selectOption("compressor 2");
    await expect.poll(() => title(page)).toContain("of compressor 2 as waves, 6 to");
    await handle(page).focus();
    await page.keyboard.press("Shift+ArrowLeft");
    await expect.poll(() => title(page)).toContain("of compressor 2 as waves, 5 to 5.3 s");
    await card(page).getByLabel("Case").selectOption("All at once");
    await press(page, "First start");
    await expect.poll(() => title(page)).toContain("0 to 0.3 s");
    await keepPicture(page, "wave-1280");
    await done();
  });

  it("takes a window of one's own, and says what is wrong with one", async () => {
    const { page, done } = await bench.open();
    await card(page).getByLabel("From, s").fill("2");
    await card(page).getByLabel("To, s").fill("1");
    await press(page, "Show");
    await expect.poll(() => card(page).getByRole("status").textContent()).toContain("ends after it begins");
    await card(page).getByLabel("To, s").fill("2.1");
    await page.keyboard.press("Enter");
    await expect.poll(() => title(page).catch(() => "")).toContain("2 to 2.1 s");
    expect(await card(page).getByRole("status").textContent()).toBe("");
    await card(page).getByLabel("From, s").fill("0");
    await card(page).getByLabel("To, s").fill("599");
    await press(page, "Show");
    await expect.poll(() => card(page).getByRole("status").textContent()).toContain("at most");
    await done();
  });

  it("long work is told of, can be stopped, and makes room for the next", async () => {
    const { page, done } = await bench.open();
    await card(page).getByLabel("From, s").fill("590");
    await card(page).getByLabel("To, s").fill("590.2");
    await press(page, "Show");
    await card(page).getByRole("progressbar").waitFor();
    await press(page, "Stop");
    await expect.poll(() => card(page).getByRole("progressbar").isVisible()).toBe(false);
    await press(page, "Show");
    await card(page).getByRole("progressbar").waitFor();
    await press(page, "First start");
    await expect.poll(() => title(page).catch(() => "")).toContain("0 to 0.3 s");
    expect(await card(page).getByRole("progressbar").isVisible()).toBe(false);
    await done();
  });
}
