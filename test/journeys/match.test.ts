import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
  addressed,
  axeViolations,
  chromiumPath,
  keptOffline,
  type OpenBench,
  openBench,
  PATIENCE,
  sideways,
  sizeNames,
  sizes,
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

/** Chain in a shallow bay beside chain and rope in a deeper one, as it may be sent. */
const TWO =
  "/match?name=Short+chain&in=water&depth=5&roller=1.2&friction=0.6&rode=chain+10+mm+grade+30+ISO+4565*24" +
  "&o-name=Mixed+rode&o-in=water&o-depth=8&o-roller=1.2&o-friction=0.6&o-rode=chain+8+mm+grade+30*20~polyester+double-braid+14+mm*30&load=2500&map=load";

const region = (setup: string) => `${setup === "Short chain" ? "A" : "B"}: ${setup}`;

const reading = async (page: BenchPage, setup: string | null, name: string): Promise<string> =>
  (await page
    .getByRole("region", { name: setup === null ? "Under one load" : region(setup), exact: true })
    .locator("dl > div", { has: page.getByText(name, { exact: true }) })
    .locator("dd > span")
    .first()
    .textContent()) ?? "";

const angle = async (page: BenchPage, setup: string) =>
  Number((await reading(page, setup, "angle to the bottom at the anchor")).replace("°", ""));

const map = (page: BenchPage) => page.getByRole("region", { name: "Over depth" }).locator("svg").first();
const said = (page: BenchPage) => page.getByRole("region", { name: "Under one load" }).locator("p").first();

