import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
  axeViolations,
  chromiumPath,
  keptOffline,
  type OpenBench,
  openBench,
  PATIENCE,
  sideways,
  sizes,
} from "./harness.ts";

let bench: OpenBench;
beforeAll(async () => {
  const opened = await openBench();
  if (opened !== null) bench = opened;
});
afterAll(async () => bench?.close());

const journey = chromiumPath() === null ? describe.skip : describe;

/** Two slow cores under load. */
const SLOW = { timeout: PATIENCE };

journey("an address", () => {
  it("that cannot be read is refused by name, stays as it is, and is one step back after the next change", async () => {
    const page = await bench.page(sizes.phone);
    const bad = "/rig?in=water&depth=deep&roller=1.4&rode=chain+8+mm+grade+31*15&load=bow+1400";
    await page.goto(bench.at(bad));
    const note = page.getByRole("alert").filter({ hasText: "This address cannot be read" });
    await note.waitFor(SLOW);
    await expect
      .poll(() => note.getByRole("listitem").allTextContents(), SLOW)
      .toEqual([
        'depth: "deep" is given; a number from 0.000001 to 100000 is expected',
        'rode, part 1: "chain 8 mm grade 31*15" is given; gear of the catalogue by its name, or a part written out, is expected',
      ]);
    await page.getByText(/^± \d/).first().waitFor(SLOW);
    expect(page.url()).toBe(bench.at(bad));
    expect(await axeViolations(page)).toEqual([]);
    await expect.poll(() => sideways(page), SLOW).toBeLessThanOrEqual(0);

    const depth = page.getByRole("textbox", { name: "Depth at the anchor", exact: true });
    await depth.fill("6.5 m");
    await depth.press("Enter");
    await page.waitForURL(/depth=6\.5/, SLOW);
    await page.goBack();
    await page.waitForURL(bench.at(bad), SLOW);
    await note.waitFor(SLOW);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("of a rig of 480 parts written out is read again by the server, and by the device without it", async () => {
    const page = await bench.page(sizes.desk, { keepsOffline: true });
    const part = (i: number) =>
      JSON.stringify({ kind: "point", name: `weight ${i}`, mass: 0.01, density: 7850 }).replaceAll("~", "");
    const rode = ["chain 8 mm grade 30*60", ...Array.from({ length: 479 }, (_, i) => part(i))].join("~");
    const fields = new URLSearchParams({ in: "water", depth: "8", roller: "1", rode, load: "bow 3000" });
    const address = bench.at(`/rig?${fields}`);
    expect(address.length).toBeGreaterThan(30_000);
    await page.goto(address);
    const last = page.getByRole("textbox", { name: /weight 478/ }).first();
    await last.waitFor({ state: "attached", timeout: PATIENCE });
    await expect.poll(() => page.getByText("cannot be read").count(), SLOW).toBe(0);
    await keptOffline(page);
    await page.reload();
    await last.waitFor({ state: "attached", timeout: PATIENCE });
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });
});

journey("the worker", () => {
  it("that cannot be started is told where its answer would stand, and is started by asking again", async () => {
    const page = await bench.page(sizes.phone);
    await page.context().route(/bench-worker/, (route) => route.abort());
    await page.goto(bench.at("/rig"));
    const note = page.getByRole("alert").filter({ hasText: "A fault of the program kept the ± from being worked out" });
    await note.first().waitFor(SLOW);
    await page.context().unroute(/bench-worker/);
    await note.first().getByRole("button", { name: "Try again" }).click();
    await page.getByText(/^± \d/).first().waitFor(SLOW);
    await page.context().close();
  });
});
