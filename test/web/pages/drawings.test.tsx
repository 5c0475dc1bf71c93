/** Where strokes, marks and words of the page's own drawings lie, worked out by hand on a drawing of 800 by 500 px. */
import { describe, expect, it, vi } from "vitest";
import { planeOf } from "../../../src/figure/index.ts";
import { catalogue } from "../../../src/gear/index.ts";
import { bridleAt, ropeOf } from "../../../src/sizing/index.ts";
import { Curve, type CurveProps } from "../../../src/web/controls/curve.tsx";
import { Handle, type HandleProps } from "../../../src/web/controls/handle.tsx";
import { Slider } from "../../../src/web/controls/slider.tsx";
import { MarksLayer } from "../../../src/web/days/log/marks-layer.tsx";
import { Minimap } from "../../../src/web/days/log/minimap.tsx";
import type { Window } from "../../../src/web/days/log/window.ts";
import { Graticule } from "../../../src/web/days/site-map/graticule.tsx";
import { ScaleBar } from "../../../src/web/days/site-map/scale-bar.tsx";
import { RodeLines } from "../../../src/web/rig/rode-lines.tsx";
import { createStore } from "../../../src/web/state/store.ts";
import { GaleShares } from "../../../src/web/weather/gale/gale-trace.tsx";
import { BridlePlan } from "../../../src/web/weather/snubber/bridle-plan.tsx";
import { Axes } from "../../../src/web/weather/wind/axes.tsx";
import { drawnAlone, type Page } from "./page.tsx";
import { Sheet } from "./sheet.tsx";

const drawn = drawnAlone();
const attributes = (at: Page, selector: string, name: string) => at.all(selector).map((one) => one.getAttribute(name));

describe("a curve", () => {
  const curve: Omit<CurveProps, "lines"> = {
    kind: "ladder",
    ...{ title: "Angle", told: "One sentence." },
    ...{ x: { label: "load", unit: "kN" }, y: { label: "angle", unit: "°" } },
    xRange: [0, 10],
    yRange: [0, 20],
  };
  // 46 px are left for the figures of y, 20 to the right; 10 above, 40 below: 734 by 450 px of plot.
  it("goes through its points, with its band, and breaks where a value is missing", async () => {
    const lines = [
      { x: [0, 5, 10], y: [0, 10, 20], u: [2, Number.NaN, 2], name: "theory" },
      { x: [0, 1, 2, 3], y: [20, Number.NaN, 0, 10], kind: "other" as const },
    ];
    const at = await drawn(<Curve {...curve} lines={lines} />);
    const all = attributes(at, "path[data-kind]", "d");
    expect(all).toEqual(["M46.0 460.0L413.0 235.0L780.0 10.0", "M46.0 10.0M192.8 460.0L266.2 235.0"]);
    expect(attributes(at, "path[data-kind]", "data-kind")).toEqual(["computed", "other"]);
    // Half a tick of y is 22.5 px a degree: the band of 2 lies 45 px to either side.
    expect(attributes(at, "path", "d")).toContain("M46.0 415.0L780.0 -35.0L780.0 55.0L46.0 505.0Z");
    expect(at.text).toContain("load, kN");
  });
  it("has marks where they are, each with its ±, and an upright whose word stays within", async () => {
    const lines = [{ x: [0, 10], y: [0, 20] }];
    const marks = [
      { x: 5, y: 10, u: 1, kind: "computed" as const },
      { x: 0, y: 20, u: 0, kind: "measured" as const },
    ];
    let at = await drawn(<Curve {...curve} lines={lines} marks={marks} at={{ x: 2, label: "lifts" }} />);
    expect(attributes(at, "g[data-kind]", "transform")).toEqual(["translate(413 235)", "translate(46 10)"]);
    const [bar, diamond] = attributes(at, "g[data-kind] path", "d");
    const ends = bar!.slice("M0 ".length).split("V").map(Number);
    expect(ends[0]).toBeCloseTo(22.5, 9);
    expect(ends[1]).toBeCloseTo(-22.5, 9);
    expect(diamond).toBe("M0-6L6 0L0 6L-6 0Z");
    expect(at.all("g[data-kind] circle")).toHaveLength(1);
    const word = () => at.all("text").find((one) => one.textContent === "lifts");
    expect([word()!.getAttribute("x"), word()!.getAttribute("text-anchor")]).toEqual(["197.8", "start"]);
    expect(attributes(at, "path", "d")).toContain("M192.8 10V460");
    at = await drawn(<Curve {...curve} lines={lines} at={{ x: 8, label: "lifts" }} />);
    expect(word()!.getAttribute("text-anchor")).toBe("end");
    expect(Number(word()!.getAttribute("x"))).toBeCloseTo(46 + 0.8 * 734 - 5, 9);
    at = await drawn(<Curve {...curve} lines={lines} at={{ x: 11, label: "lifts" }} />);
    expect(word()).toBeUndefined();
    at = await drawn(<Curve {...curve} lines={lines} at={{ x: 10, label: "lifts" }} />);
    expect(word()).toBeDefined();
  });
  it("says what it waits for where there is no line", async () => {
    let at = await drawn(<Curve {...curve} lines={[{ x: [1], y: [Number.NaN] }]} />);
    expect(at.text).toContain("no equilibrium at any of these loads");
    expect(at.text).not.toContain("load, kN");
    at = await drawn(<Curve {...curve} lines={[]} pending="working out" />);
    expect(at.text).toContain("working out");
  });
});

