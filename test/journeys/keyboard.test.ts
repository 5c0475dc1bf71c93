import type { Locator } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openBook } from "../../src/book/index.ts";
import { chromiumPath, type OpenBench, openBench, PATIENCE, sizes } from "./harness.ts";

let bench: OpenBench;
beforeAll(async () => {
  const opened = await openBench();
  if (opened !== null) bench = opened;
});
afterAll(async () => bench?.close());

const journey = chromiumPath() === null ? describe.skip : describe;
type BenchPage = Awaited<ReturnType<OpenBench["page"]>>;
const SLOW = { timeout: PATIENCE };

/** More stops than any place has. */
const STOPS = 250;

/** Goes on by the tabulator until what is meant has the focus; there it must be in view, under nothing else. */
async function tabTo(page: BenchPage, meant: Locator): Promise<void> {
  await meant.waitFor(SLOW);
  for (let i = 0; i < STOPS; i++) {
    if (await meant.evaluate((element) => element === document.activeElement)) {
      await expect.poll(() => inView(meant), SLOW).toBe(true);
      return;
    }
    await page.keyboard.press("Tab");
  }
  throw new Error(`${String(meant)}: not reached by ${STOPS} steps of the tabulator`);
}

const inView = (meant: Locator): Promise<boolean> =>
  meant.evaluate((element) => {
    const { left, top, width, height } = element.getBoundingClientRect();
    const there = document.elementFromPoint(left + width / 2, top + height / 2);
    return there !== null && (element.contains(there) || there.contains(element));
  });

async function pressed(page: BenchPage, meant: Locator): Promise<void> {
  await tabTo(page, meant);
  await page.keyboard.press("Enter");
}

async function typed(page: BenchPage, name: string | RegExp, words: string): Promise<void> {
  await tabTo(page, page.getByRole("textbox", { name, exact: true }));
  await page.keyboard.type(words);
}

async function wrote(page: BenchPage): Promise<void> {
  await pressed(page, page.getByRole("button", { name: "Write it down" }));
  await page.locator("form").waitFor({ state: "detached", ...SLOW });
}

journey("by keys alone", () => {
  it("a rode is loaded, a site and a day are written down, and a pull with them, from the start to the book", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at("/"));
    const answer = page.getByRole("region", { name: "The answer" });
    await answer.waitFor(SLOW);
    const pull = page.getByRole("textbox", { name: "Pull", exact: true });
    await tabTo(page, pull);
    await page.keyboard.press("Control+a");
    await page.keyboard.type("3 kN");
    await page.keyboard.press("Enter");
    await expect.poll(() => answer.textContent(), SLOW).toContain("3000 N at the bow");

    await pressed(page, page.getByRole("link", { name: "Days" }));
    await pressed(page, page.getByRole("button", { name: "Add a site" }));
    await typed(page, /^Name/, "Ebb Cove");
    await wrote(page);
    await page.getByRole("heading", { name: "Ebb Cove" }).waitFor(SLOW);
    await pressed(page, page.getByRole("button", { name: "Book", exact: true }));
    await pressed(page, page.getByRole("button", { name: "Add a day" }));
    await wrote(page);
    await pressed(page, page.getByRole("button", { name: "Add a pull" }));
    await typed(page, "Depth", "7");
    await typed(page, "Scope", "5:1");
    await tabTo(page, page.getByLabel("Ended by"));
    await page.keyboard.type("engine");
    await wrote(page);

    const kept = () => {
      const book = openBook(bench.book, { readOnly: true, backups: false });
      try {
        return { site: book.list("site")[0], day: book.list("day")[0], pulls: book.list("pull") };
      } finally {
        book.close();
      }
    };
    await expect.poll(() => kept().pulls.length, SLOW).toBe(1);
    const { site, day, pulls } = kept();
    expect(site).toMatchObject({ name: "Ebb Cove" });
    expect(day).toMatchObject({ site: site!.id });
    expect(pulls[0]).toMatchObject({ day: day!.id, depth_m: 7, scope: 5, endedBy: "engine limit" });
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });
});
