import { issueText, parseCabinet } from "@startgap/cabinet";
import { expect, it } from "vitest";
import type { Bench } from "./support/bench.ts";
import { fileText, findings, isCurrent, keepPicture, openPart, openTab } from "./support/page.ts";

export function editTests(bench: Bench): void {
  it("a wrong figure is refused in the reader's own words beside its field, and the last figures stay, marked", async () => {
    const { page, done } = await bench.open();
    const part = await openPart(page, "feeder");
    const length = part.getByLabel("length", { exact: true });
    const before = await findings(page);
    await length.fill("-3 furlongs");
    const field = part.locator(".field.is-wrong");
    await field.waitFor();
    const read = parseCabinet(await fileText(page));
    const [issue] = "issues" in read ? read.issues : [];
    expect(await field.locator(".wrong").textContent()).toBe(issueText({ ...issue, path: "" }));
    expect(await length.getAttribute("aria-invalid")).toBe("true");
    expect(await page.locator(".issues").textContent()).toContain(issueText(issue));
    expect(await page.locator("#story.is-stale").count()).toBe(1);
    expect(await findings(page)).toBe(before);
    await keepPicture(page, "edit-with-an-error");
    await length.fill("20 ft");
    await isCurrent(page);
    expect(await page.locator(".issues").isVisible()).toBe(false);
    await expect.poll(() => findings(page)).not.toBe(before);
    await done();
  });

  it("undo brings back what a field held, in one step for what was typed in one go", async () => {
    const { page, done } = await bench.open();
    const part = await openPart(page, "feeder");
    const length = part.getByLabel("length", { exact: true });
    const first = await length.inputValue();
    await length.fill("");
    await length.pressSequentially("30 m");
    await page.keyboard.press("Tab");
    await page.keyboard.press("Control+z");
    await expect.poll(() => length.inputValue()).toBe(first);
    await page.keyboard.press("Control+y");
    await expect.poll(() => length.inputValue()).toBe("30 m");
    await done();
  });

  it("the way from an issue in the list leads to its field", async () => {
    const { page, done } = await bench.open();
    const part = await openPart(page, "compressor 2");
    await part.getByLabel("power", { exact: true }).fill("a lot");
    const issue = page.locator(".issues button").first();
    await issue.waitFor();
    await openTab(page, /^Findings/);
    await issue.click();
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.getAttribute("data-place")))
      .toMatch(/^parts\[\d\]\.nameplate\.power$/);
    await done();
  });

  it("parts are added, fed by another, renamed and taken out", async () => {
    const { page, done } = await bench.open();
    await openTab(page, /^Cabinet/);
    await page.getByLabel("Kind of part to add").selectOption("load");
    await page.getByLabel("Fed by", { exact: true }).selectOption("feeder");
    await page.getByRole("button", { name: "Add part" }).click();
    await expect.poll(() => page.locator("#sketch").count()).toBe(1);
    const part = page.locator("#cabinet .part[open]");
    await part.getByLabel("name", { exact: true }).fill("heater");
    await part.getByLabel("fed by", { exact: true }).selectOption("panel");
    const last = async () => JSON.parse(await fileText(page)).parts.at(-1);
    await expect.poll(last).toMatchObject({ name: "heater", is: "load", fedBy: "panel" });
    await openTab(page, /^Findings/);
    await expect.poll(() => findings(page)).toContain("heater");
    await openTab(page, /^Cabinet/);
    await part.getByRole("button", { name: "Remove this part" }).click();
    await expect.poll(() => fileText(page)).not.toContain("heater");
    await done();
  });

  it("what is typed in the file's own text counts as well", async () => {
    const { page, done } = await bench.open();
    await openTab(page, /^File/);
    const text = await fileText(page);
    await page.locator("#file-text").fill(text.replace('"title": "', '"title": "My '));
    await expect.poll(() => page.locator(".title").textContent()).toMatch(/^My /);
    await page.locator("#file-text").fill(`${text.slice(0, 40)} ...`);
    await page.locator(".issues li").first().waitFor();
    await openTab(page, /^Cabinet/);
    expect(await page.locator("#cabinet").textContent()).toContain("no cabinet file as it stands");
    await page.getByRole("button", { name: "Undo" }).click();
    await isCurrent(page);
    await done();
  });
}
