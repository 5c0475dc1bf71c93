import { appendFileSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createDemoBook, newBook, openBook } from "../../src/book/index.ts";
import { simulatePull } from "../pull/trace/simulated-pull.ts";
import {
  addressed,
  axeViolations,
  boxAtRest,
  chromiumPath,
  keptOffline,
  type OpenBench,
  openBench,
  PATIENCE,
  saved,
  sideways,
  sizeNames,
  sizes,
} from "./harness.ts";

const journey = chromiumPath() === null ? describe.skip : describe;
type BenchPage = Awaited<ReturnType<OpenBench["page"]>>;

/** Two slow cores under load. */
const SLOW = { timeout: PATIENCE };

const button = (page: BenchPage, name: string | RegExp) => page.getByRole("button", { name, exact: true });
const text = (page: BenchPage, name: string | RegExp) => page.getByRole("textbox", { name, exact: true });
const wrote = async (page: BenchPage): Promise<void> => {
  await button(page, "Write it down").click();
  await page.locator("form").waitFor({ state: "detached", ...SLOW });
};

/** The book as the command line sees it, whatever the browser says. */
function inBook<T>(bench: OpenBench, look: (book: ReturnType<typeof openBook>) => T): T {
  const book = openBook(bench.book, { readOnly: true, backups: false });
  try {
    return look(book);
  } finally {
    book.close();
  }
}

/** A load cell's log as it comes from the instrument: semicolons, decimal commas, kilonewtons. */
function cellLog(folder: string): string {
  const { trace } = simulatePull({ seed: 8, rate: 10, top: 4000, spikes: 0 });
  const start = Date.parse("2031-05-17T09:00:00Z");
  const lines = Array.from(trace.time, (t, i) => {
    const at = new Date(start + 1000 * t).toISOString().replace("T", " ").slice(0, 21);
    return `${at};${(trace.load[i]! / 1000).toFixed(4).replace(".", ",")}`;
  });
  const path = join(folder, "cell.csv");
  writeFileSync(path, `time UTC;load (kN)\n${lines.join("\n")}\n`);
  return path;
}