describe("a grip", () => {
  const grip = (more: Partial<HandleProps> = {}) => {
    const told: unknown[] = [];
    const props: HandleProps = {
      ...{ x: 100, y: 50, axis: "across", label: "Boat", now: 5, least: 0, most: 9, valueText: "5 m" },
      onMove: ({ dx, dy, at }) => told.push(["move", dx, dy, at.x, at.y]),
      onStep: (steps) => told.push(["step", steps]),
      onGrab: () => told.push(["grab"]),
      onDrop: () => told.push(["drop"]),
      ...more,
    };
    return {
      told,
      part: (
        <Sheet>
          <Handle {...props} />
        </Sheet>
      ),
    };
  };
  const slider = (at: Page) => at.one("slider", at.all("[role=slider]"));
  it("follows the hand from where it took hold, and lets go where it was let go", async () => {
    const { told, part } = grip();
    const at = await drawn(part);
    at.fire(slider(at), "pointermove", { clientX: 1, clientY: 1 });
    at.fire(slider(at), "pointerdown", { clientX: 110, clientY: 60, button: 2 });
    expect(told).toEqual([]);
    at.fire(slider(at), "pointerdown", { clientX: 110, clientY: 60, button: 0 });
    at.fire(slider(at), "pointermove", { clientX: 130, clientY: 45 });
    await vi.waitFor(() => expect(told.at(-1)).toEqual(["move", 20, -15, 130, 45]));
    at.fire(slider(at), "pointerup", { clientX: 130, clientY: 45 });
    expect(told).toEqual([["grab"], ["move", 20, -15, 130, 45], ["move", 20, -15, 130, 45], ["drop"]]);
    at.fire(slider(at), "pointerup", {});
    at.fire(slider(at), "pointermove", { clientX: 1, clientY: 1 });
    await new Promise((done) => setTimeout(done, 5));
    expect(told).toHaveLength(4);
  });
  it("goes by keys: an arrow one, with shift or a page ten, up and right more", async () => {
    const { told, part } = grip();
    const at = await drawn(part);
    const keys = ["ArrowRight", "ArrowUp", "ArrowLeft", "ArrowDown", "PageUp", "PageDown", "x"];
    for (const key of keys) at.fire(slider(at), "keydown", { key });
    at.fire(slider(at), "keydown", { key: "ArrowLeft", shiftKey: true });
    expect(told).toEqual([1, 1, -1, -1, 10, -10, -10].map((steps) => ["step", steps]));
  });
  it("is one step of undo by keys in quick succession", async () => {
    const strokes: string[] = [];
    let now = 10_000;
    const clock = vi.spyOn(performance, "now").mockImplementation(() => now);
    const at = await drawn(grip({ onStep: (_, stroke) => strokes.push(stroke) }).part);
    for (const later of [0, 1000, 1000, 2000]) {
      now += later;
      at.fire(slider(at), "keydown", { key: "ArrowUp" });
    }
    clock.mockRestore();
    expect(strokes[0]).not.toBe("");
    expect(new Set(strokes).size).toBe(2);
    expect(strokes[2]).toBe(strokes[0]);
  });
  it("says what it is, where it stands and its ends, with a hint on its side", async () => {
    const at = await drawn(grip({ axis: "down", hint: "pull", hintSide: "right" }).part);
    const told = [
      "aria-label",
      "aria-orientation",
      "aria-valuenow",
      "aria-valuemin",
      "aria-valuemax",
      "aria-valuetext",
      "transform",
    ];
    expect(told.map((name) => slider(at).getAttribute(name))).toEqual([
      ...["Boat", "vertical", "5", "0", "9", "5 m", "translate(100 50)"],
    ]);
    expect(at.text).toBe("pull");
    expect(at.all("text")[0]!.getAttribute("text-anchor")).toBe("start");
    const other = await drawn(grip().part);
    expect(other.text).toBe("");
    expect(slider(other).getAttribute("aria-orientation")).toBe("horizontal");
  });
});

