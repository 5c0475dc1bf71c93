/** The place Rig as it is drawn: its numbers are the solver's, at the right end and with their ±, and each control does what it says. */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { type Dimension, formatQuantity } from "../../../src/quantity/index.ts";
import {
  certaintyOf,
  find,
  type LinePart,
  type PointPart,
  type Rig,
  riseOf,
  type Settled,
  settle,
  uncertaintyOf,
} from "../../../src/rode/index.ts";
import { totalLength } from "../../../src/web/rig/parts.ts";
import { pullOf, type RigState, usualState } from "../../../src/web/rig/state.ts";
import { rigStore } from "../../../src/web/rig/store.ts";
import { lineOf, numbersOf, scaleOf } from "./drawn.ts";
import { openPlace, type Page, SIZE } from "./page.tsx";
import { written } from "./written.ts";

const chain: LinePart = {
  kind: "line",
  name: "chain",
  length: 22,
  massPerLength: 2.3,
  density: 7850,
  diameter: 0.01,
  material: "chain",
  stretch: { kind: "rigid" },
  workingLoad: 4000,
  breakingLoad: 16_000,
};
const kellet: PointPart = { kind: "point", name: "kellet", mass: 12, density: 7850, workingLoad: 2500 };
const rope: LinePart = {
  kind: "line",
  name: "rope",
  length: 18,
  massPerLength: 0.13,
  density: 1140,
  diameter: 0.014,
  material: "rope",
  stretch: { kind: "linear", stiffness: 90_000 },
  breakingLoad: 30_000,
};
const rig: Rig = {
  name: "Marsh rig",
  setting: {
    medium: "water",
    depth: 7,
    rollerHeight: 1.5,
    waterDensity: 1025,
    bottomSlope: 0.05,
    bottomFriction: 0.4,
    current: 0,
  },
  rode: [chain, kellet, { ...chain, length: 8 }, rope],
  uncertainty: { massPerLength: 0.03, rise: 0.2 },
};
const state: RigState = { rig, load: { at: "bow", newtons: 2600 }, over: null };

const settled = (of: RigState): Settled => {
  const answer = settle(of.rig, pullOf(of));
  if (answer.kind !== "settled") throw new Error(answer.cause);
  return answer;
};
let page: Page;
beforeAll(async () => {
  page = await openPlace("/rig");
});
afterAll(() => page.close());
const put = async (next: RigState): Promise<void> => {
  rigStore.put(next);
  await page.until(() => page.all("ol li").length === next.rig.rode.length);
};
beforeEach(() => put(state));

