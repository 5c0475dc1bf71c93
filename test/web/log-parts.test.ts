/** A log on its page: which channels, in which unit, where a mark stands, what is fetched for a window, what is drawn small. */
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { LogHere } from "../../src/web/days/book-copy.ts";
import { type Channel, dimensionOf, fieldOf, isLoad, shownIn, usualChannels } from "../../src/web/days/log/channels.ts";
import { clockText, isDated, timeStep, timeTicks } from "../../src/web/days/log/clock.ts";
import { BARS, fitting, MOMENTS, rowOf, STRIP, signOf } from "../../src/web/days/log/mark-sign.ts";
import { columnsOf } from "../../src/web/days/log/readings.ts";
import { fetchStretch, Stretches } from "../../src/web/days/log/stretches.ts";
import { keyed, panned, runsOut, serves, stretchFor, within, zoomed } from "../../src/web/days/log/window.ts";
import { placed } from "../../src/web/days/site-map/labels.ts";
import { clearMetre } from "../../src/web/days/site-map/use-sight.ts";
import { outlineOf } from "../../src/web/days/small-outline.ts";

const channel = (name: string, unit: string) => ({ name, unit }) as unknown as Channel;

describe("channels", () => {
  const all = [channel("depth", "m"), channel("load", "N"), channel("load-2", "N"), channel("load-3", "N")];
  it("measure what their unit says", () => {
    const dimensions = ["N", "m", "m/s", "rad", "s", "deg"].map((unit) => dimensionOf(channel("x", unit)));
    expect(dimensions).toEqual(["force", "length", "speed", "angle", "time", null]);
    expect(all.map(isLoad)).toEqual([false, true, true, true]);
  });
  it("are at first two loads, or the first of whatever there is", () => {
    expect(usualChannels(all)).toEqual(["load", "load-2"]);
    expect(usualChannels([channel("depth", "m"), channel("wind", "m/s")])).toEqual(["depth"]);
    expect(usualChannels([])).toEqual([]);
  });
  it("are shown in the unit of their field: loads share theirs", () => {
    expect(fieldOf(channel("load-2", "N"))).toBe("load");
    expect(fieldOf(channel("depth", "m"))).toBe("depth");
    const asked: unknown[] = [];
    const unit = (of: string) => (field: string, dimension: string) => {
      asked.push([field, dimension]);
      return of;
    };
    expect(shownIn(channel("load-2", "N"), unit("kN"))).toEqual({ unit: "kN", factor: 0.001 });
    // A knot is 1852 m an hour, exactly.
    expect(shownIn(channel("wind", "m/s"), unit("kn")).factor).toBeCloseTo(3600 / 1852, 12);
    expect(shownIn(channel("latitude", "deg"), unit("kN"))).toEqual({ unit: "deg", factor: 1 });
    expect(asked).toEqual([
      ["load", "force"],
      ["wind", "speed"],
    ]);
  });
});

describe("the clock of a log", () => {
  it("is a date's from 1973 on, either side", () => {
    expect([0, 99_999_999, 1e8, -1e8].map(isDated)).toEqual([false, false, true, true]);
  });
  const at = Date.UTC(2031, 4, 3, 9, 31, 7) / 1000;
  it("is as fine as the step", () => {
    expect(clockText(at + 0.5, 0.1)).toBe("09:31:07.5");
    expect(clockText(at + 0.25, 0.01)).toBe("09:31:07.25");
    expect(clockText(at + 0.001, 0.0001)).toBe("09:31:07.001");
    expect(clockText(at, 1)).toBe("09:31:07");
    expect(clockText(at, 60)).toBe("09:31");
    expect(clockText(at, 86_400)).toBe("2031-05-03");
    expect(clockText(-1e8, 1)).toBe("14:13:20");
  });
  it("counts from the start where there is no date", () => {
    expect(clockText(3723, 1)).toBe("1:02:03");
    expect(clockText(3599, 1)).toBe("59:59");
    expect(clockText(5.25, 0.01)).toBe("0:05.25");
    expect(clockText(-65, 1)).toBe("−1:05");
  });
  it("has steps people count in", () => {
    expect(timeStep(100, 10)).toBe(10);
    expect(timeStep(101, 10)).toBe(15);
    expect(timeStep(3600, 6)).toBe(600);
    expect(timeStep(1e9, 2)).toBe(604_800);
    expect(timeTicks(1, 31, 3)).toEqual({ at: [10, 20, 30], step: 10 });
    expect(timeTicks(10, 30, 2)).toEqual({ at: [10, 20, 30], step: 10 });
    // However long the log, no more marks than two hundred: four hundred weeks have them all within the first half.
    expect(timeTicks(0, 400 * 604_800, 1).at).toHaveLength(200);
  });
});

