/**
 * A pull on deck through which the bench's server is killed again and again: `node --import tsx scripts/deck-kills.ts [50]`.
 * Loads are typed on a phone's screen all the while, and now and then the tab is closed and opened. At the end every load
 * the screen showed is in the book, once and in order, and so is the pull.
 */
import { openBook } from "../src/book/index.ts";
import { openBench, sizes } from "../test/journeys/harness.ts";

const kills = Number(process.argv[2] ?? 50);
const bench = await openBench();
if (bench === null) process.exit(1);
let page = await bench.page(sizes.phone);
const button = (name: string) => page.getByRole("button", { name, exact: true });
await page.goto(bench.at("/deck?depth=7&out=40&loads=1+kN&anchor=Plough+A"));
await page.getByRole("checkbox").check();
await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
await button("Begin the pull").click();
const shown: number[] = [];
const keep = async (newtons: number) => {
  for (const sign of String(newtons)) await button(sign).click();
  await button("Keep").click();
  await button(`Take back: ${newtons} N`).waitFor();
  shown.push(newtons);
};
for (let k = 0; k < kills; k++) {
  await keep(500 + 2 * k);
  // Killed at whatever moment the sending of the last load has come to.
  const killing = bench.killServer();
  await keep(501 + 2 * k);
  await killing;
  if (k % 10 === 9) {
    const context = page.context();
    await page.close();
    page = Object.assign(await context.newPage(), { troubles: [] as string[] });
    await page.goto(bench.at("/deck"));
    await button(`Take back: ${shown.at(-1)} N`).waitFor();
  }
  await bench.startServer();
}
await button("End the pull").click();
await button("Write it into the book").click();
await page.getByRole("heading", { name: "Set up a pull" }).waitFor();
await page.getByText("on this device for the book").waitFor({ state: "detached" });
const book = openBook(bench.book, { who: "deck kills" });
const pulls = book.list("pull");
const logs = book.list("log").map(({ id }) => [...book.logs.rows(id)].flatMap(({ columns }) => [...columns.load!]));
const troubles = book.check();
book.close();
const whole = pulls.length === 1 && JSON.stringify(logs) === JSON.stringify([shown]);
console.log(
  `${kills} kills: ${shown.length} loads shown, ${logs.flat().length} in the book, ${pulls.length} pull; ${whole ? "none lost, none twice" : "NOT WHOLE"}`,
  JSON.stringify(troubles).slice(0, 200),
);
await bench.close();
process.exit(whole ? 0 : 1);
