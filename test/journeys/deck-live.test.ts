import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openBook } from "../../src/book/index.ts";
import { addBluetooth, inReach, lost, told } from "./fake-bluetooth.ts";
import {
  axeViolations,
  chromiumPath,
  keptOffline,
  type OpenBench,
  openBench,
  PATIENCE,
  sideways,
  sizes,
  watched,
} from "./harness.ts";
import { Boat, shownRows } from "./on-deck.ts";

const journey = chromiumPath() === null ? describe.skip : describe;
const SLOW = { timeout: PATIENCE };
const button = (page: Page, name: string | RegExp) => page.getByRole("button", { name, exact: true });
const number = async (page: Page) => Number(await page.locator("[data-number]").textContent());
const standOf = (page: Page, name: string) => page.locator("[data-instrument]").filter({ hasText: name });
const stands = (page: Page, name: string, state: string) =>
  page.locator(`[data-instrument="${state}"]`).filter({ hasText: name }).waitFor(SLOW);

/** The pulls of a bench's book with their logs, row by row. */
function inBook(bench: OpenBench) {
  const book = openBook(bench.book, { readOnly: true, backups: false });
  try {
    const logs = book.list("log").map(({ id, source, pull }) => ({
      id,
      source,
      pull,
      finished: book.logs.progress(id).kind === "finished",
      loads: [...book.logs.rows(id)].flatMap(({ columns }) => [...(columns.load ?? [])]),
      rows: book.logs.progress(id).rows,
    }));
    return { pulls: book.list("pull"), logs, marks: book.list("mark") };
  } finally {
    book.close();
  }
}

/** Waits until so many logs are in the book to their end: a result may come there before them. */
const finished = (bench: OpenBench, count: number) =>
  expect.poll(() => inBook(bench).logs.filter((log) => log.finished).length, SLOW).toBe(count);

const begin = async (page: Page, bench: OpenBench) => {
  await page.goto(bench.at("/deck?depth=7&out=40&loads=500+N%2C+1+kN&hold=2&anchor=Plough+A"));
  await page.getByRole("checkbox").check();
  await button(page, "Begin the pull").click();
  await page.getByText("1 of 3:").waitFor(SLOW);
  await button(page, "Instruments").click();
};

