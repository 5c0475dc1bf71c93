/** Small rules of the page, one by one: each value worked out by hand or held to a door of another room. */
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { endForcesOf, type Part, type Rig } from "../../src/rode/index.ts";
import type { WindLoadCurve } from "../../src/sea/index.ts";
import { atDecimal, roomBefore, roomBehind } from "../../src/web/controls/at-decimal.ts";
import { readableUnit } from "../../src/web/controls/numbers.ts";
import { quantityTyped } from "../../src/web/controls/quantity-typed.ts";
import { fileName } from "../../src/web/controls/save-file.ts";
import { sharesOf } from "../../src/web/controls/shares.ts";
import { askSerial, knownSerial, reachable } from "../../src/web/deck/live/port.ts";
import { stepText } from "../../src/web/deck/step-text.ts";
import { meanTilt, turned } from "../../src/web/deck/tilt.ts";
import { readOff, valueText } from "../../src/web/figure/read-off.ts";
import { rodeTable } from "../../src/web/figure/rode-table.ts";
import type { ShownPlot } from "../../src/web/figure/shown-figure.ts";
import { versionOf } from "../../src/web/holding/book-pulls.ts";
import { shownPulls } from "../../src/web/holding/shown-pulls.ts";
import { curveOf, isQuick } from "../../src/web/rig/curve-points.ts";
import {
  changedPart,
  hungOn,
  movedPart,
  paidOut,
  partOfRow,
  sameLine,
  sliding,
  totalLength,
  withoutPart,
  withPart,
} from "../../src/web/rig/parts.ts";
import { drawnOf, extentOf } from "../../src/web/rig/scene.ts";
import { exampleState, otherMedium, partNamed, pullOf, usualState } from "../../src/web/rig/state.ts";
import { fit as fitted, heightAcross, scaleBar, xMetres, xPx, yPx } from "../../src/web/rig/view.ts";
import { FieldReader, problemLine } from "../../src/web/state/fields.ts";
import { createStore, newStroke } from "../../src/web/state/store.ts";
import { fragmentOf, typedOf } from "../../src/web/viewer/fragment.ts";
import { positionsTable, samplesTable, sharesTable } from "../../src/web/weather/gale/gale-files.ts";
import { noRecord, pictureAt, sampleAt, secondsOf, withPiece } from "../../src/web/weather/gale/gale-record.ts";
import { xOf as mapX, yOf as mapY } from "../../src/web/weather/snubber/map-scale.ts";
import { limitsShown, reasonAt, reasonShown } from "../../src/web/weather/snubber/reasons.ts";
import { area, plotIn, stroke, windAtX, xOf, yOf } from "../../src/web/weather/wind/axis.ts";
import { windsTo } from "../../src/web/weather/wind/load-curves.ts";
import { shownLoads } from "../../src/web/weather/wind/shown-loads.ts";

describe("numbers in columns and fields", () => {
  it("are parted at their decimal sign", () => {
    expect(atDecimal("−12.5 ± 0.3 kN")).toEqual(["−12", ".5 ± 0.3 kN"]);
    expect(atDecimal("+7")).toEqual(["+7", ""]);
    expect(atDecimal("about 7")).toBeNull();
    expect(roomBefore(["1.25", "−100", null, undefined, "no"])).toBe(4);
    expect(roomBehind(["1.25", "−100", null, undefined, "no"])).toBe(3);
    expect([roomBefore([]), roomBehind(["x"])]).toEqual([0, 0]);
  });
  it("are said in the next smaller unit where they are too small for their own", () => {
    expect([readableUnit("m", 0.0099), readableUnit("m", -0.0099), readableUnit("m", 0.01)]).toEqual(["mm", "mm", "m"]);
    expect([readableUnit("m", 0), readableUnit("m", null), readableUnit("kN", 0.001)]).toEqual(["m", "m", "kN"]);
    expect([readableUnit("ft", 0.0149), readableUnit("ft", 0.015)]).toEqual(["in", "ft"]);
  });
  it("are taken within their bounds, the ends as stated", () => {
    const range = { least: 1, most: 5, expected: "1 to 5 is expected" };
    const read = (text: string, of = range as object) => quantityTyped(text, "m", "length", "depth", of as never);
    expect([read("1"), read("5 m"), read("500 cm"), read("-1", {})]).toEqual([1, 5, 5, -1]);
    expect([read("0.99"), read("5.01")]).toEqual(Array(2).fill("depth: 1 to 5 is expected"));
    expect(read("0", { above: 0, expected: "more" })).toBe("depth: more");
    expect(read("0.001", { above: 0, expected: "more" })).toBe(0.001);
    expect(read("high")).toMatch(/^depth: "high"/);
    expect(quantityTyped("7", "", "ratio", "factor", undefined)).toBe(7);
  });
  it("share what is unsure by their squares", () => {
    expect(
      sharesOf([
        { name: "a", u: 3 },
        { name: "b", u: -4 },
      ]),
    ).toEqual([
      { name: "a", share: 9 / 25 },
      { name: "b", share: 16 / 25 },
    ]);
    expect(sharesOf([{ name: "a", u: 0 }])).toEqual([]);
  });
  it("name a file by letters and digits", () => {
    expect(fileName("  Böen & Ebb, 2031!")).toBe("böen-ebb-2031");
    expect(fileName("!!")).toBe("");
  });
});

