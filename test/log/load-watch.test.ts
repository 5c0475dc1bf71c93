/** What a load's readings show as they pass: jumps, a top that looks cut off, numbers that stand for none; series set by hand. */
import { describe, expect, test } from "vitest";
import { guessLive, type LiveGuess, liveChannels, liveLines } from "../../src/log/live-lines.ts";
import { LoadWatch, meansNone, standsForNone } from "../../src/log/load-watch.ts";
import { arePlaces } from "../../src/log/place-column.ts";
import { readPlaceText } from "../../src/log/place-text.ts";

/** Ten readings that rise by 10 N from 100 N, lines from 2 on, then these. */
function watched(more: readonly number[], calm = 10): LoadWatch {
  const watch = new LoadWatch();
  const values = Float64Array.from([...Array.from({ length: calm }, (_, i) => 100 + 10 * i), ...more]);
  watch.scan(
    values,
    values.length,
    Int32Array.from(values, (_, i) => i + 2),
  );
  return watch;
}
const jumps = (watch: LoadWatch) => watch.seen("load").filter(({ kind }) => kind === "jumps");

describe("a jump away and back", () => {
  test("is told with its line and the load at its tip, and counted", () => {
    expect(jumps(watched([500, 200, 210]))).toEqual([
      { kind: "jumps", channel: "load", count: 1, line: 12, newtons: 500 },
    ]);
    // Two of them: the first is the one told of. Its tip is the farthest it went.
    expect(jumps(watched([500, 520, 200, 210, 220, 700, 230, 240]))).toEqual([
      { kind: "jumps", channel: "load", count: 2, line: 12, newtons: 520 },
    ]);
    // Down, too.
    expect(jumps(watched([-300, 200]))).toMatchObject([{ newtons: -300 }]);
  });
  test("takes a few readings: one that stays away is the load's own way, as is one that sinks back slowly", () => {
    expect(jumps(watched([500, 510, 505, 500, 500, 200]))).toHaveLength(1);
    expect(jumps(watched([500, 510, 505, 500, 500, 500, 200]))).toEqual([]);
    expect(jumps(watched([500, 440, 380, 320, 260, 200]))).toEqual([]);
  });
  test("stands twelve usual steps off, and a fifth of the largest load so far", () => {
    // The usual step is 10 N, the largest load 190 N: 120 N are twelve steps.
    expect(jumps(watched([320, 200]))).toHaveLength(1);
    expect(jumps(watched([305, 200]))).toEqual([]);
    // Once a load of 5020 N was held, 780 N are a step of no account; 1080 N are more than a fifth of it.
    const heldThen = (tip: number) => {
      const steady = [200, 210, 5000, 5000, 5000, 5000, 5000, 5000, 5000, 5010, 5020];
      return jumps(watched([...steady, tip, 5020]));
    };
    expect(heldThen(5800)).toEqual([]);
    expect(heldThen(6100)).toMatchObject([{ count: 1, newtons: 6100 }]);
  });
  test("is known only once the usual step is: not among the first readings", () => {
    expect(jumps(watched([500, 190], 9))).toHaveLength(1);
    expect(jumps(watched([500, 180], 8))).toEqual([]);
  });
  test("passes over readings that are none", () => {
    expect(jumps(watched([Number.NaN, 500, Number.NaN, 200]))).toMatchObject([{ count: 1, line: 13 }]);
  });
});

describe("a top as if cut off", () => {
  const cut = (watch: LoadWatch) => watch.seen("load").filter(({ kind }) => kind === "cutOff");
  test("is five or more readings on end at the very top, told by its first line", () => {
    expect(cut(watched([300, 300, 300, 300, 300, 250]))).toEqual([
      { kind: "cutOff", channel: "load", count: 5, line: 12, newtons: 300 },
    ]);
    expect(cut(watched([300, 300, 300, 300, 250]))).toEqual([]);
    // The longest stay counts, not the last.
    expect(cut(watched([300, 300, 300, 300, 300, 300, 250, 300, 300]))).toMatchObject([{ count: 6 }]);
  });
  test("stands more than three times longer than at any other value near it", () => {
    // Two on end at 280: 6 are not more than three times as many, 7 are.
    const at = (n: number) => [280, 280, ...new Array<number>(n).fill(300), 250];
    expect(cut(watched(at(6)))).toEqual([]);
    expect(cut(watched(at(7)))).toMatchObject([{ count: 7 }]);
    // Far below the top it says nothing.
    const then = (value: number) => [300, 300, 300, 300, 300, 250, value, value, value];
    expect(cut(watched(then(140)))).toHaveLength(1);
    expect(cut(watched(then(160)))).toEqual([]);
    // What was the top is a value below it now.
    expect(cut(watched([290, 290, 300, 300, 300, 300, 300, 300, 250]))).toEqual([]);
  });
  test("is none of what never pulled", () => {
    const watch = new LoadWatch();
    watch.scan(new Float64Array(20), 20, new Int32Array(20));
    expect(watch.seen("load")).toEqual([]);
  });
});

