/**
 * Makes the screenshots of the docs anew, on the demonstration book, at the three sizes, the place Rig in the dark and
 * in full sun as well:
 *
 *     node --import tsx scripts/screenshots.ts [PLACE…]
 */
import { mkdirSync, statSync } from "node:fs";
import { createDemoBook } from "../src/book/index.ts";
import { openBench, type SizeName, sizeNames, sizes } from "../test/journeys/harness.ts";

const folder = "docs/screenshots";
/** They stand in the repository: none may be larger, bytes. */
const LARGEST = 200_000;

/** What is done in a place before its picture is taken. */
const places: Readonly<
  Record<
    string,
    (page: Awaited<ReturnType<NonNullable<Awaited<ReturnType<typeof openBench>>>["page"]>>) => Promise<void>
  >
> = {
  // A rode of more than one part, where there is room for it; a phone shows what a newcomer meets.
  rig: async (page) => {
    if (page.viewportSize()!.width > sizes.phone.width) await page.getByRole("button", { name: "Example" }).click();
  },
  readings: async (page) => {
    await page.getByRole("button", { name: /demo/i }).first().click();
    await page.getByText("theory accounts for").first().waitFor({ timeout: 60_000 });
  },
  match: async (page) => {
    await page.getByText(/^± \d/).first().waitFor({ timeout: 60_000 });
  },
  weather: async () => undefined,
  "weather-gale": async (page) => {
    const panel = page.getByRole("region", { name: "In a gale" });
    // On a phone it is folded at first.
    const heading = panel.getByRole("button", { name: "In a gale" });
    if ((await heading.getAttribute("aria-expanded")) === "false") await heading.click();
    await panel.getByRole("button", { name: "Ride it" }).click();
    await panel.getByText("10 min ridden").waitFor({ timeout: 120_000 });
    await panel.evaluate((element) => window.scrollTo(0, element.getBoundingClientRect().top + window.scrollY - 80));
  },
  days: async (page) => {
    await page.getByRole("region", { name: "What each held" }).locator("svg").first().waitFor({ timeout: 60_000 });
  },
  holding: async (page) => {
    await page.getByRole("region", { name: "By themselves" }).locator("svg").first().waitFor({ timeout: 60_000 });
  },
  series: async (page) => {
    await page.getByRole("figure").locator("svg").first().waitFor({ timeout: 60_000 });
    await page.getByRole("heading", { name: "Order of pulls" }).waitFor({ timeout: 60_000 });
  },
  deck: async () => undefined,
  publish: async () => undefined,
};

interface Look {
  readonly size: SizeName;
  readonly theme: "light" | "dark" | "sun";
}

const looksOf = (place: string): readonly Look[] => [
  ...sizeNames.map((size) => ({ size, theme: "light" as const })),
  ...(place === "deck" ? [{ size: "phone", theme: "sun" } as const] : []),
  ...(place === "rig" ? [{ size: "tablet", theme: "dark" } as const, { size: "phone", theme: "sun" } as const] : []),
];

const wanted = process.argv.slice(2);
const bench = await openBench((path) => createDemoBook(path).close());
if (bench === null) process.exit(1);
mkdirSync(folder, { recursive: true });
try {
  for (const [place, prepare] of Object.entries(places)) {
    if (wanted.length > 0 && !wanted.includes(place)) continue;
    for (const { size, theme } of looksOf(place)) {
      const page = await bench.page(sizes[size], { theme });
      await page.goto(bench.at(`/${place.split("-")[0]}`), { waitUntil: "networkidle" });
      await prepare(page);
      // Bands and maps come from a worker a moment later.
      await page.waitForTimeout(2500);
      const file = `${folder}/${place}-${size}${theme === "light" ? "" : `-${theme}`}.png`;
      await page.screenshot({ path: file });
      await page.context().close();
      const bytes = statSync(file).size;
      process.stdout.write(`${file} ${Math.round(bytes / 1000)} kB\n`);
      if (bytes > LARGEST) throw new Error(`${file}: ${bytes} bytes; at most ${LARGEST} are wanted`);
    }
  }
} finally {
  await bench.close();
}
