/** What a log says of its pull in Days: by the cell and the hold rule its record tells, and as load against movement. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { newBook, openBook } from "../../src/book/index.ts";
import { reduceTrace } from "../../src/pull/index.ts";
import { makePull } from "../pull/anchor/make-pull.ts";
import { regimes } from "../pull/anchor/regimes.ts";
import { simulatePull } from "../pull/trace/simulated-pull.ts";
import { axeViolations, chromiumPath, type OpenBench, openBench, PATIENCE, saved, sideways, sizes } from "./harness.ts";

const journey = chromiumPath() === null ? describe.skip : describe;
const SLOW = { timeout: PATIENCE };

// From the first to the last time under load: no slack tells the zero, so that the tare changes what was held.
const { trace } = simulatePull({ seed: 41 });
const under = [...trace.time.keys()].filter((i) => trace.load[i]! > 1000);
const [time, load] = [trace.time, trace.load].map((of) => Float64Array.from(under, (i) => of[i]!)) as [
  Float64Array,
  Float64Array,
];
const held = (settings = {}, tare = 0) =>
  reduceTrace({ time, load: load.map((f) => f - tare) }, { readAt: "bow", settings }).held;

const tracked = makePull(regimes.find(({ name }) => name === "breaks out and sets again")!, 905_002).trace;
/** Another, whose load and track tell each other's clock. */
const clocked = makePull(regimes.find(({ name }) => name === "turned round, set again")!, 907_001).trace;
/** A metre in degrees at the equator, by the half axis of WGS 84 (6 378 137 m, exact by definition). */
const METRE = 180 / Math.PI / 6_378_137;