test("what was seen goes on where it was left", () => {
  const values = Float64Array.of(500, 510, 200, 300, 300, 300, 300, 300, 250, 700, 240, 230);
  const lines = Int32Array.from(values, (_, i) => 12 + i);
  const whole = watched([...values]);
  for (let cut = 1; cut < values.length; cut++) {
    const first = watched([...values.subarray(0, cut)]);
    const state = JSON.parse(JSON.stringify(first.state())) as (number | null)[];
    const rest = new LoadWatch(state);
    rest.scan(values.subarray(cut), values.length - cut, lines.subarray(cut));
    expect(rest.seen("load"), `cut after ${cut}`).toEqual(whole.seen("load"));
    expect(rest.state()).toEqual(whole.state());
  }
  expect(new LoadWatch(null).state()).toEqual(new LoadWatch().state());
});

describe("a number that stands for no reading", () => {
  test.each([32767, -32768, 65535, 2147483647, -999, 9999, -9999, 99999, 9999.9, 999.99, 1e31, -1e31])(
    "%s does",
    (value) => {
      expect(meansNone(value)).toBe(true);
      expect(standsForNone(value, 0)).toBe(true);
    },
  );
  test.each([999, 998.9, 9989, 32766, 99.99, 0, -998, 1e29])("%s does not", (value) => {
    expect(meansNone(value)).toBe(false);
    expect(standsForNone(value, 0)).toBe(false);
  });
  test("does not where the load climbs through it", () => {
    expect(standsForNone(9999, 5000)).toBe(false);
    expect(standsForNone(9999, 4999)).toBe(true);
    expect(standsForNone(-9999, -5001)).toBe(false);
    expect(standsForNone(9999, Number.NaN)).toBe(true);
  });
});

