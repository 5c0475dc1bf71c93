/** Deck drawn whole: a pull set up, pulled, taken back and ended by touch; what it shows is what the library says of it. */
import { afterEach, beforeAll, beforeEach, describe, expect, it, vi } from "vitest";
import { settleTraced, strengthOf } from "../../../src/rode/index.ts";
import { deckStore, lastEnded } from "../../../src/web/deck/keep.ts";
import { Keys } from "../../../src/web/deck/keys.tsx";
import { largeText } from "../../../src/web/deck/large.tsx";
import { Limit } from "../../../src/web/deck/limit.tsx";
import { showLive } from "../../../src/web/deck/live/live-store.ts";
import { Stands } from "../../../src/web/deck/live/sources.tsx";
import { atTheAnchor, atTheBow, deploymentOfPull } from "../../../src/web/deck/loads.ts";
import { standing } from "../../../src/web/deck/pull.ts";
import { setupStore, usualSetup } from "../../../src/web/deck/setup-state.ts";
import { chainAndRope } from "../../../src/web/rig/state.ts";
import { rigStore } from "../../../src/web/rig/store.ts";
import { preferences } from "../../../src/web/state/preferences.ts";
import { type MemoryStore, memoryStore } from "../../support/memory-store.ts";
import { openDrawn, openPlace, type Page } from "./page.tsx";

let page: Page | undefined;
let kept: MemoryStore;
beforeAll(() => {
  kept = memoryStore((name, value) => vi.stubGlobal(name, value));
  vi.stubGlobal("navigator", {});
  vi.stubGlobal("fetch", async () => {
    throw new TypeError("no network");
  });
});
beforeEach(() => {
  for (const shelf of kept.shelves.values()) shelf.clear();
  deckStore.put({ pull: null, waiting: [], cautioned: false });
  lastEnded.put(null);
  setupStore.put(usualSetup);
  rigStore.put({ rig: chainAndRope, load: { at: "bow", newtons: 2000 }, over: null });
  preferences.put({ ...preferences.get(), open: {} });
});
afterEach(() => page?.close());
const opened = async () => {
  page = await openPlace("/deck");
  await page.until(() => deckStore.get() !== null);
  return page;
};
const begun = async () => {
  const at = await opened();
  at.choose(
    at
      .all("label")
      .map((one) => one.textContent!.replace(/\s+/g, " ").trim())
      .find((text) => text.endsWith("Read and understood."))!,
  );
  at.press("Begin the pull");
  await at.until(() => deckStore.get()!.pull !== null && at.text.includes("End the pull"));
  return at;
};
const pull = () => deckStore.get()!.pull!;
/** One touch, and the page drawn anew. */
const pressed = async (at: Page, name: string) => {
  at.press(name);
  await new Promise((done) => setTimeout(done));
};
const typed = async (at: Page, text: string) => {
  const count = pull().events.length;
  for (const key of text) await pressed(at, key);
  at.press("Keep");
  await at.until(() => pull().events.length === count + 1 && at.all("output")[0]!.textContent!.startsWith("bow load"));
};

describe("a pull that is set up", () => {
  it.each<[label: string, text: string, change: object]>([
    ["Anchor", "Claw B", { anchor: "Claw B" }],
    ["Water at the anchor", "6 m", { depth: 6 }],
    ["Water at the anchor", "0 m", {}],
    ["Rode out, to the roller", "40 m", { paidOut: 40 }],
    ["Rode out, to the roller", "-1 m", {}],
    ["Hold each load", "90 s", { hold: 90 }],
    ["Hold each load", "0 s", { hold: 0 }],
    ["Hold each load", "-1 s", {}],
    ["Held when kept for", "12 s", { heldFor: 12 }],
    ["The anchor moving less than", "0.3 m", { heldWithin: 0.3 }],
    ["± of a load read", "35 N", { loadU: 35 }],
    ["± of a load read", "-1 N", {}],
    ["Pulled toward, true", "361°", {}],
    ["Code on the sheet, where there is one", "AB", { code: "AB" }],
    ["Loads at the anchor, one after another", "1 kN", { loads: "1 kN" }],
  ])("%s of %s", async (label, text, change) => {
    (await opened()).fill(label, text);
    expect(setupStore.get()).toEqual({ ...usualSetup, ...change });
  });
  it("has what may be left out emptied, and keeps what is needed", async () => {
    setupStore.put({ ...usualSetup, heldFor: 9, direction: 1 });
    const at = await opened();
    at.fill("Held when kept for", "");
    at.fill("Pulled toward, true", "");
    at.fill("Water at the anchor", "");
    expect(setupStore.get()).toEqual(usualSetup);
    at.fill("Pulled toward, true", "90°");
    expect(setupStore.get().direction).toBeCloseTo(Math.PI / 2, 9);
  });
  it("reads its steps aloud, or says which is none", async () => {
    const at = await opened();
    at.fill("Loads at the anchor, one after another", "1 kN, veer 45 m, reset");
    await at.until(() => at.all("ol li").length === 4);
    expect(at.all("ol li").map((one) => one.textContent)).toEqual([
      "set the anchor",
      "raise to 1000 N at the anchor, hold 1 min",
      "ease off, then veer to 45 m out",
      "ease off, break the anchor out and set it anew",
    ]);
    at.fill("Loads at the anchor, one after another", "hard");
    await at.until(() => at.text.includes('loads: "hard"'));
    expect(at.all("ol li")).toHaveLength(0);
  });
  it("begins only once the caution was read, and not on a rode that cannot lie so", async () => {
    const at = await opened();
    expect(at.button("Begin the pull").hasAttribute("disabled")).toBe(true);
    at.close();
    await begun();
    expect(pull()).toMatchObject({ anchor: "", deployed: { depth: 7, paidOut: 35 }, loadU: 20 });
    expect(pull().steps).toHaveLength(5);
    expect(deckStore.get()!.cautioned).toBe(true);
  });
});

