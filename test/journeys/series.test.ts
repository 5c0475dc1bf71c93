import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { newBook } from "../../src/book/index.ts";
import { axeViolations, chromiumPath, type OpenBench, openBench, PATIENCE, sideways, sizes } from "./harness.ts";

const journey = chromiumPath() === null ? describe.skip : describe;
const SLOW = { timeout: PATIENCE };

/** The rig of invented pulls. */
const RIG = `format: rodebench/rig@1
name: all chain
setting: { medium: water, depth: 6 m, rollerHeight: 1.35 m, bottomFriction: 0.6 }
rode:
  - chain: { grade: "30", size: 10 mm, length: 45 m }
`;

/** A book with pulls of the two anchors the place opens with, and one that is left out of comparing by hand. */
function pulledBook(path: string): void {
  const book = newBook(path, { title: "Pulled" }, { who: "journey" });
  const id = (n: number) => `0197a000-0000-7000-8000-${String(n).padStart(12, "0")}`;
  const [plough, scoop, rig, version] = [id(1), id(2), id(3), id(4)];
  const pulls = [1500, 1700, 1400, 2100, 1900, 2200, 9000];
  book.write(
    [
      { kind: "anchor", id: plough, set: { name: "Plough A", shape: "other", mass_kg: 6 } },
      { kind: "anchor", id: scoop, set: { name: "Scoop B", shape: "other", mass_kg: 6 } },
      { kind: "rig", id: rig, set: { name: "all chain" } },
      { kind: "rigVersion", id: version, set: { rig, file: RIG } },
      ...pulls.map((load_N, i) => ({
        kind: "pull" as const,
        id: id(10 + i),
        set: {
          anchor: i < 3 ? plough : scoop,
          rigVersion: version,
          depth_m: 6,
          paidOut_m: 40,
          loadAt: "bow" as const,
          result: { kind: "gaveWay" as const, load_N, u_N: 20 },
        },
      })),
      { kind: "note", set: { about: id(16), text: "Left out of comparing anchors: a snagged rock" } },
    ],
    "invented pulls",
  );
  book.close();
}

journey("a series planned with pulls in the book", () => {
  let bench: OpenBench;
  beforeAll(async () => {
    bench = (await openBench(pulledBook))!;
  });
  afterAll(() => bench?.close());

  it("works out how many would tell from them, beside the page: stopped at a touch, and shown as from the priors", async () => {
    const page = await bench.page(sizes.phone);
    await page.goto(bench.at("/series"));
    await page.getByRole("button", { name: "How many pulls", exact: true }).click();
    await page.getByText("From the priors alone.").waitFor(SLOW);
    const work = page.getByRole("button", { name: "Work it out from the book's 6 pulls", exact: true });
    await work.click();
    await page.getByRole("progressbar", { name: "draws made" }).waitFor(SLOW);
    await page.getByRole("button", { name: "Stop", exact: true }).click();
    await work.waitFor(SLOW);
    expect(await page.getByRole("heading", { name: "By the pulls of the book" }).count()).toBe(0);
    await work.click();
    await page.getByRole("heading", { name: "By the pulls of the book" }).waitFor(SLOW);
    await page.getByText("From draws of the model on the pulls so far.").waitFor(SLOW);
    expect(await page.getByRole("table").filter({ hasText: "95 % limits" }).count()).toBe(2);
    expect(await axeViolations(page)).toEqual([]);
    await expect.poll(() => sideways(page), SLOW).toBeLessThanOrEqual(0);
    // Another series is another question.
    await page.getByLabel("Pulls of each", { exact: true }).fill("3");
    await expect.poll(() => page.getByRole("heading", { name: "By the pulls of the book" }).count(), SLOW).toBe(0);
    expect(page.troubles).toEqual([]);
  });
});