describe("lines of an instrument as they come", () => {
  const linesOf = (guess: LiveGuess) => {
    if (guess.kind !== "lines") throw new Error("asked");
    return { channels: liveChannels(guess.plan).map(({ name }) => name), read: liveLines(guess.plan) };
  };
  test("of a table: a reading a row, in the unit of its column, and what is none is told", () => {
    const first = ["load (kN)", "1.20", "1.31", "1.42", "1.40", "1.38", "1.52", "1.49"];
    const { channels, read } = linesOf(guessLive(first, {}, "cell"));
    expect(channels).toEqual(["load"]);
    expect(read("2.5")).toEqual({ kind: "reading", values: Float64Array.of(2500) });
    expect(read("")).toEqual({ kind: "nothing" });
    expect(read("off")).toMatchObject({ kind: "trouble", value: "off" });
    expect(read("2.6")).toEqual({ kind: "reading", values: Float64Array.of(2600) });
  });
  test("of sentences: what stands in them, nothing of those it does not know, and the wrong ones", () => {
    // Sums by hand: XOR of what stands between $ and *.
    const sum = (body: string): string =>
      [...body]
        .reduce((x, sign) => x ^ sign.charCodeAt(0), 0)
        .toString(16)
        .toUpperCase()
        .padStart(2, "0");
    const sentence = (body: string): string => `$${body}*${sum(body)}`;
    const wind = sentence("WIMWV,045.0,R,12.0,M,A");
    const { channels, read } = linesOf(guessLive([wind, wind, wind], {}, "mast"));
    const found = read(sentence("WIMWV,090.0,R,10.5,M,A"));
    if (found.kind !== "reading") throw new Error(found.kind);
    expect(found.values[channels.indexOf("windSpeed")]).toBe(10.5);
    expect(found.values[channels.indexOf("windAngle")]).toBeCloseTo(Math.PI / 2, 12);
    expect([...found.values].filter((value) => !Number.isNaN(value))).toHaveLength(2);
    expect(read(sentence("GPZZZ,1"))).toEqual({ kind: "nothing" });
    expect(read("")).toEqual({ kind: "nothing" });
    expect(read("hello")).toMatchObject({ kind: "trouble", value: "hello" });
    expect(read(`${wind.slice(0, -2)}00`).kind).toBe("trouble");
  });
  test("of deltas: what its paths say, in their units", () => {
    const delta = (path: string, value: number): string =>
      JSON.stringify({ updates: [{ $source: "n2k", values: [{ path, value }] }] });
    const first = [1, 2, 3].map((value) => delta("environment.wind.speedApparent", value));
    const { channels, read } = linesOf(guessLive(first, {}, "server"));
    const found = read(delta("environment.wind.speedApparent", 7.25));
    if (found.kind !== "reading") throw new Error(found.kind);
    expect(found.values[channels.indexOf("windSpeed")]).toBe(7.25);
    const angle = read(delta("environment.wind.angleApparent", -0.5));
    if (angle.kind !== "reading") throw new Error(angle.kind);
    // To port counts below zero there, and clockwise here.
    expect(angle.values[channels.indexOf("windAngle")]).toBeCloseTo(2 * Math.PI - 0.5, 12);
    expect(read(delta("electrical.batteries.1.voltage", 12)).kind).toBe("nothing");
    expect(read("{").kind).toBe("trouble");
    // Numbers beyond all measure are left out of the row.
    const wild = read(delta("environment.wind.speedApparent", 1e13));
    if (wild.kind !== "reading") throw new Error(wild.kind);
    expect(wild.values.every(Number.isNaN)).toBe(true);
  });
  test("of no instrument are refused with the first of them", () => {
    expect(() => guessLive(["", "good morning"], {}, "port")).toThrow(/port.*good morning.*are expected/);
  });
});

describe("places as people write them", () => {
  test.each<[string, "text" | "degreesMinutes", string, number, number]>([
    ["50°12.345'N", "text", "", 90, 50 + 12.345 / 60],
    ["N 50 12.345", "text", "", 90, 50 + 12.345 / 60],
    ["50-12.3S", "text", "", 90, -(50 + 12.3 / 60)],
    ["50:12:36", "text", "", 90, 50.21],
    ["50.1234 W", "text", "", 180, -50.1234],
    ["-4.5", "text", "", 180, -4.5],
    ["4.5", "text", "W", 180, -4.5],
    ["4.5", "text", "E", 180, 4.5],
    ["5012.345", "degreesMinutes", "N", 90, 50 + 12.345 / 60],
    ["00412.5", "degreesMinutes", "W", 180, -(4 + 12.5 / 60)],
    ["180", "text", "", 180, 180],
  ])("%s as %s, side %j", (text, form, side, most, value) => {
    expect(readPlaceText(text, form, side, ".", most)).toBeCloseTo(value, 9);
  });
  test.each<[string, "text" | "degreesMinutes", string, number]>([
    ["50°60'N", "text", "", 90],
    ["50°12'60\"N", "text", "", 90],
    ["50.5 12", "text", "", 90],
    ["50 12.5 30", "text", "", 90],
    ["90.1", "text", "", 90],
    ["180.1", "text", "", 180],
    ["50 E", "text", "", 90],
    ["50", "text", "E", 90],
    ["50 N", "text", "", 180],
    ["north", "text", "", 90],
    ["5060.0", "degreesMinutes", "N", 90],
  ])("%s as %s is none", (text, form, side, most) => {
    expect(readPlaceText(text, form, side, ".", most)).toBeNaN();
  });
  test("with decimal commas, and half of a column's cells at least", () => {
    expect(readPlaceText("50,25", "text", "", ",", 90)).toBe(50.25);
    expect(arePlaces("latitude", ["50°N", "51°N", "x", "y"], ".")).toBe(true);
    expect(arePlaces("latitude", ["50°N", "x", "y"], ".")).toBe(false);
    expect(arePlaces("latitude", ["120", "130"], ".")).toBe(false);
    expect(arePlaces("longitude", ["120", "130"], ".")).toBe(true);
    expect(arePlaces("latitude", [], ".")).toBe(false);
  });
});
