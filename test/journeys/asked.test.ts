import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createDemoBook } from "../../src/book/index.ts";
import { axeViolations, chromiumPath, type OpenBench, openBench, PATIENCE, sideways, sizes } from "./harness.ts";

let bench: OpenBench;
/** A pull with a result and the rig it lay on. */
let pull: string;
beforeAll(async () => {
  const opened = await openBench((path) => {
    const book = createDemoBook(path);
    pull = book.list("pull").find(({ rigVersion, result }) => rigVersion != null && result?.load_N !== undefined)!.id;
    book.close();
  });
  if (opened !== null) bench = opened;
});
afterAll(async () => bench?.close());

const journey = chromiumPath() === null ? describe.skip : describe;
type BenchPage = Awaited<ReturnType<OpenBench["page"]>>;
const SLOW = { timeout: PATIENCE };

interface Place {
  readonly name: string;
  readonly path: () => string;
  /** What brings its numbers about. */
  readonly first?: (page: BenchPage) => Promise<unknown>;
  /** Numbers it must tell of, in this order. */
  readonly tells: readonly string[];
  /** How many of them have the small picture, at least. */
  readonly pictures: number;
}

const places: readonly Place[] = [
  { name: "Rig", path: () => "/rig", tells: ["angle at the anchor", "load at the anchor", "span"], pictures: 3 },
  {
    name: "Match",
    path: () => "/match",
    tells: ["between the two", "angle to the bottom at the anchor", "load at the anchor"],
    pictures: 1,
  },
  {
    name: "Weather",
    path: () => "/weather",
    tells: ["mean load, own points (bow)", "steady load, windage", "angle at the anchor"],
    pictures: 2,
  },
  {
    name: "Series",
    path: () => "/series",
    tells: ["angle and load", "in water of", "tell it", "what the next pull would bring"],
    pictures: 0,
  },
  {
    name: "Deck",
    path: () => "/deck?depth=7&out=40&loads=500+N%2C+1+kN&anchor=Plough+A",
    first: async (page) => {
      await page.getByRole("checkbox").check();
      await page.getByRole("button", { name: "Begin the pull" }).click();
      for (const sign of "640") await page.getByRole("button", { name: sign, exact: true }).click();
      await page.getByRole("button", { name: "Keep", exact: true }).click();
      await page.getByRole("button", { name: "Take back: 640 N" }).waitFor();
    },
    tells: ["load at the bow", "load at the anchor", "angle at the anchor", "held"],
    // The load read is one; under it the rode lies on the bottom at the anchor, and its angle has no ±.
    pictures: 1,
  },
  {
    name: "Days",
    path: () => `/days?shelf=days&at=record+pull+${pull}`,
    tells: ["angle at the anchor"],
    pictures: 2,
  },
  {
    name: "Readings",
    path: () => "/readings",
    first: (page) => page.getByRole("button", { name: "The demo's readings" }).click(),
    tells: ["mass per length", "rise", "gauge zero"],
    pictures: 3,
  },
  { name: "Holding", path: () => "/holding", tells: ["half hold", "90 % hold", "best"], pictures: 0 },
];

/** Each number with its words and the parts of its picture, %. */
const told = (page: BenchPage) =>
  page
    .locator("details")
    .filter({ hasText: "What these are, and how sure" })
    .locator("dl > div")
    .evaluateAll((numbers) =>
      numbers.map((one) => ({
        name: one.querySelector("dt")!.textContent,
        words: one.querySelector("dd > p")?.textContent ?? "",
        parts: [...one.querySelectorAll("li")].map((part) => Number(/(\d+) %$/.exec(part.textContent)![1])),
      })),
    );

journey("each number can be asked what it is, from what, and how sure", () => {
  for (const { name, path, first, tells, pictures } of places) {
    it(`in ${name}, in words and in parts that make up the whole, at 320 px`, async () => {
      const page = await bench.page({ ...sizes.phone, width: 320 });
      await page.goto(bench.at(path()));
      await first?.(page);
      await page.getByText("What these are, and how sure").click();
      const names = async () => (await told(page)).map((one) => one.name);
      await expect.poll(async () => (await names()).filter((one) => tells.includes(one)), SLOW).toEqual(tells);
      const drawn = async () => (await told(page)).filter(({ parts }) => parts.length > 0);
      await expect.poll(async () => (await drawn()).length, SLOW).toBeGreaterThanOrEqual(pictures);
      for (const { words } of await told(page)) expect(words).toMatch(/^[A-Z].{20,}\.$/);
      // Each part is rounded by itself.
      for (const { parts } of await drawn())
        expect(Math.abs(parts.reduce((sum, part) => sum + part, 0) - 100)).toBeLessThanOrEqual(parts.length);
      expect(await sideways(page)).toBeLessThanOrEqual(0);
      expect(await axeViolations(page)).toEqual([]);
      expect(page.troubles).toEqual([]);
      await page.context().close();
    });
  }
});
