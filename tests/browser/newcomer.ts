import { parseCabinet } from "@startgap/cabinet";
import { delayMap, isFailure } from "@startgap/study";
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import type { Bench } from "./support/bench.ts";
import { fileText } from "./support/page.ts";

/** What the study itself recommends for the cabinet on the page, as the page would write it. */
async function recommended(page: Page): Promise<string> {
  const read = parseCabinet(await fileText(page));
  const map = "cabinet" in read ? delayMap(read.cabinet) : null;
  if (map === null || isFailure(map) || map.advice.recommended_s === null) throw new Error("no advice");
  return `${map.advice.recommended_s} s`;
}

/** Somebody who sees the page for the first time: knows nothing but the words on it, and counts what was done. */
function newcomer(page: Page) {
  let steps = 0;
  const step = async (done: Promise<unknown>): Promise<void> => {
    steps += 1;
    await done;
  };
  return {
    steps: () => steps,
    press: (name: string | RegExp) => step(page.getByRole("button", { name }).first().click()),
    openTab: (name: RegExp) => step(page.getByRole("tab", { name }).click()),
    open: (name: string) =>
      step(
        page.getByRole("tabpanel").getByText(name, { exact: true }).locator("visible=true").first().click(),
      ),
    type: (label: string, words: string) =>
      step(page.getByLabel(label, { exact: true }).locator("visible=true").first().fill(words)),
  };
}

const headline = (page: Page) => page.getByText(/^Hold the second motor back /);
const held = (page: Page) => page.getByLabel("Second start held back by");

export function newcomerTests(bench: Bench): void {
  it("reaches the recommended delay of the first example, and of a copy of their own, within a minute", async () => {
    const began = Date.now();
    const { page, done } = await bench.open();
    const me = newcomer(page);
    await headline(page).waitFor();
    const first = await recommended(page);
    expect(await headline(page).textContent()).toBe(`Hold the second motor back ${first}`);
    await me.press(`Use ${first}`);
    await page.getByRole("status").getByText(`At ${first}: `).waitFor();
    expect(`${await held(page).inputValue()} s`).toBe(first);
    expect(me.steps()).toBe(1);

    await me.openTab(/^Cabinet/);
    await me.open("compressor 1");
    await me.type("inertia", "0.1 kg m2");
    await expect.poll(() => headline(page).textContent()).not.toBe(`Hold the second motor back ${first}`);
    const own = await recommended(page);
    await expect.poll(() => headline(page).textContent()).toBe(`Hold the second motor back ${own}`);
    await me.press(`Use ${own}`);
    await page.getByRole("status").getByText(`At ${own}: `).waitFor();
    expect(`${await held(page).inputValue()} s`).toBe(own);
    expect(own).not.toBe(first);
    expect(me.steps()).toBe(5);
    expect(Date.now() - began).toBeLessThan(60_000);
    await done();
  });
}