describe("marks in their strip", () => {
  it("stand apart, moments over stretches, within the strip", () => {
    expect(rowOf({ from: 1, to: 2 })).toBe(BARS);
    expect(rowOf({ from: 1, to: 1 })).toBe(MOMENTS);
    expect(BARS - MOMENTS).toBeGreaterThan(20);
    expect(BARS).toBeLessThan(STRIP);
  });
  it("say as much as fits: all, without the ±, the value, the kind, nothing", () => {
    const text = "plateau 2626.3 ± 8.1 N";
    // 7.6 px a letter, and 12 px beside them.
    const room = (letters: number) => 12 + 7.6 * letters + 0.1;
    expect(fitting(text, room(22))).toBe(text);
    expect(fitting(text, room(21))).toBe("plateau 2626.3 N");
    expect(fitting(text, room(16))).toBe("plateau 2626.3 N");
    expect(fitting(text, room(15))).toBe("2626.3 N");
    expect(fitting(text, room(7))).toBe("plateau");
    expect(fitting(text, room(6))).toBe("");
  });
  it("are told apart by shape", () => {
    const kinds = ["peak", "spike", "easing", "drag", "reversal", "note"];
    expect(new Set(kinds.map(signOf)).size).toBe(kinds.length);
  });
});

describe("the window", () => {
  const whole = { from: 100, to: 200 };
  const at = { from: 120, to: 140 };
  it("moves by a share of its width, and stays within the log", () => {
    expect(panned(at, 0.5, whole)).toEqual({ from: 130, to: 150 });
    expect(panned(at, -2, whole)).toEqual({ from: 100, to: 120 });
    expect(panned(at, 9, whole)).toEqual({ from: 180, to: 200 });
    expect(within({ from: 0, to: 500 }, whole)).toEqual(whole);
    const narrowest = within({ from: 150, to: 150 }, whole);
    expect(narrowest.from).toBeCloseTo(149.99, 9);
    expect(narrowest.to).toBeCloseTo(150.01, 9);
    expect(within({ from: 5, to: 6 }, { from: 5, to: 5.01 })).toEqual({ from: 5, to: 5.01 });
  });
  it("comes nearer about what is pointed at", () => {
    expect(zoomed(at, 2, 0.5, whole)).toEqual({ from: 125, to: 135 });
    expect(zoomed(at, 2, 0, whole)).toEqual({ from: 120, to: 130 });
    expect(zoomed(at, 2, 1, whole)).toEqual({ from: 130, to: 140 });
    expect(zoomed(at, 0.5, 0.5, whole)).toEqual({ from: 110, to: 150 });
  });
  it("is moved by keys", () => {
    const key = (name: string, far = false) => keyed(name, at, whole, far);
    expect(key("ArrowLeft")).toEqual({ from: 118, to: 138 });
    expect(key("ArrowRight")).toEqual({ from: 122, to: 142 });
    expect(key("ArrowRight", true)).toEqual({ from: 130, to: 150 });
    expect(key("PageUp")).toEqual({ from: 100, to: 120 });
    expect(key("PageDown")).toEqual({ from: 140, to: 160 });
    expect(key("Home")).toEqual({ from: 100, to: 120 });
    expect(key("End")).toEqual({ from: 180, to: 200 });
    expect(key("0")).toEqual(whole);
    expect(key("x")).toBeNull();
    for (const [near, far] of [
      ["+", "-"],
      ["=", "_"],
    ]) {
      expect(key(near!)!.to - key(near!)!.from).toBeCloseTo(20 / 1.5, 9);
      expect(key(far!)!.to - key(far!)!.from).toBeCloseTo(30, 9);
      expect(key(near!)!.to + key(near!)!.from).toBeCloseTo(260, 9);
      expect(key(far!)!.to + key(far!)!.from).toBeCloseTo(260, 9);
    }
  });
  it("is fetched with as much again on either side, and anew before it runs out", () => {
    expect(stretchFor(at, whole)).toEqual({ from: 100, to: 160 });
    expect(stretchFor({ from: 180, to: 195 }, whole)).toEqual({ from: 165, to: 200 });
    const fetched = { from: 110, to: 160 };
    expect(serves(fetched, at, { from: 111, to: 131 }, whole)).toBe(true);
    expect(serves(fetched, at, { from: 109, to: 129 }, whole)).toBe(false);
    expect(serves(fetched, at, { from: 145, to: 165 }, whole)).toBe(false);
    // About as fine as asked: from 1.4 times nearer to 0.3 times.
    expect(serves(fetched, at, { from: 120, to: 134 }, whole)).toBe(false);
    expect(serves(fetched, at, { from: 120, to: 135 }, whole)).toBe(true);
    expect(serves({ from: 100, to: 200 }, at, { from: 100, to: 168 }, whole)).toBe(false);
    expect(serves({ from: 100, to: 200 }, at, { from: 100, to: 164 }, whole)).toBe(true);
    // 0.35 of a width of 20 s is 7 s.
    expect(runsOut(fetched, { from: 116, to: 136 }, whole)).toBe(true);
    expect(runsOut(fetched, { from: 118, to: 138 }, whole)).toBe(false);
    expect(runsOut(fetched, { from: 134, to: 154 }, whole)).toBe(true);
    expect(runsOut({ from: 100, to: 200 }, { from: 100, to: 120 }, whole)).toBe(false);
    expect(runsOut({ from: 100, to: 200 }, { from: 180, to: 200 }, whole)).toBe(false);
  });
});