journey("the whole job of Days from a new book", () => {
  let bench: OpenBench;
  const folder = mkdtempSync(join(tmpdir(), "days-journey-"));
  beforeAll(async () => {
    bench = (await openBench())!;
  });
  afterAll(async () => {
    await bench?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it("writes a site, an anchor, a day and a pull, brings its log in, finds marks, corrects one and takes that back", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at("/days"));
    await button(page, "Add a site").click();
    await text(page, /^Name/).fill("Ebb Cove");
    await text(page, "Latitude").fill("95");
    await page.getByText('Latitude: "95"; a latitude from -90 to 90 is expected').waitFor(SLOW);
    await text(page, "Latitude").fill("10 30.0 N");
    await text(page, "Longitude").fill("-20.25");
    await wrote(page);
    await page.getByRole("heading", { name: "Ebb Cove" }).waitFor(SLOW);

    await page.goto(bench.at("/days?shelf=days&at=new+anchor"));
    await button(page, "Write it down").click();
    await page.getByText("Name: nothing stands here; it is expected").waitFor(SLOW);
    await text(page, /^Name/).fill("Fifteen");
    await page.getByLabel(/^Shape/).selectOption("scoop");
    await text(page, "Mass").fill("33 lb");
    await wrote(page);
    await page.goto(bench.at("/days?shelf=days&at=new+day"));
    await page.getByLabel(/^Date/).fill("2031-05-17");
    await text(page, "Wind").fill("12 kn");
    await wrote(page);
    await button(page, "Add a pull").click();
    await page.getByLabel("Anchor", { exact: true }).waitFor(SLOW);
    await text(page, "Depth").fill("7");
    await text(page, "Scope").fill("5:1");
    await text(page, "Paid out").fill("120 ft");
    await text(page, "Heading").fill("400");
    await page.getByText('Heading: "400"; a direction, in degrees from -360 to 360, is expected').waitFor(SLOW);
    await text(page, "Heading").fill("90");
    await button(page, "Add steps").click();
    await text(page, "Step 1").fill("1 kN");
    await text(page, "held for, step 1").fill("30");
    await button(page, "Another step").click();
    await text(page, "paid out, step 2").fill("130 ft");
    await text(page, "Step 2").fill("2 kN");
    await page.getByLabel("Ended by").selectOption("engine limit");
    await wrote(page);

    await expect.poll(() => inBook(bench, (book) => book.list("pull").length), SLOW).toBe(1);
    const kept = inBook(bench, (book) => ({
      site: book.list("site")[0]!,
      anchor: book.list("anchor")[0]!,
      day: book.list("day")[0]!,
      pull: book.list("pull")[0]!,
    }));
    expect(kept.site).toMatchObject({ name: "Ebb Cove", latitude_deg: 10.5, longitude_deg: -20.25 });
    expect(kept.anchor).toMatchObject({ shape: "scoop" });
    // 1 lb is 0.45359237 kg by definition.
    expect(kept.anchor.mass_kg).toBeCloseTo(33 * 0.45359237, 9);
    expect(kept.day).toMatchObject({ date: "2031-05-17", site: kept.site.id });
    // 1 kn is 1852 m an hour by definition.
    expect(kept.day.wind_m_per_s).toBeCloseTo((12 * 1852) / 3600, 9);
    // 1 ft is 0.3048 m by definition.
    expect(kept.pull.paidOut_m).toBeCloseTo(120 * 0.3048, 9);
    expect(kept.pull).toMatchObject({
      ...{ day: kept.day.id, anchor: kept.anchor.id, number: 1, depth_m: 7, scope: 5, heading_deg: 90 },
      endedBy: "engine limit",
    });

    const [first, veered] = kept.pull.steps!;
    expect(first).toEqual({ load_N: 1000, duration_s: 30 });
    expect(veered).toEqual({ load_N: 2000, paidOut_m: expect.closeTo(130 * 0.3048, 9) });

    await button(page, "Bring in its log").click();
    await page.setInputFiles("input[aria-label='A log file']", cellLog(folder));
    await page.getByText("decimals by a comma").waitFor(SLOW);
    await expect.poll(() => page.getByLabel("What load (kN) is").inputValue(), SLOW).toBe("load");
    await expect.poll(() => page.getByLabel("Unit of load (kN)").inputValue(), SLOW).toBe("kN");
    await button(page, "Read it into the book").click();
    await button(page, "Open the trace").click(SLOW);
    await page.locator("canvas").first().waitFor(SLOW);
    await page.getByText(/^(held at least|gave way at), read at the bow/).waitFor(SLOW);

    await button(page, "Find marks").click();
    await page.getByRole("heading", { name: /^Marks, \d+/ }).waitFor(SLOW);
    await expect.poll(() => inBook(bench, (book) => book.list("mark").length), SLOW).toBeGreaterThan(3);
    const found = inBook(bench, (book) => book.list("mark"));
    expect(found.every((mark) => mark.origin === "automatic")).toBe(true);
    const log = inBook(bench, (book) => book.list("log")[0]!);
    expect(log).toMatchObject({ pull: kept.pull.id, day: kept.day.id });

    // The end of the first plateau, by hand.
    const plateau = found.filter((mark) => mark.kind === "plateau").sort((a, b) => a.from_s! - b.from_s!)[0]!;
    await page.getByRole("table").getByRole("button", { name: "plateau" }).first().click();
    const grip = page.getByRole("slider", { name: "End of plateau" });
    await grip.waitFor(SLOW);
    await grip.scrollIntoViewIfNeeded();
    const bar = page.getByRole("group", { name: "Marks on the trace" }).locator('[aria-pressed="true"]');
    await expect.poll(() => bar.getAttribute("aria-label"), SLOW).toMatch(/plateau \S+ ± \S+ N/);
    const box = await boxAtRest(grip);
    const [x, y] = [box.x + box.width / 2, box.y + 23];
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let k = 1; k <= 6; k++) await page.mouse.move(x - 3 * k, y);
    // In the hand it tells no load: what was measured was another stretch.
    await expect.poll(() => bar.getAttribute("aria-label"), SLOW).toMatch(/^plateau, /);
    await page.mouse.up();
    await page.getByText("It is kept beside the correction.", { exact: false }).waitFor(SLOW);
    const corrections = () => inBook(bench, (book) => book.list("mark").filter((mark) => mark.corrects === plateau.id));
    await expect.poll(() => corrections().length, SLOW).toBe(1);
    const corrected = corrections();
    expect(corrected[0]!.origin).toBe("by hand");
    expect(corrected[0]!.to_s!).toBeLessThan(plateau.to_s!);
    expect(corrected[0]!.from_s).toBe(plateau.from_s);
    expect(inBook(bench, (book) => book.get("mark", plateau.id))).toMatchObject({ to_s: plateau.to_s });

    // Measured anew where it lies now; its two knobs stand beside each other however short it is.
    await expect.poll(() => bar.getAttribute("aria-label"), SLOW).toMatch(/plateau \S+ ± \S+ N.*corrected by hand/);
    const knobs = await Promise.all(
      ["Begin of plateau", "End of plateau"].map((name) => boxAtRest(page.getByRole("slider", { name }))),
    );
    expect(knobs[1]!.x - knobs[0]!.x).toBeGreaterThanOrEqual(44);

    // By keys: ten steps back at one go, without a pause between them, for a pause would make two corrections of them.
    await grip.focus();
    await grip.evaluate(async (element) => {
      for (let k = 0; k < 10; k++) {
        element.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowLeft", bubbles: true, cancelable: true }));
        // Shown before the next, and no timer runs: only what is to be done at once.
        for (let turn = 0; turn < 10; turn++) await Promise.resolve();
      }
    });
    await expect
      .poll(() => inBook(bench, (book) => book.get("mark", corrected[0]!.id))!.to_s!, SLOW)
      .toBeLessThan(corrected[0]!.to_s!);
    // Twice in haste: both are taken back, the one by keys and the one by hand.
    await button(page, "Undo").click();
    await button(page, "Undo").click();
    await expect
      .poll(() => inBook(bench, (book) => book.get("mark", corrected[0]!.id))!.to_s!, SLOW)
      .toBeCloseTo(corrected[0]!.to_s!, 6);
    await expect.poll(() => inBook(bench, (book) => book.get("mark", corrected[0]!.id))!.hidden, SLOW).toBe(true);
    await button(page, "Redo").click();
    await expect.poll(() => inBook(bench, (book) => book.get("mark", corrected[0]!.id))!.hidden, SLOW).toBe(false);

    await button(page, "Write it as the pull's result").click();
    await expect.poll(() => inBook(bench, (book) => book.get("pull", kept.pull.id))!.result, SLOW).not.toBeNull();
    expect(page.troubles).toEqual([]);
  });

  it("stops the reading of a long log and goes on where it stopped, each reading once", async () => {
    const ROWS = 2_000_000;
    const path = join(folder, "long.csv");
    writeFileSync(path, "elapsed (s),load (N)\n");
    for (let at = 0; at < ROWS; at += 100_000)
      appendFileSync(
        path,
        Array.from({ length: 100_000 }, (_, i) => `${((at + i) / 100).toFixed(2)},${1000 + ((at + i) % 997)}\n`).join(
          "",
        ),
      );
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at("/days?at=bring+in"));
    await page.setInputFiles("input[aria-label='A log file']", path);
    await page.getByText("decimals by a point").waitFor(SLOW);
    // Pressed by the page itself the moment it is there: a reading does not wait for whoever comes late.
    await page.evaluate(() => {
      const look = new MutationObserver(() => {
        const stop = [...document.querySelectorAll("button")].find((it) => it.textContent.startsWith("Stop"));
        if (stop === undefined) return;
        look.disconnect();
        stop.click();
      });
      look.observe(document.body, { childList: true, subtree: true, characterData: true });
    });
    await button(page, "Read it into the book").click();
    await page.getByText(/^Stopped: /).waitFor(SLOW);
    const long = (book: ReturnType<typeof openBook>) => book.list("log").find((log) => log.name === "long.csv")!.id;
    const stopped = inBook(bench, (book) => book.logs.content(long(book)));
    expect(stopped.finished).toBe(false);
    expect(stopped.rows).toBeLessThan(ROWS);
    await button(page, "Read on").click();
    await button(page, "Open the trace").waitFor({ timeout: PATIENCE });
    expect(inBook(bench, (book) => book.logs.content(long(book)))).toMatchObject({
      rows: ROWS,
      from_s: 0,
      to_s: (ROWS - 1) / 100,
      finished: true,
    });
    expect(page.troubles).toEqual([]);
  });

  it("finds by a word, puts a record aside and brings it back, with who and when", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at("/days?shelf=anchors"));
    await page.getByRole("searchbox").fill("SCOOP fift");
    await page.getByRole("button", { name: /^Fifteen/ }).click(SLOW);
    await page.getByText("add anchor Fifteen").waitFor(SLOW);
    await button(page, "Put aside").click();
    await button(page, "Bring back").waitFor(SLOW);
    await expect.poll(() => inBook(bench, (book) => book.list("anchor")), SLOW).toHaveLength(0);
    await button(page, "Bring back").click();
    await button(page, "Put aside").waitFor(SLOW);
    await expect.poll(() => inBook(bench, (book) => book.list("anchor")), SLOW).toHaveLength(1);
    expect(page.troubles).toEqual([]);
  });

  it("keeps a pull written without a network, and joins it exactly once", async () => {
    const page = await bench.page(sizes.phone, { keepsOffline: true });
    await page.goto(bench.at("/days"));
    await page.getByRole("heading", { name: "Journey" }).waitFor(SLOW);
    await keptOffline(page);
    const before = inBook(bench, (book) => book.list("pull").length);
    await bench.stopServer();
    await page.context().setOffline(true);
    await button(page, "Add a pull").click();
    await text(page, "Depth").fill("23 ft");
    await page.getByLabel("Remarks").fill("written on the foredeck");
    await wrote(page);
    await page.getByText("waits on this device", { exact: false }).first().waitFor(SLOW);
    await page.getByText("1 change waits on this device for the book.").waitFor(SLOW);
    await addressed(page, "at=record+pull");
    // Closed and opened again without a network: it is still there.
    await page.reload();
    await page.getByText("written on the foredeck").first().waitFor(SLOW);
    expect(inBook(bench, (book) => book.list("pull").length)).toBe(before);
    await bench.startServer();
    await page.context().setOffline(false);
    await page.evaluate(() => window.dispatchEvent(new Event("online")));
    const joined = () =>
      inBook(bench, (book) => book.list("pull").filter((pull) => pull.remarks === "written on the foredeck"));
    await expect.poll(() => joined().length, SLOW).toBe(1);
    await page.getByText("1 change waits on this device for the book.").waitFor({ state: "detached", ...SLOW });
    // Whatever was sent twice on the way is in the book once.
    await page.evaluate(() => window.dispatchEvent(new Event("online")));
    await page.reload();
    await page.getByText("written on the foredeck").first().waitFor(SLOW);
    const after = joined();
    expect(after).toHaveLength(1);
    // 1 ft is 0.3048 m by definition.
    expect(after[0]!.depth_m).toBeCloseTo(23 * 0.3048, 9);
    expect(inBook(bench, (book) => book.list("pull").length)).toBe(before + 1);
    expect(page.troubles).toEqual([]);
  });

  it("tells where two devices wrote one field, shows both values, and keeps the one that is chosen", async () => {
    const depth = () => inBook(bench, (book) => book.list("pull").find((pull) => pull.number === 1)!);
    const phone = await bench.page(sizes.phone, { keepsOffline: true });
    await phone.goto(bench.at(`/days?at=record+pull+${depth().id}`));
    await button(phone, "Change").waitFor(SLOW);
    await keptOffline(phone);
    await button(phone, "Change").click();
    await text(phone, "Depth").waitFor(SLOW);
    await phone.context().setOffline(true);
    await text(phone, "Depth").fill("7.4");
    await wrote(phone);
    await phone.getByText("1 change waits on this device for the book.").waitFor(SLOW);

    const desk = await bench.page(sizes.desk);
    await desk.goto(bench.at(`/days?at=record+pull+${depth().id}`));
    await button(desk, "Change").click();
    await text(desk, "Depth").fill("6.8");
    await wrote(desk);
    await expect.poll(() => depth().depth_m, SLOW).toBe(6.8);
    await phone.context().setOffline(false);
    await phone.evaluate(() => window.dispatchEvent(new Event("online")));
    await phone.getByRole("heading", { name: "Written on two devices" }).waitFor(SLOW);
    // The later stands until somebody chooses.
    expect(depth().depth_m).toBe(6.8);
    expect(await axeViolations(phone)).toEqual([]);
    await expect.poll(() => sideways(phone), SLOW).toBeLessThanOrEqual(0);

    // Told wherever one is in the book, on every device; both values stand where one chooses.
    await desk.goto(bench.at("/days?shelf=days"));
    await desk.getByRole("button", { name: /: depth$/ }).click(SLOW);
    const panel = desk.getByRole("region", { name: "Written on two devices" });
    await expect.poll(() => panel.getByRole("button").allTextContents(), SLOW).toEqual(["Keep 6.8 m", "Take 7.4 m"]);
    await panel.getByRole("button", { name: /^Take 7.4 m/ }).click();
    await expect.poll(() => depth().depth_m, SLOW).toBe(7.4);
    await panel.waitFor({ state: "detached", ...SLOW });
    await desk.goto(bench.at("/days?shelf=days"));
    await button(desk, "Add a pull").waitFor(SLOW);
    await expect.poll(() => desk.getByText("Two devices wrote one field", { exact: false }).count(), SLOW).toBe(0);
    expect([...desk.troubles, ...phone.troubles]).toEqual([]);
    await phone.context().close();
    await desk.context().close();
  });
});