describe("a slide", () => {
  const slid = async () => {
    const told: [number, string][] = [];
    const at = await drawn(
      <Slider
        label="Wind"
        most={100}
        value={120}
        valueText="fast"
        onSlide={(value, stroke) => told.push([value, stroke])}
      />,
    );
    const input = at.all("input")[0]!;
    const to = (value: string) => {
      (input as HTMLInputElement).value = value;
      (input as unknown as { _valueTracker?: { setValue(text: string): void } })._valueTracker?.setValue("none");
      at.fire(input, "input");
    };
    return { told, at, input, to };
  };
  it("stands within its ends", async () => {
    const { input } = await slid();
    expect([input.getAttribute("min"), input.getAttribute("max"), input.getAttribute("value")]).toEqual([
      "0",
      "100",
      "100",
    ]);
    expect(input.getAttribute("aria-valuetext")).toBe("fast");
  });
  it("by a mouse slides at once, by a finger after sideways motion only, in one step of undo", async () => {
    const { told, at, input, to } = await slid();
    at.fire(input, "pointerdown", { clientX: 5, clientY: 5, pointerType: "mouse" });
    to("40");
    to("50");
    expect(told.map(([value]) => value)).toEqual([40, 50]);
    expect(told[0]![1]).toBe(told[1]![1]);
    at.fire(input, "pointerup");
    at.fire(input, "pointerdown", { clientX: 5, clientY: 5, pointerType: "touch" });
    to("60");
    expect(told).toHaveLength(2);
    at.fire(input, "pointermove", { clientX: 5, clientY: 30 });
    to("61");
    expect(told).toHaveLength(2);
    at.fire(input, "pointercancel");
    to("62");
    expect(told).toHaveLength(2);
    at.fire(input, "pointerdown", { clientX: 5, clientY: 5, pointerType: "touch" });
    at.fire(input, "pointermove", { clientX: 30, clientY: 6 });
    to("63");
    expect(told.at(-1)![0]).toBe(63);
    expect(told.at(-1)![1]).not.toBe(told[0]![1]);
    at.fire(input, "pointerup");
    at.fire(input, "keydown", { key: "ArrowRight" });
    to("64");
    expect(told.at(-1)).toEqual([64, "keys Wind"]);
  });
});

describe("the map", () => {
  it("has a bar of a round length, its words over its middle", async () => {
    // 2 m a pixel, at most 120 px: 200 m are 100 px.
    const at = await drawn(
      <Sheet>
        <ScaleBar x={10} y={20} metre={2} most={120} system="metric" />
      </Sheet>,
    );
    expect(attributes(at, "path", "d")).toEqual(["M0-5V0H100V-5"]);
    expect([at.all("text")[0]!.getAttribute("x"), at.text]).toEqual(["50", "200 m"]);
    expect(at.all("g")[0]!.getAttribute("transform")).toBe("translate(10 20)");
  });
  it("has lines of latitude across and of longitude down, told where nothing lies over them", async () => {
    const place = { latitude: 10, longitude: 20 };
    const plane = planeOf([place]);
    const sight = { east: plane.east(place), north: plane.north(place), metre: 20 };
    const at = await drawn(
      <Sheet>
        <Graticule plane={plane} sight={sight} width={800} height={500} />
      </Sheet>,
    );
    const strokes = attributes(at, "path", "d") as string[];
    const across = strokes.filter((d) => d.endsWith("H800")).map((d) => Number(/^M0 (.+)H/.exec(d)![1]));
    const down = strokes.filter((d) => d.endsWith("V500")).map((d) => Number(/^M(.+) 0V/.exec(d)![1]));
    expect(across.length).toBeGreaterThan(0);
    expect(down.length).toBeGreaterThan(0);
    expect(across.length + down.length).toBe(strokes.length);
    const words = at.all("text");
    const isTold = { across: across.filter((y) => y > 68 && y < 456), down: down.filter((x) => x > 110 && x < 670) };
    expect(words).toHaveLength(isTold.across.length + isTold.down.length);
    expect(words.filter((one) => one.getAttribute("x") === "6").map((one) => Number(one.getAttribute("y")))).toEqual(
      isTold.across.map((y) => y - 4),
    );
    expect(words.filter((one) => one.getAttribute("y") === "14").map((one) => Number(one.getAttribute("x")))).toEqual(
      isTold.down.map((x) => x + 4),
    );
  });
});