/** A log of ten readings a second, times and loads by rule, served as the book's computer serves it. */
let asked: { from: number; to: number; points: number; channels: string[] }[] = [];
const RATE = 10;
const loadAt = (t: number) => 1000 + Math.round(t * RATE);
let fails: Response | Error | null = null;
beforeEach(() => {
  asked = [];
  fails = null;
  vi.stubGlobal("fetch", async (input: RequestInfo | URL) => {
    if (fails instanceof Error) throw fails;
    if (fails !== null) return fails.clone();
    const query = new URL(String(input), "http://bench").searchParams;
    const [from, to, points] = ["from_s", "to_s", "points"].map((name) => Number(query.get(name))) as [
      number,
      number,
      number,
    ];
    const channels = query.get("channels")!.split(",");
    asked.push({ from, to, points, channels });
    const first = Math.ceil(from * RATE - 1e-9);
    const rows = Math.floor(to * RATE + 1e-9) - first + 1;
    const times = Array.from({ length: rows }, (_, i) => (first + i) / RATE);
    if (rows <= points) {
      const columns = [{ name: "t", part: "t" }, ...channels.map((name) => ({ name, part: "value" }))];
      const values = [times, ...channels.map((_, k) => times.map((t) => loadAt(t) * 10 ** k))];
      return answer({ kind: "readings", rows, columns }, values);
    }
    const columns = [
      { name: "", part: "from" },
      { name: "", part: "to" },
      ...channels.flatMap((name) => [
        { name, part: "min" },
        { name, part: "max" },
      ]),
    ];
    return answer({ kind: "bands", rows: 1, columns }, [
      [from],
      [to],
      ...channels.flatMap(() => [[loadAt(from)], [loadAt(to)]]),
    ]);
  });
});
afterEach(() => vi.unstubAllGlobals());
const answer = (head: object, columns: number[][]) =>
  new Response(Float64Array.from(columns.flat()).buffer, { headers: { "Rodebench-View": JSON.stringify(head) } });
const log = (rows: number) =>
  ({ id: "l", content: { rows, from_s: 0, to_s: (rows - 1) / RATE } }) as unknown as LogHere;
const never = new AbortController().signal;