describe("the fields of an address", () => {
  const read = (fields: Record<string, string>) => new FieldReader(fields);
  const lines = (reader: FieldReader) => reader.problems.map(problemLine);
  it("are numbers within their ends, both taken", () => {
    const fields = read({ a: "1", b: "5", c: "5.1", d: "x", e: "" });
    expect([fields.number("a", 1, 5), fields.number("b", 1, 5)]).toEqual([1, 5]);
    expect(fields.problems).toEqual([]);
    expect([fields.number("c", 1, 5), fields.number("d", 1, 5), fields.number("e", 1, 5)]).toEqual([NaN, NaN, NaN]);
    expect(lines(fields).map((line) => line.split(" is given")[0])).toEqual(['c: "5.1"', 'd: "x"', "e: nothing"]);
    expect(fields.numberOr("none", 7, 1, 5)).toBe(7);
    expect(fields.numberOr("a", 7, 1, 5)).toBe(1);
  });
  it("are words of a list, names of two hundred signs, and are told cut at sixty", () => {
    const fields = read({ w: "b", x: "z", n: "n".repeat(200), m: "n".repeat(201) });
    expect([fields.wordOr("w", ["a", "b"], "a"), fields.wordOr("none", ["a", "b"], "a")]).toEqual(["b", "a"]);
    expect(fields.wordOr("x", ["a", "b"], "a")).toBe("a");
    expect([fields.nameOr("n", ""), fields.nameOr("none", "usual")]).toEqual(["n".repeat(200), "usual"]);
    expect(fields.problems).toHaveLength(1);
    fields.nameOr("m", "");
    expect(lines(fields)[1]).toContain(`"${"n".repeat(60)}…"`);
    const sixty = read({});
    sixty.refuse("f", "x".repeat(60), "y is expected");
    expect(lines(sixty)).toEqual([`f: "${"x".repeat(60)}" is given; y is expected`]);
  });
  it("with a prefix are read without it and told with it", () => {
    const fields = read({ "film-a": "9", b: "1" });
    const under = fields.under("film-");
    expect([under.text("a"), under.text("b"), under.has("b"), under.has("b", "a")]).toEqual([
      "9",
      undefined,
      false,
      true,
    ]);
    under.number("a", 0, 5);
    expect(lines(fields)[0]).toMatch(/^film-a: "9" is given/);
    expect(fields.read(() => 1).kind).toBe("refused");
    expect(read({}).read(() => 1)).toEqual({ kind: "read", state: 1 });
  });
});

describe("a step on deck", () => {
  const show = (value: number, dimension: string) => `${value} ${dimension}`;
  it("says what is to be done", () => {
    expect(stepText(undefined, null, show)).toBe("set the anchor");
    expect(stepText({ kind: "set", load: 5, hold: 1 }, null, show)).toBe("set the anchor");
    expect(stepText({ kind: "veer", load: null, hold: 0, paidOut: 45 }, 9, show)).toBe(
      "ease off, then veer to 45 length out",
    );
    expect(stepText({ kind: "veer", load: null, hold: 0 }, 9, show)).toBe("ease off, then veer");
    expect(stepText({ kind: "reset", load: null, hold: 0 }, 9, show)).toMatch(/set it anew$/);
    expect(stepText({ kind: "hold", load: 1000, hold: 60 }, 1100, show)).toBe(
      "raise to 1000 force at the anchor, 1100 force at the bow, hold 1 min",
    );
    expect(stepText({ kind: "hold", load: null, hold: 5 }, null, show)).toBe(
      "raise to 0 force at the anchor, hold 5 s",
    );
  });
  it("reads an angle from eight stretches, each weighing alike, and not of fewer than two readings each", () => {
    const DEGREE = Math.PI / 180;
    expect(meanTilt(Array(15).fill(10))).toBeNull();
    const still = meanTilt(Array(16).fill(10))!;
    expect(still.angle).toBeCloseTo(10 * DEGREE, 12);
    expect(still.u).toBeCloseTo(0.1 * DEGREE, 12);
    // Stretches of 9 and 11 in turn: their spread is √(8/7)°, of their mean √(1/7)°.
    const rolling = meanTilt(Array.from({ length: 24 }, (_, i) => (Math.floor(i / 3) % 2 === 0 ? 9 : 11)))!;
    expect(rolling.angle).toBeCloseTo(10 * DEGREE, 12);
    expect(rolling.u).toBeCloseTo(Math.hypot(Math.sqrt(1 / 7), 0.1) * DEGREE, 12);
    const both = turned({ angle: 0.5, u: 0.03 }, { angle: -0.3, u: 0.04 });
    expect(both.angle.angle).toBeCloseTo(0.4, 12);
    expect(both.zero.angle).toBeCloseTo(0.1, 12);
    expect([both.angle.u, both.zero.u]).toEqual([0.025, 0.025]);
  });
});

