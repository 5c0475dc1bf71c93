import { Resvg } from "@resvg/resvg-js";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createDemoBook } from "../../src/book/index.ts";
import { INVENTED } from "../../src/words/index.ts";
import {
  axeViolations,
  boxAtRest,
  chromiumPath,
  type OpenBench,
  openBench,
  PATIENCE,
  saved,
  sideways,
  sizes,
  wordsOf,
} from "./harness.ts";

let bench: OpenBench;
beforeAll(async () => {
  const opened = await openBench();
  if (opened !== null) bench = opened;
});
afterAll(async () => bench?.close());

const journey = chromiumPath() === null ? describe.skip : describe;
/** Two slow cores under load. */
const SLOW = { timeout: PATIENCE };
const CURVE = "Angle at the anchor over load, °";

journey("a figure of the bench", () => {
  it("is read off by pointer, finger and arrows, and leaves as SVG, PNG, CSV and link", async () => {
    const page = await bench.page(sizes.desk, { theme: "dark" });
    await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
    await page.goto(bench.at("/rig"));
    const over = page.getByRole("slider", { name: `Read off: ${CURVE}` });
    await over.waitFor(SLOW);
    await over.scrollIntoViewIfNeeded();
    await over.focus();
    await page.keyboard.press("End");
    await expect.poll(() => over.getAttribute("aria-valuetext"), SLOW).toMatch(/^load at the bow \S+ N: .*°/);
    const atEnd = await over.getAttribute("aria-valuenow");
    await page.keyboard.press("ArrowLeft");
    // A fiftieth of an axis that begins at zero.
    await expect
      .poll(async () => Number(await over.getAttribute("aria-valuenow")) / Number(atEnd), SLOW)
      .toBeCloseTo(0.98, 6);
    const box = await boxAtRest(over);
    await page.mouse.move(box.x + 0.6 * box.width, box.y + 0.5 * box.height);
    await page.getByText(/^load at the bow \S+ N$/).waitFor(SLOW);
    await page.mouse.move(2, 2);
    expect(await axeViolations(page)).toEqual([]);

    const svg = await saved(page, CURVE, "SVG");
    expect(svg.name).toBe("angle-at-the-anchor-over-load.svg");
    // Another program draws it: dark lines on the light paper of the file, whatever theme the page has.
    const image = new Resvg(svg.text, { font: { loadSystemFonts: false } }).render();
    // Asked once: each asking copies all of them.
    const { pixels, width } = image;
    expect([...pixels.subarray(0, 3)]).toEqual([255, 255, 255]);
    let dark = 0;
    for (let i = 0; i < pixels.length; i += 4) if (pixels[i]! < 60) dark++;
    expect(dark).toBeGreaterThan(300);
    expect(svg.text).not.toMatch(/var\(--|class=|Read off/);
    expect(wordsOf(svg.text)).toMatch(/A band is one standard uncertainty to either side; .* Made by rodebench \d/);

    const png = await saved(page, CURVE, "PNG");
    expect([...png.bytes.subarray(0, 8)]).toEqual([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
    // Three pixels for each of the drawing's own.
    expect(png.bytes.readUInt32BE(16)).toBe(3 * width);
    const csv = await saved(page, CURVE, "CSV");
    expect(csv.text.split("\r\n")[0]).toMatch(/^line,"load at the bow, N","angle at the anchor, °"/);
    expect(csv.text.split("\r\n").length).toBeGreaterThan(20);

    await page.getByRole("button", { name: `Export: ${CURVE}` }).click();
    await page.getByRole("button", { name: "Copy the link" }).click();
    await page.getByText("The link is copied.").first().waitFor(SLOW);
    await expect.poll(() => page.evaluate(() => navigator.clipboard.readText()), SLOW).toBe(page.url());
    // Escape closes the menu and goes back to its button.
    const opener = page.getByRole("button", { name: `Export: ${CURVE}` });
    await opener.click();
    await page.keyboard.press("Escape");
    await expect.poll(() => page.getByRole("button", { name: "Save as SVG" }).count(), SLOW).toBe(0);
    expect(page.troubles).toEqual([]);
    await page.context().close();

    const phone = await bench.page(sizes.phone);
    await phone.goto(bench.at("/rig"));
    const touched = phone.getByRole("slider", { name: `Read off: ${CURVE}` });
    await touched.waitFor(SLOW);
    await touched.tap();
    await phone.getByText(/^load at the bow \S+ N$/).waitFor(SLOW);
    await phone.context().close();
  });
});

journey("the water of a series", () => {
  it("is a figure like any other: drawn on every width, saved with its title and its data, told as a table", async () => {
    for (const size of [sizes.desk, { width: 320, height: 640, touch: true }]) {
      const page = await bench.page(size, { theme: size.touch === true ? "dark" : "light" });
      await page.goto(bench.at("/series"));
      const title = "In which water each angle can be had: Creek mouth";
      const figure = page.getByRole("figure", { name: title });
      await figure.waitFor(SLOW);
      expect(await figure.getAttribute("data-figure")).toBe("water");
      const svg = await saved(page, title, "SVG");
      // What it is and where it comes from stand in it; of the book it is not, and so says nothing of that.
      expect(wordsOf(svg.text)).toContain("Made by rodebench");
      expect(wordsOf(svg.text)).toContain("No ± is drawn");
      expect(wordsOf(svg.text)).not.toContain(INVENTED);
      expect(svg.text).not.toMatch(/var\(--/);
      const { width, pixels } = new Resvg(svg.text, { font: { loadSystemFonts: false } }).render();
      expect([...pixels.subarray(0, 3)]).toEqual([255, 255, 255]);
      // The bars, in the ink of what is computed on light paper, whatever theme the page has.
      let bar = 0;
      for (let i = 0; i < pixels.length; i += 4)
        if (pixels[i] === 0x12 && pixels[i + 1] === 0x3f && pixels[i + 2] === 0x73) bar++;
      expect(bar).toBeGreaterThan(300);
      const png = await saved(page, title, "PNG");
      expect(png.bytes.readUInt32BE(16)).toBe(3 * width);
      const csv = await saved(page, title, "CSV");
      expect(csv.text.split("\r\n")[0]).toMatch(/^site,"angle at the anchor, deg","load at the anchor, N"/);
      await page.getByText("The water of Creek mouth as a table").click();
      const rows = page.getByRole("region", { name: "Water of Creek mouth" }).locator("tbody tr");
      expect(await rows.count()).toBe(csv.text.trimEnd().split("\r\n").length - 1);
      expect(await axeViolations(page)).toEqual([]);
      await expect.poll(() => sideways(page), SLOW).toBeLessThanOrEqual(0);
      expect(page.troubles).toEqual([]);

      await page.context().close();
    }
  });
});

journey("the trace of a log", () => {
  let demo: OpenBench;
  beforeAll(async () => {
    const opened = await openBench((path) => createDemoBook(path).close());
    if (opened !== null) demo = opened;
  });
  afterAll(async () => demo?.close());

  it("is read off under the pointer and by a tap, and leaves as SVG, PNG and CSV of what is in view, as every figure", async () => {
    for (const size of [sizes.desk, { width: 320, height: 640, touch: true }]) {
      const page = await demo.page(size);
      await page.goto(demo.at("/days?shelf=logs"));
      await page.getByRole("button", { name: /^load cell, pull 2 Pull 2, Hinged plough/ }).click(SLOW);
      const trace = page.getByRole("application");
      await trace.locator("canvas").first().waitFor(SLOW);
      await trace.scrollIntoViewIfNeeded();
      const box = await boxAtRest(trace);
      const [x, y] = [box.x + 0.6 * box.width, box.y + 0.3 * box.height];
      const read = page.getByText(/^load −?[\d.]+( to −?[\d.]+)? N$/);
      // Readings come a moment after the axes: the hand asks again until there are some.
      await expect
        .poll(async () => {
          if (size.touch === true) await page.touchscreen.tap(x, y);
          else {
            await page.mouse.move(x - 1, y);
            await page.mouse.move(x, y);
          }
          return read.count();
        }, SLOW)
        .toBe(1);
      // Six tenths along its plot, which begins at 08:22:00 and is 151 s long.
      await trace.getByText(/^08:23:\d\d\.\d+$/).waitFor(SLOW);
      expect(await axeViolations(page)).toEqual([]);
      await expect.poll(() => sideways(page), SLOW).toBeLessThanOrEqual(0);

      const csv = await saved(page, /^Export: Trace of load cell, pull 2/, "CSV");
      const [head, ...rows] = csv.text.trimEnd().split("\r\n");
      expect(head).toBe('channel,"time, s since 1970 UTC",least,greatest');
      expect(rows.length).toBeGreaterThan(100);
      expect(rows.every((row) => /^"load, N",\d+(\.\d+)?,-?\d/.test(row))).toBe(true);
      const svg = await saved(page, /^Export: Trace of load cell, pull 2/, "SVG");
      expect(svg.name).toBe("trace-of-load-cell-pull-2.svg");
      expect(svg.text).toContain("load, N");
      // The book is the demonstration, and what leaves it says so.
      expect(wordsOf(svg.text)).toContain(INVENTED);
      expect(new Resvg(svg.text, { font: { loadSystemFonts: false } }).render().width).toBeGreaterThan(300);
      const png = await saved(page, /^Export: Trace of load cell, pull 2/, "PNG");
      expect([...png.bytes.subarray(1, 4)]).toEqual([..."PNG"].map((letter) => letter.charCodeAt(0)));
      // Also that the page's policy had nothing to refuse.
      expect(page.troubles).toEqual([]);
      await page.context().close();
    }
  });
});