describe("readings of a window", () => {
  it("are each taken once, in order, with their own channel, however many answers they come in", async () => {
    const { time, columns } = await columnsOf(log(50_001), ["load", "angle"], { from: 0, to: 5000 }, never);
    expect(time).toHaveLength(50_001);
    expect(time.every((t, i) => Math.abs(t - i / RATE) < 1e-9)).toBe(true);
    expect(columns.get("load")!.every((load, i) => load === 1000 + i)).toBe(true);
    expect(columns.get("angle")!.every((load, i) => load === 10 * (1000 + i))).toBe(true);
    // A fifth more than is expected, twenty thousand at a time.
    expect(asked.map(({ from, to }) => [from, to])).toEqual([
      ...[
        [0, 1250],
        [1250, 2500],
        [2500, 3750],
        [3750, 5000],
      ],
    ]);
    expect(asked.every(({ points }) => points === 20_000)).toBe(true);
  });
  it("are asked for in halves where one answer cannot hold them", async () => {
    // The log says it has few rows; it has grown meanwhile.
    const few = { id: "l", content: { rows: 10, from_s: 0, to_s: 5000 } } as unknown as LogHere;
    const { time } = await columnsOf(few, ["load"], { from: 0, to: 5000 }, never);
    expect(time).toHaveLength(50_001);
    expect(new Set(time).size).toBe(50_001);
  });
  it("stay within the log", async () => {
    const { time } = await columnsOf(log(101), ["load"], { from: -5, to: 3 }, never);
    expect([time[0], time.at(-1), time.length]).toEqual([0, 3, 31]);
    expect(asked[0]).toMatchObject({ from: 0, to: 3 });
    const late = await columnsOf(log(101), ["load"], { from: 8, to: 99 }, never);
    expect([late.time[0], late.time.at(-1)]).toEqual([8, 10]);
  });
});

describe("what a page holds of a log", () => {
  const page = (rows: number) => {
    const told: (string | null)[] = [];
    const whole = { from: 0, to: (rows - 1) / RATE };
    return { told, stretches: new Stretches("l", { whole, rows }, ["load"], (trouble) => told.push(trouble)), whole };
  };
  const settled = async () => {
    for (let i = 0; i < 30; i++) await new Promise((done) => setTimeout(done, 0));
  };
  it("of a short log is every reading, asked for once", async () => {
    const { stretches, told } = page(4001);
    stretches.want({ from: 10, to: 20 }, 500);
    await settled();
    expect(stretches.coarse).toMatchObject({ readings: true });
    expect(stretches.coarse!.from).toHaveLength(4001);
    expect(stretches.fine).toBeNull();
    expect(told).toEqual([null]);
    const { length } = asked;
    stretches.want({ from: 100, to: 120 }, 500);
    await settled();
    expect(asked).toHaveLength(length);
  });
  it("of a longer one is the whole coarsely and the neighbourhood of the window finely", async () => {
    const { stretches } = page(100_001);
    stretches.want({ from: 1000, to: 1100 }, 500);
    await settled();
    expect(asked[0]).toMatchObject({ from: 0, to: 10_000, points: 2400, channels: ["load"] });
    expect(stretches.fine!.from[0]).toBeGreaterThanOrEqual(900);
    expect(stretches.fine!.to.at(-1)).toBeLessThanOrEqual(1200);
    // Three times the window: three times the points of the window at most.
    expect(stretches.fine!.from.length).toBeLessThanOrEqual(1500);
    expect(stretches.fine!.from.length).toBeGreaterThan(1000);
    const { length } = asked;
    stretches.want({ from: 1010, to: 1110 }, 500);
    await settled();
    expect(asked).toHaveLength(length);
    stretches.want({ from: 1190, to: 1290 }, 500);
    await settled();
    expect(stretches.fine!.to.at(-1)).toBeCloseTo(1390, 0);
    expect(asked.length).toBeGreaterThan(length);
  });
  it("of a wide window comes as the server's own bands, at most twenty thousand", async () => {
    const { stretches } = page(1_000_001);
    stretches.want({ from: 0, to: 50_000 }, 12_000);
    await settled();
    expect(asked.at(-1)).toMatchObject({ from: 0, to: 100_000, points: 20_000 });
  });
  it("says in one line why nothing comes, and comes once it can", async () => {
    const { stretches, told } = page(4001);
    fails = new TypeError("no network");
    stretches.want({ from: 10, to: 20 }, 500);
    await settled();
    expect(told).toEqual(["the readings are in the book, which is out of reach now"]);
    fails = Response.json({ error: { place: "log", given: "l", expected: "one of the book" } }, { status: 404 });
    stretches.want({ from: 10, to: 20 }, 500);
    await settled();
    expect(told.at(-1)).toBe("log: l; one of the book");
    fails = null;
    stretches.want({ from: 10, to: 20 }, 500);
    await settled();
    expect(told.at(-1)).toBeNull();
    expect(stretches.coarse).not.toBeNull();
  });
  it("is nothing more once it is closed", async () => {
    const { stretches, told } = page(100_001);
    stretches.want({ from: 10, to: 20 }, 500);
    stretches.close();
    await settled();
    expect(stretches.fine).toBeNull();
    expect(told).toEqual([]);
  });
  it("is asked by its stretch, points and channels", async () => {
    await fetchStretch("l", { from: 1, to: 2 }, 77, ["load", "depth"]);
    expect(asked).toEqual([{ from: 1, to: 2, points: 77, channels: ["load", "depth"] }]);
  });
});

