/** The forms of Holding, Publish and Series, and the slides of Weather: what is typed, ticked or slid goes to its own place, within its ends. */
import { readFileSync } from "node:fs";
import { afterAll, afterEach, beforeEach, describe, expect, it } from "vitest";
import { USUAL_PRIORS } from "../../../src/holding/index.ts";
import { bookCopy } from "../../../src/web/days/book-copy.ts";
import { Choose as ChoosePulls } from "../../../src/web/holding/choose.tsx";
import { PriorsForm } from "../../../src/web/holding/priors-form.tsx";
import { type HoldingState, holdingStore, usualHolding } from "../../../src/web/holding/state.ts";
import { Choose as ChooseSent } from "../../../src/web/publish/choose.tsx";
import { FilmFields } from "../../../src/web/publish/film/film-fields.tsx";
import { type FilmState, readTyped, usualFilm } from "../../../src/web/publish/film/state.ts";
import { publishStore, usualPublish } from "../../../src/web/publish/state.ts";
import { Form } from "../../../src/web/series/form.tsx";
import { formOf } from "../../../src/web/series/form-text.ts";
import { LimitField } from "../../../src/web/weather/snubber/limit-field.tsx";
import { limitsShown } from "../../../src/web/weather/snubber/reasons.ts";
import { usualWeather } from "../../../src/web/weather/state.ts";
import { weatherStore } from "../../../src/web/weather/store.ts";
import { plotIn } from "../../../src/web/weather/wind/axis.ts";
import { WindSlide } from "../../../src/web/weather/wind/wind-slide.tsx";
import { openDrawn, type Page } from "./page.tsx";
import { Sheet } from "./sheet.tsx";

const DEGREE = Math.PI / 180;
let page: Page | undefined;
const drawn = async (part: React.ReactNode): Promise<Page> => {
  page?.close();
  page = await openDrawn(part);
  return page;
};
const before = bookCopy.get();
beforeEach(() => {
  const series = [
    { id: "s1", name: "Spring", hidden: false },
    { id: "s2", name: "Old", hidden: true },
  ];
  bookCopy.put({ ...before, records: { ...before.records, series } as never });
  holdingStore.put(usualHolding);
  publishStore.put(usualPublish);
  weatherStore.put(usualWeather);
});
afterEach(() => page?.close());
afterAll(() => {
  bookCopy.put(before);
  holdingStore.put(usualHolding);
  publishStore.put(usualPublish);
  weatherStore.put(usualWeather);
});
const options = (at: Page, label: string) =>
  [...at.field(label).querySelectorAll("option")].map((one) => one.textContent);