describe("the axes over the wind", () => {
  it("tell winds below and loads beside, each where it is drawn", async () => {
    const plot = { left: 50, top: 10, width: 500, height: 300, most: 20, highest: 4000 };
    const at = await drawn(
      <Sheet>
        <Axes plot={plot} windUnit="m/s" perUnit={0.001} between={60} xLabel="wind, m/s" />
      </Sheet>,
    );
    const text = (say: string, anchor: string) =>
      at.all("text").find((one) => one.textContent === say && one.getAttribute("text-anchor") === anchor);
    // 4 kN are 300 px: 2 kN stand 150 px above the foot at 310 px; 20 m/s are 500 px.
    expect(text("2", "end")!.getAttribute("y")).toBe("164");
    expect(text("2", "end")!.getAttribute("x")).toBe("44");
    expect(text("10", "middle")!.getAttribute("x")).toBe("300");
    expect(text("10", "middle")!.getAttribute("y")).toBe("336");
    const strokes = attributes(at, "path", "d");
    expect(strokes).toContain("M50 160h500");
    expect(strokes).toContain("M300 310v5");
    expect(strokes).toContain("M50 10V310H550");
  });
});

describe("shares of the time", () => {
  it("stand as high as the root of each, at rest and the limit where they are", async () => {
    // Five samples: four of 100 N and one of 400 N. Classes reach to the highest.
    const samples = new Float32Array([1, 2, 3, 4, 5].flatMap((_, k) => [k * 0.2, k === 4 ? 400 : 100, 0, 0]));
    const record = { nodes: 0, width: 3, pictures: [], samples: [samples], count: 5, highest: 400 };
    const at = await drawn(<GaleShares rig="Chain" record={record} still={200} limit={300} />);
    const rects = at
      .all("rect")
      .map((one) => ["x", "y", "width", "height"].map((name) => Number(one.getAttribute(name))));
    const filled = rects.filter(([, , , height]) => height! > 0);
    expect(filled).toHaveLength(2);
    // Four times as often is twice as high: 68 px and 34 px over a foot at 72 px.
    expect(filled.map(([, y, , height]) => [y, height])).toEqual([
      [4, 68],
      [38, 34],
    ]);
    expect(filled[1]![0]! + filled[1]![2]!).toBeCloseTo(299.5, 9);
    expect(filled[0]![0]).toBeLessThanOrEqual(75.5);
    expect(filled[0]![0]).toBeGreaterThan(75 - 300 / rects.length);
    expect(rects[1]![0]).toBeCloseTo(300 / rects.length + 0.5, 9);
    expect(rects[0]![2]).toBeCloseTo(300 / rects.length - 1, 9);
    const strokes = attributes(at, "svg path", "d");
    expect(strokes).toContain("M150 2V74");
    expect(strokes).toContain("M225 2V74");
    expect(at.text).toContain("at rest 200 N");
    const above = await drawn(<GaleShares rig="Chain" record={record} still={500} limit={501} />);
    expect(attributes(above, "svg path", "d").filter((d) => d?.endsWith(" 2V74"))).toEqual(["M300 2V74"]);
  });
});

