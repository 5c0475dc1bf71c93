import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type LinePart, settle } from "../../src/rode/index.ts";
import { partRows } from "../../src/web/rig/part-rows.gen.ts";
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
} from "./harness.ts";

/** A rig written in an address, as it may be sent: chain, kellet between two lengths of rope. */
const KELLET =
  '/rig?name=Kellet&in=water&depth=9&roller=1.4&friction=0.7&rode=chain+8+mm+grade+30*15~polyester+double-braid+14+mm*10~{"kind":"point","name":"kellet","mass":15,"density":7850}~polyester+double-braid+14+mm*20&u-mass=0.03&u-rise=0.3&load=bow+1400';

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

const field = (page: BenchPage, name: string) => page.getByRole("textbox", { name, exact: true });

/** A number of the place with its ±, as it is read. */
const reading = async (page: BenchPage, name: string): Promise<string> => {
  const row = page.locator("dl > div", { has: page.getByText(name, { exact: true }) });
  return (await row.locator("dd > span").allTextContents()).join(" ");
};

async function dragged(page: BenchPage, label: RegExp, dx: number, dy: number): Promise<void> {
  // The knob itself: a hint may stand beside it.
  const knob = page.getByRole("slider", { name: label }).first().locator("circle").last();
  const box = await boxAtRest(knob);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= 8; i++) await page.mouse.move(x + (dx * i) / 8, y + (dy * i) / 8);
  await page.mouse.up();
}