journey("a pull on deck with instruments of the bench", () => {
  let bench: OpenBench;
  let boat: Boat;
  beforeAll(async () => {
    boat = await Boat.start();
    bench = (await openBench(undefined, undefined, boat.live))!;
  });
  afterAll(async () => {
    await bench?.close();
    await boat?.stop();
  });

  it("loses no reading that was shown and makes no pull twice, with server, instrument and tab gone and back", async () => {
    const page = await bench.page(sizes.phone, { theme: "sun", keepsOffline: true });
    await begin(page, bench);
    await keptOffline(page);
    await button(page, `Follow ${boat.cellName}`).click();
    await button(page, `Follow ${boat.gaugeName}`).click();
    await stands(page, boat.cellName, "reading");
    await stands(page, boat.gaugeName, "reading");
    await expect.poll(() => number(page), SLOW).toBeGreaterThanOrEqual(0);
    expect(await axeViolations(page)).toEqual([]);
    await expect.poll(() => sideways(page), SLOW).toBeLessThanOrEqual(0);
    await button(page, "Next step").click();
    await page.getByText("2 of 3:").waitFor(SLOW);
    boat.load = 1100;
    await page.getByText(/✓/).waitFor(SLOW);

    // The server is killed: told at once, looked for, found; what was shown before is in the book after.
    await bench.killServer();
    await stands(page, boat.cellName, "lost");
    const shownThen = await shownRows(page);
    await bench.startServer();
    await stands(page, boat.cellName, "reading");
    // So is the instrument itself.
    boat.cell.drop();
    await expect
      .poll(() => inBook(bench).marks.filter(({ kind }) => kind === "gap").length, SLOW)
      .toBeGreaterThanOrEqual(3);

    // The tab is closed and opened: what was followed is followed on.
    await page.close();
    const again = watched(await page.context().newPage());
    await again.goto(bench.at("/deck"));
    await stands(again, boat.cellName, "reading");
    await again.getByText("2 of 3:").waitFor(SLOW);
    boat.load = 1800;
    // Less the rode that hangs and what rests on the bottom holds back.
    await expect.poll(() => number(again), SLOW).toBeGreaterThan(1300);
    await button(again, "Gave way").click();
    await button(again, "Take back: gave way").waitFor(SLOW);
    const shown = await shownRows(again);
    await button(again, "End the pull").click();
    await button(again, "Write it into the book").click();
    await again.getByRole("heading", { name: "Set up a pull" }).waitFor(SLOW);
    await expect.poll(() => inBook(bench).pulls[0]?.result?.kind, SLOW).toBe("gaveWay");
    await finished(bench, 2);
    await expect
      .poll(
        () =>
          inBook(bench)
            .marks.flatMap(({ origin, kind }) => (origin === "by hand" ? [kind] : []))
            .sort(),
        SLOW,
      )
      .toEqual(["drag", "step"]);

    const { pulls, logs, marks } = inBook(bench);
    expect(pulls).toHaveLength(1);
    expect(logs.map(({ source, finished }) => [source, finished]).sort()).toEqual(
      [boat.cellName, boat.gaugeName].sort().map((name) => [name, true]),
    );
    const cell = logs.find(({ source }) => source === boat.cellName)!;
    // The log is what was sent, in order, but for the gaps; what was shown is in it, each at its place.
    let at = -1;
    for (const load of cell.loads) {
      at = boat.sent.findIndex((one, i) => i > at && Math.fround(one) === load);
      expect(at).toBeGreaterThanOrEqual(0);
    }
    const loads = [...shownThen, ...shown].filter(({ values }) => values.load !== undefined);
    expect(loads.length).toBeGreaterThan(20);
    for (const { n, values } of loads) expect(cell.loads[n]).toBe(Math.fround(values.load!));
    expect(pulls[0]!.result).toMatchObject({ kind: "gaveWay" });
    expect((pulls[0]!.result as { load_N: number }).load_N).toBeGreaterThan(1760);
    const byHand = marks.filter(({ origin }) => origin === "by hand");
    expect(byHand.map(({ kind }) => kind).sort()).toEqual(["drag", "step"]);
    expect(byHand.every(({ log }) => [cell.id, logs.find((one) => one !== cell)!.id].includes(log!))).toBe(true);
    // Nothing is left on the device of what the book has.
    await expect.poll(async () => (await shownRows(again)).length, SLOW).toBe(0);
    expect([...page.troubles, ...again.troubles]).toEqual([]);
  });
});

journey("two devices on one pull", () => {
  let bench: OpenBench;
  beforeAll(async () => {
    bench = (await openBench())!;
  });
  afterAll(() => bench?.close());

  it("join: one pull, the readings and marks of both, and the result of the one that runs it", async () => {
    const bow = await bench.page(sizes.phone);
    await begin(bow, bench);
    const keepLoad = async (page: Page, newtons: number) => {
      for (const sign of String(newtons)) await button(page, sign).click();
      await button(page, "Keep").click();
      await button(page, `Take back: ${newtons} N`).waitFor(SLOW);
    };
    await keepLoad(bow, 640);
    const stern = await bench.page(sizes.phone);
    await stern.goto(bench.at("/deck"));
    await stern.getByRole("checkbox").check();
    await button(stern, /^Help with the pull of Plough A begun/).click();
    await stern.getByText("Helping with a pull of Plough A").waitFor(SLOW);
    await keepLoad(stern, 300);
    await button(stern, "Moved").click();
    await button(stern, "Take back: moved").waitFor(SLOW);
    expect(await axeViolations(stern)).toEqual([]);
    await button(stern, "Stop helping").click();
    await stern.getByRole("region", { name: "End of helping" }).getByRole("button", { name: "Stop helping" }).click();
    await stern.getByRole("heading", { name: "Set up a pull" }).waitFor(SLOW);
    await expect.poll(() => inBook(bench).marks.length, SLOW).toBe(1);
    await button(bow, "End the pull").click();
    await button(bow, "Write it into the book").click();
    await expect.poll(() => inBook(bench).pulls[0]?.result?.kind, SLOW).toBe("heldTo");
    await finished(bench, 2);
    const { pulls, logs, marks } = inBook(bench);
    expect(pulls).toMatchObject([{ result: { kind: "heldTo", load_N: 640 } }]);
    expect(logs.map(({ pull, loads, finished }) => [pull, loads, finished])).toEqual(
      expect.arrayContaining([
        [pulls[0]!.id, [640], true],
        [pulls[0]!.id, [300], true],
      ]),
    );
    expect(logs).toHaveLength(2);
    expect(marks).toMatchObject([{ kind: "note", log: logs.find(({ loads }) => loads[0] === 300)!.id }]);
    expect([...bow.troubles, ...stern.troubles]).toEqual([]);
  });
});