describe("a serial port of the browser", () => {
  afterEach(() => vi.unstubAllGlobals());
  const port = (info: object, pieces: number[][] = []) => {
    const did: unknown[] = [];
    let given = 0;
    return {
      did,
      getInfo: () => info,
      open: async (options: unknown) => void did.push(["open", options]),
      close: async () => void did.push("close"),
      readable: {
        getReader: () => ({
          read: async () =>
            given < pieces.length
              ? { value: Uint8Array.from(pieces[given++]!), done: false }
              : { value: undefined, done: true },
          cancel: async () => void did.push("cancel"),
          releaseLock: () => void did.push("release"),
        }),
      },
    };
  };
  it("is named by what it is and how fast, gives its bytes and is closed after them", async () => {
    const one = port({ usbVendorId: 0x67b, usbProductId: 0x2303 }, [[1, 2], [3]]);
    vi.stubGlobal("navigator", { serial: { requestPort: async () => one, getPorts: async () => [port({}), one] } });
    expect(reachable()).toEqual({ serial: true, bluetooth: false });
    const asked = await askSerial(4800);
    expect([asked.via, asked.name]).toEqual(["serial", "serial 067b:2303, 4800 baud"]);
    const came: number[] = [];
    for await (const bytes of asked.bytes(new AbortController().signal)) came.push(...bytes);
    expect(came).toEqual([1, 2, 3]);
    expect(one.did).toEqual([["open", { baudRate: 4800 }], "release", "close"]);
    expect((await knownSerial(9600))!.name).toBe("serial, 9600 baud");
    const stop = new AbortController();
    for await (const _ of port({}, [[1]]) && (await askSerial(9600)).bytes(stop.signal)) stop.abort();
  });
  it("is none where the browser has none, or was let use none", async () => {
    vi.stubGlobal("navigator", { bluetooth: {} });
    expect(reachable()).toEqual({ serial: false, bluetooth: true });
    expect(await knownSerial(9600)).toBeNull();
    vi.stubGlobal("navigator", { serial: { getPorts: async () => [] } });
    expect(await knownSerial(9600)).toBeNull();
  });
});

describe("read off a plot", () => {
  const plot = (series: object[], unit = "kN"): ShownPlot =>
    ({
      ...{ box: { left: 0, top: 0, right: 1, bottom: 1 }, x: { label: "x", unit: "s", from: 0, to: 100 } },
      ...{ y: { label: "y", unit, from: 0, to: 1 }, series },
    }) as never;
  it("are points within a fiftieth of the axis, the nearest of them", () => {
    const points = { kind: "points", name: "p", x: [10, 13], y: [1, 2], notes: ["", ""] };
    const at = (x: number) => readOff(plot([points]), x).map(({ text, at: where }) => [text, where[0]!.x]);
    expect(at(8)).toEqual([["1 kN", 10]]);
    expect(at(7.9)).toEqual([]);
    expect(at(11.4)).toEqual([["1 kN", 10]]);
    expect(at(11.6)).toEqual([["2 kN", 13]]);
    expect(at(15.1)).toEqual([]);
  });
  it("is a value with its ±, its unit, or three digits", () => {
    expect(valueText(1.23456, undefined, { unit: "kN" })).toBe("1.23 kN");
    expect(valueText(1.23456, 0, { unit: "" })).toBe("1.23");
    expect(valueText(5.14, 0.4, { unit: "°" })).toBe("5.14 ± 0.40°");
    expect(valueText(-5.14, 0.4, { unit: "m" })).toBe("−5.14 ± 0.40 m");
  });
  it("is nothing before a line begins, after it ends, or of a band that is not known there", () => {
    const line = { kind: "line", name: "l", x: [10, 20], y: [1, 3], u: [0.2, 0.4] };
    const band = { kind: "band", name: "b", x: [10, 20], low: [0, Number.NaN], high: [2, 4] };
    expect(readOff(plot([line]), 9.9)).toEqual([]);
    expect(readOff(plot([line]), 20.1)).toEqual([]);
    expect(readOff(plot([line]), 10)[0]).toMatchObject({ text: "1.00 ± 0.20 kN", at: [{ x: 10, y: 1 }] });
    expect(readOff(plot([line]), 20)[0]!.at).toEqual([{ x: 20, y: 3 }]);
    expect(readOff(plot([band]), 15)).toEqual([]);
    expect(readOff(plot([{ ...band, low: [0, 2] }]), 15)).toEqual([{ name: "b", text: "1 to 3 kN", at: [] }]);
  });
});

