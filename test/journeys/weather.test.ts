import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { readBoat } from "../../src/sea/index.ts";
import { framesUntilShown } from "./frames.ts";
import {
  addressed,
  axeViolations,
  boxAtRest,
  chromiumPath,
  heldByDevice,
  keptOffline,
  type OpenBench,
  openBench,
  PATIENCE,
  sideways,
  sizeNames,
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

const region = (page: BenchPage, name: string | RegExp) => page.getByRole("region", { name, exact: true });
const reading = async (page: BenchPage, name: string): Promise<string> =>
  (await page
    .locator("dl > div", { has: page.getByText(name, { exact: true }) })
    .locator("dd > span")
    .first()
    .textContent()) ?? "";
const number = (text: string): number => Number(/^[\d.]+/.exec(text)?.[0] ?? Number.NaN);
const meanLoad = async (page: BenchPage) => number(await reading(page, "mean load, own points (bow)"));
const wind = (page: BenchPage) => page.getByRole("slider", { name: "Wind", exact: true });
const windField = (page: BenchPage) => page.getByRole("textbox", { name: "Mean wind at 10 m", exact: true });
const rode = (page: BenchPage) =>
  page.getByRole("img", { name: "The rode in the wind under the pointer, to scale" }).innerHTML();
const map = (page: BenchPage) => page.getByRole("group", { name: "Snubbers over length and diameter" });
const sides = (page: BenchPage) => page.getByRole("list", { name: "Sides of the map" });

async function opened(page: BenchPage, path = "/weather"): Promise<void> {
  await page.goto(bench.at(path));
  await wind(page).waitFor(SLOW);
  await unfold(page);
  await map(page).waitFor(SLOW);
  await region(page, "Candidates side by side").waitFor(SLOW);
}

journey("the place Weather", () => {
  for (const name of sizeNames) {
    it(`holds to WCAG by axe on a ${name}, says nothing sideways, and cautions once, in all three themes`, async () => {
      const page = await bench.page(sizes[name]);
      await opened(page);
      for (const theme of ["light", "dark", "sun"] as const) {
        await page.getByLabel("Theme").selectOption(theme);
        await page.getByLabel("Units").selectOption(theme === "dark" ? "us" : "metric");
        await region(page, "Candidates side by side").waitFor(SLOW);
        await expect.poll(() => sideways(page), SLOW).toBeLessThanOrEqual(0);
        expect(await axeViolations(page, theme === "light" ? "all" : "colours")).toEqual([]);
        await expect.poll(() => page.getByText("never a promise that a boat stays put").count(), SLOW).toBe(1);
      }
      expect(page.troubles).toEqual([]);
      await page.context().close();
    });
  }

  it("shows load and rode of the wind under a mouse, and goes back when it leaves; a click keeps, undo takes back", async () => {
    const page = await bench.page(sizes.desk);
    await opened(page);
    // docs/weather.md: 150 ± 18 lbf in 20 ± 1 kn by the same points.
    const load = 667;
    await expect.poll(() => meanLoad(page), SLOW).toBe(load);
    const chart = await boxAtRest(page.getByRole("group", { name: "Load over wind" }));
    const drawn = await rode(page);
    const at = { x: chart.x + 0.8 * chart.width, y: chart.y + 0.6 * chart.height };
    await page.mouse.move(at.x, at.y);
    await expect.poll(() => meanLoad(page), SLOW).toBeGreaterThan(2 * load);
    await expect.poll(() => rode(page), SLOW).not.toBe(drawn);
    await expect.poll(() => page.getByRole("button", { name: "Undo" }).isDisabled(), SLOW).toBe(true);
    await page.mouse.move(chart.x + 10, chart.y - 60);
    await expect.poll(() => meanLoad(page), SLOW).toBe(load);
    await expect.poll(() => rode(page), SLOW).toBe(drawn);

    await page.mouse.click(at.x, at.y);
    await page.mouse.move(chart.x + 10, chart.y - 60);
    await expect.poll(() => meanLoad(page), SLOW).toBeGreaterThan(2 * load);
    await page.getByRole("button", { name: "Undo" }).click();
    await expect.poll(() => meanLoad(page), SLOW).toBe(load);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("calls the example invented, and measures nothing that nobody typed", async () => {
    const page = await bench.page(sizes.phone);
    await page.goto(bench.at("/weather"));
    await wind(page).waitFor(SLOW);
    // On a phone the place begins short: all that is not asked yet is folded to its heading.
    await expect.poll(() => page.locator('h2 > button[aria-expanded="true"]').count(), SLOW).toBe(0);
    await expect.poll(() => page.evaluate(() => document.documentElement.scrollHeight), SLOW).toBeLessThan(3500);
    await page.getByText("An invented boat as an example").waitFor();
    await page.getByRole("button", { name: "Put in your own" }).click();
    const boat = region(page, "Boat");
    await boat.getByRole("heading", { name: "Measured points: the invented example's" }).waitFor();
    const points = ({ searchParams }: URL) => searchParams.get("points");
    await addressed(page, (address) => points(address) !== null);
    await boat.getByRole("button", { name: "Clear the example's points" }).click();
    await boat.getByRole("heading", { name: "Measured on this boat" }).waitFor();
    await boat.getByRole("button", { name: "+ point" }).click();
    const cellOf = (name: string) => boat.getByRole("textbox", { name: `${name}, point 1`, exact: true });
    for (const name of ["Wind", "± of the wind", "Mean load", "± of the mean load", "Peaks", "± of the peaks"])
      await expect.poll(() => cellOf(name).inputValue(), SLOW).toBe("");
    await cellOf("Wind").fill("24 kn");
    // A wind without a load is no point yet: none of it stands in the address that tells of a change made after it.
    await addressed(page, (address) => points(address) === null);
    await windField(page).fill("21 kn");
    const kept = await addressed(page, ({ searchParams }) => searchParams.get("wind")?.startsWith("10.8") ?? false);
    expect(points(new URL(kept))).toBeNull();
    await cellOf("Mean load").pressSequentially("900");
    await expect.poll(() => cellOf("Wind").inputValue(), SLOW).toBe("24");
    await expect.poll(() => cellOf("Mean load").inputValue(), SLOW).toBe("900");
    await expect.poll(() => cellOf("± of the mean load").inputValue(), SLOW).toBe("");
    await expect.poll(() => reading(page, "mean load, own points (bow)"), SLOW).toMatch(/^\d/);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("slides the wind by keys and by touch, and tells a screen reader the loads", async () => {
    const page = await bench.page(sizes.phone);
    await opened(page);
    await wind(page).focus();
    for (let i = 0; i < 4; i++) await page.keyboard.press("ArrowRight");
    await expect.poll(() => wind(page).getAttribute("aria-valuetext"), SLOW).toMatch(/^mean wind 22(\.0)? kn, /);
    await expect
      .poll(() => page.getByRole("status").first().textContent(), SLOW)
      .toMatch(/^Mean wind 22\.?0? kn: mean load \d+ ± \d+ N, peak \d+ ± \d+ N\.$|The chosen snubber/);
    const chart = await boxAtRest(page.getByRole("group", { name: "Load over wind" }));
    await page.touchscreen.tap(chart.x + 0.9 * chart.width, chart.y + 0.8 * chart.height);
    await expect.poll(async () => number(await windField(page).inputValue()), SLOW).toBeGreaterThan(35);
    await page.context().close();
  });

  it("takes the wind under the pointer frame by frame while it is drawn along the axis", async () => {
    const page = await bench.page(sizes.desk);
    await opened(page);
    const chart = await boxAtRest(page.getByRole("group", { name: "Load over wind" }));
    const drawing = {
      on: '[aria-label="Load over wind"] g:has(> [role="slider"]) > rect',
      from: { x: 0.1, y: 0.5 },
      by: { x: 0.5 * chart.width, y: 0 },
      held: false,
      shown: "main",
    };
    const waits = await framesUntilShown(page, drawing, 30);
    expect(waits.filter((frames) => frames === 1).length).toBeGreaterThanOrEqual(0.9 * waits.length);
    await page.context().close();
  });

  it("opens a boat file, takes a change, says in one line what is wrong with another, and saves what reads back", async () => {
    const page = await bench.page(sizes.desk);
    await opened(page);
    const boat = region(page, "Boat");
    const file = boat.locator('input[type="file"]');
    const text = readFileSync("data/boats/marsh-tern.yaml", "utf8");
    const yaml = (name: string, content: string) => ({
      name,
      mimeType: "application/yaml",
      buffer: Buffer.from(content),
    });
    await file.setInputFiles(yaml("bent.yaml", text.replace("beam: 3.7 m", "beam: 3.7 kg")));
    await expect.poll(() => boat.getByRole("alert").textContent(), SLOW).toMatch(/^bent\.yaml: beam: "3\.7 kg"/);
    await file.setInputFiles(yaml("own.yaml", text.replace("name: Marsh Tern", "name: Reed Warbler")));
    await page.getByRole("heading", { name: "Reed Warbler in the wind" }).waitFor(SLOW);
    await expect.poll(() => boat.getByRole("alert").count(), SLOW).toBe(0);

    // Half the load at the highest wind bends the law.
    await expect.poll(() => meanLoad(page), SLOW).toBeGreaterThan(0);
    const before = await meanLoad(page);
    await boat.getByRole("textbox", { name: "Mean load, point 5", exact: true }).fill("900");
    await expect.poll(() => meanLoad(page), SLOW).not.toBe(before);
    await boat.getByRole("textbox", { name: "Length over all" }).fill("38'");
    const down = page.waitForEvent("download");
    await boat.getByRole("button", { name: "Save as a file" }).click();
    const saved = readBoat(readFileSync(await (await down).path(), "utf8"), "saved");
    expect(saved.name).toBe("Reed Warbler");
    expect(saved.length).toBeCloseTo(38 * 0.3048, 9);
    expect(saved.measured[4]!.load).toBe(900);

    await boat.getByRole("radio", { name: "areas" }).check();
    await boat.getByRole("textbox", { name: "From ahead: area" }).waitFor();
    await boat.getByRole("radio", { name: "none" }).check();
    await expect.poll(() => page.getByText("windage, steady").count(), SLOW).toBe(0);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("says where catenary ends on the same axis, and what wind a pull is worth", async () => {
    const page = await bench.page(sizes.desk, { units: "us" });
    await opened(page);
    const panel = region(page, "Where catenary ends");
    await expect.poll(() => panel.textContent(), SLOW).toMatch(/Past [\d.]+ ± [\d.]+ lbf, [\d.]+ ± [\d.]+ kn, raising/);
    const give = panel.getByRole("textbox");
    await give.fill("1");
    await expect.poll(() => panel.textContent(), SLOW).toMatch(/gives less than 1 ft per 100 lbf/);
    const worth = region(page, "What wind a pull is worth");
    await worth.getByRole("textbox", { name: "Pull", exact: true }).fill("800 lbf");
    await worth.getByRole("textbox", { name: "± of the pull" }).fill("40 lbf");
    // docs/weather.md, computed there by the command.
    await expect.poll(() => worth.getByRole("table").textContent(), SLOW).toContain("46.0 ± 4.4 kn");
    await expect.poll(() => worth.getByRole("table").textContent(), SLOW).toContain("37.1 ± 1.9 kn");
    await page.context().close();
  });

  it("maps snubbers again while a limit is slid, and lets the chosen one be drawn about and made a bridle", async () => {
    const page = await bench.page(sizes.desk);
    await opened(page);
    await expect.poll(() => sides(page).textContent(), SLOW).toMatch(/within all limits/);
    const chosen = page.getByRole("slider", { name: /^Chosen snubber/ });
    const panel = region(page, "A snubber that takes over");
    const before = await sides(page).textContent();
    await panel.getByRole("slider", { name: "Peak at the bow, slider" }).focus();
    for (let i = 0; i < 10; i++) await page.keyboard.press("PageDown");
    await expect.poll(() => sides(page).textContent(), SLOW).not.toBe(before);
    await expect.poll(() => sides(page).textContent(), SLOW).toMatch(/peak load above its limit/);

    const length = panel.getByRole("textbox", { name: "Length", exact: true });
    const box = await boxAtRest(chosen);
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let i = 1; i <= 5; i++) await page.mouse.move(x + 30 * i, y - 8 * i);
    await page.mouse.up();
    await expect.poll(async () => number(await length.inputValue()), SLOW).toBeGreaterThan(11);
    await page.getByRole("button", { name: "Undo" }).click();
    await expect.poll(() => length.inputValue(), SLOW).toBe("8");
    await chosen.focus();
    await page.keyboard.press("ArrowUp");
    await expect.poll(() => panel.getByRole("textbox", { name: "Diameter" }).inputValue(), SLOW).toBe("15");

    await panel.getByRole("radio", { name: "bridle" }).check();
    const bridle = region(page, "A bridle that takes over");
    await bridle.getByRole("textbox", { name: "Boat off the pull" }).fill("30");
    await bridle.getByRole("img", { name: /Bridle from above: legs carry/ }).waitFor(SLOW);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("sets a plan's gear side by side, marks that than which none is better, and an address keeps all of it", async () => {
    const page = await bench.page(sizes.tablet);
    await opened(page);
    const gear = region(page, "Candidates side by side");
    // In 10 kn 3/8 in chain hangs with more than the wind pulls from the height of this boat's roller: nothing to lose.
    await expect
      .poll(() => region(page, "Gear side by side").textContent(), SLOW)
      .toMatch(
        /The stronger grade lets the chain be thinner, and loses catenary: in 20 kn chain 1\/4 in grade 70 gives [\d.]+ m per kN where chain 3\/8/,
      );
    await page.getByRole("button", { name: "The demo's plan" }).click();
    await expect
      .poll(() => gear.getByRole("row", { name: /^grade 43 and snubber/ }).textContent(), SLOW)
      .toMatch(
        // docs/choose.md, computed there by the command.
        /none better6600 N± 1100 N/,
      );
    await expect
      .poll(() => gear.getByRole("row", { name: /^chain and rope/ }).textContent(), SLOW)
      .toMatch(/past: working/);
    const candidates = ({ searchParams }: URL) => [...searchParams.keys()].filter((name) => /^c\d+$/.test(name)).length;
    const named = (name: string) => (address: URL) =>
      [...address.searchParams.values()].some((text) => new URLSearchParams(text).get("as") === name);
    const all = candidates(new URL(await addressed(page, named("longer grade 70"))));
    await gear.getByRole("button", { name: "Remove longer grade 70" }).click();
    await expect.poll(() => gear.getByRole("row").count(), SLOW).toBe(7);
    const kept = await addressed(page, (address) => candidates(address) === all - 1);
    expect(named("longer grade 70")(new URL(kept))).toBe(false);

    const other = await bench.page(sizes.desk);
    await other.goto(kept);
    await expect
      .poll(
        () =>
          region(other, "Candidates side by side")
            .getByRole("row", { name: /^grade 43 and snubber/ })
            .textContent(),
        SLOW,
      )
      .toMatch(/none better6600 N± 1100 N/);
    await expect.poll(() => region(other, "Candidates side by side").getByRole("row").count(), SLOW).toBe(7);
    expect(other.troubles).toEqual([]);
    await other.context().close();
    await page.context().close();
  });

  it("takes over the rig that was changed in Rig", async () => {
    const page = await bench.page(sizes.desk);
    await opened(page);
    await page.getByRole("link", { name: "Change in Rig" }).click();
    await page.getByRole("textbox", { name: "Depth at the anchor" }).fill("11");
    await page.getByLabel("Name of the rig").fill("Deep bay");
    const before = await page.title();
    await page.getByRole("link", { name: "Weather", exact: true }).click();
    await page.getByRole("heading", { name: "Deep bay", exact: true }).waitFor(SLOW);
    await expect.poll(() => page.title(), SLOW).not.toBe(before);
    await addressed(page, "r-depth=11");
    await page.context().close();
  });

  it("works with the network gone: reloaded, computed, drawn and kept", async () => {
    const page = await bench.page(sizes.phone, { keepsOffline: true });
    await opened(page);
    await keptOffline(page);
    await page.context().setOffline(true);
    await bench.stopServer();
    try {
      await page.reload();
      await map(page).waitFor(SLOW);
      await expect.poll(() => meanLoad(page), SLOW).toBeGreaterThan(0);
      const before = await meanLoad(page);
      await windField(page).fill("30");
      await expect.poll(() => meanLoad(page), SLOW).toBeGreaterThan(1.8 * before);
      await page.getByRole("button", { name: "The demo's plan" }).click();
      await page
        .getByRole("row", { name: /^grade 43 and snubber/ })
        .first()
        .waitFor(SLOW);
      await expect.poll(async () => (await heldByDevice(page, "weather")).wind, SLOW).toMatch(/^20\.57/);
      await page.goto(bench.at("/weather"));
      await page
        .getByRole("row", { name: /^grade 43 and snubber/ })
        .first()
        .waitFor(SLOW);
    } finally {
      await bench.startServer();
      await page.context().setOffline(false);
    }
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });
});