journey("a pull on deck with a serial cable at the device", () => {
  let bench: OpenBench;
  beforeAll(async () => {
    bench = (await openBench())!;
  });
  afterAll(() => bench?.close());

  it("keeps each reading on the device while there is no server, marks the gap, and brings all to the book once", async () => {
    const page = await bench.page(sizes.phone, { keepsOffline: true });
    // A serial port that is none: what the page is fed comes out of it.
    await page.addInitScript(() => {
      let out: ReadableStreamDefaultController<Uint8Array> | null = null;
      const port = {
        readable: null as ReadableStream<Uint8Array> | null,
        async open() {
          port.readable = new ReadableStream<Uint8Array>({
            start: (one) => {
              out = one;
            },
          });
        },
        async close() {
          out = null;
        },
      };
      Object.defineProperty(navigator, "serial", {
        value: { requestPort: async () => port, getPorts: async () => [port] },
      });
      Object.assign(globalThis, {
        feed: (text: string) => {
          out?.enqueue(new TextEncoder().encode(text));
          return out !== null;
        },
        lose: () => out?.close(),
      });
    });
    await begin(page, bench);
    await keptOffline(page);
    await expect.poll(() => inBook(bench).pulls.length, SLOW).toBe(1);
    await bench.killServer();
    const feed = (text: string) =>
      expect
        .poll(
          () => page.evaluate((it) => (globalThis as unknown as { feed(text: string): boolean }).feed(it), text),
          SLOW,
        )
        .toBe(true);
    const lines = (from: number, to: number) =>
      Array.from({ length: to - from }, (_, i) => `${from + i}.5 N\r\n`).join("");
    await button(page, "Serial cable here").click();
    await stands(page, "serial, 9600 baud", "waiting");
    await feed(lines(500, 512));
    await standOf(page, "11 readings").waitFor(SLOW);
    await page.evaluate(() => (globalThis as unknown as { lose(): void }).lose());
    await stands(page, "serial, 9600 baud", "lost");
    await feed(lines(600, 604));
    await standOf(page, "14 readings").waitFor(SLOW);
    await button(page, "End the pull").click();
    await button(page, "Write it into the book").click();
    await page.getByText("1 pull waits").waitFor(SLOW);
    await bench.startServer();
    await expect.poll(() => inBook(bench).pulls[0]?.result?.kind, SLOW).toBe("heldTo");
    await finished(bench, 1);
    await expect.poll(() => inBook(bench).marks.length, SLOW).toBe(1);
    const { pulls, logs, marks } = inBook(bench);
    expect(pulls).toMatchObject([{ result: { kind: "heldTo", load_N: 603.5 } }]);
    // The first line after a beginning or a break may be half of one.
    const whole = [...Array.from({ length: 11 }, (_, i) => 501.5 + i), 601.5, 602.5, 603.5];
    expect(logs.map(({ loads, finished }) => [loads, finished])).toEqual([[whole, true]]);
    expect(marks.map(({ kind, origin }) => [kind, origin])).toEqual([["gap", "automatic"]]);
    expect(page.troubles).toEqual([]);
  });
});

