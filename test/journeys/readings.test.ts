import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
  addressed,
  axeViolations,
  chromiumPath,
  heldByDevice,
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

/** A rig in air, written in an address as the place Rig writes it. */
const IN_AIR = "/rig?name=Yard+rig&in=air&rise=7.4&rode=chain+8+mm+grade+30*26&u-mass=0.03&u-rise=0.1&load=bow+2000";

/** The demo's readings, as a spreadsheet would put them on the clipboard; one angle is read wrong by a slip. */
const TABLE = [
  "Load (N)\tAngle (deg)\tseen",
  "680\t\tlift-off",
  "750\t2.1\t",
  "800\t3.2\t",
  "900\t4.6\t",
  "1050\t6.8\t",
  "1250\t8.2\t",
  "1500\t19.4\t",
  "1800\t10.6\t",
  "2150\t12.2\t",
  "2550\t13.5\t",
].join("\n");

const cell = (page: BenchPage, table: string, name: string) =>
  page.getByRole("region", { name: table }).getByRole("textbox", { name, exact: true });
const angles = "Angle over load";
const release = "Movement on release";

/** Pastes as a hand would: the browser's own event, with the text on its clipboard. */
async function pasted(page: BenchPage, table: string, name: string, text: string): Promise<void> {
  await cell(page, table, name).evaluate((input, told) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData("text/plain", told);
    input.dispatchEvent(new ClipboardEvent("paste", { clipboardData, bubbles: true, cancelable: true }));
  }, text);
}

/** A fitted unknown, as it is read. */
const fitted = (page: BenchPage, name: string): Promise<string | null> =>
  page
    .getByRole("region", { name: /^Fitted/ })
    .locator("dl > div", { has: page.getByText(name, { exact: true }) })
    .locator("dd")
    .textContent();

const words = (page: BenchPage) => page.getByRole("region", { name: "In words" });

