/**
 * Panning and zooming a log of ten million readings in a real browser: what the browser's own frame times say.
 *
 * The log is written into a new book (a few minutes of disk at most), the built bench is served on it by the real
 * command, and a hand draws along it, comes nearer and goes farther. Ratios are to the budget of a 60 Hz frame.
 *
 * node --import tsx bench/pan-log.ts [READINGS]
 */
import { newBook } from "../src/book/index.ts";
import { FRAME_BUDGET, type Frames, framesDuring } from "../test/journeys/frames.ts";
import { type OpenBench, openBench, sizes } from "../test/journeys/harness.ts";

const READINGS = Number(process.argv[2] ?? 10_000_000);
const RATE = 100;
const BATCH = 100_000;
const START = 1.9e9;

let log = "";
const began = performance.now();
const bench: OpenBench | null = await openBench((path) => {
  const book = newBook(path, { title: "Long log" }, { who: "bench" });
  const opened = book.logs.open({
    name: "ten million",
    channels: [{ name: "load", quantity: "force", unit: "N", precision: "single" }],
  });
  log = opened.log;
  for (let at = 0; at < READINGS; at += BATCH) {
    const n = Math.min(BATCH, READINGS - at);
    const times = Float64Array.from({ length: n }, (_, i) => START + (at + i) / RATE);
    // Slow pulls, waves on them, and a scatter that no band can flatten.
    const load = Float64Array.from(
      { length: n },
      (_, i) =>
        3000 + 2500 * Math.sin((at + i) / 90_000) + 300 * Math.sin((at + i) / 700) + (((at + i) * 7919) % 1009) / 5,
    );
    book.logs.append(log, { times, columns: { load } }, { from: at, to: at + n });
  }
  book.logs.finish(log);
  book.close();
});
if (bench === null) process.exit(1);
console.log(
  `${READINGS} readings written in ${((performance.now() - began) / 1000).toFixed(1)} s (the build of the app included, if it was due)`,
);

const page = await bench.page(sizes.desk);
const opened = performance.now();
await page.goto(bench.at(`/days?at=log+${log}`));
await page.locator("canvas").first().waitFor({ timeout: 60_000 });
// The outline of the whole below the trace: drawn once the readings are there.
await page.waitForFunction(
  () =>
    [...document.querySelectorAll("[role=application] ~ svg path")].some(
      (path) => (path.getAttribute("d") ?? "").length > 1000,
    ),
  undefined,
  { timeout: 60_000 },
);
console.log(`opened and drawn whole in ${((performance.now() - opened) / 1000).toFixed(2)} s`);

/** How long each stretch was on its way, ms. */
let waits: number[] = [];
page.on("requestfinished", (request) => {
  if (/\/view\?/.test(request.url())) waits.push(request.timing().responseEnd);
});
const windowFrom = (): number => Number(new URL(page.url()).searchParams.get("from"));

const trace = page.getByRole("application");
const seconds = READINGS / RATE;
for (const [what, width] of [
  ["half of it", seconds / 2],
  ["a tenth", seconds / 10],
  ["a hundredth", seconds / 100],
  ["a thousandth", seconds / 1000],
] as const) {
  // Drawn to the left, the window goes on along the log.
  const from = START + 0.1 * (seconds - width);
  await page.goto(bench.at(`/days?at=log+${log}&from=${from}&to=${from + width}`));
  await page.locator("canvas").first().waitFor({ timeout: 60_000 });
  await page.waitForTimeout(1500);
  const box = (await trace.boundingBox())!;
  const y = box.y + 260;
  const before = windowFrom();
  waits = [];
  const frames = await framesDuring(page, async () => {
    for (let stroke = 0; stroke < 6; stroke++) {
      await page.mouse.move(box.x + 0.85 * box.width, y);
      await page.mouse.down();
      for (let k = 1; k <= 45; k++) await page.mouse.move(box.x + (0.85 - 0.015 * k) * box.width, y);
      await page.mouse.up();
    }
  });
  told(`panned, ${what} in view`, frames);
  await page.waitForTimeout(800);
  console.log(
    `  moved by ${((windowFrom() - before) / width).toFixed(2)} windows; ${waits.length} stretches fetched, the slowest in ${Math.max(0, ...waits).toFixed(0)} ms`,
  );
}
await page.goto(bench.at(`/days?at=log+${log}`));
await page.locator("canvas").first().waitFor({ timeout: 60_000 });
await page.waitForTimeout(1500);
const box = (await trace.boundingBox())!;
await page.mouse.move(box.x + 0.6 * box.width, box.y + 260);
told(
  "zoomed by the wheel, in and out",
  await framesDuring(page, async () => {
    for (const by of [-1, 1]) for (let k = 0; k < 60; k++) await page.mouse.wheel(0, 60 * by);
  }),
);
if (page.troubles.length > 0) console.log(page.troubles.join("\n"));
await bench.close();

function told(what: string, { times, median, p95, longest }: Frames): void {
  const ratio = (ms: number) => `${ms.toFixed(1)} ms (${(ms / FRAME_BUDGET).toFixed(2)} of the budget)`;
  console.log(
    `${what}: ${times.length} frames, median ${ratio(median)}, 95 % within ${ratio(p95)}, longest ${ratio(longest)}`,
  );
}
