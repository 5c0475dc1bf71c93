/** What a pull's record says of its cell and its hold rule, typed in Days, and what the log then says. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { newBook, openBook } from "../../src/book/index.ts";
import { reduceTrace } from "../../src/pull/index.ts";
import { simulatePull } from "../pull/trace/simulated-pull.ts";
import { axeViolations, chromiumPath, type OpenBench, openBench, PATIENCE, sideways, sizes } from "./harness.ts";

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

journey("how a log is judged, by its pull's record", () => {
  let bench: OpenBench;
  let [pull, log] = ["", ""];
  beforeAll(async () => {
    bench = (await openBench((path) => {
      const book = newBook(path, { title: "Judged" }, { who: "journey" });
      pull = book.write([{ kind: "pull", set: { number: 1, loadAt: "bow" } }], "add pull").ids[0]!;
      const channels = [{ name: "load", quantity: "force", unit: "N", precision: "double" as const }];
      log = book.logs.open({ name: "cell", pull, channels }).log;
      book.logs.append(log, { times: time.map((t) => 1.9e9 + t), columns: { load } }, { from: 0, to: time.length });
      book.logs.finish(log);
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
    if (process.env.LOOK) await page.screenshot({ path: `${process.env.LOOK}/form.png`, fullPage: true });
    await page.getByRole("button", { name: "Write it down" }).click();
    await page.getByText("What is said of it").waitFor(SLOW);
    const book = openBook(bench.book, { readOnly: true, backups: false });
    expect(book.get("pull", pull)).toMatchObject({ tare_N: 200, heldFor_s: 600, heldWithin_m: null });
    book.close();

    await page.goto(bench.at(`/days?at=log+${log}`));
    await page.getByText(/Judged by the hold rule: kept for 600 s or longer/).waitFor(SLOW);
    if (process.env.LOOK) await page.screenshot({ path: `${process.env.LOOK}/log.png`, fullPage: true });
    await expect.poll(() => says.textContent(), SLOW).not.toBe(before);
    expect(page.troubles).toEqual([]);
  });
});