describe("a pull under way", () => {
  it("shows the load at the anchor, the angle, and by a touch that at the bow", async () => {
    const at = await begun();
    expect(at.text).toContain("1 of 5: set the anchor");
    await typed(at, "1500");
    const deployment = deploymentOfPull(pull());
    const carried = atTheAnchor(deployment, 1500, 20)!;
    await at.until(() => at.all("[data-number]")[0]!.textContent !== "–");
    const large = () => at.all("button[aria-live=off]")[0]!;
    expect(Number(at.all("[data-number]")[0]!.textContent)).toBeCloseTo(carried.anchor.value, -1);
    expect(large().textContent).toMatch(/^Load at the anchor/);
    expect(at.reading("Angle at the anchor")).toBe(
      `${((carried.angleToBottom.value * 180) / Math.PI).toFixed(1)}° ± ${Math.max(0.1, (carried.angleToBottom.u * 180) / Math.PI).toFixed(1)}°`,
    );
    at.fire(large(), "click", { button: 0 });
    await at.until(() => large().textContent!.startsWith("Load at the bow"));
    expect(at.all("[data-number]")[0]!.textContent).toBe("1500");
    const traced = settleTraced(deployment.rig, { at: "bow", newtons: 1500 });
    if (!("settled" in traced)) throw new Error("no equilibrium");
    const shares = strengthOf(deployment.rig, traced).flatMap(({ load, workingLoad }) =>
      workingLoad === null ? [] : [load / workingLoad],
    );
    expect(at.text).toContain(`${Math.round(100 * Math.max(...shares))} % of the working load limit`);
  });
  it("goes on step by step, with what is asked at the bow, to the last", async () => {
    const at = await begun();
    for (let step = 1; step < 5; step++) {
      at.press("Next step");
      await at.until(() => at.text.includes(`${step + 1} of 5:`));
    }
    const asked = atTheBow(deploymentOfPull(pull()), 2000)!;
    const told = /raise to 2000 N at the anchor, (\d+) N at the bow, hold 1 min/.exec(at.text);
    expect(Number(told![1]) / asked).toBeCloseTo(1, 2);
    expect(at.all("button").map((one) => one.textContent)).not.toContain("Next step");
    expect(standing(pull()).map((one) => (one.kind === "step" ? one.step : 0))).toEqual([1, 2, 3, 4]);
  });
  it("notes each touch, and takes the last one back by its name", async () => {
    const at = await begun();
    expect(at.button("Nothing to take back").hasAttribute("disabled")).toBe(true);
    await typed(at, "900");
    at.press("Take back: 900 N");
    await at.until(() => standing(pull()).length === 0);
    at.press("Gave way");
    await at.until(() => at.text.includes("Take back: gave way"));
    at.press("Moved");
    await at.until(() => at.text.includes("Take back: moved"));
    at.press("Take back: moved");
    await at.until(() => at.text.includes("Take back: gave way"));
    expect(standing(pull()).map(({ kind }) => kind)).toEqual(["gaveWay"]);
    at.press("Stop");
    await at.until(() => at.text.includes("Write it into the book"));
    await at.until(() => standing(pull()).length === 2);
    expect(standing(pull()).map(({ kind }) => kind)).toEqual(["gaveWay", "stop"]);
  });
  it("ends as was touched, or as the hand says, and waits for the book", async () => {
    const at = await begun();
    at.press("End the pull");
    await at.until(() => at.text.includes("No load was read."));
    expect(at.all("label").map((one) => one.textContent)).not.toContain("gave way");
    at.press("Go on pulling");
    await at.until(() => at.text.includes("Gave way"));
    await typed(at, "1200");
    await typed(at, "800");
    at.press("End the pull");
    await at.until(() => at.text.includes("Highest load read at the bow: 1200 N."));
    expect(at.all("input[type=radio]")).toHaveLength(4);
    at.choose("never set");
    await new Promise((done) => setTimeout(done));
    at.press("Write it into the book");
    await at.until(() => deckStore.get()!.pull === null);
    const [waiting] = deckStore.get()!.waiting;
    expect(waiting!.ended).toMatchObject({ kind: "neverSet", load: 1200 });
    expect(lastEnded.get()).toMatchObject({
      id: waiting!.ids.pull,
      anchor: "",
      loadU: 20,
      ended: { kind: "neverSet" },
    });
    await at.until(() => at.text.includes("1 pull waits on this device for the book."));
  });
});

