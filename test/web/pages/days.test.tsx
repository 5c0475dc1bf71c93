/** Days drawn whole, over a book on disk: what its pages show is what the book holds, and what is typed goes into it as typed. */
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import { pullCases, pullEvidence } from "../../../src/study/index.ts";
import { look } from "../../../src/web/days/book-copy.ts";
import { type DaysState, daysStore, usualDays } from "../../../src/web/days/state.ts";
import { trouble } from "../../../src/web/days/written.ts";
import { benchWithBook } from "../../server/in-process.ts";
import { trialRode } from "../../study/cases.ts";
import { memoryStore } from "../../support/memory-store.ts";
import { openPlace, type Page } from "./page.tsx";

const bench = benchWithBook();
const { book } = bench;
const write = (kind: string, set: object) => book.write([{ kind, set } as never], `add ${kind}`).ids[0]!;
const ids = (() => {
  const site = write("site", { name: "Ebb Cove", latitude_deg: 10.5, longitude_deg: 20.25 });
  const other = write("site", { name: "Long Flats" });
  const seabed = write("seabed", { name: "soft mud", site });
  const anchor = write("anchor", { name: "Scoop", shape: "scoop", mass_kg: 15 });
  const rig = write("rig", { name: "Chain and rope" });
  const rigVersion = write("rigVersion", { rig, file: trialRode });
  const day = write("day", { date: "2031-05-17", site, wind_m_per_s: 6, windFrom_deg: 225, testers: "Jo" });
  const early = write("day", { date: "2031-05-16", site: other });
  const known = { day, anchor, seabed, rigVersion, depth_m: 4.4, scope: 5, loadAt: "bow" };
  const first = write("pull", {
    ...{ ...known, number: 1, result: { kind: "gaveWay", load_N: 2500, u_N: 30 } },
    ...{ steps: [{ load_N: 1000, duration_s: 60 }, { load_N: 2500 }], heldFor_s: 8 },
  });
  const second = write("pull", { ...known, number: 2, result: { kind: "heldTo", load_N: 1500, u_N: 20 } });
  const note = write("note", { about: first, text: "Weed on the fluke" });
  return { site, other, seabed, anchor, rig, rigVersion, day, early, first, second, note };
})();

const calls: string[] = [];
beforeAll(() => {
  memoryStore((name, value) => vi.stubGlobal(name, value));
  vi.stubGlobal("navigator", {});
  vi.stubGlobal("fetch", async (input: RequestInfo | URL, init?: RequestInit) => {
    init?.signal?.throwIfAborted();
    calls.push(`${init?.method ?? "GET"} ${String(input)}`);
    const headers = new Headers(init?.headers);
    headers.set("origin", "http://127.0.0.1:4711");
    return bench.ask(String(input), { ...init, headers });
  });
});
afterAll(() => {
  vi.unstubAllGlobals();
  book.close();
});
let page: Page | undefined;
afterEach(() => {
  page?.close();
  trouble.put(null);
});

/** Opens Days as it stands, once the book was seen. */
async function opened(at: DaysState["at"] = { page: "book" }, more: Partial<DaysState> = {}): Promise<Page> {
  const { preferences } = await import("../../../src/web/state/preferences.ts");
  preferences.put({ ...preferences.get(), hintsUsed: [] });
  daysStore.put({ ...usualDays, ...more, at });
  page = await openPlace("/days");
  daysStore.put({ ...usualDays, ...more, at });
  await look();
  await page.until(() => !page!.text.includes("Opening the book"));
  return page;
}
/** What a browser makes of a press on the button of a form. */
const submit = (at: Page) => at.fire(at.all("form")[0]!, "submit");
const shown = () => daysStore.get().at;
const recordOf = (kind: "pull" | "day" | "site" | "anchor", id: string) =>
  book.get(kind, id) as unknown as Record<string, unknown>;