journey("Days on every size, with the demonstration book", () => {
  let bench: OpenBench;
  let addresses: Readonly<Record<string, string>>;
  beforeAll(async () => {
    bench = (await openBench((path) => createDemoBook(path).close()))!;
    addresses = inBook(bench, (book) => {
      const log = book.list("log")[0]!;
      return {
        book: "/days?shelf=days",
        anchors: "/days?shelf=anchors",
        pull: `/days?at=record+pull+${log.pull}`,
        form: "/days?at=new+pull",
        log: `/days?at=log+${log.id}&channels=load,wind`,
        "bring in": "/days?at=bring+in",
        devices: "/days?at=devices",
      };
    });
  });
  afterAll(async () => bench?.close());

  const ready: Readonly<Record<string, string>> = {
    book: "Add a pull",
    anchors: "Hinged plough, 16 kg",
    pull: "What is said of it",
    form: "Write it down",
    log: "What the log says",
    "bring in": "Choose a log file",
    devices: "Closed",
  };

  it("goes back page by page by the browser's own button, and keeps what was typed into a form that was left", async () => {
    const page = await bench.page(sizes.phone);
    await page.goto(bench.at("/days"));
    await page.getByText("Add a pull").first().waitFor(SLOW);
    await page.getByRole("button", { name: /^anchors/ }).click();
    await page.getByRole("button", { name: /^Hinged plough, 16 kg/ }).click();
    await button(page, "Change").click();
    await text(page, "Description").fill("shank scratched");
    const at = () => new URL(page.url()).searchParams.get("at")?.split(" ")[0] ?? "book";
    await expect.poll(at, SLOW).toBe("edit");
    await page.goBack();
    await button(page, "Change").waitFor(SLOW);
    await expect.poll(at, SLOW).toBe("record");
    await page.goBack();
    await page.getByRole("button", { name: /^Hinged plough, 16 kg/ }).waitFor(SLOW);
    await page.goBack();
    await page.getByText("Add a pull").first().waitFor(SLOW);
    for (let step = 0; step < 3; step++) await page.goForward();
    await page.getByText("What you typed here before is still here.").waitFor(SLOW);
    await expect.poll(() => text(page, "Description").inputValue(), SLOW).toBe("shank scratched");
    // A form that is left is no page to come back to.
    await button(page, "Leave it").click();
    await button(page, "Change").waitFor(SLOW);
    // The bench itself goes a step back, and only then can one go another.
    await expect.poll(at, SLOW).toBe("record");
    await page.goBack();
    await page.getByRole("button", { name: /^Hinged plough, 16 kg/ }).waitFor(SLOW);
    await page.getByRole("button", { name: /^Hinged plough, 16 kg/ }).click();
    await button(page, "Change").click();
    await expect.poll(() => text(page, "Description").inputValue(), SLOW).toBe("");
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  for (const name of sizeNames) {
    it(`answers, breaks no rule of axe and sticks out nowhere on a ${name}`, async () => {
      const page = await bench.page(sizes[name]);
      for (const [what, address] of Object.entries(addresses)) {
        await page.goto(bench.at(address));
        await page.getByText(ready[what]!).first().waitFor(SLOW);
        if (what === "log") await page.locator("canvas").nth(1).waitFor(SLOW);
        await expect.poll(() => sideways(page), { ...SLOW, message: `${what}, ${name}` }).toBeLessThanOrEqual(0);
        for (const theme of name === "phone" ? (["light", "dark", "sun"] as const) : (["light"] as const)) {
          await page.getByLabel("Theme").selectOption(theme);
          expect(
            await axeViolations(page, theme === "light" ? "all" : "colours"),
            `${what}, ${name}, ${theme}`,
          ).toEqual([]);
        }
        await page.getByLabel("Theme").selectOption("light");
      }
      expect(page.troubles).toEqual([]);
      await page.context().close();
    });
  }

  it("shows the load of each pull that has a log over its time, small, in the list of days on a phone", async () => {
    const page = await bench.page(sizes.phone);
    await page.goto(bench.at("/days"));
    // It is fetched once it is in view.
    const row = page.getByRole("button", { name: /^Pull 1, Scoop/ }).first();
    await row.scrollIntoViewIfNeeded(SLOW);
    const line = row.locator("svg path").last();
    await line.waitFor({ state: "attached", ...SLOW });
    // A log of some minutes: a corner every few of its 120 px, no plain line from end to end.
    await expect.poll(async () => (await line.getAttribute("d"))!.split("L").length, SLOW).toBeGreaterThan(40);
    const bare = page.getByRole("button", { name: /^Pull 3, / }).first();
    await bare.scrollIntoViewIfNeeded(SLOW);
    expect(await bare.locator("svg").count()).toBe(0);
    // The map leaves as a table of its sites.
    const csv = await saved(page, "Map of the sites", "CSV");
    expect(csv.text.split("\r\n")[0]).toBe('site,"latitude, °","longitude, °",days');
    expect(csv.text).toMatch(/Ternhead Flats \(invented\),[\d.-]+,[\d.-]+,1\r\n/);
    await expect.poll(() => sideways(page), SLOW).toBeLessThanOrEqual(0);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("keeps the window, the channels and the chosen mark in the address", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at(addresses.log!));
    await page.locator("canvas").nth(1).waitFor(SLOW);
    const trace = page.getByRole("application");
    await trace.focus();
    for (const key of ["+", "+", "+", "ArrowRight", "ArrowRight"]) await page.keyboard.press(key);
    await addressed(page, ({ searchParams }) => searchParams.has("from"));
    await page.getByLabel("depth").check();
    await page.getByRole("table").getByRole("button").first().click();
    const kept = await addressed(
      page,
      ({ searchParams }) => searchParams.has("mark") && searchParams.get("channels")!.includes("depth"),
    );
    const words = await page.getByText(/ of 4 min/).textContent();
    const other = await bench.page(sizes.tablet);
    await other.goto(kept);
    await other.locator("canvas").nth(2).waitFor(SLOW);
    await expect.poll(() => other.getByText(/ of 4 min/).textContent(), SLOW).toBe(words);
    await expect.poll(() => other.locator("canvas").count(), SLOW).toBe(3);
    expect(other.troubles).toEqual([]);
  });
});

journey("a log of a million readings", () => {
  let bench: OpenBench;
  let log = "";
  const PEAK = 98_765;
  beforeAll(async () => {
    bench = (await openBench((path) => {
      const book = newBook(path, { title: "Long" }, { who: "journey" });
      const opened = book.logs.open({
        name: "long",
        channels: [{ name: "load", quantity: "force", unit: "N", precision: "single" }],
      });
      log = opened.log;
      const n = 1_000_000;
      const BATCH = 100_000;
      for (let at = 0; at < n; at += BATCH) {
        const times = Float64Array.from({ length: BATCH }, (_, i) => 1.9e9 + (at + i) / 100);
        // One reading in a million stands far above all others.
        const load = Float64Array.from({ length: BATCH }, (_, i) =>
          at + i === 654_321 ? PEAK : 2000 + 1500 * Math.sin((at + i) / 9000) + ((7919 * (at + i)) % 101),
        );
        book.logs.append(log, { times, columns: { load } }, { from: at, to: at + BATCH });
      }
      book.logs.finish(log);
      book.close();
    }))!;
  });
  afterAll(async () => bench?.close());

  it("shows its one peak from afar and from near, and pans", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at(`/days?at=log+${log}`));
    await page.locator("canvas").first().waitFor(SLOW);
    const most = async (): Promise<number> => {
      const cells = await page.getByRole("table").last().locator("tbody td").allTextContents();
      return Math.max(
        ...cells.map((cell) =>
          Number(
            cell
              .split(" to ")
              .at(-1)!
              .replace(/[^\d.]/g, ""),
          ),
        ),
      );
    };
    await page.getByText("Least and greatest of each channel").click();
    // Shown to three digits.
    await expect.poll(most, SLOW).toBeCloseTo(98_800, -2);
    const at = 1.9e9 + 6543.21;
    await page.goto(bench.at(`/days?at=log+${log}&from=${at - 1}&to=${at + 1}`));
    await page.locator("canvas").first().waitFor(SLOW);
    await page.getByText("Least and greatest of each channel").click();
    await expect.poll(most, SLOW).toBeCloseTo(98_800, -2);

    await page.goto(bench.at(`/days?at=log+${log}&from=${1.9e9 + 4000}&to=${1.9e9 + 4500}`));
    await page.locator("canvas").first().waitFor(SLOW);
    const box = await boxAtRest(page.getByRole("application"));
    const y = box.y + 250;
    for (let stroke = 0; stroke < 4; stroke++) {
      await page.mouse.move(box.x + box.width * 0.8, y);
      await page.mouse.down();
      for (let k = 0; k < 30; k++) await page.mouse.move(box.x + box.width * (0.8 - 0.02 * k), y);
      await page.mouse.up();
    }
    await expect.poll(() => Number(new URL(page.url()).searchParams.get("from")), SLOW).toBeGreaterThan(1.9e9 + 4500);
    expect(page.troubles).toEqual([]);
  });
});