describe("the pulls looked at in Holding", () => {
  const pull = (anchor: string, more = {}) => ({ anchor, hold: { kind: "heldTo", newtons: 1 }, ...more });
  const book = {
    pulls: [
      pull("B", { seabed: "sand", site: "x" }),
      pull("A", { seabed: "mud" }),
      pull("A"),
      pull("C", { seabed: "mud" }),
    ],
    ...{ ids: ["1", "2", "3", "4"], series: ["", "", "", ""], versions: [], leftOut: [], remarks: [] },
  } as never;
  const choose = () => drawn(<ChoosePulls book={book} chosen={3} />);
  it.each<[label: string, text: string, change: Partial<HoldingState>]>([
    ["Series", "s1", { series: "s1" }],
    ["Seabed", "mud", { seabed: "mud" }],
    ["Site", "x", { site: "x" }],
    ["From", "2031-05-01", { from: "2031-05-01" }],
    ["To", "2031-05-02", { to: "2031-05-02" }],
    ["At an angle at the anchor of", "91°", {}],
    ["At an angle at the anchor of", "-91°", {}],
    ["For anchors with a mass of", "12 kg", { mass: 12 }],
    ["For anchors with a mass of", "0 kg", {}],
    ["Size of each shape that holds", "3 kN", { load: 3000 }],
    ["Size of each shape that holds", "0 N", {}],
    ["With a chance of", "0.95", { chance: 0.95 }],
  ])("%s of %s", async (label, text, change) => {
    (await choose()).fill(label, text);
    expect(holdingStore.get()).toEqual({ ...usualHolding, ...change });
  });
  it("offers what the book has, and what the address names though it has not", async () => {
    let at = await choose();
    expect(at.text).toContain("3 of 4 pulls");
    expect(options(at, "Series")).toEqual(["all", "Spring"]);
    expect(options(at, "Seabed")).toEqual(["all", "mud", "sand"]);
    expect(options(at, "With a chance of")).toEqual(["50 %", "80 %", "90 %", "95 %", "99 %"]);
    holdingStore.put({ ...usualHolding, series: "gone", chance: 0.975, angle: 1, mass: 2, load: 3 });
    at = await choose();
    expect(options(at, "Series")[1]).toBe("gone (not in the book)");
    expect(options(at, "With a chance of")).toContain("97.5 %");
    at.fill("At an angle at the anchor of", "");
    at.fill("For anchors with a mass of", "");
    at.fill("Size of each shape that holds", "");
    expect(holdingStore.get()).toMatchObject({ angle: null, mass: null, load: null });
    at.fill("At an angle at the anchor of", "9°");
    expect(holdingStore.get().angle).toBeCloseTo(9 * DEGREE, 12);
  });
  it("ticks anchors: all is none named, in the order of names", async () => {
    const at = await choose();
    at.choose("B");
    expect(holdingStore.get().anchors).toEqual(["A", "C"]);
    await at.until(() => holdingStore.get().anchors.length === 2);
    at.choose("A");
    expect(holdingStore.get().anchors).toEqual(["C"]);
    at.choose("A");
    at.choose("B");
    expect(holdingStore.get().anchors).toEqual([]);
  });
  it("believes in factors, per cent a degree and powers, each in its own place and bounds", async () => {
    const at = await drawn(<PriorsForm />);
    const now = () => holdingStore.get().priors as unknown as Record<string, unknown>;
    const usual = JSON.stringify(USUAL_PRIORS);
    expect(at.button("The usual ones again").hasAttribute("disabled")).toBe(true);
    const labels = at.all("label").map((one) => one.textContent!);
    expect(labels).toHaveLength(12);
    for (const label of labels) {
      holdingStore.put(usualHolding);
      at.fill(
        label,
        label.includes("factor") ? "3" : label.includes("degree") || label.includes("give or take") ? "7 %" : "0.7",
      );
      expect(JSON.stringify(now()), label).not.toBe(usual);
    }
    holdingStore.put(usualHolding);
    at.fill("Anchors apart by a factor of", "3");
    expect(JSON.stringify(now())).toContain(String(Math.log(3)));
    for (const text of ["0.9", "1", "1001"]) {
      holdingStore.put(usualHolding);
      at.fill("Anchors apart by a factor of", text);
      expect(JSON.stringify(now()), text).toBe(usual);
    }
    at.fill("Anchors apart by a factor of", "1000");
    await at.until(() => at.text.includes("(changed)"));
    at.press("The usual ones again");
    expect(holdingStore.get().priors).toEqual(USUAL_PRIORS);
  });
});

describe("what goes out in Publish", () => {
  it.each<[label: string, text: string, change: object]>([
    ["Series", "s1", { series: "s1" }],
    ["Title", "T", { title: "T" }],
    ["Tested by, as you want to be named", "B", { by: "B" }],
    ["What you want to say to viewers of the page", "N", { note: "N" }],
    ["Your own words in the report, Markdown; notes of the series come before them", "W", { words: "W" }],
    ["Licence of the data", "CC0-1.0", { licence: "CC0-1.0" }],
  ])("%s of %s", async (label, text, change) => {
    (await drawn(<ChooseSent />)).fill(label, text);
    expect(publishStore.get()).toEqual({ ...usualPublish, sent: { ...usualPublish.sent, ...change } });
  });
  it("ticks what is private, each by itself, in one order", async () => {
    const at = await drawn(<ChooseSent />);
    at.choose("where the sites lie");
    at.choose("who was there");
    expect(publishStore.get().sent.chosen).toEqual(["people", "positions"]);
    at.choose("where the sites lie");
    expect(publishStore.get().sent.chosen).toEqual(["people"]);
    at.choose("what was read during each pull, reading by reading, in the data package too");
    expect(publishStore.get().sent.rawLogs).toBe(true);
    publishStore.put({ ...usualPublish, sent: { ...usualPublish.sent, series: "gone" } });
    expect(options(await drawn(<ChooseSent />), "Series")).toEqual([
      "every pull of the book",
      "gone (not in the book)",
      "Spring",
    ]);
  });
  const clip = { address: null, name: "", wrong: null, take: () => {} } as never;
  const film = (state: FilmState = usualFilm) => (
    <FilmFields
      state={state}
      wrong={readTyped(state).wrong}
      pulls={[{ log: { id: "l" }, named: "Pull 1: load" } as never]}
      chosen="l"
      clip={clip}
    />
  );
  it.each<[label: string, text: string, change: Partial<FilmState>]>([
    ["log of a pull", "l", { log: "l" }],
    ["Frames a second of the clip, exactly", "50", { rate: "50" }],
    ["The mark, in the log from its first reading", "3 s", { mark: 3 }],
    ["The mark, in the log from its first reading", "2000000 s", {}],
    ["Frame of the clip that shows it, the first being 0", "7.4", { markFrame: 7 }],
    ["Frame of the clip that shows it, the first being 0", "-1", {}],
    ["Stretches of the clip that are in the film", "0..9", { cuts: "0..9" }],
    ["Size of a frame, pixels", "640x360", { size: "640x360" }],
    ["corner it stands in", "above-right", { corner: "above-right" }],
    ["Share of the frame's width", "50 %", { share: 0.5 }],
    ["Share of the frame's width", "91 %", {}],
    ["Share of the frame's width", "9 %", {}],
    ["± of a load read", "25 N", { loadU: 25 }],
    ["± of a load read", "-1 N", {}],
  ])("of the film %s of %s", async (label, text, change) => {
    (await drawn(film())).fill(label, text);
    expect(publishStore.get()).toEqual({ ...usualPublish, film: { ...usualFilm, ...change } });
  });
  it("says what of the film is none, and which log is not in the book", async () => {
    const at = await drawn(film({ ...usualFilm, rate: "fast", loadU: 5 }));
    expect(at.text).toContain('frames a second: "fast"');
    publishStore.put({ ...usualPublish, film: { ...usualFilm, loadU: 5 } });
    at.fill("± of a load read", "");
    expect(publishStore.get().film.loadU).toBeNull();
    const none = await drawn(<FilmFields state={usualFilm} wrong={{}} pulls={[]} chosen="x" clip={clip} />);
    expect(options(none, "log of a pull")).toEqual(["x (not in the book)"]);
  });
});