describe("the book from above", () => {
  it("tells its title and what stands on each shelf", async () => {
    const at = await opened();
    expect(at.text).toContain("A book of tests");
    const shelves = at.all("nav[aria-label='Shelves of the book'] button").map((one) => one.textContent);
    expect(shelves).toEqual(["days 2", "sites 2", "anchors 1", "rigs 1"]);
    at.press("anchors 1");
    await at.until(() => daysStore.get().shelf === "anchors");
    expect(at.text).toContain("Scoop");
    expect(at.text).toContain("scoop · 15 kg");
  });
  it("has each day with its pulls in their order, what they came to, and opens them", async () => {
    const at = await opened();
    const heads = at.all("h2").map((one) => one.textContent!);
    const days = heads.filter((text) => / May 2031/.test(text));
    expect(days[0]).toMatch(/^Sat,? 17 May 2031, Ebb Cove$/);
    expect(days[1]).toMatch(/^Fri,? 16 May 2031, Long Flats$/);
    const rows = at.all("li button").map((one) => one.textContent!);
    const pulls = rows.filter((text) => text.startsWith("Pull "));
    expect(pulls).toHaveLength(2);
    expect(pulls[0]).toMatch(/^Pull 1, Scoopgave way at\s*2500 ± 30 N/);
    expect(pulls[0]).toContain("4.4 m deep · scope 5:1 · soft mud");
    expect(pulls[1]).toMatch(/^Pull 2, Scoopheld\s*1500 ± 20 N/);
    expect(at.text).toContain("wind 11.7 kn from 225° · Jo");
    expect(at.text).toContain("Open a pull to see its log");
    at.fire(at.all("li button").find((one) => one.textContent!.startsWith("Pull 2"))!, "click", { button: 0 });
    expect(shown()).toEqual({ page: "record", kind: "pull", id: ids.second });
    const again = await opened();
    again.fire(again.all("h2 button")[0]!, "click", { button: 0 });
    expect(shown()).toEqual({ page: "record", kind: "day", id: ids.day });
  });
  it("finds by words and by site, and offers what was put aside only where there is some", async () => {
    const at = await opened();
    expect(at.all("input[type=checkbox]")).toHaveLength(0);
    at.fill("Find in the book", "flats");
    expect(daysStore.get().narrow.find).toBe("flats");
    await at.until(() => !at.text.includes("17 May"));
    at.fill("Find in the book", "");
    at.fill("Only this site", ids.site);
    expect(daysStore.get().narrow.site).toBe(ids.site);
    await at.until(() => !at.text.includes("16 May"));
    at.fill("Only this site", "");
    expect(daysStore.get().narrow.site).toBeNull();
    expect(at.all("[aria-label='Only this anchor']")).toHaveLength(0);
  });
  it("leads to a log brought in, to books and devices at the computer, and to a new pull", async () => {
    for (const [name, to] of [
      ["Bring in a log", { page: "bring in", sent: null, pull: null }],
      ["Books", { page: "books" }],
      ["Devices", { page: "devices" }],
      ["Add a pull", { page: "form", kind: "pull", id: null, about: null }],
    ] as const) {
      const at = await opened();
      at.press(name);
      expect(shown(), name).toEqual(to);
      at.close();
    }
    page = undefined;
  });
});

