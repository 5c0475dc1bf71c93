/**
 * Makes the screenshots of the docs anew, on the demonstration book, at the three sizes:
 *
 *     node --import tsx scripts/screenshots.ts [PLACE…]
 */
import { mkdirSync } from "node:fs";
import { createDemoBook } from "../src/book/index.ts";
import { openBench, type SizeName, sizeNames, sizes } from "../test/journeys/harness.ts";

const folder = "docs/screenshots";

/** What is done in a place before its picture is taken. */
const places: Readonly<
  Record<
    string,
    (page: Awaited<ReturnType<NonNullable<Awaited<ReturnType<typeof openBench>>>["page"]>>) => Promise<void>
  >
> = {
  rig: async () => undefined,
  readings: async (page) => {
    await page.getByRole("button", { name: /demo/i }).first().click();
    await page.getByText("theory accounts for").first().waitFor({ timeout: 60_000 });
  },
  match: async () => undefined,
  weather: async () => undefined,
  days: async () => undefined,
};

const wanted = process.argv.slice(2);
const bench = await openBench((path) => createDemoBook(path).close());
if (bench === null) process.exit(1);
mkdirSync(folder, { recursive: true });
try {
  for (const [place, prepare] of Object.entries(places)) {
    if (wanted.length > 0 && !wanted.includes(place)) continue;
    for (const size of sizeNames as SizeName[]) {
      const page = await bench.page(sizes[size]);
      await page.goto(bench.at(`/${place}`), { waitUntil: "networkidle" });
      await prepare(page);
      // Bands and maps come from a worker a moment later.
      await page.waitForTimeout(2500);
      await page.screenshot({ path: `${folder}/${place}-${size}.png` });
      await page.close();
      process.stdout.write(`${folder}/${place}-${size}.png\n`);
    }
  }
} finally {
  await bench.close();
}
