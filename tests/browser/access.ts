import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import type { Bench } from "./support/bench.ts";
import { openPart, openTab, showAll } from "./support/page.ts";

const axeSource = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

interface AxeResult {
  readonly violations: readonly {
    readonly id: string;
    readonly impact: string;
    readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
  }[];
}

/** What the rules of axe-core find, of any weight, in a line each; `rules` when only some matter. */
async function violations(page: Page, rules?: readonly string[]): Promise<string[]> {
  if (!(await page.evaluate("'axe' in window"))) await page.evaluate(axeSource);
  const options = { resultTypes: ["violations"], ...(rules === undefined ? {} : { runOnly: rules }) };
  const result = (await page.evaluate(`axe.run(document, ${JSON.stringify(options)})`)) as AxeResult;
  return result.violations.flatMap(({ id, impact, nodes }) =>
    nodes.map((node) => `${impact} ${id}: ${node.html.slice(0, 140)} ${node.failureSummary.slice(0, 200)}`),
  );
}

/** Opens a part with a wrong figure in it, so that everything that can be said of a field is said. */
async function spoil(page: Page): Promise<void> {
  const part = await openPart(page, "compressor 1");
  await part.getByLabel("power", { exact: true }).fill("plenty");
  await page.locator(".issues li").first().waitFor();
}

async function openClient(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Client view" }).click();
  await page.locator("#client-voltage svg").waitFor();
  await showAll(page);
}

export function accessTests(bench: Bench): void {
  it("axe-core finds nothing on any part of the page", async () => {
    const { page, done } = await bench.open();
    await page.locator("#wave").getByRole("button", { name: "First start" }).click();
    await page.locator("#wave svg").waitFor();
    await showAll(page);
    expect(await violations(page), "findings").toEqual([]);
    await page.getByText("Examples", { exact: true }).click();
    expect(await violations(page), "a menu").toEqual([]);
    await page.keyboard.press("Escape");
    await spoil(page);
    expect(await violations(page), "cabinet").toEqual([]);
    await page.getByRole("button", { name: "Undo" }).click();
    for (const tab of [/^Assumed/, /^File/]) {
      await openTab(page, tab);
      expect(await violations(page), String(tab)).toEqual([]);
    }
    await openClient(page);
    expect(await violations(page), "client").toEqual([]);
    await done();
  });

  it("words can be read on dark paper as well", async () => {
    const { page, done } = await bench.open({ colorScheme: "dark" });
    await showAll(page);
    await spoil(page);
    expect(await violations(page, ["color-contrast"]), "builder").toEqual([]);
    await openClient(page);
    expect(await violations(page, ["color-contrast"]), "client").toEqual([]);
    await done();
  });
}