describe("the numbers at a pull", () => {
  it.each([
    ["bow", 2600],
    ["anchor", 2400],
    ["horizontal", 2300],
  ] as const)("stated at the %s are the equilibrium's, each with its own ±", async (at, newtons) => {
    const of: RigState = { ...state, load: { at, newtons } };
    await put(of);
    const answer = settled(of);
    const sure = certaintyOf(rig, pullOf(of))!;
    const says = (name: string, value: number, dimension: Dimension, u?: number): void => {
      expect(page.reading(name), name).toMatch(
        new RegExp(`^${written(value, dimension, u).replaceAll(/[.^$*+?()[\]\\|{}]/g, "\\$&")}(95 of 100.*)?$`),
      );
    };
    await page.until(() => page.reading("sag").includes("±"));
    await page.until(() =>
      page.reading("load at the bow").startsWith(written(answer.bow.tension, "force", sure.bowTension)),
    );
    says("angle at the anchor", answer.anchor.angle, "angle", sure.anchorAngle);
    says("load at the anchor", answer.anchor.tension, "force", sure.anchorTension);
    says("load at the bow", answer.bow.tension, "force", sure.bowTension);
    says("span", answer.span, "length", sure.span);
    says("on the ground", answer.grounded, "length", sure.grounded);
    says("sag", answer.sag, "length", sure.sag);
    expect(page.reading("stretch")).toBe(written(answer.stretch, "length"));
    expect(page.reading("scope")).toBe(`${formatQuantity(answer.scope, "ratio", { digits: 3 })}rode over height`);
  });

  it("say beside them what the same rode in the other medium gives, at the height asked", async () => {
    const of: RigState = { ...state, rig: { ...rig, uncertainty: {} }, over: 7.3 };
    await put(of);
    const there = settle(
      { ...rig, setting: { medium: "air", rise: 7.3, bottomSlope: 0.05, bottomFriction: 0.4 } },
      pullOf(of),
    ) as Settled;
    await page.until(() => page.reading("span").includes("in air"));
    const beside = (name: string, value: number, dimension: Dimension) =>
      expect(page.reading(name)).toMatch(
        new RegExp(`${formatQuantity(value, dimension, { digits: 3 }).replace(".", "\\.")} in air$`),
      );
    beside("angle at the anchor", there.anchor.angle, "angle");
    beside("load at the anchor", there.anchor.tension, "force");
    beside("load at the bow", there.bow.tension, "force");
    beside("span", there.span, "length");
    beside("on the ground", there.grounded, "length");
    // Laid the other way, it is said to be afloat.
    await put({ ...of, rig: { ...of.rig, setting: { medium: "air", rise: 8.5, bottomSlope: 0, bottomFriction: 0 } } });
    await page.until(() => page.reading("span").includes("afloat"));
  });

  it("give the range of draws where ± would mislead: near lift-off, the length on the ground", async () => {
    const light: RigState = {
      ...state,
      load: { at: "bow", newtons: 300 },
      rig: { ...rig, rode: [chain], uncertainty: { massPerLength: 0.2, rise: 2 } },
    };
    await put(light);
    const draws = uncertaintyOf(light.rig, pullOf(light), { draws: 1000 })!;
    await page.until(() => page.text.includes("95 of 100") || draws.spread === null);
    expect(page.text).toContain("95 of 100");
  });

  it("are dashes where there is no equilibrium, with the cause in one line", async () => {
    await put({ ...state, rig: { ...rig, setting: { ...rig.setting, depth: 80 } as Rig["setting"] } });
    await page.until(() => page.text.includes("No equilibrium"));
    for (const name of ["angle at the anchor", "load at the bow", "span", "scope"])
      expect(page.reading(name)).toMatch(/^–/);
  });

  it("tell a part beyond its working load, and one beyond its breaking load", async () => {
    await put({ ...state, load: { at: "bow", newtons: 5000 } });
    await page.until(() => page.text.includes("over its working load limit"));
    expect(page.text).toMatch(/chain carries \d+ N, over its working load limit of 4000 N\./);
    expect(page.text).not.toContain("above its breaking load of");
    await put({ ...state, load: { at: "bow", newtons: 17_000 } });
    await page.until(() => page.text.includes("above its breaking load of 16000 N."));
    expect(page.text).not.toContain("rope carries 17000 N, above");
    await put({ ...state, load: { at: "bow", newtons: 600 } });
    await page.until(() => !page.text.includes("over its working load limit"));
  });
});

describe("the pull", () => {
  it("typed is taken at the end it is stated at", async () => {
    page.fill("Pull", "3 kN");
    expect(rigStore.get().load).toEqual({ at: "bow", newtons: 3000 });
    page.fill("Pull", "0");
    expect(rigStore.get().load.newtons).toBe(3000);
  });
  it("told at another end stays the same equilibrium", () => {
    const before = settled(state);
    page.choose("at the anchor");
    expect(rigStore.get().load).toEqual({ at: "anchor", newtons: Number(before.anchor.tension.toPrecision(4)) });
    page.choose("horizontal");
    expect(rigStore.get().load.at).toBe("horizontal");
    expect(rigStore.get().load.newtons / before.horizontal).toBeCloseTo(1, 3);
    page.choose("at the bow");
    expect(rigStore.get().load.newtons / before.bow.tension).toBeCloseTo(1, 3);
  });
  it("slid runs from the least to the most by even ratios, and the slide stands where the load is", async () => {
    // Half as much again as the weakest part breaks at; a five-hundredth of that.
    const [least, most] = [50, 24_000];
    const slide = page.field("Pull, slid");
    expect(Number(slide.getAttribute("value"))).toBeCloseTo(
      (1000 * Math.log(2600 / least)) / Math.log(most / least),
      -0.4,
    );
    page.fill("Pull, slid", "700");
    expect(rigStore.get().load.newtons / (least * (most / least) ** 0.7)).toBeCloseTo(1, 2);
    page.fill("Pull, slid", "1000");
    expect(rigStore.get().load.newtons).toBe(most);
  });
});