describe("the keys", () => {
  it("take seven signs and one point, and are empty once the load is kept", async () => {
    const kept: number[] = [];
    let has = false;
    const keep = async (value: number) => {
      kept.push(value);
      return has;
    };
    page = await openDrawn(<Keys unit="kN" beside={null} onKeep={keep} />);
    const at = page;
    const shown = () => at.all("output")[0]!.textContent;
    expect(shown()).toBe("bow load, kN");
    expect(at.button("Keep").hasAttribute("disabled")).toBe(true);
    for (const key of ["1", ".", ".", "5", "00", "00", "7", "8"]) await pressed(at, key);
    await at.until(() => shown() !== "bow load, kN");
    expect(shown()).toBe("1.50000 kN");
    at.press("Delete");
    await at.until(() => shown() === "1.5000 kN");
    at.press("Keep");
    await at.until(() => kept.length === 1);
    expect([kept, shown()]).toEqual([[1.5], "1.5000 kN"]);
    has = true;
    at.press("Keep");
    await at.until(() => shown() === "bow load, kN");
    at.press(".");
    await at.until(() => shown() === ". kN");
    expect(at.button("Keep").hasAttribute("disabled")).toBe(true);
  });
});

describe("the large number", () => {
  it("has at most four digits", () => {
    expect(largeText({ value: 9949, u: 20 }, "metric", "N")).toMatch(/^9950? ?± 20 N|^9949 ± 20 N/);
    expect(largeText({ value: 9950, u: 20 }, "metric", "N")).toBe("9.9 ± 0.05 kN");
    expect(largeText({ value: 12_340, u: 300 }, "metric", "N")).toBe("12.3 ± 0.3 kN");
    expect(largeText({ value: 500, u: 0 }, "metric", "N")).toBe("500 N");
    expect(largeText({ value: 20_000, u: 0 }, "us", "lbf")).toMatch(/ lbf$/);
  });
});

describe("the limit", () => {
  it.each([
    [0.79, "below", "79 % of the working load limit, chain"],
    [0.8, "near", "NEAR THE WORKING LOAD LIMIT: 80 %, chain"],
    [0.996, "near", "NEAR THE WORKING LOAD LIMIT: 100 %, chain"],
    [1, "past", "PAST THE WORKING LOAD LIMIT: ease off: 100 %, chain"],
  ])("at %d is %s", async (share, state, text) => {
    page = await openDrawn(<Limit weakest={{ part: "chain", share, limit: 1 }} />);
    expect(page.all("[data-state]")[0]!.getAttribute("data-state")).toBe(state);
    expect(page.text).toContain(text);
  });
  it("is not known where no part states one", async () => {
    page = await openDrawn(<Limit weakest={null} />);
    expect(page.text).toBe("Working load limit: none known for this rode.");
  });
});

describe("how instruments stand", () => {
  it("is told of each, above all while one is gone", async () => {
    const live = [{ name: "cell" }, { name: "gps" }, { name: "wire" }];
    const pulled = { ids: { pull: "p" }, live } as never;
    showLive("other", "cell", {});
    page = await openDrawn(<Stands pull={pulled} />);
    expect(page.text).toBe("");
    page.close();
    showLive("p", "cell", { state: "reading", rows: [{ n: 0, at: 0, time_s: 0, values: {} }] });
    showLive("p", "gps", { state: "silent" });
    page = await openDrawn(<Stands pull={pulled} />);
    const lines = () => page!.all("[data-instrument]").map((one) => one.textContent);
    expect(lines()).toEqual([
      "cell: 1 reading",
      "⚠ SILENT: gps. It is looked for again; loads can be typed.",
      "wire: listening",
    ]);
    showLive("p", "wire", { state: "closed", why: "choose it again" });
    showLive("p", "gps", { state: "lost", why: "cut" });
    await page.until(() => lines()[1]!.includes("LOST"));
    expect(lines().slice(1)).toEqual([
      "⚠ LOST: gps (cut). It is looked for again; loads can be typed.",
      "⚠ LOST: wire (choose it again). loads can be typed.",
    ]);
  });
});