journey("the place Match", () => {
  it("pays out the second until both anchors feel the same, and takes it back", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at(TWO));
    await page.getByRole("region", { name: "A: Short chain", exact: true }).waitFor();
    for (const setup of ["Short chain", "Mixed rode"])
      await expect.poll(() => angle(page, setup), SLOW).toBeGreaterThan(0);
    const [one, other] = [await angle(page, "Short chain"), await angle(page, "Mixed rode")];
    expect(Math.abs(one - other)).toBeGreaterThan(0.5);
    await expect.poll(() => said(page).textContent(), SLOW).toMatch(/^[AB] pulls its anchor steeper than [AB]\.$/);
    const between = async () =>
      Number((await reading(page, null, "between the two, angle to the bottom at the anchor")).replace("°", ""));
    await expect.poll(async () => Math.abs((await between()) - Math.abs(one - other)), SLOW).toBeLessThan(0.1);
    const rope = page.getByRole("textbox", { name: /^Length of polyester/ });
    await expect.poll(() => rope.inputValue(), SLOW).toBe("30");

    const bring = page.getByRole("button", { name: /^(Pay out|Haul in) [\d.]+ m of B: it then pulls like A$/ });
    const [, way, by] = /^(Pay out|Haul in) ([\d.]+) m/.exec((await bring.textContent())!)!;
    // The flatter of the two is hauled in, the steeper paid out.
    expect(way).toBe(other > one ? "Pay out" : "Haul in");
    await bring.click();
    await expect
      .poll(async () => Number(await rope.inputValue()), SLOW)
      .toBeCloseTo(30 + (way === "Pay out" ? 1 : -1) * Number(by), 1);
    await expect.poll(() => said(page).textContent(), SLOW).toBe("Both anchors are pulled at the same angle.");
    await expect.poll(() => angle(page, "Mixed rode"), SLOW).toBe(one);
    await expect.poll(() => angle(page, "Short chain"), SLOW).toBe(one);
    await expect.poll(() => rope.inputValue(), SLOW).not.toBe("30");
    await expect.poll(() => page.getByRole("status").first().textContent(), SLOW).toMatch(/same angle/);

    await page.getByRole("button", { name: "Undo" }).click();
    await expect.poll(() => rope.inputValue(), SLOW).toBe("30");
    await expect.poll(() => angle(page, "Mixed rode"), SLOW).toBe(other);
    // The other way round: the first is moved, the second stays.
    await page.getByRole("button", { name: /^(Pay out|Haul in) [\d.]+ m of A: it then pulls like B$/ }).click();
    await expect.poll(() => said(page).textContent(), SLOW).toBe("Both anchors are pulled at the same angle.");
    await expect.poll(() => angle(page, "Short chain"), SLOW).toBe(other);
    await expect.poll(() => rope.inputValue(), SLOW).toBe("30");
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("draws both over depth and load, and over depth and scope", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at(TWO));
    await map(page).waitFor(SLOW);
    const text = async () => (await map(page).textContent()) ?? "";
    await expect.poll(() => text(), SLOW).toMatch(/load at the bow, kN/);
    for (const label of ["lifts off", "5°", "10°", `${await angle(page, "Short chain")}°`])
      await expect.poll(() => text(), SLOW).toContain(label);
    await page.getByRole("radio", { name: "depth and scope" }).check();
    await expect.poll(text, SLOW).toMatch(/Scope that pulls the anchor at/);
    await addressed(page, "map=scope");
    await page.getByRole("button", { name: "Undo" }).click();
    await expect.poll(text, SLOW).toMatch(/load at the bow, kN/);
    await expect.poll(() => page.getByRole("radio", { name: "depth and load" }).isChecked(), SLOW).toBe(true);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("is worked by the keyboard: sliders move load, length and depth, and the two are told apart again", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at(TWO));
    const load = page.getByRole("slider", { name: "Load at both bows, slider" });
    await load.waitFor();
    await expect.poll(() => load.getAttribute("aria-valuetext"), SLOW).toBe("2500 N");
    await load.focus();
    for (let i = 0; i < 5; i++) await page.keyboard.press("ArrowRight");
    const newtons = async () =>
      Number(await page.getByRole("textbox", { name: "Load at both bows", exact: true }).inputValue());
    // A step is a thousandth of the way from 50 N to 30 kN in ratios: 0.64 %, rounded to four digits.
    await expect.poll(newtons, SLOW).toBeGreaterThan(2500 * 1.0064 ** 4);
    expect(await newtons()).toBeLessThan(2500 * 1.0064 ** 6);
    const before = await angle(page, "Mixed rode");
    const depth = page
      .getByRole("region", { name: "B: Mixed rode", exact: true })
      .getByRole("slider", { name: /^Depth/ });
    await depth.focus();
    await page.keyboard.press("PageDown");
    await expect.poll(() => angle(page, "Mixed rode"), SLOW).toBeLessThan(before);
    await expect.poll(() => depth.getAttribute("aria-valuetext"), SLOW).toMatch(/^\d\.\d+ m$/);
    // All keys on one slider are one stroke.
    await page.getByRole("button", { name: "Undo" }).click();
    await expect.poll(() => angle(page, "Mixed rode"), SLOW).toBe(before);
    await page.getByRole("button", { name: "Undo" }).click();
    await expect.poll(() => load.getAttribute("aria-valuetext"), SLOW).toBe("2500 N");
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("says what cannot be matched and why, and takes a rig from the bench and back", async () => {
    const page = await bench.page(sizes.tablet);
    await page.goto(bench.at(TWO));
    const second = page.getByRole("region", { name: "B: Mixed rode", exact: true });
    await second.waitFor();
    await page.getByRole("textbox", { name: /^Length of chain 10 mm/ }).fill("5");
    await expect
      .poll(() => said(page).textContent(), SLOW)
      .toMatch(/^A, Short chain: the rode, 5 m long, is not longer than the rise/);
    await page.getByText(/^No length of B pulls like A: /).waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole("textbox", { name: /^Length of chain 10 mm/ }).fill("24");
    await page.getByRole("textbox", { name: "Load at both bows", exact: true }).fill("2 kN");
    await second.getByRole("link", { name: "Open in Rig" }).click();
    await page.getByText("load at the anchor").first().waitFor();
    await expect.poll(() => page.getByRole("textbox", { name: "Pull", exact: true }).inputValue(), SLOW).toBe("2000");
    await page.getByRole("textbox", { name: "Depth at the anchor", exact: true }).fill("6.5");
    await page.getByRole("link", { name: "Match", exact: true }).click();
    await page
      .getByRole("region", { name: "A: Short chain", exact: true })
      .getByRole("button", { name: "Take the rig from Rig" })
      .click();
    const depth = page.getByRole("textbox", { name: "Depth", exact: true });
    await expect
      .poll(async () => [await depth.first().inputValue(), await depth.last().inputValue()], SLOW)
      .toEqual(["6.5", "8"]);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("keeps both in its address: another device shows the same, without a network too", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at(TWO));
    await page.getByRole("button", { name: /^(Pay out|Haul in) [\d.]+ m of B: it then pulls like A$/ }).click();
    const paidOut = ({ searchParams }: URL) => Number(/\*([\d.]+)$/.exec(searchParams.get("o-rode") ?? "")?.[1] ?? 30);
    const kept = await addressed(page, (address) => paidOut(address) !== 30);
    const felt = await angle(page, "Mixed rode");
    const other = await bench.page(sizes.phone, { keepsOffline: true });
    await other.goto(kept);
    await expect.poll(() => angle(other, "Mixed rode"), SLOW).toBe(felt);
    await expect.poll(() => said(other).textContent(), SLOW).toBe("Both anchors are pulled at the same angle.");
    await keptOffline(other);
    await other.context().setOffline(true);
    await bench.stopServer();
    try {
      await other.reload();
      await expect.poll(() => angle(other, "Mixed rode"), SLOW).toBe(felt);
      await map(other).waitFor(SLOW);
    } finally {
      await bench.startServer();
      await other.context().setOffline(false);
    }
    expect([...page.troubles, ...other.troubles]).toEqual([]);
    await page.context().close();
    await other.context().close();
  });

  for (const name of sizeNames) {
    it(`stands within a ${name}, in all three themes, and holds to WCAG by axe`, async () => {
      const page = await bench.page(sizes[name]);
      await page.goto(bench.at(TWO));
      await map(page).waitFor(SLOW);
      for (const theme of ["light", "dark", "sun"] as const) {
        await page.getByLabel("Theme").selectOption(theme);
        await expect.poll(() => sideways(page), SLOW).toBeLessThanOrEqual(0);
        expect(await axeViolations(page, theme === "light" ? "all" : "colours")).toEqual([]);
      }
      // A slider a thumb can set: never narrower than half of what it stands in.
      const narrow = await page.evaluate(() =>
        Math.min(
          ...[...document.querySelectorAll('input[type="range"]')].map((it) => it.getBoundingClientRect().width),
        ),
      );
      expect(narrow).toBeGreaterThan(140);
      expect(page.troubles).toEqual([]);
      await page.context().close();
    });
  }
});