describe("the parts", () => {
  const names = () => rigStore.get().rig.rode.map((part) => part.name);
  it("show what each carries of what it may", async () => {
    // Beside each part's name lie the sizes there are.
    const loads = page
      .all("ol li")
      .map((li) => li.textContent!.replace(li.querySelector("select")?.textContent ?? "", ""));
    const answer = settled(state);
    const most = formatQuantity(answer.bow.tension, "force", { digits: 3 });
    expect(loads[3]).toContain(`carries ${most}; no working load limit is stated`);
    expect(loads[1]).toMatch(/of 2500 N, \d+(\.\d)? %/);
    const [, carried, share] = /(\d+) N of 4000 N, (\d+) %/.exec(loads[0]!) ?? [];
    expect(Number(share) / ((100 * Number(carried)) / 4000)).toBeCloseTo(1, 1);
    const bar = page.all("ol li")[0]!.querySelector("[style]")!.getAttribute("style")!;
    expect(Number(/([\d.]+)%/.exec(bar)![1])).toBeCloseTo(Number(share), -0.4);
  });
  it("take a length and a mass typed beside them", () => {
    page.fill("Length of rope", "31 m");
    expect((rigStore.get().rig.rode[3] as LinePart).length).toBe(31);
    page.fill("Mass of kellet", "9 kg");
    expect((rigStore.get().rig.rode[1] as PointPart).mass).toBe(9);
    expect((rigStore.get().rig.rode[0] as LinePart).length).toBe(22);
    page.fill("Mass of kellet", "-1");
    expect((rigStore.get().rig.rode[1] as PointPart).mass).toBe(9);
  });
  it("are taken in another size, as long as they were", () => {
    const { rode } = rigStore.get().rig;
    page.fill("Size of rope", "polyamide three-strand 16 mm");
    const [after] = rigStore.get().rig.rode.slice(3) as LinePart[];
    expect([after!.name, after!.length, after!.material]).toEqual(["polyamide three-strand 16 mm", 18, "rope"]);
    expect(rigStore.get().rig.rode.slice(0, 3)).toEqual(rode.slice(0, 3));
    rigStore.undo();
    expect(names()).toEqual(["chain", "kellet", "chain", "rope"]);
  });
  it("move one place toward the bow or the anchor, and not beyond the ends", () => {
    page.press("Move kellet toward the bow");
    expect(names()).toEqual(["chain", "chain", "kellet", "rope"]);
    rigStore.undo();
    page.press("Move rope toward the anchor");
    expect(names()).toEqual(["chain", "kellet", "rope", "chain"]);
    rigStore.undo();
    expect(page.button("Move chain, part 1 toward the anchor").hasAttribute("disabled")).toBe(true);
    expect(page.button("Move rope toward the bow").hasAttribute("disabled")).toBe(true);
    expect(page.button("Move rope toward the anchor").hasAttribute("disabled")).toBe(false);
  });
  it("are taken away; a line that was cut for a weight is whole again, and the last line stays", async () => {
    page.press("Remove kellet");
    expect(names()).toEqual(["chain", "rope"]);
    expect((rigStore.get().rig.rode[0] as LinePart).length).toBe(30);
    await page.until(() => page.all("ol li").length === 2);
    page.press("Remove rope");
    await page.until(() => page.all("ol li").length === 1);
    expect(page.button("Remove chain").hasAttribute("disabled")).toBe(true);
  });
});

