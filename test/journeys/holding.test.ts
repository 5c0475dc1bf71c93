import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createDemoBook } from "../../src/book/index.ts";
import {
  addressed,
  axeViolations,
  chromiumPath,
  type OpenBench,
  openBench,
  PATIENCE,
  saved,
  sideways,
  sizeNames,
  sizes,
} from "./harness.ts";

let bench: OpenBench;
beforeAll(async () => {
  const opened = await openBench((path) => createDemoBook(path).close());
  if (opened !== null) bench = opened;
});
afterAll(async () => bench?.close());

const journey = chromiumPath() === null ? describe.skip : describe;

/** Two slow cores under load; draws take a while there. */
const SLOW = { timeout: PATIENCE };
const DRAWS = { timeout: 2 * PATIENCE };

journey("the place Holding, on the demonstration book", () => {
  it("chooses pulls, leaves one out with its reason, works out what may be concluded and keeps it", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at("/holding"));
    const chosen = page.getByText(/^\d+ of \d+ pulls$/);
    await chosen.waitFor(SLOW);
    const all = Number(/^(\d+)/.exec((await chosen.textContent())!)![1]);
    expect(all).toBeGreaterThan(20);
    const drawing = page.getByRole("region", { name: "Every pull" }).locator("svg").first();
    await drawing.waitFor(SLOW);
    await page.getByRole("region", { name: "By themselves" }).locator("svg").first().waitFor(SLOW);

    // Two anchors alone, and the address says so.
    const boxes = page.getByRole("group", { name: "anchors" }).getByRole("checkbox");
    const count = await boxes.count();
    for (let k = 2; k < count; k++) {
      await boxes.nth(k).click();
      await expect.poll(() => boxes.nth(k).isChecked(), SLOW).toBe(false);
    }
    await expect.poll(async () => Number(/^(\d+)/.exec((await chosen.textContent())!)![1]), SLOW).toBeLessThan(all);
    await addressed(page, ({ searchParams }) => searchParams.has("anchors"));
    const two = Number(/^(\d+)/.exec((await chosen.textContent())!)![1]);

    await page
      .getByRole("button", { name: /^Leave out a pull of/ })
      .first()
      .click();
    await page.getByRole("textbox", { name: "reason, kept in the book" }).fill("the rope slipped on the cleat");
    await page.getByRole("button", { name: "Leave it out" }).click();
    await expect.poll(() => chosen.textContent(), SLOW).toMatch(new RegExp(`^${two - 1} of`));
    await page.getByText(/: the rope slipped on the cleat$/).waitFor(SLOW);

    expect((await saved(page, "Every pull", "SVG")).name).toBe("every-pull.svg");

    // Begun and stopped at will, then done.
    const work = page.getByRole("button", { name: "Work out what the pulls allow" });
    const before = page.workers().length;
    await work.click();
    // One that concludes, and for the chains as many as there are cores.
    const beside = await page.evaluate(() => 1 + Math.min(4, navigator.hardwareConcurrency));
    await expect.poll(() => page.workers().length - before, SLOW).toBe(beside);
    await page.getByRole("button", { name: "Stop" }).click(SLOW);
    await expect.poll(() => page.workers().length, SLOW).toBe(before);
    await work.click(SLOW);
    const pairs = page.getByRole("table", { name: "Chance that the first holds more" });
    await pairs.waitFor(DRAWS);
    await expect.poll(() => pairs.locator("tbody tr").count(), SLOW).toBe(1);
    await expect
      .poll(() => page.getByRole("region", { name: "What may be concluded" }).locator("p").first().textContent(), SLOW)
      .toMatch(/cannot be told apart|holds more than/);

    // Over the angle and over the wind, with bands; the wind's figure is saved.
    await page.getByRole("region", { name: "Over the angle", exact: true }).locator("svg").first().waitFor(SLOW);
    const chances = page.getByRole("table", { name: /: chance that the largest load stays below/ });
    await expect.poll(() => chances.locator("tbody tr").count(), SLOW).toBeGreaterThan(4);
    await expect.poll(() => chances.locator("tbody").textContent(), SLOW).toMatch(/\d % \(.* to .*\)/);
    const over = "Chance that the largest load of a wind stays below what is held";
    expect((await saved(page, over, "CSV")).text.split("\r\n")[0]).toMatch(/^line,"mean wind at 10 m, kn",/);

    // Kept with its seed and versions; its pulls are as they were, until the pull comes back and another is asked for.
    const kept = page.getByRole("region", { name: "Kept in the book" });
    await kept.getByText(/Its pulls are as they were/).waitFor(SLOW);
    await page.reload();
    await kept.getByRole("button", { name: /^Open the conclusion/ }).click(SLOW);
    await kept.getByRole("table", { name: "Chance that the first holds more" }).waitFor(SLOW);
    await page.getByRole("button", { name: /^Bring back a pull of/ }).click(SLOW);
    await expect.poll(() => chosen.textContent(), SLOW).toMatch(new RegExp(`^${two} of`));

    // What is believed can be changed, in plain words, and stands in the address.
    await page.getByText("What is believed before any pull").click();
    await page.getByRole("textbox", { name: "anchors apart by a factor of" }).fill("3");
    await addressed(page, ({ searchParams }) => /^1\.0986/.test(searchParams.get("prior.anchors") ?? ""));
    expect(await axeViolations(page)).toEqual([]);
    expect(page.troubles).toEqual([]);
  }, 1_800_000);

  it("puts the pulls of another tester's package beside the book's, each source a tester of its own, and takes them away", async () => {
    const page = await bench.page(sizes.phone);
    await page.goto(bench.at("/holding"));
    const chosen = page.getByText(/^\d+ of \d+ pulls$/);
    await chosen.waitFor(SLOW);
    const counts = async () =>
      /^(\d+) of (\d+)/
        .exec((await chosen.textContent())!)!
        .slice(1)
        .map(Number);
    const [own] = await counts();
    // A table as a package has it; the tester's name is a formula with markup in it.
    const [head, ...rows] = readFileSync("data/examples/holding/three-anchors.csv", "utf8").trim().split(/\r?\n/);
    expect(head).toMatch(/,tester$/);
    const theirs = [head, ...rows.map((row) => `${row}=1+1 <b>Another</b>`)].join("\n");
    await page.getByText("Pulls of another tester beside them").click();
    const pick = page.getByLabel("pulls.csv of another tester");
    const give = (name: string, text: string) =>
      pick.setInputFiles({ name, mimeType: "text/csv", buffer: Buffer.from(text) });
    await give("letter.csv", "dear,friend\nhow,are you");
    await expect.poll(() => page.getByRole("alert").first().textContent(), SLOW).toMatch(/^letter\.csv/);
    await give("pulls.csv", theirs);
    await page.getByText(`=1+1 <b>Another</b>: ${rows.length} pulls`).waitFor(SLOW);
    await expect.poll(counts, SLOW).toEqual([own! + rows.length, own! + rows.length]);
    const drawing = page.getByRole("region", { name: "Every pull" }).locator("svg").first();
    await expect.poll(() => drawing.textContent(), SLOW).toContain("Heron");
    await expect.poll(() => page.getByText("of =1+1 <b>Another</b>", { exact: true }).count(), SLOW).toBeGreaterThan(0);
    await expect.poll(() => sideways(page), SLOW).toBeLessThanOrEqual(0);
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole("button", { name: "Take away the pulls of =1+1 <b>Another</b>" }).click();
    await expect.poll(counts, SLOW).toEqual([own, own]);
    // Looked at here, kept nowhere.
    await page.reload();
    await expect.poll(counts, SLOW).toEqual([own, own]);
    expect(page.troubles).toEqual([]);
  });

  for (const name of sizeNames) {
    it(`breaks no rule of axe and sticks out nowhere on a ${name}`, async () => {
      const page = await bench.page(sizes[name], { theme: name === "phone" ? "dark" : "light" });
      await page.goto(bench.at("/holding"));
      await page.getByRole("region", { name: "By themselves" }).locator("svg").first().waitFor(SLOW);
      expect(await axeViolations(page)).toEqual([]);
      await expect.poll(() => sideways(page), SLOW).toBeLessThanOrEqual(0);
      expect(page.troubles).toEqual([]);
    });
  }
});
