import { readdirSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createDemoBook, newBook, openBook } from "../../src/book/index.ts";
import { axeViolations, chromiumPath, type OpenBench, openBench, PATIENCE, sideways, sizes } from "./harness.ts";

const journey = chromiumPath() === null ? describe.skip : describe;
/** Two slow cores under load. */
const SLOW = { timeout: PATIENCE };

let bench: OpenBench;
let folder: string;
beforeAll(async () => {
  const opened = await openBench((path) => {
    createDemoBook(path).close();
    folder = join(path, "..");
    newBook(join(folder, "season.book"), {
      title: "A season with a title far longer than a phone is wide, as people write them",
    }).close();
  });
  if (opened !== null) bench = opened;
});
afterAll(async () => bench?.close());

type BenchPage = Awaited<ReturnType<OpenBench["page"]>>;
const button = (page: BenchPage, name: string) => page.getByRole("button", { name, exact: true });
const heading = (page: BenchPage, name: string) => page.getByRole("heading", { level: 1, name, exact: true });

async function inOrder(page: BenchPage, where: string): Promise<void> {
  expect(await axeViolations(page), where).toEqual([]);
  await expect.poll(() => sideways(page), { ...SLOW, message: where }).toBeLessThanOrEqual(0);
}

journey("a book of one's own, made and chosen in the browser", () => {
  it("comes from the demonstration by two touches and a name, is empty, and keeps what is written in it", async () => {
    const page = await bench.page({ width: 320, height: 640, touch: true });
    await page.goto(bench.at("/days"));
    await page.getByText("All in the open book is invented.", { exact: false }).waitFor(SLOW);
    await button(page, "Make a book of your own").tap();
    await heading(page, "Books").waitFor(SLOW);
    const shelf = page.getByRole("region", { name: "Books on this computer" });
    await shelf.getByText("Says of itself that it is invented").waitFor(SLOW);
    await shelf.getByText("Demonstration: all in it is invented").waitFor(SLOW);
    await inOrder(page, "the books on the narrowest phone");

    await page.getByLabel("What it is called").fill("Our trials");
    await button(page, "Make it and open it").tap();
    await heading(page, "Our trials").waitFor(SLOW);
    await page.getByRole("heading", { name: "A new book" }).waitFor(SLOW);
    // No word of the demonstration any more, in any place that shows the book.
    for (const place of ["/days", "/holding", "/publish", "/deck"]) {
      await page.goto(bench.at(place));
      await page
        .getByRole("main")
        .getByRole("heading")
        .first()
        .waitFor({ state: "attached", ...SLOW });
      await page.waitForLoadState("networkidle");
      expect(await page.getByText("is invented", { exact: false }).count(), place).toBe(0);
    }
    await page.goto(bench.at("/days?shelf=sites"));
    await button(page, "Add a site").tap();
    await page.getByLabel("Name").fill("Quay wall");
    await button(page, "Write it down").tap();
    await page.locator("form").waitFor({ state: "detached", ...SLOW });
    await expect
      .poll(() => {
        const own = openBook(join(folder, "our-trials.book"), { backups: false });
        const names = own.list("site").map(({ name }) => name);
        own.close();
        return names;
      }, SLOW)
      .toEqual(["Quay wall"]);

    // One title, one book: told in a line, and nothing else happens.
    await page.goto(bench.at("/days?shelf=days&at=books"));
    await page.getByLabel("What it is called").fill("our TRIALS");
    await button(page, "Make it and open it").tap();
    await page.getByRole("alert").filter({ hasText: "a title that no book here has yet" }).waitFor(SLOW);
    await inOrder(page, "a title that is taken");
    expect(
      readdirSync(folder)
        .filter((name) => name.endsWith(".book"))
        .sort(),
    ).toEqual(["journey.book", "our-trials.book", "season.book"]);

    // And back: the demonstration says so again wherever it shows.
    await button(page, "Open Skerrow Sound trials (invented)").first().tap();
    await heading(page, "Skerrow Sound trials (invented)").waitFor(SLOW);
    for (const place of ["/days", "/holding", "/publish", "/deck"]) {
      await page.goto(bench.at(place));
      await page.getByText("All in the open book is invented.", { exact: false }).waitFor(SLOW);
    }
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("is not opened over what this device still holds for the book that is open", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at("/days?shelf=days&at=books"));
    await page.getByRole("region", { name: "Books on this computer" }).waitFor(SLOW);
    // A change that could not reach the book: the address that takes it is cut off.
    await page.route("**/api/1/join", (route) => route.abort());
    await page.goto(bench.at("/days?shelf=sites"));
    await button(page, "Add a site").click(SLOW);
    await page.getByLabel("Name").fill("Waits here");
    await button(page, "Write it down").click();
    await page.getByText("1 change waits on this device for the book.", { exact: false }).waitFor(SLOW);
    await page.goto(bench.at("/days?shelf=days&at=books"));
    await page.getByRole("button", { name: /^Open A season/ }).click(SLOW);
    await page.getByRole("alert").filter({ hasText: "what you wrote is not yet in the book" }).waitFor(SLOW);
    await inOrder(page, "what waits keeps the book open");
    await page.unroute("**/api/1/join");
    await page.reload();
    await page.getByText("1 change waits", { exact: false }).waitFor({ state: "detached", ...SLOW });
    await page.getByRole("button", { name: /^Open A season/ }).click(SLOW);
    await heading(page, "A season with a title far longer than a phone is wide, as people write them").waitFor(SLOW);
    await page.context().close();
  });

  it("gets what a device wrote for it out of reach, and no other book does", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at("/days?shelf=days&at=books"));
    const shelf = page.getByRole("region", { name: "Books on this computer" });
    await shelf.waitFor(SLOW);
    const post = (path: string, body: object) =>
      page.evaluate(
        async ([to, sent]) => {
          const headers = { "content-type": "application/json" };
          return (await fetch(to!, { method: "POST", headers, body: sent! })).status;
        },
        [path, JSON.stringify(body)],
      );
    const open = (id: string) => post("/api/1/books/open", { id });
    expect(await post("/api/1/books", { title: "On the water" })).toBe(201);
    expect(await open("on-the-water.book")).toBe(200);
    await page.goto(bench.at("/days?shelf=sites"));
    await heading(page, "On the water").waitFor(SLOW);
    await page.route("**/api/1/join", (route) => route.abort());
    await button(page, "Add a site").click(SLOW);
    await page.getByLabel("Name").fill("Written on the water");
    await button(page, "Write it down").click();
    await page.getByText("1 change waits on this device for the book.", { exact: false }).waitFor(SLOW);
    // Meanwhile, at the computer, another book is opened.
    expect(await open("season.book")).toBe(200);
    await page.unroute("**/api/1/join");
    await page.goto(bench.at("/days?shelf=sites"));
    await heading(page, "A season with a title far longer than a phone is wide, as people write them").waitFor(SLOW);
    await page.getByText("1 change waits on this device for another book", { exact: false }).waitFor(SLOW);
    await expect.poll(() => page.getByText("Written on the water").count(), SLOW).toBe(0);
    await inOrder(page, "what waits for another book");
    const sites = (file: string) => {
      const one = openBook(join(folder, file), { backups: false });
      const names = one.list("site").map(({ name }) => name);
      one.close();
      return names;
    };
    expect(sites("season.book")).toEqual([]);
    expect(await open("on-the-water.book")).toBe(200);
    await page.goto(bench.at("/days?shelf=sites"));
    await heading(page, "On the water").waitFor(SLOW);
    await expect.poll(() => sites("on-the-water.book"), SLOW).toContain("Written on the water");
    await page.getByText("1 change waits", { exact: false }).waitFor({ state: "detached", ...SLOW });
    expect(sites("season.book")).toEqual([]);
    await page.context().close();
  });
});
