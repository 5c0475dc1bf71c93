import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createDemoBook } from "../../src/book/index.ts";
import { addressed, axeViolations, chromiumPath, type OpenBench, openBench, PATIENCE, sizes } from "./harness.ts";

let bench: OpenBench;
/** A pull with a result, the rig it lay on, and the name of its anchor. */
let of: { readonly pull: string; readonly rig: string; readonly version: string; readonly anchor: string };
beforeAll(async () => {
  const opened = await openBench((path) => {
    const book = createDemoBook(path);
    const pull = book
      .list("pull")
      .find(({ rigVersion, anchor, result }) => rigVersion != null && anchor != null && result?.load_N !== undefined)!;
    const version = book.get("rigVersion", pull.rigVersion!)!;
    const anchor = book.get("anchor", pull.anchor!)!;
    of = { pull: pull.id, rig: version.rig!, version: version.id, anchor: anchor.name! };
    book.close();
  });
  if (opened !== null) bench = opened;
});
afterAll(async () => bench?.close());

const journey = chromiumPath() === null ? describe.skip : describe;
const SLOW = { timeout: PATIENCE };

journey("the way between a rig, its pull and its result", () => {
  it("is one touch from a pull to its rig under its load, to its anchor in Holding and back, and to the deck", async () => {
    const page = await bench.page(sizes.phone);
    const record = (kind: string, id: string) => bench.at(`/days?shelf=days&at=record+${kind}+${id}`);
    const link = (name: string | RegExp) => page.getByRole("link", { name, exact: true });
    await page.goto(record("pull", of.pull));
    const ways = page.getByRole("navigation", { name: "On with this pull" });
    await ways.waitFor(SLOW);
    expect(await axeViolations(page)).toEqual([]);
    const depth = new URL((await link("Once more on Deck").getAttribute("href"))!, bench.at("/")).searchParams.get(
      "depth",
    );
    expect(Number(depth)).toBeGreaterThan(0);

    await link("Its rig, as it lay, in Rig").click();
    const address = new URL(await addressed(page, ({ pathname }) => pathname === "/rig"));
    await page.getByRole("region", { name: "At this pull" }).waitFor(SLOW);
    // In the water of that pull, under its load.
    expect(address.searchParams.get("depth")).toBe(depth);
    const [end, load] = address.searchParams.get("load")!.split(" ");
    expect(["bow", "anchor"]).toContain(end);
    expect(Number(load)).toBeGreaterThan(0);
    expect(await page.getByText("could not be read").count()).toBe(0);

    await page.goBack();
    await link(`${of.anchor} in Holding`).click();
    await page.getByText(/^\d+ of \d+ pulls$/).waitFor(SLOW);
    await expect
      .poll(
        () =>
          page
            .getByRole("group", { name: "anchors" })
            .getByRole("checkbox")
            .evaluateAll((boxes) => boxes.filter((box) => (box as HTMLInputElement).checked).length),
        SLOW,
      )
      .toBe(1);
    const back = page.getByRole("region", { name: "One by one" }).getByRole("link", { name: of.anchor }).first();
    await back.click();
    await addressed(page, /\/days\?.*at=record(\+|%20)pull/);
    await ways.waitFor(SLOW);

    await page.goto(record("pull", of.pull));
    await link("Once more on Deck").click();
    await page.getByRole("heading", { name: "Set up a pull" }).waitFor(SLOW);
    await expect.poll(() => page.getByLabel("Anchor", { exact: true }).inputValue(), SLOW).toBe(of.anchor);
    expect(new URL(page.url()).searchParams.get("depth")).toBe(depth);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("is one touch from a rig of the book to Rig, and from there to its pulls and to the deck", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at(`/days?shelf=rigs&at=record+rigVersion+${of.version}`));
    await page.getByRole("button", { name: "Open in Rig" }).click();
    await addressed(page, ({ pathname }) => pathname === "/rig");
    const ways = page.getByRole("navigation", { name: "On with this rig" });
    const name = await page.getByRole("textbox", { name: "Name of the rig" }).inputValue();
    await expect.poll(() => ways.getByRole("link").allTextContents(), SLOW).toContain("Its pulls in Days");
    await ways.getByRole("link", { name: "Its pulls in Days" }).click();
    await addressed(page, ({ searchParams }) => searchParams.get("at") === `record rig ${of.rig}`);
    await page.getByRole("heading", { name: /^\d+ pulls$|^One pull$/ }).waitFor(SLOW);

    await page.goBack();
    await ways.getByRole("link", { name: "Pull on it in Deck" }).click();
    await page.getByText(`Rode: ${name}`).waitFor(SLOW);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("is one touch from readings to the rig as they have it", async () => {
    const page = await bench.page(sizes.phone);
    await page.goto(bench.at("/readings"));
    await page.getByRole("button", { name: "The demo's readings" }).click();
    const fitted = page.getByRole("link", { name: "The rig as fitted, in Rig" });
    await fitted.waitFor(SLOW);
    const stated = Number(await page.getByRole("textbox", { name: "mass per length ±" }).inputValue());
    await fitted.click();
    const { searchParams } = new URL(await addressed(page, /\/rig\?.*u-mass=/));
    // Sharper than the rig stated it, in per cent, before it was read.
    expect(stated).toBeGreaterThan(0);
    expect(100 * Number(searchParams.get("u-mass"))).toBeLessThan(stated);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });
});
