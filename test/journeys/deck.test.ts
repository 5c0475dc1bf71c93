import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openBook } from "../../src/book/index.ts";
import {
  axeViolations,
  chromiumPath,
  keptOffline,
  type OpenBench,
  openBench,
  PATIENCE,
  saved,
  sideways,
  sizes,
  watched,
  wordsOf,
} from "./harness.ts";

const journey = chromiumPath() === null ? describe.skip : describe;
/** Two slow cores under load. */
const SLOW = { timeout: PATIENCE };

type BenchPage = Awaited<ReturnType<OpenBench["page"]>>;
const button = (page: BenchPage, name: string | RegExp) => page.getByRole("button", { name, exact: true });

/** Types a load on the big keys; returns once it stands large, which is when the device has it. */
async function keepLoad(page: BenchPage, newtons: number): Promise<void> {
  for (const sign of String(newtons)) await button(page, sign).click();
  await button(page, "Keep").click();
  await button(page, `Take back: ${newtons} N`).waitFor(SLOW);
}

journey("a pull on deck, at phone size", () => {
  let bench: OpenBench;
  beforeAll(async () => {
    bench = (await openBench())!;
  });
  afterAll(() => bench?.close());

  it("loses no reading and makes no pull twice, with the server gone, the tab closed, and both back", async () => {
    const page = await bench.page(sizes.phone, { theme: "sun", keepsOffline: true });
    // Planned first: the code of a pull takes what is to be laid out to the deck.
    await page.goto(bench.at("/series"));
    const planned = page.getByRole("link", { name: /^[2-9A-Z]{5}$/ }).first();
    await planned.waitFor(SLOW);
    await page.getByText("too little engine", { exact: false }).first().waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await expect.poll(() => sideways(page), SLOW).toBeLessThanOrEqual(0);
    // A field of the form is a place of the text; what it takes away stands in the text no more.
    await page.getByLabel("Pulls of each", { exact: true }).fill("3");
    await button(page, "The same as a text").click();
    const text = page.getByLabel("Series file", { exact: true });
    await expect.poll(() => text.inputValue(), SLOW).toContain("repeats: 3");
    await button(page, "Add anchor").click();
    await expect.poll(() => text.inputValue(), SLOW).toContain("name: Anchor 3");
    await button(page, "Take out anchor 3").click();
    await expect.poll(() => text.inputValue(), SLOW).not.toContain("Anchor 3");
    await page.getByLabel("Pulls of each", { exact: true }).fill("2");
    await expect.poll(() => text.inputValue(), SLOW).toContain("repeats: 2");
    expect(await axeViolations(page)).toEqual([]);
    await expect.poll(() => sideways(page), SLOW).toBeLessThanOrEqual(0);
    await page.getByLabel("Series file", { exact: true }).fill("format: rodebench/series@1\nquestion: none\n");
    await page
      .getByRole("alert")
      .getByText(/^series: question.* expected/)
      .waitFor(SLOW);
    await page.getByRole("button", { name: "Undo", exact: false }).click();
    const code = (await planned.textContent())!;
    await planned.click();
    await expect.poll(() => page.getByLabel("Code on the sheet", { exact: false }).inputValue(), SLOW).toBe(code);
    await expect
      .poll(() => page.getByLabel("Loads at the anchor", { exact: false }).inputValue(), SLOW)
      .toBe("1000 N, 2000 N");
    // The same code typed from the sheet finds its pull again; one wrong sign is told.
    await page.goto(bench.at("/deck?depth=9&out=9&loads=1+kN"));
    const sign = page.getByLabel("Code on the sheet", { exact: false });
    await sign.fill(`${code.slice(0, 4)}${code.endsWith("2") ? "3" : "2"}`);
    await page.getByText("is no code of the series").waitFor(SLOW);
    // A sign that no code has is told with the one code it can be.
    await sign.fill(`${code.slice(0, 2)} o${code.slice(3).toLowerCase()}`);
    await page.getByText("O stands in no code", { exact: false }).waitFor(SLOW);
    await button(page, `Take ${code}`).click();
    await expect.poll(() => sign.inputValue(), SLOW).toBe(code);
    await sign.fill(`${code.slice(0, 2)}-${code.slice(2).toLowerCase()} `);
    await button(page, "Lay out as planned").click();
    await expect
      .poll(() => page.getByLabel("Loads at the anchor", { exact: false }).inputValue(), SLOW)
      .toBe("1000 N, 2000 N");
    await page.goto(bench.at("/deck?depth=7&out=40&loads=500+N%2C+1+kN&anchor=Plough+A&code=X922E"));
    await page.getByRole("heading", { name: "Set up a pull" }).waitFor(SLOW);
    await expect.poll(() => button(page, "Begin the pull").isDisabled(), SLOW).toBe(true);
    await page.getByRole("checkbox").check();
    expect(await axeViolations(page)).toEqual([]);
    await button(page, "Begin the pull").click();
    await page.getByText("1 of 3:").waitFor(SLOW);
    await keptOffline(page);
    const kept: number[] = [];
    const keep = async (newtons: number) => {
      await keepLoad(page, newtons);
      kept.push(newtons);
    };
    await button(page, "Next step").click();
    await keep(420);
    await keep(610);
    // A phone 390 points wide is some 65 mm across: 15 mm are 90 points.
    const number = page.locator("[data-number]");
    const height = await number.evaluate((element) => {
      const { fontWeight, fontSize, fontFamily } = getComputedStyle(element);
      const pen = document.createElement("canvas").getContext("2d")!;
      pen.font = `${fontWeight} ${fontSize} ${fontFamily}`;
      return pen.measureText("8").actualBoundingBoxAscent;
    });
    expect(height).toBeGreaterThanOrEqual(90);
    await expect.poll(() => sideways(page), SLOW).toBeLessThanOrEqual(0);
    expect(await axeViolations(page)).toEqual([]);
    // What stands large is the anchor's; a touch shows the bow's, which is what was typed.
    await expect.poll(async () => Number(await number.textContent()), SLOW).toBeLessThan(610);
    await number.click();
    await expect.poll(() => number.textContent(), SLOW).toBe("610");
    await number.click();
    await expect.poll(() => number.textContent(), SLOW).not.toBe("610");

    // 500 N at the anchor are some 830 N at the bow: the loads so far lie below what counts, the next one begins a hold.
    const hold = page.locator("[data-hold]");
    await expect.poll(() => hold.textContent(), SLOW).toMatch(/^A hold: from \d+ N at the bow/);
    await bench.killServer();
    await keep(880);
    await expect.poll(() => hold.textContent(), SLOW).toMatch(/^(Counts as held in|Held) \d+ s.* moves less than 1 m/);
    await keepLoad(page, 9100);
    await button(page, "Take back: 9100 N").click();
    await button(page, "Nothing to take back").waitFor(SLOW);
    await button(page, "Next step").click();
    await page.getByText("3 of 3:").waitFor(SLOW);
    await keep(1040);
    await page.close();

    const again = watched(await page.context().newPage());
    await again.goto(bench.at("/deck"));
    await button(again, "Take back: 1040 N").waitFor(SLOW);
    await again.getByText("3 of 3:").waitFor();
    await keepLoad(again, 1100);
    kept.push(1100);
    // A second window of the device shows the same pull, and what is kept in one is in both.
    const beside = watched(await page.context().newPage());
    await beside.goto(bench.at("/deck"));
    await button(beside, "Take back: 1100 N").waitFor(SLOW);
    await keepLoad(beside, 1090);
    kept.push(1090);
    await button(again, "Take back: 1090 N").waitFor(SLOW);
    await beside.close();
    await button(again, "Moved").click();
    await button(again, "Take back: moved").waitFor(SLOW);
    await bench.startServer();
    await button(again, "Gave way").click();
    await button(again, "Take back: gave way").waitFor(SLOW);
    await button(again, "End the pull").click();
    await button(again, "Write it into the book").click();
    await again.getByRole("heading", { name: "Set up a pull" }).waitFor(SLOW);
    // The pull as it went is drawn and saved with what the device has: there is no server.
    await again.getByRole("figure", { name: "Plough A: load over time" }).waitFor(SLOW);
    const figure = await saved(again, "Plough A: load over time", "CSV");
    const points = figure.text.split("\r\n").filter((row) => row.split(",")[0] === "");
    for (const load of kept) expect(points.some((row) => Number(row.split(",").at(-4)) * 1000 === load)).toBe(true);
    const drawing = await saved(again, "Plough A: load over time", "SVG");
    expect(drawing.text).toContain("step 2: hold");
    expect(wordsOf(drawing.text)).toContain("Made by rodebench");
    expect(await axeViolations(again)).toEqual([]);
    await expect.poll(() => sideways(again), SLOW).toBeLessThanOrEqual(0);
    await again.reload();
    await again.getByRole("heading", { name: "Set up a pull" }).waitFor(SLOW);

    const seen = () => {
      const book = openBook(bench.book, { readOnly: true, backups: false });
      try {
        const pulls = book.list("pull");
        const logs = book
          .list("log")
          .map(({ id }) => [...book.logs.rows(id)].flatMap(({ columns }) => [...columns.load!]));
        return { pulls, logs, marks: book.list("mark").map(({ kind }) => kind), rigs: book.list("rigVersion").length };
      } finally {
        book.close();
      }
    };
    await expect.poll(() => seen().marks.sort(), SLOW).toEqual(["drag", "note", "step", "step"]);
    await expect.poll(() => seen().logs, SLOW).toEqual([kept]);
    const { pulls, rigs } = seen();
    expect(pulls).toHaveLength(1);
    expect(rigs).toBe(1);
    expect(pulls[0]).toMatchObject({
      depth_m: 7,
      paidOut_m: 40,
      loadAt: "bow",
      endedBy: "drag",
      remarks: "planned pull X922E",
      result: { kind: "gaveWay", load_N: 1100, u_N: 20 },
    });
    await expect.poll(() => again.getByText("on this device for the book").count(), SLOW).toBe(0);

    // The device as a gauge: 14° one way round with a zero of 1°, then turned end for end.
    await again.getByLabel("Anchor", { exact: true }).fill("Plough A");
    await button(again, "Begin the pull").click();
    await again.getByRole("button", { name: "Angle by this device" }).click();
    const tilt = await again.context().newCDPSession(again);
    const tell = async (degrees: number) => {
      for (let i = 0; i < 24; i++)
        await tilt.send("DeviceOrientation.setDeviceOrientationOverride", {
          alpha: 0,
          beta: degrees + (i % 2 === 0 ? 0.4 : -0.4),
          gamma: 0,
        });
    };
    for (const [name, degrees] of [
      ["Measure one way", 15],
      ["Measure turned end for end", -13],
    ] as const) {
      // The device lies as it is to be measured before its reading begins: what it told before is no part of it.
      await tell(degrees);
      await button(again, name).click();
      await expect
        .poll(async () => {
          await tell(degrees);
          return button(again, "Take this").isEnabled();
        }, SLOW)
        .toBe(true);
      await button(again, "Take this").click();
    }
    await again.getByText(/^.*Angle 14\.\d+° ± .*the device's own zero 1\.\d+°/).waitFor(SLOW);
    await button(again, "Keep this angle").click();
    await button(again, /^Take back: angle 14/).waitFor(SLOW);
    await expect.poll(() => seen().pulls.length, SLOW).toBe(2);
    expect([...page.troubles, ...again.troubles, ...beside.troubles]).toEqual([]);
  });
});
