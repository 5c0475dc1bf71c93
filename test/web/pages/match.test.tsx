/** The place Match as it is drawn: each side's own numbers, one load for both, and paying out until they feel alike. */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { certaintyOf, type LinePart, type Rig, riseOf, type Settled, settle } from "../../../src/rode/index.ts";
import type { MatchState } from "../../../src/web/match/state.ts";
import { matchStore } from "../../../src/web/match/store.ts";
import { exampleState } from "../../../src/web/rig/state.ts";
import { rigStore } from "../../../src/web/rig/store.ts";
import { openPlace, type Page } from "./page.tsx";
import { written } from "./written.ts";

const chain: LinePart = {
  kind: "line",
  name: "chain 8 mm",
  length: 20,
  massPerLength: 1.4,
  density: 7850,
  diameter: 0.008,
  material: "chain",
  stretch: { kind: "rigid" },
};
const rope: LinePart = {
  ...chain,
  name: "rope 14 mm",
  length: 26,
  massPerLength: 0.13,
  density: 1140,
  material: "rope",
  stretch: { kind: "linear", stiffness: 80_000 },
};
const water = { medium: "water", waterDensity: 1025, bottomSlope: 0, bottomFriction: 0.5, current: 0 } as const;
const one: Rig = {
  name: "First",
  setting: { ...water, depth: 5, rollerHeight: 1 },
  rode: [chain],
  uncertainty: { massPerLength: 0.04, rise: 0.1 },
};
const other: Rig = {
  name: "Second",
  setting: { ...water, depth: 7, rollerHeight: 1.5 },
  rode: [{ ...chain, length: 9 }, rope],
  uncertainty: {},
};
const state: MatchState = { one, other, paid: { one: 1, other: 2 }, load: 3000, map: "load" };
const settled = (rig: Rig, newtons = 3000): Settled => {
  const answer = settle(rig, { at: "bow", newtons });
  if (answer.kind !== "settled") throw new Error(answer.cause);
  return answer;
};

let page: Page;
beforeAll(async () => {
  page = await openPlace("/match");
});
afterAll(() => page.close());
beforeEach(async () => {
  matchStore.put({ ...state });
  await page.until(() => /(Pay out|Haul in) [\d.]+ m of B: it then pulls like A/.test(page.text));
});

describe("the numbers of the two", () => {
  it("are each its own equilibrium's under the one load, with the ± its own rig states", async () => {
    const sure = certaintyOf(one, { at: "bow", newtons: 3000 })!;
    await page.until(() => page.reading("load at the anchor").includes("±"));
    for (const [i, rig, u] of [
      [0, one, sure],
      [1, other, null],
    ] as const) {
      const answer = settled(rig);
      const long = rig.rode.reduce((sum, part) => sum + (part as LinePart).length, 0);
      expect(page.reading("angle to the bottom at the anchor", i)).toContain(
        written(answer.anchor.angleToBottom, "angle", u?.angleToBottom),
      );
      expect(page.reading("load at the anchor", i)).toBe(written(answer.anchor.tension, "force", u?.anchorTension));
      expect(page.reading("scope", i)).toBe(written(long / riseOf(rig.setting), "ratio"));
      expect(page.reading("on the bottom", i)).toBe(written(answer.grounded, "length", u?.grounded));
    }
    const [flat, steep] = [settled(one).anchor.angleToBottom, settled(other).anchor.angleToBottom];
    const [low, high] = flat < steep ? ["A", "B"] : ["B", "A"];
    expect(page.text).toMatch(new RegExp(`${high} pulls its anchor steeper than ${low}`));
    expect(page.reading("between the two, angle to the bottom at the anchor")).toContain(
      written(Math.abs(steep - flat), "angle", sure.angleToBottom),
    );
  });
  it("say when an anchor is not lifted, and why a setup finds no rest", async () => {
    matchStore.put({ ...state, one: { ...one, uncertainty: {}, rode: [{ ...chain, length: 120 }] } });
    await page.until(() => page.reading("angle to the bottom at the anchor").includes("not lifted"));
    expect(page.reading("angle to the bottom at the anchor", 1)).not.toContain("not lifted");
    matchStore.put({ ...state, other: { ...other, setting: { ...water, depth: 60, rollerHeight: 1 } } });
    await page.until(() => page.reading("scope", 1) === written(35 / 61, "ratio"));
    expect(page.reading("load at the anchor", 1)).toBe("–");
    expect(page.text).toContain("B, Second: ");
    expect(() => page.reading("between the two, angle to the bottom at the anchor")).toThrow("no number");
  });
});