journey("the place Readings", () => {
  it("takes a rig in air from the bench, a pasted table, and judges it: unknowns fitted, the slip told in words", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at(IN_AIR));
    await page.getByText("angle at the anchor").first().waitFor();
    await page.getByRole("link", { name: "Readings" }).click();
    await page.getByRole("region", { name: "Against theory" }).waitFor();
    await page.getByRole("button", { name: "Take the rig from Rig" }).click();
    const rig = page.getByRole("region", { name: "Yard rig" });
    await rig.getByText("in air, rise 7.4 m").waitFor();
    await page.getByRole("group", { name: "Load cell at the" }).getByRole("radio", { name: "upper end" }).check();
    await page.getByRole("textbox", { name: "Load ±", exact: true }).fill("8");
    await page.getByRole("textbox", { name: "Angle ±", exact: true }).fill("0.4");

    await pasted(page, angles, "load, row 1", TABLE);
    await words(page).waitFor(SLOW);
    await expect.poll(() => cell(page, angles, "load, row 10").inputValue(), SLOW).toBe("2550");
    await expect
      .poll(() => page.getByRole("checkbox", { name: "lift-off, row 1", exact: true }).isChecked(), SLOW)
      .toBe(true);
    await expect
      .poll(() => page.getByRole("checkbox", { name: "lift-off, row 2", exact: true }).isChecked(), SLOW)
      .toBe(false);

    // Chain of 8 mm grade 30 weighs about 1.4 kg/m; the demo was made of one 2.5 % heavier than its table.
    await expect.poll(() => fitted(page, "mass per length"), SLOW).toMatch(/^1\.4\d* kg\/m± 0\.0\d+ kg\/mstated 1\.4/);
    await expect.poll(() => fitted(page, "rise"), SLOW).toMatch(/^7\.\d+ m± 0\.\d+ mstated 7\.40 ± 0\.10 m/);
    await expect.poll(() => fitted(page, "gauge zero"), SLOW).toMatch(/^-?\d\.\d+°± 0\.\d+°/);
    await words(page)
      .getByText(/theory accounts for 9 of 10 readings/)
      .waitFor();
    await words(page)
      .getByText(/1500 N:.*the angle is [\d.]+ standard uncertainties above theory: an outlier/)
      .waitFor();
    const row = page.getByRole("region", { name: angles }).getByRole("row").nth(7);
    await expect.poll(() => row.textContent(), SLOW).toMatch(/9\.\d+°[\s\S]*\+\d+\.\d outlier/);
    await expect.poll(() => page.getByRole("figure", { name: / over load$/ }).count(), SLOW).toBe(1);

    // The slip is mended, and is no outlier any more; undone, it is one again.
    await cell(page, angles, "angle, row 7").fill("9.4");
    await words(page)
      .getByText(/theory accounts for 10 of 10 readings/)
      .waitFor(SLOW);
    await page.getByRole("button", { name: "Undo" }).click();
    await words(page)
      .getByText(/theory accounts for 9 of 10 readings/)
      .waitFor(SLOW);
    await expect.poll(() => cell(page, angles, "angle, row 7").inputValue(), SLOW).toBe("19.4");
    // One paste is one step.
    await page.getByRole("button", { name: "Undo" }).click();
    await expect.poll(() => cell(page, angles, "load, row 1").inputValue(), SLOW).toBe("");
    await page.locator("body").press("Control+Shift+z");
    await expect.poll(() => cell(page, angles, "load, row 10").inputValue(), SLOW).toBe("2550");
    expect(await axeViolations(page)).toEqual([]);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("grows row by row under the keyboard, leaves wrong text as typed, and tells pasted rows that are wrong", async () => {
    const page = await bench.page(sizes.desk, { units: "us" });
    await page.goto(bench.at("/readings"));
    const first = cell(page, release, "load, row 1");
    await first.fill("900");
    await cell(page, release, "moved, row 1").fill("0");
    const focused = () => page.evaluate(() => document.activeElement?.getAttribute("aria-label"));
    await first.press("ArrowDown");
    await expect.poll(() => focused(), SLOW).toBe("load, row 2");
    await first.press("Enter");
    await expect.poll(() => focused(), SLOW).toBe("moved, row 1");
    // A whole row by keys alone: load, Enter, movement, Enter.
    await page.keyboard.press("Enter");
    await expect.poll(() => focused(), SLOW).toBe("load, row 2");
    await page.keyboard.type("800 lbf");
    await page.keyboard.press("Enter");
    await page.keyboard.type("9 1/2 in");
    await page.keyboard.press("Enter");
    await expect.poll(() => focused(), SLOW).toBe("load, row 3");
    await expect.poll(() => cell(page, release, "moved, row 2").inputValue(), SLOW).toBe("9.5");

    const wrong = cell(page, release, "load, row 3");
    await wrong.fill("700 kn");
    await cell(page, release, "load, row 1").focus();
    await expect.poll(() => wrong.inputValue(), SLOW).toBe("700 kn");
    await expect.poll(() => wrong.getAttribute("aria-invalid"), SLOW).toBe("true");
    await expect
      .poll(() => page.getByRole("alert").textContent(), SLOW)
      .toMatch(/load: "700 kn" is a speed.*a force is expected/);
    expect(await axeViolations(page)).toEqual([]);
    // A row above it goes, and what was typed wrong stays with its own row.
    await cell(page, release, "moved, row 3").fill("12");
    await page.getByRole("region", { name: release }).getByRole("button", { name: "Remove row 2" }).click();
    await expect.poll(() => cell(page, release, "load, row 2").inputValue(), SLOW).toBe("700 kn");
    await expect.poll(() => cell(page, release, "moved, row 2").inputValue(), SLOW).toBe("12");

    await pasted(page, angles, "load, row 1", "Load (lbf);Angle\n400;7\n500;eleven?1\n600,5;9\n700;10");
    const asked = page.getByRole("region", { name: "A pasted table: what is what?" });
    await asked.waitFor();
    await expect.poll(() => asked.getByRole("alert").textContent(), SLOW).toMatch(/^row 3: angle: "eleven\?1"/);
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.textContent), SLOW)
      .toBe("A pasted table: what is what?");
    // Nothing goes in before the answer, and nothing at all when it is left.
    await expect.poll(() => cell(page, angles, "load, row 1").inputValue(), SLOW).toBe("");
    expect(await axeViolations(page)).toEqual([]);
    await asked.getByRole("button", { name: "Take nothing" }).click();
    await expect.poll(() => cell(page, angles, "load, row 1").inputValue(), SLOW).toBe("");
    // Columns by their titles: a movement is never taken for a load, and a hand can say otherwise.
    await pasted(page, angles, "load, row 1", "Moved (mm);Force (kN);Angle\n12;4,1;7,5\n30;3,2;6");
    await asked.getByText('not used: "Moved (mm)"').waitFor();
    await asked.getByRole("combobox", { name: "Angle is" }).selectOption("not used");
    await asked.getByText("no column is the angle: it is left empty").waitFor();
    await asked.getByRole("combobox", { name: "Angle is" }).selectOption("angle");
    await asked.getByRole("button", { name: "Take 2 rows" }).click();
    await expect.poll(() => cell(page, angles, "load, row 1").inputValue(), SLOW).toBe("921.7");
    await expect.poll(() => cell(page, angles, "angle, row 1").inputValue(), SLOW).toBe("7.5");
    await pasted(page, angles, "load, row 1", "Load (lbf);Angle\n400;7\n500;eleven?1\n600,5;9\n700;10");
    await asked.getByRole("button", { name: "Take 3 rows, leave out the one told above" }).click();
    await expect.poll(() => cell(page, angles, "load, row 2").inputValue(), SLOW).toBe("600.5");
    // The demo does not take the place of rows unasked.
    await page.getByRole("button", { name: "The demo's readings" }).click();
    await page.getByText(/^\d rows stand in the tables\.$/).waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole("button", { name: "Keep them" }).click();
    await expect.poll(() => cell(page, angles, "load, row 2").inputValue(), SLOW).toBe("600.5");
    const told = asked;
    await expect.poll(() => told.count(), SLOW).toBe(0);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("says which row has no equilibrium and why, and answers again once it is mended", async () => {
    const page = await bench.page(sizes.phone);
    await page.goto(
      bench.at("/readings?run=Short&in=air&rise=7.4&rode=chain+8+mm+grade+30*26&cell=bow&u=8,0.4&read=1000,6;1500,9"),
    );
    await words(page).waitFor(SLOW);
    // The upper end of a rode cannot bear less than the weight that hangs from it.
    await cell(page, angles, "load, row 2").fill("1");
    const alert = page.getByRole("region", { name: "Against theory" }).getByRole("alert");
    await alert.waitFor(SLOW);
    await expect.poll(() => alert.textContent(), SLOW).toMatch(/^Row 2 of angle over load, 1 N: no equilibrium: .+\.$/);
    await expect
      .poll(() => page.getByRole("region", { name: angles }).getByText("no equilibrium").count(), SLOW)
      .toBe(1);
    await expect.poll(() => sideways(page), SLOW).toBeLessThanOrEqual(0);
    expect(await axeViolations(page)).toEqual([]);
    await cell(page, angles, "load, row 2").fill("1500");
    await words(page).waitFor(SLOW);
    await expect.poll(() => alert.count(), SLOW).toBe(0);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("is saved as a file that opens again, and kept in an address that another device shows alike", async () => {
    const page = await bench.page(sizes.tablet);
    await page.goto(bench.at("/readings"));
    await page.getByRole("button", { name: "The demo's readings" }).click();
    await words(page).waitFor(SLOW);
    const [mass, give] = [await fitted(page, "mass per length"), await fitted(page, "give of the rig per kN")];
    const said = await words(page).textContent();
    const [saved] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save as a file" }).click(),
    ]);
    expect(saved.suggestedFilename()).toBe("gantry-pull-hallow-yard.yaml");
    const text = readFileSync((await saved.path())!, "utf8");
    expect(text).toContain("format: rodebench/run@1");

    await addressed(page, ({ searchParams }) => searchParams.get("read")?.startsWith("680") ?? false);
    await page.getByRole("button", { name: "Clear" }).click();
    await page.getByRole("region", { name: "Against theory" }).waitFor();
    await words(page).waitFor({ state: "detached", ...SLOW });
    await addressed(page, ({ searchParams }) => !(searchParams.get("read")?.startsWith("680") ?? false));
    const file = { name: "again.yaml", mimeType: "application/yaml", buffer: Buffer.from(text) };
    await page.getByLabel("A run file").setInputFiles(file);
    await words(page).waitFor(SLOW);
    await expect.poll(() => fitted(page, "mass per length"), SLOW).toBe(mass);
    await expect.poll(() => fitted(page, "give of the rig per kN"), SLOW).toBe(give);
    await expect.poll(() => words(page).textContent(), SLOW).toBe(said);

    await page.getByLabel("A run file").setInputFiles({
      ...file,
      name: "bad.yaml",
      buffer: Buffer.from(text.replace("loadCellAt: bow", "loadCellAt: mast")),
    });
    await expect.poll(() => page.getByRole("alert").first().textContent(), SLOW).toMatch(/^bad\.yaml: loadCellAt: /);

    const kept = await addressed(page, "read=680");
    const other = await bench.page(sizes.desk);
    await other.goto(kept);
    await words(other).waitFor(SLOW);
    await expect.poll(() => fitted(other, "mass per length"), SLOW).toBe(mass);
    await expect.poll(() => fitted(other, "give of the rig per kN"), SLOW).toBe(give);
    await expect.poll(() => words(other).textContent(), SLOW).toBe(said);
    expect([...page.troubles, ...other.troubles]).toEqual([]);
    await page.context().close();
    await other.context().close();
  });

  for (const name of sizeNames) {
    it(`stands within a ${name}, in all three themes, empty and filled, and holds to WCAG by axe`, async () => {
      const page = await bench.page(sizes[name]);
      await page.goto(bench.at("/readings"));
      await page.getByRole("region", { name: "Against theory" }).waitFor();
      await expect.poll(() => sideways(page), SLOW).toBeLessThanOrEqual(0);
      expect(await axeViolations(page)).toEqual([]);
      await page.getByRole("button", { name: "The demo's readings" }).click();
      await words(page).waitFor(SLOW);
      for (const theme of ["light", "dark", "sun"] as const) {
        await page.getByLabel("Theme").selectOption(theme);
        await expect.poll(() => sideways(page), SLOW).toBeLessThanOrEqual(0);
        expect(await axeViolations(page, theme === "light" ? "all" : "colours")).toEqual([]);
        // Every cell shows the whole of what stands in it.
        const cut = await page.evaluate(
          () =>
            [...document.querySelectorAll<HTMLInputElement>("table input")].filter(
              (it) => it.scrollWidth > it.clientWidth,
            ).length,
        );
        expect(cut).toBe(0);
      }
      expect(page.troubles).toEqual([]);
      await page.context().close();
    });
  }

  it("judges without a network, and comes back to its rows", async () => {
    const page = await bench.page(sizes.phone, { keepsOffline: true });
    await page.goto(bench.at("/readings"));
    await keptOffline(page);
    await page.context().setOffline(true);
    await bench.stopServer();
    try {
      await page.reload();
      await page.getByRole("button", { name: "The demo's readings" }).click();
      await words(page).waitFor(SLOW);
      const said = await words(page).textContent();
      await expect.poll(async () => (await heldByDevice(page, "readings")).read, SLOW).toMatch(/^680/);
      await page.goto(bench.at("/readings"));
      await words(page).waitFor(SLOW);
      await expect.poll(() => words(page).textContent(), SLOW).toBe(said);
      await cell(page, angles, "angle, row 2").fill("9");
      await words(page)
        .getByText(/750 N:/)
        .waitFor(SLOW);
    } finally {
      await bench.startServer();
      await page.context().setOffline(false);
    }
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });
});