describe("the page of a record", () => {
  it("of a pull tells what it came to, its fields, its notes, and the load at the anchor as the library has it", async () => {
    const at = await opened({ page: "record", kind: "pull", id: ids.first });
    await at.until(() => at.text.includes("At the anchor") && at.text.includes("History"));
    expect(at.reading("gave way at, read at the bow")).toMatch(/^2500 N\s*± 30 N$/);
    const fields = Object.fromEntries(at.all("dt").map((dt) => [dt.textContent, dt.nextElementSibling!.textContent]));
    expect(fields).toMatchObject({
      Depth: "4.4 m",
      Scope: "5:1",
      Anchor: "Scoop",
      Seabed: "soft mud",
      "Load read at": "bow",
    });
    expect(fields.Steps).toBe(
      "1000 N for 60 s, then 2500 N".replaceAll(" ", "\u00a0").replace(",\u00a0then\u00a0", ", then "),
    );
    expect(fields["Held when kept for"]).toBe("8 s");
    expect(at.text).toContain("Weed on the fluke");
    const [about] = pullCases(
      {
        ...{ pull: book.list("pull"), anchor: book.list("anchor"), series: [] },
        ...{
          day: book.list("day"),
          site: book.list("site"),
          seabed: book.list("seabed"),
          rigVersion: book.list("rigVersion"),
        },
      },
      [book.get("pull", ids.first)!],
    );
    const { gaveWayBy, doubts } = pullEvidence(about!);
    if (gaveWayBy?.kind !== "carried") throw new Error("a carried load is expected");
    const told = at.reading("that is, at the anchor");
    expect(Number.parseFloat(told)).toBeCloseTo(gaveWayBy.anchor.value, -1);
    expect(told).toMatch(/carried by 28\.8 m of rode in 4\.4 m of water/);
    expect(Number.parseFloat(at.reading("angle at the anchor, above the bottom"))).toBeCloseTo(
      (gaveWayBy.angleToBottom.value * 180) / Math.PI,
      0,
    );
    expect(at.all("[aria-label='What to doubt'] li").length).toBe(doubts.filter(({ kind }) => kind !== "noRig").length);
  });
  it("says who wrote what, and takes it back", async () => {
    const at = await opened({ page: "record", kind: "site", id: ids.other });
    await at.until(() => at.text.includes("History"));
    expect(at.text).toContain("add site");
    expect(at.text).toContain("Name: Long Flats");
    expect(at.text).toContain("One day");
    book.edit("site", ids.other, { name: "Longer Flats" });
    await look();
    await at.until(() => at.text.includes("Name: Long Flats → Longer Flats"));
    at.fire(at.all("button").find((one) => one.getAttribute("aria-label")?.startsWith("Take back"))!, "click", {
      button: 0,
    });
    await at.until(() => recordOf("site", ids.other).name === "Long Flats");
  });
  it("is put aside and brought back by the book, and nothing is lost", async () => {
    const at = await opened({ page: "record", kind: "anchor", id: ids.anchor });
    await at.until(() => at.text.includes("2 pulls"));
    at.press("Put aside");
    await at.until(() => at.text.includes("anchor · put aside"));
    expect(recordOf("anchor", ids.anchor).hidden).toBe(true);
    expect(at.all("button").map((one) => one.textContent)).not.toContain("Change");
    at.press("Bring back");
    await at.until(() => recordOf("anchor", ids.anchor).hidden === false);
    await at.until(() => at.text.includes("Put aside"));
  });
  it("leads on: to the next pull, a change, a note, a log, the day, and to what belongs to it", async () => {
    const press = async (kind: "pull" | "day" | "rig" | "site", id: string, name: string) => {
      const at = await opened({ page: "record", kind, id });
      await at.until(() => at.all("h1").length === 1);
      at.press(name);
      const to = shown();
      at.close();
      return to;
    };
    expect(await press("pull", ids.second, "Next pull")).toEqual({
      page: "form",
      kind: "pull",
      id: null,
      about: `day:${ids.day}`,
    });
    expect(await press("day", ids.day, "Add a pull")).toEqual({
      page: "form",
      kind: "pull",
      id: null,
      about: `day:${ids.day}`,
    });
    expect(await press("pull", ids.second, "Change")).toEqual({
      page: "form",
      kind: "pull",
      id: ids.second,
      about: null,
    });
    expect(await press("pull", ids.second, "Add a note")).toEqual({
      page: "form",
      kind: "note",
      id: null,
      about: `about:${ids.second}`,
    });
    expect(await press("pull", ids.second, "Bring in its log")).toEqual({
      page: "bring in",
      sent: null,
      pull: ids.second,
    });
    expect(await press("day", ids.day, "Bring in its log")).toEqual({ page: "bring in", sent: null, pull: null });
    expect(await press("rig", ids.rig, "Book")).toEqual({ page: "book" });
    const at = await opened({ page: "record", kind: "pull", id: ids.first });
    // A pull that has a note has no second one added from here.
    expect(at.all("header button").map((one) => one.textContent)).not.toContain("Add a note");
    at.fire(at.all("header button")[0]!, "click", { button: 0 });
    expect(shown()).toEqual({ page: "record", kind: "day", id: ids.day });
    const rig = await opened({ page: "record", kind: "rig", id: ids.rig });
    expect(rig.text).toContain("One rig as deployed");
    expect(rig.text).toContain("2 pulls");
    rig.fire(rig.all("li button").find((one) => one.textContent!.startsWith("Pull 1"))!, "click", { button: 0 });
    expect(shown()).toEqual({ page: "record", kind: "pull", id: ids.first });
  });
  it("says so where there is none", async () => {
    const at = await opened({ page: "record", kind: "site", id: "018f0000-0000-7000-8000-000000000001" });
    expect(at.text).toContain("No such site");
  });
});

