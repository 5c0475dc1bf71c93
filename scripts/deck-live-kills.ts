/**
 * Instruments followed on deck through which the bench's server is killed again and again:
 * `node --import tsx scripts/deck-live-kills.ts [50] [PULLS 3]`. A cell with a position and an angle gauge, simulated and
 * seeded, send ten times a second through a series of pulls on a phone's screen; now and then an instrument hangs up, and the
 * tab is closed and opened. At the end every reading the screen showed is in the book at its place, and so is each pull, once.
 */
import { openBook } from "../src/book/index.ts";
import { openBench, sizes } from "../test/journeys/harness.ts";
import { Boat, shownRows } from "../test/journeys/on-deck.ts";

const kills = Number(process.argv[2] ?? 50);
const pullsAsked = Number(process.argv[3] ?? 3);
const boat = await Boat.start();
const bench = await openBench(undefined, undefined, boat.live);
if (bench === null) process.exit(1);
let page = await bench.page(sizes.phone);
const button = (name: string) => page.getByRole("button", { name, exact: true });
const reading = (name: string) => page.locator('[data-instrument="reading"]').filter({ hasText: name }).waitFor();
/** Loads shown, by pull and row. */
const shown: Map<number, number>[] = [];
const look = async () => {
  for (const { n, values } of await shownRows(page)) if (values.load !== undefined) shown.at(-1)!.set(n, values.load);
};
for (let p = 0; p < pullsAsked; p++) {
  shown.push(new Map());
  await page.goto(bench.at(`/deck?depth=7&out=40&loads=1+kN&hold=1&anchor=Plough+${p + 1}`));
  if (p === 0) {
    await page.getByRole("checkbox").check();
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  }
  await button("Begin the pull").click();
  if (p === 0) await button("Instruments").click();
  await button(`Follow ${boat.cellName}`).click();
  await button(`Follow ${boat.gaugeName}`).click();
  await reading(boat.cellName);
  const own = Math.round(((p + 1) * kills) / pullsAsked) - Math.round((p * kills) / pullsAsked);
  for (let k = 0; k < own; k++) {
    boat.load = 300 + 20 * k;
    await look();
    // Killed at whatever moment the reading under way has come to.
    await bench.killServer();
    await look();
    if (k % 5 === 4) boat.cell.drop();
    if (k % 10 === 9) {
      const context = page.context();
      await page.close();
      page = Object.assign(await context.newPage(), { troubles: [] as string[] });
      await page.goto(bench.at("/deck"));
    }
    await bench.startServer();
    await reading(boat.cellName);
  }
  await look();
  await button("End the pull").click();
  await button("Write it into the book").click();
  await page.getByRole("heading", { name: "Set up a pull" }).waitFor();
  await page.getByText("on this device for the book").waitFor({ state: "detached" });
}
const book = openBook(bench.book, { who: "deck kills" });
const pulls = book.list("pull");
const logs = pulls.map(({ id }) =>
  book.list("log", { where: { pull: id } }).map((log) => ({
    source: log.source,
    loads: [...book.logs.rows(log.id)].flatMap(({ columns }) => [...(columns.load ?? [])]),
  })),
);
const gaps = book.list("mark").filter(({ kind }) => kind === "gap").length;
const troubles = book.check();
book.close();
let lost = 0;
for (const [p, rows] of shown.entries()) {
  const cell = logs[p]?.find(({ source }) => source === boat.cellName)?.loads ?? [];
  for (const [n, load] of rows) if (cell[n] !== Math.fround(load)) lost++;
}
const seen = shown.reduce((sum, rows) => sum + rows.size, 0);
const whole = pulls.length === pullsAsked && lost === 0 && seen > 0 && logs.every((own) => own.length === 2);
console.log(
  `${kills} kills: ${seen} readings shown, ${lost} not in the book, ${pulls.length} pulls of ${pullsAsked}, ${gaps} gaps marked; ${whole ? "none lost, none twice" : "NOT WHOLE"}`,
  JSON.stringify(troubles).slice(0, 200),
);
await bench.close();
await boat.stop();
process.exit(whole ? 0 : 1);