describe("a small trace", () => {
  const bands = (min: number[], max: number[]) => ({
    readings: false,
    from: Float64Array.from(min, (_, i) => 10 * i),
    to: Float64Array.from(min, (_, i) => 10 * i + 10),
    columns: new Map([["load", { min: Float64Array.from(min), max: Float64Array.from(max) }]]),
  });
  it("runs over the greatest and back along the least, no load at the foot", () => {
    // 120 by 26 px, a pixel free above and below; bands of 10 s over 20 s stand at a quarter and three quarters.
    expect(outlineOf(bands([0, 50], [100, 75]), "load")).toBe("M30.0 1.0L90.0 7.0L90.0 13.0L30.0 25.0Z");
  });
  it("goes below where loads are below, over what is missing, and is none where nothing is", () => {
    expect(outlineOf(bands([-100, 0], [100, 0]), "load")).toBe("M30.0 1.0L90.0 13.0L90.0 13.0L30.0 25.0Z");
    expect(outlineOf(bands([Number.NaN, 50], [Number.NaN, 100]), "load")).toBe("M90.0 1.0L90.0 13.0Z");
    expect(outlineOf(bands([0, 0], [0, 0]), "load")).toBe("");
    expect(outlineOf(bands([0, 1], [1, 2]), "depth")).toBe("");
  });
});

describe("labels of sites", () => {
  const point = (name: string, x: number, y: number) => ({ site: { name }, x, y }) as never;
  const labels = (points: never[], width = 400) =>
    placed(points as never, width).map(({ label, left }: { label: string | null; left: boolean }) => [label, left]);
  it("stand right of their site, or left of it where there is no room", () => {
    expect(labels([point("Ebb Cove", 100, 200)])).toEqual([["Ebb Cove", false]]);
    expect(labels([point("Ebb Cove", 380, 200)])).toEqual([["Ebb Cove", true]]);
    // Eight letters of 8.6 px and 16 px beside them end 11 px from the edge: 8 px stay free, 44 px above, where north is told.
    expect(labels([point("Ebb Cove", 304, 200), point("Ebb Cove", 304, 20)])).toEqual([
      ["Ebb Cove", false],
      ["Ebb Cove", true],
    ]);
  });
  it("are shortened to their room, never below three letters", () => {
    expect(labels([point("A very long name of a cove", 20, 200)], 150)).toEqual([["A very long…", false]]);
    expect(labels([point("Abcdefgh", 10, 200)], 40)).toEqual([["Abc…", false]]);
  });
  it("give way to one that stands there already", () => {
    expect(labels([point("Ebb", 100, 200), point("Flow", 110, 220), point("Far", 110, 240)])).toEqual([
      ["Ebb", false],
      [null, false],
      ["Far", false],
    ]);
  });
});

describe("the scale of the map", () => {
  it("stays between 2 cm and 60 km a pixel", () => {
    expect([0.001, 0.02, 5, 60_000, 1e6].map(clearMetre)).toEqual([0.02, 0.02, 5, 60_000, 60_000]);
  });
});