journey("a pull on deck with Bluetooth at the device", () => {
  let bench: OpenBench;
  beforeAll(async () => {
    bench = (await openBench())!;
  });
  afterAll(() => bench?.close());

  it("keeps what was shown through packets cut anywhere, loss and a tab closed, marks the gaps, and the book has all once", async () => {
    const page = await bench.page(sizes.phone, { keepsOffline: true });
    await addBluetooth(page);
    await begin(page, bench);
    await keptOffline(page);
    await expect.poll(() => inBook(bench).pulls.length, SLOW).toBe(1);
    await bench.killServer();
    const name = "Bluetooth Cell 7";
    const lines = (...loads: number[]) => loads.map((one) => `${one}.5 N\r\n`).join("");
    const from = (first: number, count: number) => Array.from({ length: count }, (_, i) => first + i);
    const tell = (on: Page, text: string) => expect.poll(() => told(on, text), SLOW).toBe(true);
    await button(page, "Bluetooth here").click();
    await stands(page, name, "waiting");
    await tell(page, lines(...from(500, 12)));
    await standOf(page, "11 readings").waitFor(SLOW);
    // What comes in the moment of the loss counts as what came before it.
    await lost(page, lines(512));
    await stands(page, name, "lost");
    await expect.poll(async () => (await shownRows(page)).length, SLOW).toBe(12);
    await page.getByText("no longer in range").waitFor(SLOW);
    expect(await told(page, lines(555))).toBe(false);
    await inReach(page);
    await tell(page, lines(...from(600, 4)));
    await stands(page, name, "reading");
    await standOf(page, "15 readings").waitFor(SLOW);
    expect(await axeViolations(page)).toEqual([]);
    const shown = await shownRows(page);

    // A tab opened again may not open it by itself: it says so, and one touch finds it again.
    await page.close();
    const again = watched(await page.context().newPage());
    await addBluetooth(again);
    await again.goto(bench.at("/deck"));
    await stands(again, name, "closed");
    await again.getByText("choose it again").waitFor(SLOW);
    const choose = button(again, "Bluetooth here");
    if (!(await choose.isVisible())) await button(again, "Instruments").click();
    await choose.click();
    // Lines are judged anew in a new tab, by the first eight whole ones.
    await tell(again, lines(...from(700, 10)));
    await standOf(again, "24 readings").waitFor(SLOW);
    shown.push(...(await shownRows(again)));
    await button(again, "End the pull").click();
    await button(again, "Write it into the book").click();
    await again.getByText("1 pull waits").waitFor(SLOW);
    await bench.startServer();
    await expect.poll(() => inBook(bench).pulls[0]?.result?.kind, SLOW).toBe("heldTo");
    await finished(bench, 1);
    await expect.poll(() => inBook(bench).marks.length, SLOW).toBe(2);
    const { pulls, logs, marks } = inBook(bench);
    expect(pulls).toMatchObject([{ result: { kind: "heldTo", load_N: 709.5 } }]);
    // The first line after a beginning or a break may be half of one.
    const whole = [...from(501, 12), ...from(601, 3), ...from(701, 9)].map((one) => one + 0.5);
    expect(logs.map(({ source, loads, finished }) => [source, loads, finished])).toEqual([[name, whole, true]]);
    expect(shown.length).toBe(15 + 24);
    for (const { n, values } of shown) expect(logs[0]!.loads[n]).toBe(values.load);
    expect(marks.map(({ kind, origin }) => [kind, origin])).toEqual([
      ["gap", "automatic"],
      ["gap", "automatic"],
    ]);
    expect([...page.troubles, ...again.troubles]).toEqual([]);
  });
});