journey("the place Rig", () => {
  for (const name of sizeNames) {
    it(`answers at once on a ${name}, says nothing sideways, and holds to WCAG by axe, in all three themes`, async () => {
      const page = await bench.page(sizes[name]);
      await page.goto(bench.at("/"));
      // The ± comes from the worker.
      await page.getByText(/^± \d/).first().waitFor();
      await addressed(page, "/rig?");
      for (const theme of ["light", "dark", "sun"] as const) {
        await page.getByLabel("Theme").selectOption(theme);
        await expect.poll(() => reading(page, "angle at the anchor"), SLOW).toMatch(/^\d+(\.\d+)?°\s+± \d+(\.\d+)?°$/);
        await expect.poll(() => sideways(page), SLOW).toBeLessThanOrEqual(0);
        expect(await axeViolations(page, theme === "light" ? "all" : "colours")).toEqual([]);
      }
      expect(page.troubles).toEqual([]);
      await page.context().close();
    });
  }

  for (const [size, width, height] of [
    ["a phone", 390, 844],
    ["a narrow phone", 320, 640],
  ] as const)
    it(`gives a newcomer on ${size} the angle of a depth, a chain and a load typed by finger, within one screen`, async () => {
      const page = await bench.page({ width, height, touch: true });
      await page.goto(bench.at("/"));
      const answer = page.getByRole("region", { name: "The answer" });
      await answer.getByText("angle at the anchor").waitFor(SLOW);
      await page.getByRole("slider", { name: "Pull, slid" }).waitFor(SLOW);
      // The rig holds nothing but chain: what is typed is all of it.
      const chain = page.getByRole("combobox", { name: /^Size of chain/ });
      expect(await page.getByRole("combobox", { name: /^Size of / }).count()).toBe(1);
      const typed = async (label: string, text: string) => {
        await field(page, label).tap();
        await page.keyboard.press("Control+a");
        await page.keyboard.type(text);
      };
      await typed("Depth at the anchor", "5");
      await typed("Pull", "1500");
      await chain.selectOption("chain 8 mm grade 30");
      await typed("Length of chain 8 mm grade 30", "25");
      // 8 mm grade 30 of the catalogue, solved apart from the page.
      const row = partRows.find(({ name }) => name === "chain 8 mm grade 30") as LinePart;
      const setting = { medium: "water", depth: 5, rollerHeight: 1.2, waterDensity: 1025 } as const;
      const settled = settle(
        {
          name: "by hand",
          setting: { ...setting, bottomSlope: 0, bottomFriction: 0.6, current: 0 },
          rode: [{ ...row, length: 25 }],
          uncertainty: {},
        },
        { at: "bow", newtons: 1500 },
      );
      const degrees = settled.kind === "settled" ? (180 * settled.anchor.angle) / Math.PI : Number.NaN;
      const shown = async () => Number.parseFloat((await answer.locator("strong").textContent()) ?? "");
      // As many decimals as the ± lets it have: two at most.
      await expect.poll(async () => Math.abs((await shown()) - degrees), SLOW).toBeLessThan(0.05);
      expect(await page.evaluate(() => window.scrollY)).toBeLessThanOrEqual(height);
      await expect.poll(() => answer.evaluate((it) => it.getBoundingClientRect().top), SLOW).toBeGreaterThanOrEqual(0);

      const own = await answer.locator("strong").textContent();
      const named = () => page.getByRole("textbox", { name: "Name of the rig" }).inputValue();
      await page.getByRole("button", { name: "Example", exact: true }).tap();
      await expect.poll(named, SLOW).toBe("Example");
      await page.getByRole("combobox", { name: /^Size of polyamide/ }).waitFor(SLOW);
      await page.getByRole("button", { name: "Leave the example" }).tap();
      await expect.poll(named, SLOW).toBe("My rig");
      await expect.poll(() => answer.locator("strong").textContent(), SLOW).toBe(own);
      expect(await sideways(page)).toBeLessThanOrEqual(0);
      expect(page.troubles).toEqual([]);
      await page.context().close();
    });

  it("draws the boat back, lowers the seabed, slides the kellet and pays out rode, by hand; each is one step of undo", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at(KELLET));
    await page.getByText(/^± \d/).first().waitFor();
    const depth = field(page, "Depth at the anchor");
    const pull = field(page, "Pull");
    const anchor = await reading(page, "load at the anchor");
    // Two lines of one name: told apart by their places.
    const rope = field(page, "Length of polyester double-braid 14 mm, part 2");

    await dragged(page, /Boat: draw it back/, 4, 0);
    await expect.poll(async () => Number(await pull.inputValue()), SLOW).toBeGreaterThan(1400);
    await dragged(page, /Seabed/, 0, 30);
    await expect.poll(async () => Number(await depth.inputValue()), SLOW).toBeGreaterThan(10);
    await dragged(page, /kellet: slide/, -60, 15);
    await expect.poll(async () => Number(await rope.inputValue()), SLOW).toBeLessThan(9);
    const last = field(page, "Length of polyester double-braid 14 mm, part 4");
    const before = Number(await last.inputValue());
    await dragged(page, /Rode: pay it out/, -50, 0);
    await expect.poll(async () => Number(await last.inputValue()), SLOW).toBeGreaterThan(before + 1);

    for (let i = 0; i < 4; i++) await page.getByRole("button", { name: "Undo" }).click();
    await expect.poll(() => pull.inputValue(), SLOW).toBe("1400");
    await expect.poll(() => depth.inputValue(), SLOW).toBe("9");
    await expect.poll(() => page.getByRole("button", { name: "Undo" }).isDisabled(), SLOW).toBe(true);
    await expect.poll(() => reading(page, "load at the anchor"), SLOW).toBe(anchor);
    await page.locator("body").press("Control+Shift+z");
    await expect.poll(async () => Number(await pull.inputValue()), SLOW).toBeGreaterThan(1400);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("asks the page for no style while a hand draws, on a phone either", async () => {
    const page = await bench.page(sizes.phone);
    await page.goto(bench.at(KELLET));
    await page.getByText(/^± \d/).first().waitFor();
    await page.evaluate(() => {
      const ask = window.getComputedStyle.bind(window);
      const counted = Object.assign(window, { stylesAsked: 0 });
      window.getComputedStyle = (...of) => {
        counted.stylesAsked++;
        return ask(...of);
      };
    });
    const pull = field(page, "Pull");
    await dragged(page, /Boat: draw it back/, 4, 0);
    await expect.poll(async () => Number(await pull.inputValue()), SLOW).toBeGreaterThan(1400);
    expect(await page.evaluate(() => (window as unknown as { stylesAsked: number }).stylesAsked)).toBe(0);
    await page.context().close();
  });

  it("keeps its menu off the line of the span on a phone, also with letters twice as large", async () => {
    const page = await bench.page(sizes.phone);
    await page.goto(bench.at("/rig"));
    const menu = page.getByRole("button", { name: /^Export: The rode/ });
    // The longest the rode can reach is drawn nearest to the menu.
    await field(page, "Pull").fill("90 kN");
    const clear = (): Promise<boolean> =>
      menu.evaluate((button) => {
        const [corner, lines] = [
          button.getBoundingClientRect(),
          [...document.querySelectorAll("svg[aria-label^='The rode'] path[class*='dimension']")].map((line) =>
            line.getBoundingClientRect(),
          ),
        ];
        return lines.length > 1 && lines.every(({ right, bottom }) => right < corner.left || bottom < corner.top);
      });
    await expect.poll(clear, SLOW).toBe(true);
    await page.evaluate(() => {
      document.documentElement.style.fontSize = "200%";
    });
    await field(page, "Pull").fill("80 kN");
    await expect.poll(clear, SLOW).toBe(true);
    await page.context().close();
  });

  it("tells the ± of what the hand holds before it lets go", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at(KELLET));
    await page.getByText(/^± \d/).first().waitFor();
    const hero = page.getByRole("region", { name: "The answer" }).locator("strong");
    await expect.poll(() => hero.textContent(), SLOW).toMatch(/° ± \d/);
    const before = await hero.textContent();
    const knob = await boxAtRest(
      page
        .getByRole("slider", { name: /^Seabed/ })
        .locator("circle")
        .last(),
    );
    const [x, y] = [knob.x + knob.width / 2, knob.y + knob.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (const dy of [5, 15, 30]) await page.mouse.move(x, y + dy);
    // The hand still holds it: another answer than before, with its own ±.
    await expect
      .poll(async () => ((await hero.textContent()) ?? "").replace(before!, ""), SLOW)
      .toMatch(/^\d+(\.\d+)?° ± \d/);
    await page.mouse.up();
    await page.context().close();
  });

  it("solves and draws again frame by frame while the seabed is drawn about", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at(`${KELLET}&over=10.4`));
    await page.getByText(/^± \d/).first().waitFor();
    const drawing = {
      on: '[role="slider"][aria-label^="Seabed"]',
      from: { x: 0.5, y: 0.5 },
      by: { x: 0, y: 40 },
      held: true,
      shown: "dl",
    };
    const waits = await framesUntilShown(page, drawing, 30);
    // What the hand moved stands, solved and drawn, in the very next frame.
    expect(waits.filter((frames) => frames === 1).length).toBeGreaterThanOrEqual(0.9 * waits.length);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("is worked by the keyboard alone, and tells a screen reader what changed", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at(KELLET));
    await page.getByText("angle at the anchor").first().waitFor();
    await page.keyboard.press("Tab");
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.textContent), SLOW)
      .toContain("Skip to the place");
    const boat = page.getByRole("slider", { name: /Boat: draw it back/ });
    await boat.focus();
    await expect
      .poll(() => boat.getAttribute("aria-valuetext"), SLOW)
      .toMatch(/load at the bow 1400 N, \d+\.\d+ m from the anchor/);
    await page.keyboard.press("ArrowRight");
    await expect.poll(() => boat.getAttribute("aria-valuetext"), SLOW).toMatch(/1470 N/);
    await page.getByRole("slider", { name: /Seabed/ }).focus();
    await page.keyboard.press("PageDown");
    await expect.poll(() => field(page, "Depth at the anchor").inputValue(), SLOW).toBe("10");
    await expect
      .poll(() => page.getByRole("status").first().textContent(), { timeout: PATIENCE })
      .toMatch(/Angle at the anchor/);
    await page.context().close();
  });

  it("takes imperial fractions as typed, and says in place what it cannot take, leaving it as typed", async () => {
    const page = await bench.page(sizes.desk, { units: "us" });
    await page.goto(bench.at(KELLET));
    const depth = field(page, "Depth at the anchor");
    await depth.fill(`30' 6"`);
    await depth.press("Enter");
    await expect.poll(() => depth.inputValue(), SLOW).toBe("30.5");
    await depth.fill("9 1/2 in");
    await depth.press("Enter");
    await expect.poll(async () => Number(await depth.inputValue()), SLOW).toBeCloseTo(9.5 / 12, 3);
    await depth.fill("12 kn");
    const wrong = page.getByRole("alert");
    await expect.poll(() => wrong.textContent(), SLOW).toMatch(/"12 kn" is a speed; a length is expected/);
    await expect.poll(() => depth.inputValue(), SLOW).toBe("12 kn");
    await expect.poll(() => depth.getAttribute("aria-invalid"), SLOW).toBe("true");
    await page.context().close();
  });

  it("keeps every state in its address: another device that is sent it shows the same", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at(KELLET));
    await field(page, "Depth at the anchor").fill("11.25");
    await page.getByLabel(/Lay the same rode/).check();
    const kept = await addressed(page, ({ search }) => search.includes("depth=11.25") && search.includes("over="));
    await page.getByText("in air", { exact: true }).waitFor();
    const other = await bench.page(sizes.phone);
    await other.goto(kept);
    // The ± is a few frames behind on both.
    const both = () => Promise.all([page, other].map((each) => reading(each, "load at the anchor")));
    await expect
      .poll(async () => {
        const [here, there] = await both();
        return here!.includes("±") && here === there;
      }, SLOW)
      .toBe(true);
    await expect.poll(() => field(other, "Depth at the anchor").inputValue(), SLOW).toBe("11.25");
    await page.context().close();
    await other.context().close();
  });

  it("says why nothing settles, and the nearest change that would, over the last drawing", async () => {
    const page = await bench.page(sizes.phone);
    await page.goto(
      bench.at("/rig?name=Chain&in=water&depth=6&roller=1&rode=chain+10+mm+grade+30+ISO+4565*15&load=bow+2000"),
    );
    await page.getByText("angle at the anchor").first().waitFor();
    await field(page, "Depth at the anchor").fill("20");
    await expect
      .poll(() => page.getByRole("alert").textContent(), SLOW)
      .toMatch(/the rode, 15 m long, is not longer than the rise of 21 m\..*A rode of more than 21 m would reach/);
    await expect.poll(() => reading(page, "angle at the anchor"), SLOW).toBe("–");
    expect(await axeViolations(page)).toEqual([]);
    await page.context().close();
  });

  it("stays at hand while a rode in a current, which settles slowly, is worked out beside it", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at(KELLET));
    await page.getByText(/^± \d/).first().waitFor();
    // Seen by the page itself: it may stand there for less time than a busy machine takes to look.
    await page.evaluate(() => {
      const look = new MutationObserver(() => {
        if (!document.body.textContent.includes("working out the curve…")) return;
        document.documentElement.dataset.worked = "yes";
        look.disconnect();
      });
      look.observe(document.body, { childList: true, subtree: true, characterData: true });
    });
    await field(page, "Current toward the boat").fill("1 kn");
    await page.locator("html[data-worked]").waitFor({ state: "attached" });
    // Meanwhile the load is changed, and what was asked before is dropped.
    await field(page, "Pull").fill("1500");
    await expect.poll(() => reading(page, "load at the bow"), SLOW).toContain("1500 N");
    await page.getByText("working out the curve…").first().waitFor({ state: "detached", timeout: PATIENCE });
    await page.getByText("working out the ±…").waitFor({ state: "detached", timeout: PATIENCE });
    await expect.poll(() => reading(page, "angle at the anchor"), SLOW).toMatch(/^\d+(\.\d+)?° ± \d+(\.\d+)?°/);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("enters a rig from the catalogue, warns of a part over its limit, and turns it out as a file that reads back", async () => {
    const page = await bench.page(sizes.tablet);
    await page.goto(
      bench.at("/rig?name=New&in=water&depth=8&roller=1&rode=chain+10+mm+grade+30+ISO+4565*30&load=bow+1500"),
    );
    await page.getByRole("button", { name: /Add a part/ }).click();
    await page.getByRole("radio", { name: "rope" }).check();
    await page.getByRole("searchbox", { name: "Search the catalogue" }).fill("three-strand 12 mm");
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole("option", { name: /polyamide three-strand 12 mm/ }).click();
    await field(page, "Length of polyamide three-strand 12 mm").fill("12");
    await page.getByRole("button", { name: /Add a part/ }).click();
    await page.getByRole("radio", { name: "weight" }).check();
    await page.getByRole("button", { name: "Hang it on the rode" }).click();
    await expect.poll(() => page.getByRole("textbox", { name: /^Length of chain/ }).count(), SLOW).toBe(2);
    await field(page, "Pull").fill("3 kN");
    await page.getByText(/polyamide three-strand 12 mm carries 3000 N, over its working load limit/).waitFor();

    const [saved] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save", exact: true }).click(),
    ]);
    const text = readFileSync((await saved.path())!, "utf8");
    expect(saved.suggestedFilename()).toBe("new.yaml");
    expect(text).toContain("format: rodebench/rig@1");
    const said = await reading(page, "load at the anchor");
    await page.goto(bench.at(KELLET));
    await page
      .locator('input[type="file"]')
      .setInputFiles({ name: "new.yaml", mimeType: "application/yaml", buffer: Buffer.from(text) });
    await field(page, "Length of polyamide three-strand 12 mm").waitFor();
    await field(page, "Pull").fill("3 kN");
    await expect.poll(() => reading(page, "load at the anchor"), SLOW).toBe(said);
    await page.locator('input[type="file"]').setInputFiles({
      name: "bad.yaml",
      mimeType: "application/yaml",
      buffer: Buffer.from(
        "format: rodebench/rig@1\nsetting: { medium: water, depth: 12 kn, rollerHeight: 1 m }\nrode: [ { chain: { grade: 30, size: 10 mm, length: 30 m } } ]\n",
      ),
    });
    await expect
      .poll(() => page.getByRole("alert").first().textContent(), SLOW)
      .toMatch(/bad\.yaml: setting\.depth: "12 kn" is a speed/);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("opens and computes without a network, and comes back to where it was", async () => {
    const page = await bench.page(sizes.phone, { keepsOffline: true });
    await page.goto(bench.at(KELLET));
    await keptOffline(page);
    await field(page, "Depth at the anchor").fill("10.5");
    await addressed(page, "depth=10.5");
    await expect.poll(() => reading(page, "load at the anchor"), SLOW).toContain("±");
    const [said] = (await reading(page, "load at the anchor")).split("±") as [string];
    await page.context().setOffline(true);
    await bench.stopServer();
    try {
      await page.reload();
      await expect.poll(() => reading(page, "load at the anchor"), SLOW).toContain(said);
      await field(page, "Depth at the anchor").fill("9.5");
      await expect
        .poll(async () => (await reading(page, "load at the anchor")).replace(said, ""), SLOW)
        .toMatch(/^\d.*± \d/);
      await page.getByText(/^± \d/).first().waitFor();
      // Opened by its bare address, the device's own state is there.
      await expect.poll(async () => (await heldByDevice(page, "rig")).depth, SLOW).toBe("9.5");
      await page.goto(bench.at("/rig"));
      await expect.poll(() => field(page, "Depth at the anchor").inputValue(), SLOW).toBe("9.5");
    } finally {
      await bench.startServer();
      await page.context().setOffline(false);
    }
    await page.reload();
    await expect.poll(() => field(page, "Depth at the anchor").inputValue(), SLOW).toBe("9.5");
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });
});