describe("figures as plain data", () => {
  it("have a row a point of each rode, named by its part", () => {
    const shape = { x: [0, 1], z: [0, 2], tension: [5, 6], part: [0, 1] };
    const rig = { name: "r", rode: [{ name: "chain" }] };
    expect(rodeTable([{ rig, shape } as never])).toEqual({
      columns: ["rode", "part", "distance from the anchor, m", "height above the anchor, m", "tension, N"],
      rows: [
        ["r", "chain", 0, 0, 5],
        ["r", "", 1, 2, 6],
      ],
    });
  });
  it("have every pull by its load with how it ended", () => {
    const marks = [
      { kind: "between", from: 1, to: 9 },
      { kind: "gaveWay", load: 5 },
      { kind: "heldTo", load: 7 },
      { kind: "neverHeld", load: 2 },
    ] as never;
    const drawn = { svg: "s", width: 10, height: 20, rows: [{ left: 1 }], x: { from: 0, to: 9 } } as never;
    const shown = shownPulls(drawn, [{ name: "A", marks }], "kN");
    expect(shown).toMatchObject({ title: "Every pull", svg: "s", width: 10, height: 20 });
    expect(shown.plots[0]).toMatchObject({
      ...{ box: { left: 1 }, x: { unit: "kN", from: 0, to: 9 }, y: { label: "A", from: 0, to: 1 } },
      series: [
        {
          x: [2, 5, 7, 9],
          y: [NaN, NaN, NaN, NaN],
          notes: ["never held 2 kN", "gave way at 5 kN", "held 7 kN, let go there", "held 1 kN, had given way by 9 kN"],
        },
      ],
    });
  });
  it("tell a pull by a sign that is its own", () => {
    const pull = { anchor: "A", hold: { kind: "heldTo", newtons: 1 } } as never;
    expect(versionOf(pull)).toMatch(/^[0-9a-f]{8}$/);
    expect(versionOf({ ...(pull as object), anchor: "B" } as never)).not.toBe(versionOf(pull));
    expect(versionOf({ ...(pull as object), holdRule: "x" } as never)).toBe(versionOf(pull));
    // FNV-1a of 32 bits over the text that JSON makes of it, as its authors publish it: offset 2166136261, prime 16777619.
    let hash = 2166136261n;
    for (const byte of Buffer.from(JSON.stringify(pull))) hash = ((hash ^ BigInt(byte)) * 16777619n) % 2n ** 32n;
    expect(versionOf(pull)).toBe(hash.toString(16).padStart(8, "0"));
  });
});

describe("parts of a rode", () => {
  const line = (name: string, length: number): Part => ({ kind: "line", name, length, massPerLength: 1 }) as never;
  const point = (name: string): Part => ({ kind: "point", name, mass: 5, density: 7000 }) as never;
  const names = (rode: readonly Part[]) =>
    rode.map((part) => (part.kind === "line" ? `${part.name} ${part.length}` : part.name));
  const rode = [point("shackle"), line("chain", 10), point("weight"), line("chain", 6), line("rope", 20)];
  it("are put in, taken out, moved and changed at their place", () => {
    expect(names(withPart(rode, 1, point("x")))).toEqual(["shackle", "x", "chain 10", "weight", "chain 6", "rope 20"]);
    expect(names(withoutPart(rode, 0))).toEqual(["chain 10", "weight", "chain 6", "rope 20"]);
    expect(names(withoutPart(rode, 2))).toEqual(["shackle", "chain 16", "rope 20"]);
    expect(names(withoutPart(rode, 4))).toEqual(["shackle", "chain 10", "weight", "chain 6"]);
    expect(names(movedPart(rode, 0, 4))).toEqual(["chain 10", "weight", "chain 6", "rope 20", "shackle"]);
    expect(names(movedPart(rode, 4, 0))).toEqual(["rope 20", "shackle", "chain 10", "weight", "chain 6"]);
    for (const [from, to] of [
      [0, -1],
      [0, 5],
      [5, 0],
    ])
      expect(movedPart(rode, from!, to!)).toBe(rode);
    expect(names(changedPart(rode, 1, line("chain", 11)))).toEqual([
      "shackle",
      "chain 11",
      "weight",
      "chain 6",
      "rope 20",
    ]);
  });
  it("slide where the same line goes on beyond them", () => {
    expect(sliding(rode)).toEqual([2]);
    expect(sliding([line("a", 1), point("w"), line("b", 1)])).toEqual([]);
    expect(sliding([point("w"), line("b", 1)])).toEqual([]);
    expect(sameLine(line("a", 1), line("a", 2))).toBe(true);
    expect(sameLine(line("a", 1), undefined)).toBe(false);
    expect(sameLine(point("a"), point("a"))).toBe(false);
  });
  it("are hung at the middle of a line, or beside what is none", () => {
    expect(names(hungOn(rode, 1, point("w") as never))).toEqual([
      "shackle",
      "chain 5",
      "w",
      "chain 5",
      "weight",
      "chain 6",
      "rope 20",
    ]);
    expect(names(hungOn(rode, 0, point("w") as never))).toEqual([
      "shackle",
      "w",
      "chain 10",
      "weight",
      "chain 6",
      "rope 20",
    ]);
  });
  it("are paid out at the line nearest the bow, and as long as their lines", () => {
    expect(paidOut(rode)).toBe(4);
    expect(paidOut([line("a", 1), point("w")])).toBe(0);
    expect(paidOut([point("w")])).toBe(-1);
    expect(totalLength({ rode } as unknown as Rig)).toBe(36);
  });
  it("come from a row of the catalogue with all it states", () => {
    const row = {
      name: "c",
      massPerLength: 2,
      density: 7850,
      stretch: { kind: "linear" },
      diameter: 0.01,
      kind: "chain",
    };
    expect(partOfRow({ ...row, workingLoad: 9 } as never, 12)).toEqual({
      ...{ name: "c", massPerLength: 2, density: 7850, stretch: { kind: "linear" }, diameter: 0.01 },
      ...{ kind: "line", length: 12, workingLoad: 9, material: "chain" },
    });
    expect(partOfRow({ kind: "point", name: "s", mass: 1, density: 7850, breakingLoad: 8 } as never, 12)).toEqual({
      ...{ kind: "point", name: "s", mass: 1, density: 7850, breakingLoad: 8 },
    });
    expect(partNamed("chain 10 mm grade 30 ISO 4565", 7)).toMatchObject({ kind: "line", length: 7 });
    expect(partNamed("no such", 7)).toBeUndefined();
  });
  it("lie in the other medium at the same or another height", () => {
    const water = usualState.rig.setting;
    expect(otherMedium(water)).toEqual({ medium: "air", rise: 8.2, bottomSlope: 0, bottomFriction: 0.6 });
    expect(otherMedium(water, 3)).toMatchObject({ medium: "air", rise: 3 });
    const air = { medium: "air", rise: 8, bottomSlope: 0.1, bottomFriction: 0.5 } as const;
    expect(otherMedium(air)).toEqual({
      ...{
        medium: "water",
        depth: 6.8,
        rollerHeight: 1.2,
        waterDensity: 1025,
        bottomSlope: 0.1,
        bottomFriction: 0.5,
        current: 0,
      },
    });
    expect(otherMedium({ ...air, rise: 2 })).toMatchObject({ depth: 1.5, rollerHeight: 0.5 });
    expect(pullOf(exampleState)).toEqual({ at: "bow", newtons: 2200 });
  });
});