describe("what is moved", () => {
  it("is the load of both, typed or slid in even ratios from 50 N to 30 kN", () => {
    page.fill("Load at both bows", "1200 N");
    expect(matchStore.get().load).toBe(1200);
    page.fill("Load at both bows, slider", "250");
    expect(matchStore.get().load).toBe(Number((50 * 600 ** 0.25).toPrecision(4)));
    page.fill("Load at both bows", "0 N");
    expect(matchStore.get().load).toBeGreaterThan(100);
  });
  it("stands on the slide where it is", () => {
    const at = (label: string, i = 0) => Number(page.field(`${label}, slider`, i).getAttribute("value"));
    expect(at("Load at both bows")).toBe(Math.round((1000 * Math.log(60)) / Math.log(600)));
    expect(at("Depth")).toBe(Math.round((1000 * Math.log(5)) / Math.log(40)));
    expect(at("Depth", 1)).toBe(Math.round((1000 * Math.log(7)) / Math.log(40)));
    expect(at("Length of rope 14 mm")).toBe(Math.round((1000 * Math.log(26)) / Math.log(150)));
  });
  it.each([
    ["Length of chain 8 mm", "25 m", 0, { one: { ...one, rode: [{ ...chain, length: 25 }] } }],
    ["Length of rope 14 mm", "40 m", 0, { other: { ...other, rode: [other.rode[0]!, { ...rope, length: 40 }] } }],
    ["Depth", "4 m", 0, { one: { ...one, setting: { ...one.setting, depth: 4 } } }],
    ["Depth", "9 m", 1, { other: { ...other, setting: { ...other.setting, depth: 9 } } }],
    ["Roller above the water", "2 m", 0, { one: { ...one, setting: { ...one.setting, rollerHeight: 2 } } }],
    ["Roller above the water", "0 m", 1, { other: { ...other, setting: { ...other.setting, rollerHeight: 0 } } }],
    ["Roller above the water", "-1 m", 1, {}],
    ["Roller above the water", "101 m", 0, {}],
  ])("%s of %s, of side %i, changes that and nothing else", (label, text, side, change) => {
    page.fill(label, text, side);
    expect(matchStore.get()).toEqual({ ...state, ...change });
  });
  it("is the part of a rode that is chosen", async () => {
    page.fill("Paid out and hauled in", "1");
    expect(matchStore.get().paid).toEqual({ one: 1, other: 1 });
    await page.until(
      () =>
        page.text.includes("Length of chain 8 mmmm") ||
        page.all("label").filter((l) => l.textContent === "Length of chain 8 mm").length === 2,
    );
    page.fill("Length of chain 8 mm", "11 m", 1);
    expect((matchStore.get().other.rode[0] as LinePart).length).toBe(11);
  });
  it("is one setup until both anchors feel one angle, the other standing still", async () => {
    const flatter = settled(other).anchor.angleToBottom < settled(one).anchor.angleToBottom;
    const bring = (side: "A" | "B") =>
      page.all("button").find((it) => new RegExp(`m of ${side}: it then pulls like`).test(it.textContent!))!
        .textContent!;
    // The flatter of the two is hauled in, the steeper paid out.
    expect(bring("B")).toMatch(flatter ? /^Haul in / : /^Pay out /);
    expect(bring("A")).toMatch(flatter ? /^Pay out / : /^Haul in /);
    page.press(bring("B"));
    expect(matchStore.get().one).toEqual(one);
    expect(settled(matchStore.get().other).anchor.angleToBottom).toBeCloseTo(settled(one).anchor.angleToBottom, 8);
    expect((matchStore.get().other.rode[1] as LinePart).length).not.toBe(26);
    expect((matchStore.get().other.rode[0] as LinePart).length).toBe(9);
    matchStore.put({ ...state });
    await page.until(() => page.text.includes("m of A: it then pulls like B"));
    page.press(bring("A"));
    expect(matchStore.get().other).toEqual(other);
    expect(settled(matchStore.get().one).anchor.angleToBottom).toBeCloseTo(settled(other).anchor.angleToBottom, 8);
  });
  it("says so where no length does", async () => {
    matchStore.put({ ...state, one: { ...one, setting: { ...water, depth: 50, rollerHeight: 1 } } });
    await page.until(() => page.text.includes("A, First: "));
    await page.until(() => page.text.includes("No length of B pulls like A: "));
    matchStore.put({ ...state });
    await page.until(() => !page.text.includes("No length of"));
  });
  it("goes to the bench and comes from it", () => {
    rigStore.put(exampleState);
    page.press("Take the rig from Rig", 1);
    expect(matchStore.get().other).toBe(exampleState.rig);
    expect(matchStore.get().paid).toEqual({ one: 1, other: 2 });
    expect(matchStore.get().one).toBe(one);
    matchStore.put({ ...state });
  });
  it("on land has a rise and a slope", async () => {
    matchStore.put({
      ...state,
      one: { ...one, setting: { medium: "air", rise: 6, bottomSlope: 0, bottomFriction: 0 } },
    });
    await page.until(() => page.all("label").some((l) => l.textContent === "Rise"));
    page.fill("Rise", "5 m");
    expect(matchStore.get().one.setting).toMatchObject({ rise: 5, bottomSlope: 0 });
    page.fill("Slope of the ground", "10 deg");
    expect(matchStore.get().one.setting.bottomSlope).toBeCloseTo(Math.PI / 18, 12);
    page.fill("Slope of the ground", "50 deg");
    expect(matchStore.get().one.setting.bottomSlope).toBeCloseTo(Math.PI / 18, 12);
  });
});

describe("the map", () => {
  it("is drawn of what stands there, over load or over scope", async () => {
    await page.until(() => page.all("svg").some((svg) => svg.textContent!.includes("load at the bow")));
    page.choose("depth and scope");
    expect(matchStore.get().map).toBe("scope");
    await page.until(() => page.text.includes("At every depth, the scope at which each setup"));
    await page.until(() =>
      page.all("svg").some((svg) => /scope/.test(svg.textContent!) && !svg.textContent!.includes("load at the bow")),
    );
  });
});
