import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
  axeViolations,
  chromiumPath,
  drawn,
  type OpenBench,
  openBench,
  PATIENCE,
  saved,
  sideways,
  sizes,
  unfold,
} from "./harness.ts";

let bench: OpenBench;
beforeAll(async () => {
  const opened = await openBench();
  if (opened !== null) bench = opened;
});
afterAll(async () => bench?.close());

const journey = chromiumPath() === null ? describe.skip : describe;
type BenchPage = Awaited<ReturnType<OpenBench["page"]>>;

/** Two slow cores under load. */
const SLOW = { timeout: PATIENCE };
const panelOf = (page: BenchPage) => page.getByRole("region", { name: "In a gale", exact: true });
const rodePath = (page: BenchPage) =>
  panelOf(page)
    .getByRole("img", { name: /in motion, to scale/ })
    .locator("path[class*=rode]")
    .first();

async function opened(page: BenchPage): Promise<ReturnType<typeof panelOf>> {
  await page.goto(bench.at("/weather"));
  await page.getByRole("button", { name: "In a gale" }).waitFor(SLOW);
  await unfold(page);
  const panel = panelOf(page);
  await panel.getByRole("button", { name: "Ride it" }).waitFor(SLOW);
  return panel;
}

journey("a ride in the bench", () => {
  for (const name of ["desk", "phone"] as const)
    it(`moves the rode, answers, can be paused and drawn back on a ${name}, and holds to WCAG by axe`, async () => {
      const page = await bench.page(sizes[name]);
      const panel = await opened(page);
      await panel.getByRole("button", { name: "Ride it" }).click();
      // Seen while it is ridden: afterwards it may have been played to its end already.
      const first = await rodePath(page).getAttribute("d");
      await expect.poll(() => rodePath(page).getAttribute("d"), SLOW).not.toBe(first);
      await panel.getByText("10 min ridden").waitFor(SLOW);
      await panel.getByRole("button", { name: "Pause" }).click();
      const second = panel.getByRole("slider", { name: "Second shown" });
      await second.fill("30");
      await expect.poll(() => panel.getByText("0:30").count(), SLOW).toBe(1);
      await drawn(page);
      const there = await rodePath(page).getAttribute("d");
      await second.fill("90");
      await expect.poll(() => rodePath(page).getAttribute("d"), SLOW).not.toBe(there);
      await second.fill("30");
      await expect.poll(() => rodePath(page).getAttribute("d"), SLOW).toBe(there);
      // What was ridden leaves whole: five samples a second of ten minutes, drawn over all of them.
      const csv = await saved(page, /^Export: Loads over the time ridden/, "CSV");
      const [titles, ...rows] = csv.text.trim().split("\r\n");
      expect(titles).toBe('"time, s","load at the bow, N","load at the anchor, N","angle at the anchor, °"');
      expect(rows.length).toBeGreaterThan(2900);
      expect(Number(rows[10]!.split(",")[0])).toBeCloseTo(2, 6);
      const svg = await saved(page, /^Export: Loads over the time ridden/, "SVG");
      for (const word of ["time ridden, s", "at the anchor", "at rest"]) expect(svg.text).toContain(word);
      const side = await saved(page, /^Export: In motion/, "SVG");
      expect(side.text).toContain("from the side");
      const largest = panel.locator("dl > div", { has: page.getByText("largest load at the bow") }).locator("dd");
      await expect
        .poll(async () => Number(/^[\d.]+/.exec((await largest.textContent()) ?? "")?.[0]), SLOW)
        .toBeGreaterThan(0);
      await expect.poll(() => sideways(page), SLOW).toBeLessThanOrEqual(0);
      expect(await axeViolations(page)).toEqual([]);
      await page.context().close();
    });

  it("rides a second rode beside the first in the same sea, and tells their loads apart where their ± let it", async () => {
    const page = await bench.page(sizes.desk);
    const panel = await opened(page);
    const rides = panel.getByRole("region", { name: /^Ride to / });
    const compared = panel.getByRole("list", { name: "Beside the first" });
    const beside = async (rode: RegExp) => {
      const choice = panel.getByRole("combobox", { name: "Beside it, in the same sea" });
      const named = (await choice.locator("option").filter({ hasText: rode }).first().textContent())!;
      await choice.selectOption({ label: named });
      await panel.getByRole("button", { name: /^Ride it/ }).click();
      await panel.getByRole("region", { name: `Ride to ${named}` }).waitFor(SLOW);
      await panel.getByText("10 min ridden").waitFor(SLOW);
      await compared.waitFor(SLOW);
    };
    const mean = async (i: number) => {
      const told = await rides
        .nth(i)
        .locator("dl > div", { hasText: "mean load at the bow" })
        .locator("dd")
        .textContent();
      const [, value, u] = /^(\d+) N ?± (\d+) N/.exec(told ?? "")!;
      return { value: Number(value), u: Number(u) };
    };
    // The same boat pulls both alike level; a heavier rode hangs its weight on the bow on top (T at the bow less its level
    // part grows with weight in water times depth), so all of 3/8 in chain carries more there than chain and rope.
    await beside(/^chain 3\/8 in/);
    const [mixed, chain] = [await mean(0), await mean(1)];
    expect(chain.value - mixed.value).toBeGreaterThan(2 * Math.hypot(chain.u, mixed.u));
    await expect.poll(() => compared.textContent(), SLOW).toMatch(/mean load at the bow: \d+ ± \d+ N more/);
    // With rope in the rode already, eight metres more of it change next to nothing in this wind: the screen says so.
    await beside(/snubbed$/);
    await expect.poll(() => compared.textContent(), SLOW).toContain("mean load at the bow: the same within their ±");
    await expect.poll(() => sideways(page), SLOW).toBeLessThanOrEqual(0);
    expect(await axeViolations(page)).toEqual([]);
    await page.context().close();
  });

  it("stops when asked and keeps what was ridden", async () => {
    const page = await bench.page(sizes.desk);
    const panel = await opened(page);
    await panel.getByRole("radio", { name: "60" }).check({ force: true });
    await panel.getByRole("button", { name: "Ride it" }).click();
    await panel.getByRole("img", { name: /in motion, to scale/ }).waitFor(SLOW);
    await panel.getByRole("button", { name: "Stop the ride" }).click();
    await panel.getByText(/stopped after \d+ min/).waitFor(SLOW);
    await panel.getByRole("button", { name: "Ride it again" }).waitFor(SLOW);
    await expect.poll(() => panel.getByRole("img", { name: /in motion, to scale/ }).count(), SLOW).toBe(1);
    await page.context().close();
  });
});