describe("the drawing of a rig", () => {
  it("has points over the load, each that load's own equilibrium", () => {
    const { rig } = exampleState;
    expect(isQuick(rig)).toBe(true);
    expect(isQuick({ ...rig, setting: { ...rig.setting, current: 0.5 } as never })).toBe(false);
    const float = { kind: "point", name: "f", mass: 1, density: 100 } as const;
    expect(isQuick({ ...rig, rode: [...rig.rode.slice(0, 2), float, ...rig.rode.slice(2)] as never })).toBe(false);
    const { loads, angle, span } = curveOf(rig, "bow", 3600);
    expect([loads.length, loads[0], loads[71]]).toEqual([72, 50, 3600]);
    const forces = endForcesOf(rig);
    for (const i of [10, 40, 71]) {
      const seen = forces({ at: "bow", newtons: loads[i]! })!;
      expect([angle[i], span[i]]).toEqual([seen.anchorAngle, seen.span]);
    }
  });
  it("must hold the rode as it lies and as far as it reaches", () => {
    const drawn = drawnOf(exampleState.rig, { at: "bow", newtons: 300 });
    if (!("shape" in drawn)) throw new Error("no equilibrium");
    const extent = extentOf({ drawn, none: null, over: null });
    // 40 m of rode, 8.2 m up, pulled so lightly that it lies nearer.
    expect(extent.to).toBeCloseTo(Math.sqrt(40 ** 2 - 8.2 ** 2), 9);
    expect([extent.from, extent.above]).toEqual([0, 0]);
    expect(extent.below).toBeCloseTo(8.2, 9);
    const sloping = { ...drawn, rig: { ...drawn.rig, setting: { ...drawn.rig.setting, bottomSlope: -0.1 } } } as never;
    expect(extentOf({ drawn: sloping, none: null, over: null }).below).toBeCloseTo(8.2 + Math.tan(0.1) * extent.to, 9);
    const over = {
      ...drawn,
      rig: { ...drawn.rig, setting: { medium: "air", rise: 10, bottomSlope: 0, bottomFriction: 0.5 } },
      ...{ settled: { span: 60 }, shape: { x: [-3, 60], z: [0, -2] } },
    } as never;
    const both = extentOf({ drawn, none: null, over });
    expect([both.to, both.from]).toEqual([60, -3]);
    expect(both.above).toBeCloseTo(1.8, 9);
    expect(both.below).toBeCloseTo(10.2, 9);
    expect(extentOf({ drawn: null, none: null, over: null })).toEqual({ from: 0, to: 1, below: 1, above: 0 });
  });
  it("is as large as its frame lets it be, its spare height above", () => {
    const margins = { left: 10, right: 30, top: 20, bottom: 40 };
    const wide = fitted(440, 260, { from: -5, to: 35, below: 8, above: 2 }, margins);
    // 400 px for 40 m and 200 px for 10 m: ten px a metre, 100 px to spare.
    expect(wide).toEqual({ width: 440, height: 260, scale: 10, left: 60, top: 100 });
    expect([xPx(wide, 7), yPx(wide, 3), xMetres(wide, 130)]).toEqual([130, 130, 7]);
    const tall = fitted(440, 260, { from: 0, to: 10, below: 15, above: 5 }, margins);
    expect(tall).toEqual({ width: 440, height: 260, scale: 10, left: 160, top: 70 });
    expect(heightAcross(440, { from: 0, to: 40, below: 8, above: 2 }, margins, 50, 900)).toBe(160);
    expect(heightAcross(440, { from: 0, to: 40, below: 8, above: 2 }, margins, 170, 900)).toBe(170);
    expect(heightAcross(440, { from: 0, to: 40, below: 8, above: 2 }, margins, 50, 90)).toBe(90);
    expect(scaleBar(wide, 1, 140)).toEqual({ units: 10, px: 100 });
    const feet = scaleBar(wide, 0.3048, 140);
    expect(feet.units).toBe(20);
    expect(feet.px).toBeCloseTo(20 * 3.048, 9);
  });
});

