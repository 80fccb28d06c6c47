import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import type { Bench } from "./support/bench.ts";
import { fileText, findings, handle } from "./support/page.ts";

/** Takes hold of the second start and moves it so many pixels, without letting go. */
async function dragBy(page: Page, dx: number): Promise<void> {
  const box = (await handle(page).boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + dx / 2, y, { steps: 4 });
  await page.mouse.move(x + dx, y, { steps: 4 });
}

/** Notes after every frame the delay of the curves, of the findings, of the handle and of the mark on the map. */
const watchFrames = `
  globalThis.shownDelays_ = [];
  const of = (selector, name) => String(Number(document.querySelector(selector).getAttribute(name)));
  const note = () => shownDelays_.push([
    of("#story [data-time_s]", "data-time_s"),
    document.querySelector("#findings .staggered .case-title").textContent.replace(/[^0-9.]/g, ""),
    of("#story .handle", "aria-valuenow"),
    of("#delays .handle", "aria-valuenow"),
  ]);
  const next = () => requestAnimationFrame(() => { setTimeout(note); next(); });
  next();
`;

export function dragTests(bench: Bench): void {
  it("dragging it to the first start changes the findings during the drag, to those of both together", async () => {
    const { page, done } = await bench.open();
    const before = await findings(page);
    const drawn = await page.locator("#story svg .staggered").first().getAttribute("d");
    expect(await handle(page).getAttribute("aria-valuetext")).toBe("6 s");
    await dragBy(page, -2000);
    await expect.poll(() => handle(page).getAttribute("aria-valuenow")).toBe("0");
    await expect.poll(() => findings(page)).not.toBe(before);
    const together = await page.locator("#findings .together .finding-list").textContent();
    await expect.poll(() => findings(page)).toBe(together);
    expect(await page.locator("#story svg .staggered").first().getAttribute("d")).not.toBe(drawn);
    await page.mouse.up();
    await done();
  });

  it("curves, findings and the mark on the map show one delay in every frame of a drag", async () => {
    const { page, done } = await bench.open({ viewport: { width: 1280, height: 1700 } });
    await page.locator("#delays .handle").waitFor();
    await page.evaluate(watchFrames);
    const box = (await handle(page).boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let i = 1; i <= 30; i++) await page.mouse.move(x - 6 * i, y);
    await expect
      .poll(() => page.evaluate("new Set(shownDelays_.map(([one]) => one)).size"))
      .toBeGreaterThan(3);
    await page.mouse.up();
    const frames = (await page.evaluate("shownDelays_")) as string[][];
    expect(frames.filter(([curves, findings]) => curves !== findings)).toEqual([]);
    expect(frames.filter(([, , handleAt, mapAt]) => handleAt !== mapAt)).toEqual([]);
    await done();
  });

  it("letting it go sets the delay relay in the file; Escape lets it go where it was", async () => {
    const { page, done } = await bench.open();
    await dragBy(page, -60);
    await page.mouse.up();
    await expect.poll(() => fileText(page)).not.toContain('"delay": "6 s +- 10 %"');
    const set = /"delay": "([\d.]+) s \+- 10 %"/.exec(await fileText(page))?.[1];
    expect(await handle(page).getAttribute("aria-valuetext")).toBe(`${set} s`);
    expect(Number(set)).toBeLessThan(6);
    await dragBy(page, -60);
    await handle(page).focus();
    await page.keyboard.press("Escape");
    await page.mouse.up();
    await expect.poll(() => handle(page).getAttribute("aria-valuetext")).toBe(`${set} s`);
    await page.getByRole("button", { name: "Undo" }).click();
    await expect.poll(() => handle(page).getAttribute("aria-valuetext")).toBe("6 s");
    await done();
  });

  it("arrow keys move it by a tenth, with Shift by a whole second, however quickly they are pressed", async () => {
    const { page, done } = await bench.open();
    await handle(page).focus();
    await page.keyboard.press("ArrowRight");
    await expect.poll(() => handle(page).getAttribute("aria-valuetext")).toBe("6.1 s");
    await page.keyboard.press("Shift+ArrowLeft");
    await expect.poll(() => handle(page).getAttribute("aria-valuetext")).toBe("5.1 s");
    for (let i = 0; i < 5; i++) await page.keyboard.press("ArrowLeft");
    await expect.poll(() => fileText(page)).toContain('"delay": "4.6 s +- 10 %"');
    await expect.poll(() => page.locator("#findings .staggered summary").textContent()).toContain("4.6 s");
    await done();
  });

  it("a finger moves it too", async () => {
    const { page, done } = await bench.open({ viewport: { width: 390, height: 800 }, hasTouch: true });
    await handle(page).scrollIntoViewIfNeeded();
    const box = (await handle(page).boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    const session = await page.context().newCDPSession(page);
    const touch = (type: "touchStart" | "touchMove" | "touchEnd", at: number): Promise<unknown> =>
      session.send("Input.dispatchTouchEvent", {
        type,
        touchPoints: type === "touchEnd" ? [] : [{ x: at, y }],
      });
    await touch("touchStart", x);
    for (let step = 1; step <= 6; step++) await touch("touchMove", x - 10 * step);
    await touch("touchEnd", 0);
    await expect.poll(async () => Number(await handle(page).getAttribute("aria-valuenow"))).toBeLessThan(4.5);
    await done();
  });
}