describe("a bridle from above", () => {
  it("has its cleats a beam apart, its legs to where they meet, equal legs equally thick", async () => {
    const rope = ropeOf({ fibre: "polyamide", lay: "three-strand", diameter: 0.014 }, catalogue, "rope");
    const bridle = { beam: 2, heading: 0, legs: [5, 5], stretch: rope.stretch } as const;
    const met = bridleAt(bridle, 1000);
    const at = await drawn(<BridlePlan rope="polyamide" bridle={bridle} pull={1000} />);
    const scale = Math.min(170 / met.along, 120 / 2.41);
    const cleats = at.all("circle").map((one) => [Number(one.getAttribute("cx")), Number(one.getAttribute("cy"))]);
    // The foremost line of cleats is 62 px from the right edge of 260, half the height of 150 down.
    expect(cleats[0]![0]).toBeCloseTo(198, 9);
    expect(cleats[0]![1]).toBeCloseTo(75 + scale, 6);
    expect(cleats[1]![1]).toBeCloseTo(75 - scale, 6);
    const legs = at.all("path[stroke-width]");
    expect(legs.map((one) => Number(one.getAttribute("stroke-width")))).toEqual([6, 6]);
    const ends = legs.map((one) => one.getAttribute("d")!.split("L")[1]!.split(" ").map(Number));
    expect(ends[0]).toEqual(ends[1]);
    expect(ends[0]![0]).toBeCloseTo(198 - met.along * scale, 6);
    expect(ends[0]![1]).toBeCloseTo(75, 6);
  });
});

describe("the rode as it lies", () => {
  it("has a stroke a part, one that is overloaded twice, weights by their mass, floats told apart", async () => {
    const view = { width: 800, height: 500, scale: 10, left: 100, top: 50 };
    const rig = {
      ...{ name: "r", uncertainty: {}, setting: { medium: "water", waterDensity: 1025 } },
      rode: [
        { kind: "line", name: "chain", material: "chain", workingLoad: 500 },
        { kind: "point", name: "weight", mass: 8, density: 7000 },
        { kind: "line", name: "rope", material: "rope", workingLoad: 500 },
        { kind: "point", name: "float", mass: 1000, density: 100 },
      ],
    };
    const shape = {
      ...{ x: [0, 10, 20, 30], z: [0, 1, 4, 7], part: [0, 0, 0, 2], tension: [1, 1, 1, 1] },
      points: [
        { part: 1, x: 20, z: 4 },
        { part: 3, x: 30, z: 7 },
      ],
    };
    const lying = { rig, shape, loads: Float64Array.of(501, 0, 500, 0), settled: {} } as never;
    const at = await drawn(
      <Sheet>
        <RodeLines drawn={lying} view={view} rise={7} />
      </Sheet>,
    );
    const strokes = at.all("path[data-material]");
    expect(strokes.map((one) => [one.getAttribute("data-material"), one.getAttribute("d")])).toEqual([
      ["chain", "M100.0 120.0L200.0 110.0L300.0 80.0"],
      ["rope", "M300.0 80.0L400.0 50.0"],
    ]);
    // The chain: overloaded, with its thread and itself; the rope, at its limit, only itself.
    expect(attributes(at, "path", "d").filter((d) => d === strokes[0]!.getAttribute("d"))).toHaveLength(3);
    expect(at.all("path")).toHaveLength(4);
    const circles = at
      .all("circle")
      .map((one) => ["cx", "cy", "r", "data-float"].map((name) => one.getAttribute(name)));
    expect(circles).toEqual([
      ["300.0", "80.0", "5.7", null],
      ["400.0", "50.0", "9", "true"],
    ]);
    const faint = await drawn(
      <Sheet>
        <RodeLines drawn={lying} view={view} rise={7} faint />
      </Sheet>,
    );
    expect(attributes(faint, "path", "d")).toEqual(["M100.0 120.0L200.0 110.0L300.0 80.0M300.0 80.0L400.0 50.0"]);
  });
});