describe("the setting", () => {
  it.each([
    ["Depth at the anchor", "9 m", { depth: 9 }],
    ["Bow roller above water", "2 m", { rollerHeight: 2 }],
    ["Current toward the boat", "0.5 m/s", { current: 0.5 }],
    ["Density of the water", "1000 kg/m3", { waterDensity: 1000 }],
    ["Slope of the seabed", "-3 deg", { bottomSlope: (-3 * Math.PI) / 180 }],
    ["Friction there", "0.9", { bottomFriction: 0.9 }],
  ])("%s is changed and nothing else", (label, text, change) => {
    page.fill(label, text);
    expect(rigStore.get().rig.setting).toEqual({ ...rig.setting, ...change });
  });
  it.each([
    ["Depth at the anchor", "0 m"],
    ["Depth at the anchor", "200 km"],
    ["Bow roller above water", "-1 m"],
    ["Current toward the boat", "11 m/s"],
    ["Current toward the boat", "-11 m/s"],
    ["Density of the water", "800 kg/m3"],
    ["Slope of the seabed", "46 deg"],
    ["Slope of the seabed", "-46 deg"],
    ["Friction there", "3.1"],
    ["Friction there", "-0.1"],
    ["± of mass per length", "51 %"],
    ["± of depth", "4 m"],
  ])("%s of %s is refused in place", (label, text) => {
    page.fill(label, text);
    expect(rigStore.get().rig).toEqual(rig);
  });
  it("what is not sure is stated, and unstated when emptied", async () => {
    page.fill("± of mass per length", "5 %");
    expect(rigStore.get().rig.uncertainty).toEqual({ massPerLength: 0.05, rise: 0.2 });
    page.fill("± of depth", "0.4 m");
    expect(rigStore.get().rig.uncertainty).toEqual({ massPerLength: 0.05, rise: 0.4 });
    page.fill("± of mass per length", "");
    expect(rigStore.get().rig.uncertainty).toEqual({ rise: 0.4 });
    page.fill("± of depth", "0 m");
    expect(rigStore.get().rig.uncertainty).toEqual({});
  });
  it("on land keeps the height of the upper end, and back afloat too", async () => {
    page.choose("on land, in air");
    expect(rigStore.get().rig.setting).toEqual({ medium: "air", rise: 8.5, bottomSlope: 0.05, bottomFriction: 0.4 });
    await page.until(() => page.text.includes("Height of the upper end"));
    page.fill("Height of the upper end", "6 m");
    expect(riseOf(rigStore.get().rig.setting)).toBe(6);
    page.choose("afloat, in water");
    expect(riseOf(rigStore.get().rig.setting)).toBeCloseTo(6, 12);
  });
  it("lays the same rode in the other medium over it when asked, at its own height first", async () => {
    page.choose("Lay the same rode in air, on land over it");
    expect(rigStore.get().over).toBe(8.5);
    await page.until(() => page.text.includes("Height of its upper end"));
    page.fill("Height of its upper end", "5 m");
    expect(rigStore.get().over).toBe(5);
    page.choose("Lay the same rode in air, on land over it");
    expect(rigStore.get().over).toBeNull();
  });
});

