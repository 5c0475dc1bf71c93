import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createDemoBook } from "../../src/book/index.ts";
import { places } from "../../src/web/places.ts";
import { axeViolations, chromiumPath, type OpenBench, openBench, PATIENCE, sideways, unfold } from "./harness.ts";

let bench: OpenBench;
beforeAll(async () => {
  const opened = await openBench((path) => createDemoBook(path).close());
  if (opened !== null) bench = opened;
});
afterAll(async () => bench?.close());

const journey = chromiumPath() === null ? describe.skip : describe;
type BenchPage = Awaited<ReturnType<OpenBench["page"]>>;
const SLOW = { timeout: PATIENCE };

/** A place with all of its panels open and something of its own in it. */
async function opened(page: BenchPage, path: string): Promise<void> {
  await page.goto(bench.at(path));
  await page.getByRole("main").getByRole("heading").nth(1).waitFor({ state: "attached" });
  await unfold(page);
  if (path !== "/readings") return;
  await page.getByRole("button", { name: "The demo's readings" }).click();
  await page.getByText("theory accounts for").first().waitFor();
}

/** Numbers that are not written as the others are: a hyphen for a minus, more decimals than anybody reads off, groups. */
async function oddNumbers(page: BenchPage): Promise<string[]> {
  const text = await page.evaluate(() => {
    const pieces: string[] = [];
    const walk = document.createTreeWalker(document.querySelector("main")!, NodeFilter.SHOW_TEXT);
    while (walk.nextNode() !== null) pieces.push(walk.currentNode.textContent ?? "");
    return pieces.join("\n");
  });
  return text.match(/(?:(?<![\p{L}\p{N}_)\]-])-\d|\d[.]\d{6,}|(?<![.\d])0\.00\d+ (?:m|kN)\b|\d,\d{3}\b).*/gu) ?? [];
}

journey("every place, on a book with days in it", () => {
  for (const { path, name } of places) {
    it(`${name} holds to WCAG by axe and sticks out nowhere at 320 px, with letters twice as large, and in forced colours; its numbers are written alike`, async () => {
      const narrow = await bench.page({ width: 320, height: 640, touch: true });
      await opened(narrow, path);
      await expect.poll(() => oddNumbers(narrow), SLOW).toEqual([]);
      await expect.poll(() => sideways(narrow), SLOW).toBeLessThanOrEqual(0);
      await expect.poll(() => axeViolations(narrow), SLOW).toEqual([]);
      await narrow.context().close();

      const large = await bench.page({ width: 1280, height: 800 });
      await opened(large, path);
      await large.evaluate(() => {
        document.documentElement.style.fontSize = "200%";
      });
      await expect.poll(() => sideways(large), SLOW).toBeLessThanOrEqual(0);
      await expect.poll(() => axeViolations(large), SLOW).toEqual([]);
      await large.evaluate(() => {
        document.documentElement.style.fontSize = "";
      });
      await large.emulateMedia({ forcedColors: "active" });
      await expect.poll(() => axeViolations(large), SLOW).toEqual([]);
      await expect.poll(() => lostMarks(large), SLOW).toEqual([]);
      expect([...narrow.troubles, ...large.troubles]).toEqual([]);
      await large.context().close();
    });
  }
});

/** Lines of figures that have the colour of the paper, by class: a device that forces colours has taken them away. */
function lostMarks(page: BenchPage): Promise<string[]> {
  return page.evaluate(() => {
    const paper = getComputedStyle(document.body).backgroundColor;
    const lost = new Set<string>();
    for (const mark of document.querySelectorAll("main svg :is(path, line, polyline, circle)")) {
      const { stroke, fill, visibility, opacity } = getComputedStyle(mark);
      if (visibility === "hidden" || Number(opacity) === 0) continue;
      const seen = [stroke, fill].filter((colour) => colour !== "none" && !/, 0\)$/.test(colour));
      if (seen.length > 0 && seen.every((colour) => colour === paper))
        lost.add(mark.getAttribute("class") ?? mark.tagName);
    }
    return [...lost];
  });
}