describe("a log below its trace", () => {
  const whole = { from: 0, to: 100 };
  const data = { x: [0, 50, 60, 100], min: [0, null, 20, 0], max: [10, null, 100, 10] };
  it("has its outline whole, and its window where it is, and goes where it is pressed", async () => {
    const view = createStore<Window>({ from: 20, to: 40 });
    // 58 px to the left and 10 to the right of a plot of 500 px; 40 px high, 3 px free.
    const at = await drawn(<Minimap view={view} whole={whole} width={568} data={data} coarse={[0, 100]} />);
    expect(attributes(at, "path", "d")).toEqual(["M58.0 33.6L358.0 3.0L558.0 33.6L558.0 37.0L358.0 30.2L58.0 37.0Z"]);
    const window = at.all("rect")[1]!;
    expect(["x", "width"].map((name) => window.getAttribute(name))).toEqual(["158", "100"]);
    const svg = at.all("svg")[0]!;
    at.fire(svg, "pointermove", { clientX: 308 });
    expect(view.get()).toEqual({ from: 20, to: 40 });
    at.fire(svg, "pointerdown", { clientX: 308 });
    expect(view.get()).toEqual({ from: 40, to: 60 });
    at.fire(svg, "pointermove", { clientX: 358 });
    expect(view.get()).toEqual({ from: 50, to: 70 });
    at.fire(svg, "pointerup");
    at.fire(svg, "pointermove", { clientX: 58 });
    expect(view.get()).toEqual({ from: 50, to: 70 });
    at.fire(svg, "pointerdown", { clientX: 9999 });
    at.fire(svg, "pointercancel");
    at.fire(svg, "pointermove", { clientX: 58 });
    expect(view.get()).toEqual({ from: 80, to: 100 });
  });
  const mark = (id: string, from: number, to: number, more: object = {}) =>
    ({
      id,
      kind: "plateau",
      from,
      to,
      origin: "automatic",
      takenAway: false,
      automatic: null,
      byHand: null,
      value: null,
      u: 0,
      why: null,
      ...more,
    }) as never;
  it("has its marks over the window: bars for stretches, signs for moments, those out of view left out", async () => {
    const chosen: (string | null)[] = [];
    const marks = [
      mark("bar", 20, 60),
      mark("peak", 50, 50, { kind: "peak", takenAway: true }),
      mark("far", 200, 210),
      mark("moved", 60, 70, { origin: "corrected", automatic: { from_s: 40, to_s: 50 }, byHand: {} }),
    ];
    const view = createStore<Window>({ from: 0, to: 100 });
    const at = await drawn(
      <MarksLayer
        {...{ marks, view, width: 568, height: 300, chosen: "peak", hint: null, readOnly: true, onMove: () => {} }}
        whole={{ from: 0, to: 300 }}
        textOf={(one) => `${one.kind} of ${one.id}`}
        onChoose={(id) => chosen.push(id)}
      />,
    );
    expect(attributes(at, "g[data-kind]", "data-kind")).toEqual(["plateau", "peak", "plateau"]);
    const bars = at
      .all("g[role=button] > rect[rx]")
      .map((one) => ["x", "y", "width"].map((name) => one.getAttribute(name)));
    expect(bars).toEqual([
      ["158", "34", "200"],
      ["358", "34", "50"],
    ]);
    const sign = at.all("g[data-kind=peak] [transform]")[0]!;
    expect(sign.getAttribute("transform")).toBe("translate(308 17)");
    expect(at.all("g[data-kind=peak]")[0]!.getAttribute("data-away")).toBe("true");
    expect(attributes(at, "path", "d")).toContain("M308 27V274");
    // What the reduction made lies below where a person put it, from 40 s to 50 s.
    expect(attributes(at, "path", "d")).toContain("M258 70H308");
    const buttons = at.all("g[role=button]");
    expect(buttons.map((one) => one.getAttribute("aria-pressed"))).toEqual(["false", "true", "false"]);
    expect(buttons[0]!.getAttribute("aria-label")).toMatch(/^plateau of bar, 0:20.* to 1:00/);
    expect(buttons[1]!.getAttribute("aria-label")).toMatch(/taken away by hand$/);
    at.fire(buttons[0]!, "click");
    at.fire(buttons[1]!, "keydown", { key: "Enter" });
    at.fire(buttons[0]!, "keydown", { key: " " });
    at.fire(buttons[0]!, "keydown", { key: "a" });
    expect(chosen).toEqual(["bar", null, "bar"]);
    const narrow = await drawn(
      <MarksLayer
        {...{
          marks,
          view,
          width: 87,
          height: 300,
          chosen: null,
          hint: null,
          readOnly: true,
          onMove: () => {},
          onChoose: () => {},
        }}
        whole={whole}
        textOf={() => ""}
      />,
    );
    expect(narrow.all("svg")).toHaveLength(0);
  });
});