describe("the form of a record", () => {
  it("of the next pull begins with what goes on from the last, and its number", async () => {
    const at = await opened({ page: "form", kind: "pull", id: null, about: `day:${ids.day}` });
    expect(at.text).toContain("Add a pull");
    expect(["Number", "Depth", "Scope"].map((label) => at.field(label).getAttribute("value"))).toEqual([
      "3",
      "4.4",
      "5",
    ]);
    at.fill("Depth", "5.5 m");
    at.fill("Result", "heldTo");
    await at.until(() => at.text.includes("Held to"));
    at.fill("Held to", "2 kN");
    at.fill("Its standard uncertainty ±", "25 N");
    at.fill("Rode then out, where it was veered", "40 m");
    at.fill("Remarks", "calm");
    submit(at);
    await at.until(() => shown().page === "record");
    const made = recordOf("pull", (shown() as { id: string }).id);
    expect(made).toMatchObject({
      ...{
        number: 3,
        depth_m: 5.5,
        scope: 5,
        day: ids.day,
        anchor: ids.anchor,
        seabed: ids.seabed,
        rigVersion: ids.rigVersion,
      },
      ...{ loadAt: "bow", remarks: "calm", result: { kind: "heldTo", load_N: 2000, u_N: 25, paidOut_m: 40 } },
    });
    expect(Date.parse(String(made.startedAt)) % 60_000).toBe(0);
    expect(Math.abs(Date.parse(String(made.startedAt)) - Date.now())).toBeLessThan(3_600_000);
    // Steps and the result of the pull before are its own.
    expect(made.steps).toBeNull();
  });
  it("of a change writes what was changed, and nothing where nothing was", async () => {
    const before = calls.length;
    const at = await opened({ page: "form", kind: "anchor", id: ids.anchor, about: null });
    submit(at);
    await at.until(() => shown().page === "record");
    expect(calls.slice(before).filter((call) => call.startsWith("POST"))).toEqual([]);
    const again = await opened({ page: "form", kind: "anchor", id: ids.anchor, about: null });
    again.fill("Mass", "16 kg");
    again.fill("Make", "own");
    submit(again);
    await again.until(() => shown().page === "record");
    expect(recordOf("anchor", ids.anchor)).toMatchObject({ name: "Scoop", mass_kg: 16, make: "own", shape: "scoop" });
    const emptied = await opened({ page: "form", kind: "anchor", id: ids.anchor, about: null });
    emptied.fill("Make", "");
    emptied.fill("Mass", "");
    submit(emptied);
    await emptied.until(() => shown().page === "record");
    expect(recordOf("anchor", ids.anchor)).toMatchObject({ mass_kg: null, make: null });
  });
  it("says what is missing or wrong beside its field, and writes nothing", async () => {
    const count = book.list("site").length;
    const at = await opened({ page: "form", kind: "site", id: null, about: null });
    submit(at);
    await at.until(() => at.text.includes("Name: nothing stands here; it is expected"));
    at.fill("Name (needed)", "New Bay");
    await at.until(() => !at.text.includes("nothing stands here"));
    const wrongs = [
      ["Latitude", "91", 'Latitude: "91"; a latitude from -90 to 90 is expected'],
      ["Latitude", "-90.1", 'Latitude: "-90.1"; a latitude from -90 to 90 is expected'],
      ["Latitude", "north", 'Latitude: "north"; degrees such as 10° 30.25′ N or -20.25 are expected'],
      ["Longitude", "east", 'Longitude: "east"; degrees such as 20° 15.3′ W or -20.25 are expected'],
    ];
    for (const [label, text, line] of wrongs) {
      at.fill(label!, text!);
      await at.until(() => at.text.includes(line!));
    }
    submit(at);
    await new Promise((done) => setTimeout(done, 10));
    expect([shown().page, book.list("site").length]).toEqual(["form", count]);
    at.fill("Latitude", "10 30 S");
    at.fill("Longitude", "");
    await at.until(() => !at.text.includes("are expected"));
    submit(at);
    await at.until(() => shown().page === "record");
    expect(recordOf("site", (shown() as { id: string }).id)).toMatchObject({
      name: "New Bay",
      latitude_deg: -10.5,
      longitude_deg: null,
    });
  });
  it("takes numbers of one unit, whole where they count, within their ends", async () => {
    const at = await opened({ page: "form", kind: "pull", id: null, about: null });
    for (const [label, text] of [
      ["Number", "1.5"],
      ["Number", "-1"],
      ["Heading", "361"],
      ["Heading", "west"],
      ["Scope", "0.9"],
    ]) {
      at.fill(label!, text!);
      await at.until(() => at.text.includes(`${label}: "${text}"; `));
    }
    at.fill("Number", "7");
    at.fill("Heading", "270 °");
    at.fill("Scope", "4.5 : 1");
    await at.until(() => !at.text.includes("is expected"));
    at.press("Add steps");
    await at.until(() => at.all("[aria-label='Remove step 1']").length === 1);
    at.fill("held for, step 1", "30 s");
    at.fill("Step 1", "1 kN");
    await at.until(
      () => at.all("[aria-label='Remove step 1']").length === 1 && !at.button("Another step").hasAttribute("disabled"),
    );
    at.press("Another step");
    await at.until(() => at.all("[aria-label='Remove step 2']").length === 1);
    at.fill("Step 2", "2 kN");
    at.fill("paid out, step 2", "45 m");
    await at.until(() => !at.button("Another step").hasAttribute("disabled"));
    at.press("Another step");
    await at.until(() => at.all("[aria-label='Remove step 3']").length === 1);
    at.fill("Step 3", "3 kN");
    await at.until(() => !at.button("Another step").hasAttribute("disabled"));
    at.press("Remove step 3");
    await at.until(() => at.all("[aria-label='Remove step 3']").length === 0);
    at.fill("Load read at", "anchor");
    submit(at);
    await at.until(() => shown().page === "record");
    expect(recordOf("pull", (shown() as { id: string }).id)).toMatchObject({
      ...{ number: 7, heading_deg: 270, scope: 4.5, loadAt: "anchor" },
      steps: [
        { load_N: 1000, duration_s: 30 },
        { load_N: 2000, paidOut_m: 45 },
      ],
    });
  });
  it("keeps what was typed when it is left by a step back, and lets it go when it is left", async () => {
    const form = { page: "form", kind: "boat", id: null, about: null } as const;
    const at = await opened(form);
    at.fill("Name (needed)", "Tern");
    at.close();
    const again = await opened(form);
    expect(again.text).toContain("What you typed here before is still here.");
    expect(again.field("Name (needed)").getAttribute("value")).toBe("Tern");
    again.press("Begin anew");
    await again.until(() => !again.text.includes("still here"));
    expect(again.field("Name (needed)").getAttribute("value")).toBe("");
    again.fill("Name (needed)", "Gull");
    again.press("Leave it");
    expect(shown()).toEqual({ page: "book" });
    const last = await opened(form);
    expect(last.text).not.toContain("still here");
  });
  it("of a note goes back to what it is about", async () => {
    const at = await opened({ page: "form", kind: "note", id: null, about: `about:${ids.second}` });
    at.fill("Note (needed)", "Held well");
    submit(at);
    await at.until(() => shown().page === "record");
    expect(shown()).toEqual({ page: "record", kind: "pull", id: ids.second });
    expect(book.list("note").some((one) => one.about === ids.second && one.text === "Held well")).toBe(true);
  });
  it("of a day has today's date, and a site where there is but one", async () => {
    const at = await opened({ page: "form", kind: "day", id: null, about: null });
    const now = new Date();
    const two = (n: number) => String(n).padStart(2, "0");
    expect(at.field("Date (needed)").getAttribute("value")).toBe(
      `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`,
    );
    at.fill("Wind", "10 kn");
    at.fill("Site", ids.other);
    submit(at);
    await at.until(() => shown().page === "record");
    const made = recordOf("day", (shown() as { id: string }).id);
    // A knot is 1852 m an hour, exactly.
    expect(made.wind_m_per_s).toBeCloseTo((10 * 1852) / 3600, 9);
    expect(made.site).toBe(ids.other);
  });
});

describe("two devices on one field", () => {
  it("are shown with what each wrote, and a person chooses", async () => {
    const join = (device: string, was: unknown, name: string) =>
      bench.send("POST", "/api/1/join", {
        transactions: [
          {
            ...{ id: bench.newId(), device, at: new Date().toISOString(), label: `name ${name}` },
            records: [{ kind: "site", id: ids.other, makes: false, set: { name }, was: { name: was } }],
          },
        ],
      });
    await join(bench.newId(), "Long Flats", "Western Flats");
    await join(bench.newId(), "Long Flats", "Eastern Flats");
    const at = await opened({ page: "record", kind: "site", id: ids.other });
    await at.until(() => at.text.includes("Written on two devices"));
    expect(at.text).toContain("Two devices wrote one field.");
    at.press("Take Western Flats: Name");
    await at.until(() => recordOf("site", ids.other).name === "Western Flats");
    await at.until(() => !at.text.includes("Written on two devices"));
  });
});