journey("how a log is judged, by its pull's record", () => {
  let bench: OpenBench;
  let [pull, log, beside, late] = ["", "", "", ""];
  beforeAll(async () => {
    bench = (await openBench((path) => {
      const book = newBook(path, { title: "Judged" }, { who: "journey" });
      pull = book.write([{ kind: "pull", set: { number: 1, loadAt: "bow" } }], "add pull").ids[0]!;
      const channels = [{ name: "load", quantity: "force", unit: "N", precision: "double" as const }];
      log = book.logs.open({ name: "cell", pull, channels }).log;
      book.logs.append(log, { times: time.map((t) => 1.9e9 + t), columns: { load } }, { from: 0, to: time.length });
      book.logs.finish(log);
      const places = ["latitude", "longitude"].map((name) => ({
        ...channels[0]!,
        name,
        quantity: "angle",
        unit: "deg",
      }));
      const other = book.write([{ kind: "pull", set: { number: 2, loadAt: "bow" } }], "add pull").ids[0]!;
      beside = book.logs.open({ name: "with its track", pull: other, channels: [...channels, ...places] }).log;
      // A place a second among ten readings of load.
      const sparse = (of: Float64Array) =>
        tracked.time.map((_, i) => (i % 10 === 0 && i / 10 < of.length ? of[i / 10]! * METRE : Number.NaN));
      const { north, east } = tracked.track!;
      const columns = { load: tracked.load, latitude: sparse(north), longitude: sparse(east) };
      book.logs.append(
        beside,
        { times: tracked.time.map((t) => 1.9e9 + t), columns },
        { from: 0, to: tracked.time.length },
      );
      book.logs.finish(beside);
      const third = book.write([{ kind: "pull", set: { number: 3, loadAt: "anchor" } }], "add pull").ids[0]!;
      const write = (name: string, at: Float64Array, some: typeof channels, columns: Record<string, Float64Array>) => {
        const one = book.logs.open({ name, pull: third, channels: some }).log;
        book.logs.append(one, { times: at.map((t) => 1.9e9 + t), columns }, { from: 0, to: at.length });
        book.logs.finish(one);
        return one;
      };
      const [n, e] = [clocked.track!.north, clocked.track!.east].map((of) => of.map((m) => m * METRE));
      const at7 = clocked.track!.time.map((t) => t + 7);
      write("a track 7 s late", at7, places, { latitude: n!, longitude: e! });
      late = write("its load", clocked.time, channels, { load: clocked.load });
      book.close();
    }))!;
  });
  afterAll(async () => bench?.close());

  it("sees what was held change with the tare and the hold rule, and refuses what makes no sense in one line", async () => {
    const plain = held();
    const judged = held({ heldFor: 600 }, 200);
    if (plain.kind === "notKnown") throw new Error("a held load is expected");
    // The last thing that this model pull did was to give way: by no rule that long is anything held, and it gave way still.
    if (judged.kind === "notKnown") throw new Error("a load is expected");
    expect(judged.newtons).not.toBeCloseTo(plain.newtons, -1);

    const page = await bench.page(sizes.phone);
    const typed = (name: string) => page.getByRole("textbox", { name, exact: true });
    const says = page.locator("dl").filter({ hasText: "read at the bow" });
    await page.goto(bench.at(`/days?at=log+${log}`));
    await page.getByText(/Judged by the hold rule: kept for 8 s or longer; no track/).waitFor(SLOW);
    const before = await says.textContent();
    await page.goto(bench.at(`/days?at=edit+pull+${pull}`));
    const fold = page.getByText("How its log is judged");
    await fold.waitFor(SLOW);
    expect(await typed("Tare of the cell").count()).toBe(0);
    await fold.click();
    await typed("Tare of the cell").fill("200 kg");
    await page.getByText(/a force is expected, such as "200 N"/).waitFor(SLOW);
    await typed("Tare of the cell").fill("200 N");
    await typed("Held when kept for").fill("-3 s");
    await page.getByText(/a time from 0.1 s to a day is expected, such as 30 s/).waitFor(SLOW);
    await typed("Held when kept for").fill("600 s");
    expect(await sideways(page)).toBeLessThanOrEqual(0);
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole("button", { name: "Write it down" }).click();
    await page.getByText("What is said of it").waitFor(SLOW);
    const book = openBook(bench.book, { readOnly: true, backups: false });
    expect(book.get("pull", pull)).toMatchObject({ tare_N: 200, heldFor_s: 600, heldWithin_m: null });
    book.close();

    await page.goto(bench.at(`/days?at=log+${log}`));
    await page.getByText(/Judged by the hold rule: kept for 600 s or longer/).waitFor(SLOW);
    await expect.poll(() => says.textContent(), SLOW).not.toBe(before);
    expect(page.troubles).toEqual([]);
  });

  it("says how far a track's clock in another log is off, and one touch states it, by which all is judged from then on", async () => {
    const page = await bench.page(sizes.phone);
    await page.goto(bench.at(`/days?at=log+${late}`));
    const told = page.getByText(/^Clock of the track: by load and track −\d\.?\d* ± \d\.?\d* s to be added/);
    await told.waitFor(SLOW);
    const [, by, u] = /−(\d\.?\d*) ± (\d\.?\d*)/.exec((await told.textContent())!)!;
    expect(Math.abs(Number(by) - 7)).toBeLessThan(2 * Number(u));
    expect(await axeViolations(page)).toEqual([]);
    expect(await sideways(page)).toBeLessThanOrEqual(0);
    await page.getByRole("button", { name: "Write it as the pull's track clock", exact: true }).click();
    await page.getByText(`Clock of the track: −${by} s added to its times, as stated.`).waitFor(SLOW);
    await expect.poll(() => told.count(), SLOW).toBe(0);
    const book = openBook(bench.book, { readOnly: true, backups: false });
    expect(book.list("pull").find(({ number }) => number === 3)!.trackClock_s).toBe(-Number(by));
    book.close();
    expect(page.troubles).toEqual([]);
  });

  it("draws load against the anchor's movement where a track tells it, and saves its rows", async () => {
    const { way, first } = reduceTrace(tracked, { readAt: "bow" });
    expect(way.length).toBeGreaterThanOrEqual(2);
    if (first.kind !== "moved") throw new Error("a movement is expected");
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at(`/days?at=log+${beside}`));
    await page.getByText(/First movement: at .* ± .* s, by load and track together/).waitFor(SLOW);
    const title = "with its track: load against the anchor's movement";
    await page.getByRole("figure", { name: title }).scrollIntoViewIfNeeded(SLOW);
    const { text } = await saved(page, title, "CSV");
    const rows = text.trim().split("\r\n").slice(1);
    // Each mark, and the line through them.
    expect(rows).toHaveLength(2 * way.length);
    const loads = rows.slice(way.length).map((row) => Number(row.split(",").at(-2)));
    // Drawn in kN; places in the book were written in degrees and read back, which moves a plateau's load by nothing.
    for (const [k, { load }] of way.entries()) expect(loads[k]).toBeCloseTo(load.value / 1000, 3);
    expect(page.troubles).toEqual([]);
  });
});