describe("charts over the wind", () => {
  const plot = plotIn(570, 364, 20, 1000);
  it("lie within their margins and go over into values and back", () => {
    expect(plot).toEqual({ left: 52, top: 14, width: 500, height: 300, most: 20, highest: 1000 });
    expect(plotIn(10, 10, 1, 1)).toMatchObject({ width: 40, height: 40 });
    expect([xOf(plot, 5), yOf(plot, 250), yOf(plot, 0)]).toEqual([177, 239, 314]);
    expect([windAtX(plot, 177), windAtX(plot, 0), windAtX(plot, 999)]).toEqual([5, 0.2, 20]);
  });
  it("have strokes that break and bands that go there and back", () => {
    expect(stroke(plot, [0, 5, 10, 20], [0, 250, Number.NaN, 1000])).toBe("M52.0 314.0L177.0 239.0M552.0 14.0");
    expect(area(plot, [0, 5, 10], [0, 0, Number.NaN], [250, 500, 500])).toBe(
      "M52.0 239.0L177.0 164.0L177.0 314.0L52.0 314.0Z",
    );
    expect(area(plot, [0, 5], [0, Number.NaN], [250, 500])).toBe("");
  });
  it("are drawn at winds from a hundredth of the axis to its end", () => {
    const winds = windsTo(100);
    expect(winds).toHaveLength(56);
    expect([winds[0], winds[55]]).toEqual([1, 100]);
    expect(winds[1]! - winds[0]!).toBeCloseTo(99 / 55, 12);
  });
  it("have each road's line, its peaks, the gust and the points in the units shown", () => {
    const e = (value: number, u: number) => ({ value, u });
    const rows = [1, 2].map((k) => ({
      measured: [{ at: "bow", mean: e(1000 * k, 10), peak: e(2000 * k, 20) }],
      windage: e(500 * k, 5),
    }));
    const curve = { rows, points: [{ wind: 10, load: 3000 }] } as unknown as WindLoadCurve;
    const shown = shownLoads(
      { winds: [10, 20], curve, gust: [e(700, 7), e(800, 8)] as never, highest: 1000 },
      plot,
      "m/s",
      "kN",
    );
    expect(shown).toMatchObject({ width: 570, height: 364 });
    const [only] = shown.plots;
    expect(only).toMatchObject({
      ...{ box: { left: 52, top: 14, right: 552, bottom: 314 } },
      ...{ x: { unit: "m/s", from: 0, to: 20 }, y: { unit: "kN", from: 0, to: 1 } },
    });
    expect(
      only!.series.map((one) => [
        one.name,
        Array.from(one.x),
        "y" in one ? Array.from(one.y) : [],
        "u" in one ? Array.from(one.u!) : [],
      ]),
    ).toEqual([
      ["by own points (bow)", [10, 20], [1, 2], [0.01, 0.01]],
      ["brief peaks (bow)", [10, 20], [2, 4], [0.02, 0.02]],
      ["by windage", [10, 20], [0.5, 1], [0.005, 0.005]],
      ["in the gust", [10, 20], [0.7, 0.8], [0.007, 0.008]],
      ["own points", [10], [3], []],
    ]);
    const bare = { rows: [{ measured: [{ at: "bow", mean: e(1, 1) }] }], points: [] } as unknown as WindLoadCurve;
    expect(
      shownLoads({ winds: [10], curve: bare, gust: null, highest: 1 }, plot, "m/s", "N").plots[0]!.series,
    ).toHaveLength(1);
  });
});

describe("a ride as it came", () => {
  const piece = (times: number[]) => ({
    nodes: 1,
    pictures: Float32Array.from(times.flatMap((t) => [t, 2 * t, 3 * t, 4 * t, 5 * t, 6 * t])),
    samples: Float32Array.from(times.flatMap((t) => [t, 100 * t, 10 * t, Math.PI / 2])),
    ...{ over: false, answer: null, highest: new Float64Array(0) },
  });
  const record = withPiece(withPiece(noRecord, piece([1, 2])), piece([3]));
  it("is put together piece by piece", () => {
    expect(record).toMatchObject({ nodes: 1, width: 6, count: 3, highest: 300 });
    expect(secondsOf(record)).toBeCloseTo(0.4, 12);
    expect(secondsOf(noRecord)).toBe(0);
    expect([sampleAt(record, 1, 1), sampleAt(record, 2, 2), sampleAt(record, 0, 0)]).toEqual([200, 30, 1]);
    expect(() => sampleAt(record, 3, 0)).toThrow(RangeError);
    expect(withPiece(record, piece([1])).highest).toBe(300);
  });
  it("is shown straight between two pictures, and stands at its ends", () => {
    const out = new Float32Array(6);
    expect(pictureAt(noRecord, 0, out)).toBe(false);
    expect(pictureAt(record, 0.1, out)).toBe(true);
    expect([...out].map((value) => Number(value.toFixed(5)))).toEqual([1.5, 3, 4.5, 6, 7.5, 9]);
    pictureAt(record, 0.25, out);
    expect(out[0]).toBeCloseTo(2.25, 5);
    pictureAt(record, 99, out);
    expect(out[1]).toBe(6);
    pictureAt(record, -1, out);
    expect(out[1]).toBe(2);
  });
  it("leaves as tables: samples in SI and degrees, shares by class, places of nodes", () => {
    const { columns, rows } = samplesTable(record);
    expect(columns).toHaveLength(4);
    expect(rows.map((row) => (row as number[]).map((value) => Number(value.toFixed(4))))).toEqual([
      [0, 100, 10, 90],
      [0.2, 200, 20, 90],
      [0.4, 300, 30, 90],
    ]);
    expect(sharesTable([0.25, 0.75], 400).rows).toEqual([
      [0, 200, 0.25],
      [200, 400, 0.75],
    ]);
    expect(positionsTable(record, 0.2).rows).toEqual([[0, 2, 4, 6]]);
    expect(positionsTable(noRecord, 0.2).rows).toEqual([]);
  });
});

