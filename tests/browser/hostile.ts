import { examples } from "@startgap/cabinet";
import { expect, it } from "vitest";
import type { Bench } from "./support/bench.ts";
import { fitsWidth, isCurrent, keepPicture, openTab, showAll } from "./support/page.ts";

const markup = "<img src=x onerror=alert(1)><script>alert(2)</script>";
const rightToLeft = "مضخة التبريد 2";
const long = `${"W".repeat(52)} compr.`;

/** The first example with its names replaced, wherever they stand. */
function renamed(names: Readonly<Record<string, string>>): string {
  return Object.entries(names).reduce(
    (text, [from, to]) => text.replaceAll(JSON.stringify(from), JSON.stringify(to)),
    examples[0].text,
  );
}

export function hostileTests(bench: Bench): void {
  it("names that are markup, very long or of another script stay names, on every part of the page", async () => {
    const { page, done } = await bench.open({ viewport: { width: 360, height: 800 } });
    const dialogs: string[] = [];
    page.on("dialog", (dialog) => dialogs.push(dialog.message()));
    const text = renamed({ receptacles: markup, "compressor 1": rightToLeft, "compressor 2": long }).replace(
      /"title": ".*"/,
      `"title": ${JSON.stringify(`</title>${markup} ${"L".repeat(120)}`)}`,
    );
    await openTab(page, /^File/);
    await page.locator("#file-text").fill(text);
    await expect.poll(() => page.locator(".title").textContent()).toContain(markup);
    await isCurrent(page);
    await showAll(page);
    await fitsWidth(page);
    for (const tab of [/^Findings/, /^Cabinet/, /^Assumed/]) {
      await openTab(page, tab);
      await fitsWidth(page);
    }
    await openTab(page, /^Findings/);
    expect(await page.locator("#findings").textContent()).toContain(markup);
    expect(await page.locator("#findings").textContent()).toContain(rightToLeft);
    await keepPicture(page, "hostile-names-360");
    await page.getByRole("button", { name: "Client view" }).click();
    await expect.poll(() => page.locator("#client-words").textContent()).toContain(markup);
    await fitsWidth(page);
    expect(await page.locator("img, body script").count()).toBe(0);
    expect(dialogs).toEqual([]);
    await done();
  });

  it("a file that is nested without end, or is no cabinet at all, is told and harms nothing", async () => {
    const { page, done } = await bench.open();
    await openTab(page, /^File/);
    const deep = `{"startgap":1,"title":"deep","parts":[{"name":"a","is":"supply","note":${"[".repeat(3000)}${"]".repeat(3000)}}]}`;
    for (const text of [
      deep,
      "[]",
      "null",
      '{"parts":{"0":1}}',
      '{"__proto__":{"parts":[1]}}',
      "\u0000",
      "{",
    ]) {
      await page.locator("#file-text").fill(text);
      await page.locator(".issues li").first().waitFor();
      await openTab(page, /^Cabinet/);
      const card = page.locator("#cabinet .part summary").first();
      if (await card.isVisible()) await card.click();
      await openTab(page, /^File/);
    }
    await page.locator("#file-text").fill(examples[0].text);
    await page.locator(".issues").waitFor({ state: "hidden" });
    await done();
  });

  it("a cabinet with two hundred parts opens and can still be edited", async () => {
    const { page, done } = await bench.open();
    const file = JSON.parse(examples[0].text) as { parts: unknown[] };
    while (file.parts.length < 200)
      file.parts.push({ name: `lamp ${file.parts.length}`, is: "load", fedBy: "feeder", power: "1 W" });
    await openTab(page, /^File/);
    await page.locator("#file-text").fill(JSON.stringify(file));
    await expect
      .poll(() => page.locator("#findings").textContent(), { timeout: 15_000 })
      .toContain("lamp 199");
    await openTab(page, /^Cabinet/);
    expect(await page.locator("#cabinet .part").count()).toBe(200);
    await done();
  });
}