describe("the curves over the load", () => {
  const curve = (title: string) =>
    page.one(
      title,
      page.all("figure").filter((one) => one.textContent!.startsWith(title)),
    );
  it("go through the equilibrium of every load, to the scale their axes say, and the mark stands on them", async () => {
    await page.until(() => curve("Angle").querySelectorAll("path[d]").length > 5);
    for (const [title, value] of [
      ["Angle at the anchor", (s: Settled) => (s.anchor.angle * 180) / Math.PI],
      ["Distance to the anchor", (s: Settled) => s.span],
    ] as const) {
      const { x, y } = scaleOf(curve(title));
      const line = lineOf(curve(title), "computed");
      expect(line.length).toBeGreaterThan(20);
      for (const [px, py] of line.filter((_, i) => i % 9 === 4)) {
        const at = settled({ ...state, load: { at: "bow", newtons: x(px) } });
        // Drawn to a tenth of a pixel.
        expect(Math.abs(y(py) - value(at))).toBeLessThan(
          0.3 * Math.abs(y(0) - y(1)) + 0.02 * Math.abs(y(py) - y(py + 1)) * 60,
        );
      }
      const mark = curve(title).querySelector("[transform]")!;
      const [mx, my] = numbersOf(mark.getAttribute("transform")!) as [number, number];
      expect(x(mx)).toBeCloseTo(2600, -0.5);
      expect(Math.abs(y(my) - value(settled(state)))).toBeLessThan(0.2 * Math.abs(y(0) - y(1)));
    }
    expect(curve("Angle").textContent).toContain("load at the bow, N");
  });
  it("say where the anchor end lifts", async () => {
    const lifts = find(rig, { unknown: { what: "pull" }, goal: { goal: "liftoff" }, pull: { at: "bow", newtons: 1 } });
    if (lifts.kind !== "found") throw new Error(lifts.cause);
    await put({ ...state, load: { at: "bow", newtons: lifts.value } });
    await page.until(() => curve("Angle").textContent!.includes("anchor end lifts"));
    const label = [...curve("Angle").querySelectorAll("text")].find((one) => one.textContent === "anchor end lifts")!;
    const [upright] = numbersOf(label.parentElement!.querySelector("path")!.getAttribute("d")!) as [number];
    expect(scaleOf(curve("Angle")).x(upright)).toBeCloseTo(lifts.value, -1);
  });
});

