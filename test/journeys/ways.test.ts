import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createDemoBook } from "../../src/book/index.ts";
import { addressed, axeViolations, chromiumPath, type OpenBench, openBench, PATIENCE, sizes } from "./harness.ts";

type BenchPage = Awaited<ReturnType<OpenBench["page"]>>;

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
    const stated = Number(await page.getByRole("textbox", { name: "Mass per length ±" }).inputValue());
    await fitted.click();
    const { searchParams } = new URL(await addressed(page, /\/rig\?.*u-mass=/));
    // Sharper than the rig stated it, in per cent, before it was read.
    expect(stated).toBeGreaterThan(0);
    expect(100 * Number(searchParams.get("u-mass"))).toBeLessThan(stated);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("is the rig carried between Match, Readings and Rig, though this device kept another and Rig was not opened yet", async () => {
    const page = await bench.page(sizes.desk);
    /** Loads the bench anew on a device that kept a rig: nothing else of the visit is left. */
    const anew = async (path: string) => {
      await page.goto(bench.at(KEPT));
      await kept(page, "rig", "Kept rig");
      await page.goto(bench.at(path));
    };
    const carried = async (name: string) => {
      await addressed(page, /\/rig\?.*rode=/);
      const field = page.getByRole("textbox", { name: "Name of the rig" });
      await expect.poll(() => field.inputValue(), SLOW).toBe(name);
    };
    await anew("/match");
    await page.getByRole("button", { name: "Take the rig from Rig" }).first().click();
    await page.getByRole("region", { name: "A: Kept rig" }).waitFor(SLOW);
    await page.getByRole("region", { name: "B: Chain and rope" }).getByRole("link", { name: "Open in Rig" }).click();
    await carried("Chain and rope");

    await anew("/readings");
    await page.getByRole("button", { name: "The demo's readings" }).click();
    await page
      .getByRole("region", { name: "Gantry rig, Hallow Yard", exact: true })
      .getByRole("link", { name: "Open in Rig" })
      .click();
    await carried("Gantry rig, Hallow Yard");
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("is one touch from a rig to Match and to Weather, as it stands, though this device kept others there; undo brings those back", async () => {
    const page = await bench.page(sizes.phone);
    await page.goto(bench.at("/match"));
    await page.getByRole("region", { name: "A: All chain" }).waitFor(SLOW);
    await kept(page, "match", "All chain");
    await page.goto(bench.at(KEPT));
    const ways = page.getByRole("navigation", { name: "On with this rig" });
    await ways.getByRole("link", { name: "Match another with it" }).click();
    await page.getByRole("region", { name: "A: Kept rig" }).waitFor(SLOW);
    const load = page.getByRole("textbox", { name: "Load at both bows", exact: true });
    await expect.poll(() => load.inputValue(), SLOW).toBe("1800");
    await page.getByRole("button", { name: "Undo" }).click();
    await page.getByRole("region", { name: "A: All chain" }).waitFor(SLOW);

    await page.goBack();
    await ways.getByRole("link", { name: "Its loads in Weather" }).click();
    await page.getByRole("region", { name: "Kept rig", exact: true }).waitFor(SLOW);
    await addressed(page, /\/weather\?.*depth=6\.5&/);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });
});

const KEPT = "/rig?name=Kept+rig&in=water&depth=6.5&roller=1&rode=chain+10+mm+grade+30+ISO+4565*28&load=bow+1800";

/** Waits until this device keeps the state of a place under a name of a rig. */
async function kept(page: BenchPage, place: string, name: string): Promise<void> {
  await expect
    .poll(
      () =>
        page.evaluate(
          (of) =>
            new Promise<string | undefined>((done) => {
              const opening = indexedDB.open("rodebench");
              opening.onsuccess = () => {
                const { result } = opening;
                if (!result.objectStoreNames.contains("states")) return done(undefined);
                const asked = result.transaction("states").objectStore("states").get(of);
                asked.onsuccess = () => {
                  result.close();
                  done((asked.result as { name?: string } | undefined)?.name);
                };
              };
            }),
          place,
        ),
      SLOW,
    )
    .toBe(name);
}
