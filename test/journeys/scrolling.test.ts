/** A page scrolled by a finger changes nothing it passes over; touch as the device sends it. */
import type { CDPSession, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { boxAtRest, chromiumPath, type OpenBench, openBench, PATIENCE, sizes } from "./harness.ts";

let bench: OpenBench;
beforeAll(async () => {
  const opened = await openBench();
  if (opened !== null) bench = opened;
});
afterAll(async () => bench?.close());

const journey = chromiumPath() === null ? describe.skip : describe;
/** Two slow cores under load. */
const SLOW = { timeout: PATIENCE };

async function swiped(cdp: CDPSession, from: { x: number; y: number }, by: { x: number; y: number }): Promise<void> {
  const touch = (type: "touchStart" | "touchMove" | "touchEnd", at?: { x: number; y: number }) =>
    cdp.send("Input.dispatchTouchEvent", { type, touchPoints: at === undefined ? [] : [at] });
  await touch("touchStart", from);
  for (let i = 1; i <= 10; i++) await touch("touchMove", { x: from.x + (by.x * i) / 10, y: from.y + (by.y * i) / 10 });
  await touch("touchEnd");
}

/** Waits until the page has run out: a finger laid on a page that still runs only stops it. */
const runOut = (page: Page): Promise<void> =>
  page.evaluate(
    () =>
      new Promise<void>((done) => {
        let last = Number.NaN;
        let same = 0;
        const look = (): void => {
          const top = document.documentElement.scrollTop;
          same = top === last ? same + 1 : 0;
          last = top;
          if (same > 20) done();
          else requestAnimationFrame(look);
        };
        look();
      }),
  );

/** How far the page is scrolled, px. */
const topOf = (page: Page): Promise<number> => page.evaluate(() => document.documentElement.scrollTop);

async function middleOf(page: Page, selector: string): Promise<{ x: number; y: number }> {
  const it = page.locator(selector).first();
  await it.waitFor(SLOW);
  await it.evaluate((element) => element.scrollIntoView({ block: "center" }));
  const box = await boxAtRest(it);
  return { x: Math.round(box.x + 0.35 * box.width), y: Math.round(box.y + box.height / 2) };
}

journey("on a phone", () => {
  it("scrolling over the pull's slider changes no load; drawn sideways it does", async () => {
    const page = await bench.page(sizes.phone);
    await page.goto(bench.at("/rig"));
    await page.getByText(/^± \d/).first().waitFor(SLOW);
    const cdp = await page.context().newCDPSession(page);
    const pull = page.getByRole("textbox", { name: "Pull", exact: true });
    const before = await pull.inputValue();
    const at = await middleOf(page, 'input[type="range"]');
    const top = await topOf(page);
    await swiped(cdp, at, { x: 3, y: -220 });
    await expect.poll(() => topOf(page), SLOW).toBeGreaterThan(top + 50);
    await expect.poll(() => pull.inputValue(), SLOW).toBe(before);
    await runOut(page);
    await swiped(cdp, await middleOf(page, 'input[type="range"]'), { x: 90, y: 4 });
    await expect.poll(() => pull.inputValue(), SLOW).not.toBe(before);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("scrolling over the chart of winds keeps the wind; a tap moves it", async () => {
    const page = await bench.page(sizes.phone);
    await page.goto(bench.at("/weather"));
    const wind = page.getByRole("slider", { name: "Wind", exact: true });
    await wind.waitFor(SLOW);
    const cdp = await page.context().newCDPSession(page);
    const before = await wind.getAttribute("aria-valuenow");
    const at = await middleOf(page, 'svg rect[class*="pad"]');
    const top = await topOf(page);
    await swiped(cdp, at, { x: 2, y: -240 });
    await expect.poll(() => topOf(page), SLOW).toBeGreaterThan(top + 50);
    await expect.poll(() => wind.getAttribute("aria-valuenow"), SLOW).toBe(before);
    await runOut(page);
    const again = await middleOf(page, 'svg rect[class*="pad"]');
    await page.touchscreen.tap(again.x + 60, again.y);
    await expect.poll(() => wind.getAttribute("aria-valuenow"), SLOW).not.toBe(before);
    await page.context().close();
  });
});