describe("the map of snubbers", () => {
  it("has lengths to the right and diameters upward", () => {
    const frame = { left: 10, top: 20, width: 100, height: 200 } as never;
    const range = { lengths: [5, 15], diameters: [0.01, 0.03] } as const;
    expect(mapX(frame, range, 7.5)).toBeCloseTo(35, 9);
    expect(mapY(frame, range, 0.015)).toBeCloseTo(170, 9);
  });
  it("tells each side in words and by a pattern of its own, and has a slider a limit", () => {
    expect(reasonAt(0)).toBe("within");
    expect(reasonAt(99)).toBe("within");
    expect(reasonAt(1)).not.toBe("within");
    const reasons = Array.from({ length: 10 }, (_, code) => reasonAt(code));
    expect(new Set(reasons.map((reason) => reasonShown(reason).pattern)).size).toBe(10);
    expect(reasonShown("within").pattern).toBe("");
    const limits = Object.fromEntries(limitsShown.map((one) => [one.name, [one.least, one.usual, one.most]]));
    const DEGREE = Math.PI / 180;
    expect(limits).toEqual({
      ...{
        peak: [500, 5000, 40_000],
        ropeShare: [0.02, 0.2, 1],
        workingLoadShare: [0.1, 1, 2],
        hook: [500, 8000, 40_000],
      },
      ...{
        cleat: [500, 5000, 40_000],
        anchorAngle: [0.5 * DEGREE, 8 * DEGREE, 30 * DEGREE],
        loopShare: [0.01, 0.1, 1],
      },
    });
  });
});

describe("a viewer's numbers behind the #", () => {
  it("come back as typed, unknown and endless ones left out", () => {
    const typed = { units: "us", depth: "20 ft", chain: "10 mm", wind: "30" };
    expect(typedOf(fragmentOf(typed))).toEqual(typed);
    expect(fragmentOf({})).toBe("");
    expect(fragmentOf({ depth: "7 m" })).toBe("#depth=7+m");
    expect(typedOf(`#depth=${"1".repeat(200)}&wind=${"1".repeat(201)}&other=1`)).toEqual({ depth: "1".repeat(200) });
  });
});

describe("the state of a place", () => {
  it("remembers two hundred steps", () => {
    const store = createStore(0);
    for (let i = 1; i <= 205; i++) store.set(i, { label: `to ${i}` });
    let back = 0;
    while (store.undoLabel() !== null) {
      store.undo();
      back++;
    }
    expect([back, store.get()]).toEqual([200, 5]);
    expect(store.redoLabel()).toBe("to 6");
  });
  it("tells its listeners of each change, and no more once they left", () => {
    const store = createStore(1);
    let told = 0;
    const leave = store.subscribe(() => told++);
    store.set(1);
    expect(told).toBe(0);
    store.set((before) => before + 1);
    store.put(3);
    store.put(3);
    expect([told, store.get(), store.undoLabel()]).toEqual([2, 3, "change"]);
    store.undo();
    expect([told, store.get()]).toEqual([3, 1]);
    leave();
    store.set(9);
    expect(told).toBe(3);
    expect(store.redoLabel()).toBeNull();
    expect(newStroke()).not.toBe(newStroke());
  });
});