describe("the drawing", () => {
  const drawing = () => page.one("drawing", page.all('[aria-label="The rode, drawn to scale"]'));
  const handle = (label: string) =>
    page.one(
      label,
      [...drawing().querySelectorAll("[role=slider]")].filter((one) =>
        one.getAttribute("aria-label")!.startsWith(label),
      ),
    );
  const placeOf = (element: Element) => numbersOf(element.getAttribute("transform")!) as [number, number];
  /** px of a metre, from the bar of scale. */
  const perMetre = () => {
    const text = [...drawing().querySelectorAll("text")].find((one) => /^\d+ m$/.test(one.textContent!))!;
    const [, long] = /M16 22h([\d.]+)/.exec(text.previousElementSibling!.getAttribute("d")!)!;
    return Number(long) / Number.parseFloat(text.textContent!);
  };
  const drag = async (element: Element, dx: number, dy: number): Promise<void> => {
    page.fire(element, "pointerdown", { button: 0, clientX: 300, clientY: 200 });
    page.fire(element, "pointermove", { clientX: 300 + dx, clientY: 200 + dy });
    page.fire(element, "pointerup", { clientX: 300 + dx, clientY: 200 + dy });
  };

  it("is to one scale: the rode's strokes are as long as the rode, its ends span and rise apart", () => {
    const k = perMetre();
    const answer = settled(state);
    const [bx, by] = placeOf(handle("Boat"));
    const strokes = [...drawing().querySelectorAll("path[data-material]")].map((one) =>
      numbersOf(one.getAttribute("d")!),
    );
    expect(strokes.length).toBe(3);
    const [ax, ay] = strokes[0]! as [number, number];
    expect((bx - ax) / k).toBeCloseTo(answer.span, 1);
    expect((ay - by) / k).toBeCloseTo(8.5, 1);
    let long = 0;
    for (const line of strokes)
      for (let i = 2; i < line.length; i += 2) long += Math.hypot(line[i]! - line[i - 2]!, line[i + 1]! - line[i - 1]!);
    expect(long / k / (totalLength(rig) + answer.stretch)).toBeCloseTo(1, 2);
    expect(bx).toBeLessThan(SIZE.width);
    expect(ay).toBeLessThan(SIZE.height);
    const texts = [...drawing().querySelectorAll("text")].map((one) => one.textContent!);
    expect(
      texts.some((text) => text.startsWith(formatQuantity(answer.anchor.angle, "angle", { digits: 2 }).slice(0, 2))),
    ).toBe(true);
  });

  it("lets the boat be drawn back by as much as the hand moves", async () => {
    const k = perMetre();
    const before = settled(state).span;
    await drag(handle("Boat"), -0.4 * k, 0);
    expect(settled(rigStore.get()).span).toBeCloseTo(before - 0.4, 1);
    expect(rigStore.undoLabel()).toBe("load");
  });
  it("lets the seabed be lowered under the hand, and raised by a key", async () => {
    const k = perMetre();
    await drag(handle("Seabed"), 0, 1.5 * k);
    expect((rigStore.get().rig.setting as { depth: number }).depth).toBeCloseTo(8.5, 2);
    await put(state);
    page.fire(handle("Seabed"), "keydown", { key: "ArrowUp" });
    expect((rigStore.get().rig.setting as { depth: number }).depth).toBeCloseTo(6.9, 9);
  });
  it("pays out toward the anchor and hauls in aft; a key is a quarter of a metre, a page ten", async () => {
    const k = perMetre();
    const long = () => (rigStore.get().rig.rode[3] as LinePart).length;
    await drag(handle("Rode"), -3 * k, 0);
    expect(long()).toBeCloseTo(21, 1);
    await put(state);
    page.fire(handle("Rode"), "keydown", { key: "ArrowRight" });
    expect(long()).toBeCloseTo(18.25, 9);
    await put(state);
    page.fire(handle("Rode"), "keydown", { key: "PageDown" });
    expect(long()).toBeCloseTo(15.5, 9);
  });
  it("lets a weight slide along the rode to where the hand is, and by keys", async () => {
    const at = () => (rigStore.get().rig.rode[0] as LinePart).length;
    page.fire(handle("kellet"), "keydown", { key: "ArrowLeft" });
    expect(at()).toBeCloseTo(21.75, 9);
    expect((rigStore.get().rig.rode[2] as LinePart).length).toBeCloseTo(8.25, 9);
    await put(state);
    const [x, y] = placeOf(handle("kellet"));
    page.fire(handle("kellet"), "pointerdown", { button: 0, clientX: x, clientY: y });
    page.fire(handle("kellet"), "pointermove", { clientX: x + 40, clientY: y - 10 });
    page.fire(handle("kellet"), "pointerup", { clientX: x + 40, clientY: y - 10 });
    expect(at()).toBeGreaterThan(22.5);
    expect(at()).toBeLessThan(26);
    await put(state);
    page.fire(handle("Boat"), "keydown", { key: "ArrowRight" });
    expect(rigStore.get().load.newtons).toBe(2730);
  });
  it("says each grip's value and range to those who do not see it", () => {
    const value = (label: string) =>
      ["valuenow", "valuemin", "valuemax", "valuetext"].map((name) => handle(label).getAttribute(`aria-${name}`));
    const answer = settled(state);
    expect(value("Boat").slice(0, 3)).toEqual(["2600", "50", "24000"]);
    expect(value("Boat")[3]).toBe(
      `load at the bow 2600 N, ${formatQuantity(answer.span, "length", { digits: 4 })} from the anchor`,
    );
    expect(value("Seabed")).toEqual(["7", "0.1", "48", "depth 7 m"]);
    expect(value("Rode")).toEqual(["18", "0", "96", "18 m of the last line, 48 m in all"]);
    expect(value("kellet")).toEqual(["22", "0", "30", "22 m from the anchor"]);
  });
});

it("the usual rig is what the bench opens with, afloat and holding", () => {
  expect(usualState.rig.rode.map((part) => part.kind)).toEqual(["line"]);
  expect(settle(usualState.rig, pullOf(usualState)).kind).toBe("settled");
});