describe("the form of a series", () => {
  const TEXT = readFileSync("data/series/creek-trial.yaml", "utf8");
  const form = async (text = TEXT) => {
    const put: { text: string; label: string; stroke: string | undefined }[] = [];
    const at = await drawn(<Form text={text} put={(next, label, stroke) => put.push({ text: next, label, stroke })} />);
    return { at, put, now: () => formOf(put.at(-1)!.text)! };
  };
  it.each([
    ["Angles at the anchor", "3 deg, 9 deg", ["question", "angles"]],
    ["Loads at the anchor, rising", "1 kN, 2 kN", ["question", "loads"]],
    ["Difference to tell, a ratio or share a degree", "1.4", ["question", "tell"]],
    ["Pulls of each", "5", ["pulls", "repeats"]],
    ["Hold each load", "45 s", ["pulls", "hold"]],
    ["Held when kept for", "12 s", ["pulls", "heldFor"]],
    ["The anchor moving less than", "0.2 m", ["pulls", "heldWithin"]],
    ["± of an angle read", "2 deg", ["gauge"]],
    ["Seed of the order", "9", ["order", "seed"]],
  ])("puts %s in its place", async (label, text, path) => {
    const { at, put, now } = await form();
    at.fill(label, text);
    expect(now().at(path)).toBe(text);
    expect(put).toHaveLength(1);
    expect(put[0]!.stroke).toBe(`series ${path.join(".")}`);
  });
  it("puts in and takes out anchors, sites and days, and changes the one that was meant", async () => {
    const { at, put, now } = await form();
    at.fill("Name of anchor 2", "Fluke");
    expect(now().items(["anchors"], ["name"])).toEqual([{ name: "Plough A" }, { name: "Fluke" }]);
    at.press("Take out anchor 1");
    expect(now().items(["anchors"], ["name"])).toEqual([{ name: "Scoop B" }]);
    at.press("Add anchor");
    expect(now().items(["anchors"], ["name", "mass"]).at(-1)).toEqual({ name: "Anchor 3", mass: "10 kg" });
    at.press("Add site");
    const sites = now().items(["sites"], ["name", "depth"]);
    expect(sites.at(-1)).toEqual({ name: `Site ${sites.length}`, depth: "4 m, 8 m" });
    at.press("Add day");
    expect(now().items(["days"], ["site", "from", "to"]).at(-1)).toEqual({
      ...{ site: formOf(TEXT)!.at(["sites", 0, "name"]), from: "09:00", to: "12:00" },
    });
    at.fill("Depth, least and greatest of site 1", "3 m, 6 m");
    expect(now().at(["sites", 0, "depth"])).toBe("3 m, 6 m");
    expect(put.map(({ label }) => label)).toEqual([
      ...["anchor: Name", "take out anchor 1", "add anchor", "add site", "add day", "site: Depth, least and greatest"],
    ]);
  });
  it("says so where the text is no series to be read as fields", async () => {
    const { at } = await form("a: [1");
    expect(at.text).toBe("The text is not to be read as fields: mend it below, or undo.");
  });
});