describe("what a person prefers", () => {
  const kept = new Map<string, string>();
  beforeEach(() => {
    vi.resetModules();
    kept.clear();
    vi.stubGlobal("localStorage", {
      getItem: (name: string) => kept.get(name) ?? null,
      setItem: (name: string, text: string) => void kept.set(name, text),
    });
  });
  afterEach(() => vi.unstubAllGlobals());
  const KEY = "rodebench preferences";
  const preferences = () => import("../../src/web/state/preferences.ts");
  it("is kept, read again, and what is no preference left out", async () => {
    const { prefer, preferences: store, unfold } = await preferences();
    expect(store.get()).toEqual({ system: "metric", units: {}, theme: "auto", hintsUsed: [], open: {} });
    prefer({ system: "us", units: { load: "kN" }, theme: "sun", hintsUsed: ["a"] });
    unfold("ranges");
    const now = { system: "us", units: { load: "kN" }, theme: "sun", hintsUsed: ["a"], open: { ranges: true } };
    expect(JSON.parse(kept.get(KEY)!)).toEqual(now);
    vi.resetModules();
    expect((await preferences()).preferences.get()).toEqual(now);
    kept.set(KEY, JSON.stringify({ system: "miles", units: 5, theme: "pink", hintsUsed: ["a", 5], open: null }));
    vi.resetModules();
    expect((await preferences()).preferences.get()).toEqual({
      ...now,
      system: "metric",
      units: {},
      theme: "auto",
      open: {},
    });
    kept.set(KEY, "no JSON");
    vi.resetModules();
    expect((await preferences()).preferences.get().hintsUsed).toEqual([]);
  });
  it("has small things in small units, winds in knots, the rest as the system has it", async () => {
    const { unitByCustom } = await preferences();
    expect(unitByCustom("readings movement", "length", "metric")).toBe("mm");
    expect(unitByCustom("readings movement", "length", "us")).toBe("in");
    expect(unitByCustom("wind", "speed", "metric")).toBe("kn");
    expect(unitByCustom("depth", "length", "metric")).toBe("m");
    expect(unitByCustom("depth", "length", "us")).toBe("ft");
    expect(unitByCustom("depth", "length", "metric", "ft")).toBe("ft");
    expect(unitByCustom("share", "ratio", "metric")).toBe("%");
  });
  it("puts the theme on the page, and nothing where the device decides", async () => {
    const dataset: Record<string, string> = { theme: "dark" };
    vi.stubGlobal("document", { documentElement: { dataset } });
    const { followTheme, prefer } = await preferences();
    followTheme();
    expect(dataset).toEqual({});
    prefer({ theme: "sun" });
    expect(dataset).toEqual({ theme: "sun" });
    prefer({ theme: "auto" });
    expect(dataset).toEqual({});
  });
});

describe("keys that take back", () => {
  class Field {
    readonly type: string;
    constructor(type: string) {
      this.type = type;
    }
  }
  it("work the place that is shown, but not a field that is typed in", async () => {
    let hear: (event: object) => void = () => {};
    vi.stubGlobal("HTMLInputElement", Field);
    vi.stubGlobal("HTMLTextAreaElement", class {});
    vi.stubGlobal("document", { addEventListener: (_: string, listener: typeof hear) => (hear = listener) });
    const { atHand, followUndoKeys } = await import("../../src/web/state/undoable.ts");
    followUndoKeys();
    const did: string[] = [];
    const none = () => null;
    atHand.put({
      undo: () => did.push("undo"),
      redo: () => did.push("redo"),
      undoLabel: none,
      redoLabel: none,
      subscribe: () => none,
    });
    const press = (key: string, more: object = {}) =>
      hear({
        key,
        ctrlKey: true,
        metaKey: false,
        altKey: false,
        shiftKey: false,
        target: {},
        preventDefault: () => did.push("own"),
        ...more,
      });
    press("z");
    press("Z", { shiftKey: true });
    press("y");
    press("z", { ctrlKey: false, metaKey: true });
    press("z", { target: new Field("range") });
    expect(did).toEqual(["own", "undo", "own", "redo", "own", "redo", "own", "undo", "own", "undo"]);
    for (const more of [{ ctrlKey: false }, { altKey: true }, { target: new Field("text") }]) press("z", more);
    press("x");
    expect(did).toHaveLength(10);
    atHand.put(null);
    press("z");
    expect(did).toEqual([...did.slice(0, 10), "own"]);
    vi.unstubAllGlobals();
  });
});

describe("where the bench is", () => {
  it("is a step of the browser's history, or in the place of the last", async () => {
    vi.resetModules();
    const did: unknown[] = [];
    let popped = () => {};
    const at = { pathname: "/rig", search: "?depth=7" };
    vi.stubGlobal("window", {
      location: at,
      history: {
        pushState: (_: unknown, __: string, address: string) => did.push(["push", address]),
        replaceState: (_: unknown, __: string, address: string) => did.push(["replace", address]),
        back: () => did.push("back"),
      },
      addEventListener: (_: string, listener: () => void) => {
        did.push("listens");
        popped = listener;
      },
    });
    const { cameByHistory, followHistory, goBack, goTo, location } = await import("../../src/web/state/location.ts");
    followHistory();
    followHistory();
    expect(location.get()).toEqual({ path: "/rig", search: "?depth=7" });
    goTo("/days", "?at=books");
    expect([location.get(), cameByHistory()]).toEqual([{ path: "/days", search: "?at=books" }, false]);
    goTo("/deck", "", true);
    popped();
    expect([location.get(), cameByHistory()]).toEqual([{ path: "/rig", search: "?depth=7" }, true]);
    goBack();
    goTo("/days");
    expect(cameByHistory()).toBe(false);
    expect(did).toEqual(["listens", ["push", "/days?at=books"], ["replace", "/deck"], "back", ["push", "/days"]]);
    vi.unstubAllGlobals();
  });
});

describe("what is said aloud", () => {
  it("is the last of sentences in quick succession", async () => {
    vi.useFakeTimers();
    const { announce, announced } = await import("../../src/web/controls/announce.ts");
    announce("one");
    vi.advanceTimersByTime(600);
    announce("two");
    vi.advanceTimersByTime(600);
    expect(announced.get()).toBe("");
    vi.advanceTimersByTime(100);
    expect(announced.get()).toBe("two");
    vi.useRealTimers();
  });
});
