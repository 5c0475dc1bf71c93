import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createDemoBook, openBook } from "../../src/book/index.ts";
import { boxAtRest, chromiumPath, type OpenBench, openBench, PATIENCE, sizes } from "./harness.ts";

const journey = chromiumPath() === null ? describe.skip : describe;
type BenchPage = Awaited<ReturnType<OpenBench["page"]>>;

/** Two slow cores under load. */
const SLOW = { timeout: PATIENCE };

/** Two fingers on a phone, by the browser's own protocol: down, moved in steps, up. */
async function pinch(page: BenchPage, from: readonly [Spot, Spot], to: readonly [Spot, Spot]): Promise<void> {
  const cdp = await page.context().newCDPSession(page);
  const STEPS = 8;
  const touch = (type: "touchStart" | "touchMove", share: number) =>
    cdp.send("Input.dispatchTouchEvent", {
      type,
      touchPoints: from.map((spot, id) => ({
        id,
        x: spot.x + share * (to[id]!.x - spot.x),
        y: spot.y + share * (to[id]!.y - spot.y),
      })),
    });
  await touch("touchStart", 0);
  for (let k = 1; k <= STEPS; k++) await touch("touchMove", k / STEPS);
  await cdp.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
  await cdp.detach();
}

interface Spot {
  readonly x: number;
  readonly y: number;
}

journey("two fingers on a phone", () => {
  let bench: OpenBench;
  let log: { id: string; from: number; to: number };
  beforeAll(async () => {
    bench = (await openBench((path) => createDemoBook(path).close()))!;
    const book = openBook(bench.book, { who: "journey" });
    const { id } = book.list("log")[0]!;
    const { from_s, to_s } = book.logs.content(id);
    log = { id, from: from_s!, to: to_s! };
    book.close();
  });
  afterAll(async () => bench?.close());

  it("pinching a trace brings it nearer about the moment between them, and takes that moment along", async () => {
    const page = await bench.page(sizes.phone);
    await page.goto(bench.at(`/days?at=log+${log.id}&channels=load`));
    await page.locator("canvas").first().waitFor(SLOW);
    const plot = page.locator(".u-over").first();
    await plot.scrollIntoViewIfNeeded();
    const box = await boxAtRest(plot);
    const y = box.y + 120;
    // Apart from 60 to 150 px, their middle going 24 px to the right.
    const [middle, moved] = [box.x + 0.35 * box.width, 24];
    const spots = (at: number, apart: number): [Spot, Spot] => [
      { x: at - apart / 2, y },
      { x: at + apart / 2, y },
    ];
    await pinch(page, spots(middle, 60), spots(middle + moved, 150));
    const window = () => {
      const { searchParams } = new URL(page.url());
      return { from: Number(searchParams.get("from") ?? log.from), to: Number(searchParams.get("to") ?? log.to) };
    };
    const width = (log.to - log.from) * (60 / 150);
    // The address holds milliseconds; the browser may place a finger to a pixel of the plot.
    const pixel = (log.to - log.from) / box.width;
    await expect.poll(() => Math.abs(window().to - window().from - width), SLOW).toBeLessThan(pixel);
    const between = log.from + 0.35 * (log.to - log.from);
    const now = window();
    const share = (middle + moved - box.x) / box.width;
    expect(Math.abs(now.from + share * (now.to - now.from) - between)).toBeLessThan(pixel);
    // And back: farther about the same moment, never beyond the log.
    await pinch(page, spots(middle, 200), spots(middle, 40));
    await expect.poll(() => new URL(page.url()).searchParams.get("from"), SLOW).toBeNull();
    expect(page.troubles).toEqual([]);
  });

  it("pinching the map of sites brings it nearer, and what lay between the fingers stays there", async () => {
    const page = await bench.page(sizes.phone);
    await page.goto(bench.at("/days?shelf=days"));
    const sites = page.getByRole("group", { name: /^Map of/ }).getByRole("button");
    await sites.nth(1).waitFor(SLOW);
    const spotOf = async (i: number): Promise<Spot> => {
      const dot = await boxAtRest(sites.nth(i).locator("circle").last());
      return { x: dot.x + dot.width / 2, y: dot.y + dot.height / 2 };
    };
    const [one, other] = [await spotOf(0), await spotOf(1)];
    const middle = { x: (one.x + other.x) / 2, y: (one.y + other.y) / 2 };
    const spots = (apart: number): [Spot, Spot] => [
      { x: middle.x - apart / 2, y: middle.y },
      { x: middle.x + apart / 2, y: middle.y },
    ];
    await pinch(page, spots(80), spots(120));
    await expect.poll(async () => (await spotOf(0)).x, SLOW).not.toBe(one.x);
    const [oneNow, otherNow] = [await spotOf(0), await spotOf(1)];
    expect((otherNow.x - oneNow.x) / (other.x - one.x)).toBeCloseTo(1.5, 1);
    expect((otherNow.y - oneNow.y) / (other.y - one.y)).toBeCloseTo(1.5, 1);
    expect(Math.abs((oneNow.x + otherNow.x) / 2 - middle.x)).toBeLessThan(2);
    expect(Math.abs((oneNow.y + otherNow.y) / 2 - middle.y)).toBeLessThan(2);
    expect(page.troubles).toEqual([]);
  });
});