describe("slides of Weather", () => {
  it("of a limit run by even ratios from its least to its most, typed within them or not at all", async () => {
    const told: (number | undefined)[] = [];
    const [limit] = limitsShown;
    let at = await drawn(<LimitField limit={limit!} value={undefined} onLimit={(value) => told.push(value)} />);
    const slide = () => at.all("input[type=range]")[0] as HTMLInputElement;
    expect(slide().getAttribute("aria-valuetext")).toBe("not looked at");
    // The usual 5 kN: the logarithm of ten over that of eighty, of 500 notches.
    expect(slide().getAttribute("value")).toBe(String(Math.round((500 * Math.log(10)) / Math.log(80))));
    at.fill("Peak at the bow", "0 N");
    at.fill("Peak at the bow", "7 kN");
    at.fill("Peak at the bow", "");
    expect(told).toEqual([7000, undefined]);
    at.fill("Peak at the bow, slider", "250");
    // Halfway by ratio between 500 N and 40 kN, to three digits.
    expect(told.at(-1)).toBe(4470);
    at = await drawn(<LimitField limit={limit!} value={40_000} onLimit={() => {}} />);
    expect(slide().getAttribute("value")).toBe("500");
    expect(slide().getAttribute("aria-valuetext")).toMatch(/^40[ .,]?0* ?kN|^40000 N/);
  });
  const plot = plotIn(570, 364, 20, 1000);
  const slide = (kept = 10) =>
    drawn(
      <Sheet>
        <WindSlide plot={plot} shown={5} kept={kept} handle />
      </Sheet>,
    );
  it("of the wind goes where the plot is pressed, by drag and by keys, within the axis", async () => {
    let at = await slide();
    const pad = () => at.all("rect")[0]!;
    expect(["x", "y", "width", "height"].map((name) => pad().getAttribute(name))).toEqual(["52", "14", "500", "300"]);
    // The line stands at 5 m/s: a quarter of 500 px from 52 px.
    expect(at.all("path")[0]!.getAttribute("d")).toBe("M177 14V314");
    at.fire(pad(), "pointerdown", { clientX: 302, button: 2 });
    expect(weatherStore.get().wind).toBe(usualWeather.wind);
    at.fire(pad(), "pointerdown", { clientX: 302, button: 0 });
    expect(weatherStore.get().wind).toBe(10);
    at.fire(pad(), "pointermove", { clientX: 427 });
    await at.until(() => weatherStore.get().wind === 15);
    at.fire(pad(), "pointerup", { clientX: 9999 });
    expect(weatherStore.get().wind).toBe(15);
    weatherStore.undo();
    expect(weatherStore.get().wind).toBe(usualWeather.wind);
    const handle = () => at.all("[role=slider]")[0]!;
    expect(handle().getAttribute("transform")).toBe("translate(177 314)");
    // A key is half a knot of 1852/3600 m/s.
    at.fire(handle(), "keydown", { key: "ArrowUp" });
    expect(weatherStore.get().wind).toBeCloseTo(10 + (0.5 * 1852) / 3600, 2);
    at = await slide(0.1);
    at.fire(handle(), "keydown", { key: "ArrowDown" });
    expect(weatherStore.get().wind).toBeCloseTo((0.5 * 1852) / 3600, 3);
    at = await slide(19.9);
    at.fire(handle(), "keydown", { key: "PageUp" });
    expect(weatherStore.get().wind).toBe(20);
  });
  it("of the wind by a finger goes after sideways motion or a tap, not where the page is scrolled", async () => {
    const at = await slide();
    const pad = at.all("rect")[0]!;
    const touch = { pointerType: "touch" };
    at.fire(pad, "pointerdown", { clientX: 302, clientY: 100, button: 0, ...touch });
    at.fire(pad, "pointermove", { clientX: 304, clientY: 160, ...touch });
    at.fire(pad, "pointercancel", touch);
    await new Promise((done) => setTimeout(done, 5));
    expect(weatherStore.get().wind).toBe(usualWeather.wind);
    at.fire(pad, "pointerdown", { clientX: 302, clientY: 100, button: 0, ...touch });
    at.fire(pad, "pointermove", { clientX: 427, clientY: 103, ...touch });
    await at.until(() => weatherStore.get().wind === 15);
    at.fire(pad, "pointerup", touch);
    at.fire(pad, "pointerdown", { clientX: 177, clientY: 100, button: 0, ...touch });
    at.fire(pad, "pointerup", touch);
    expect(weatherStore.get().wind).toBe(5);
  });
});
