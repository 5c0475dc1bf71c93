/** The film of the place Publish: its fields in the address, its frames in order, its logs, and what a picture is cut into. */
import { afterEach, describe, expect, it, vi } from "vitest";
import type { BookCopy, LogHere } from "../../src/web/days/book-copy.ts";
import { publishCodec } from "../../src/web/publish/address.ts";
import { framesOf } from "../../src/web/publish/film/frames-of.ts";
import { logsOfPulls } from "../../src/web/publish/film/logs-of-pulls.ts";
import { opaqueOf } from "../../src/web/publish/film/opaque.ts";
import {
  BOUNDS,
  FILM_FIELDS,
  type FilmState,
  filmFields,
  readTyped,
  usualFilm,
} from "../../src/web/publish/film/state.ts";
import { rawLogsOf } from "../../src/web/publish/raw-logs.ts";
import { usualPublish } from "../../src/web/publish/state.ts";
import { refusalOf, stateOf } from "../support/address.ts";

describe("the film's fields", () => {
  const other: FilmState = {
    ...{ log: "l", rate: "50", mark: -3.5, markFrame: 7, cuts: "0..9", size: "640x360", corner: "above-right" },
    ...{ share: 0.5, loadU: 25 },
  };
  it("are what differs from the usual, and come back", () => {
    expect(filmFields(usualFilm)).toEqual({});
    expect(filmFields({ ...usualFilm, mark: 2 })).toEqual({ "film-mark": "2" });
    expect(Object.keys(filmFields(other)).sort()).toEqual([...FILM_FIELDS].sort());
    const state = { ...usualPublish, film: other };
    expect(stateOf(publishCodec, publishCodec.write(state))).toEqual(state);
    const rounded = { ...publishCodec.write(state), "film-markFrame": "7.4" };
    expect(stateOf(publishCodec, rounded).film.markFrame).toBe(7);
  });
  it("are taken within the ends a command takes", () => {
    const base = publishCodec.write(usualPublish);
    for (const [name, [least, most]] of Object.entries(BOUNDS)) {
      for (const value of [least, most])
        expect(refusalOf(publishCodec, { ...base, [`film-${name}`]: String(value) })).toEqual([]);
      for (const value of [least - 0.01, most + 1]) {
        const [line] = refusalOf(publishCodec, { ...base, [`film-${name}`]: String(value) });
        expect(line, `${name} ${value}`).toMatch(new RegExp(`^film-${name}: `));
      }
    }
    expect(BOUNDS).toEqual({ mark: [-1e6, 1e6], markFrame: [0, 1e8], share: [0.1, 0.9], loadU: [0, 1e9] });
  });
  it("typed are read, each with its own line where it is none", () => {
    const read = (more: Partial<FilmState>) => readTyped({ ...usualFilm, ...more });
    expect(read({ cuts: "0..250, 900..1200", size: "1280x720" })).toEqual({
      rate: { frames: 25n, per: 1n },
      cuts: [
        { from: 0, to: 250 },
        { from: 900, to: 1200 },
      ],
      size: { width: 1280, height: 720 },
      wrong: {},
    });
    expect(read({}).cuts).toBeNull();
    const none = read({ rate: "fast", cuts: "9..9", size: "1x1" });
    expect([none.rate, none.cuts, none.size]).toEqual([null, null, null]);
    expect(none.wrong.rate).toMatch(/^frames a second: "fast"/);
    expect(none.wrong.cuts).toMatch(/^stretches: "9..9"/);
    expect(none.wrong.size).toMatch(/^size of a frame: "1x1"/);
  });
});

describe("what goes out, in the address", () => {
  it("comes back, and is none where nothing is told", () => {
    const fields = publishCodec.write({
      ...usualPublish,
      sent: { ...usualPublish.sent, rawLogs: true, title: "T", words: "# W" },
    });
    expect(fields).toEqual({ title: "T", words: "# W", licence: "CC-BY-4.0", logs: "raw" });
    expect(stateOf(publishCodec, fields).sent).toEqual({
      ...usualPublish.sent,
      rawLogs: true,
      title: "T",
      words: "# W",
    });
    expect(publishCodec.read({})).toEqual({ kind: "none" });
    expect(stateOf(publishCodec, { by: "me" }).sent).toEqual({ ...usualPublish.sent, by: "me" });
  });
  it("is refused by name where it is none", () => {
    const base = publishCodec.write(usualPublish);
    expect(refusalOf(publishCodec, { ...base, with: "everything" })[0]).toMatch(/^with: "everything"/);
    expect(refusalOf(publishCodec, { ...base, licence: "mine" })[0]).toMatch(/^licence: "mine"/);
    expect(refusalOf(publishCodec, { ...base, logs: "cooked" })[0]).toMatch(/^logs: "cooked"/);
  });
});

describe("frames of a film", () => {
  const film = (asked: number[][]) =>
    ({
      frames: async (_: unknown, numbers: number[]) => {
        asked.push(numbers);
        return numbers.map((n) => ({ svg: `f${n}` }));
      },
    }) as never;
  const all = async (
    cuts: { from: number; to: number }[],
    stop = new AbortController(),
    stopAt = Number.POSITIVE_INFINITY,
  ) => {
    const asked: number[][] = [];
    const frames = [];
    for await (const frame of framesOf(film(asked), {} as never, cuts, stop.signal)) {
      frames.push(frame);
      if (frames.length === stopAt) stop.abort();
    }
    return { asked, frames };
  };
  it("come in order, twenty at once, numbered in film and clip", async () => {
    const { asked, frames } = await all([
      { from: 5, to: 27 },
      { from: 100, to: 101 },
    ]);
    expect(asked.map(({ length }) => length)).toEqual([20, 3]);
    expect(frames.map(({ number }) => number)).toEqual(Array.from({ length: 23 }, (_, i) => i));
    expect(frames.map(({ clipFrame }) => clipFrame)).toEqual([...Array.from({ length: 22 }, (_, i) => 5 + i), 100]);
    expect(frames[22]).toMatchObject({ svg: "f100" });
    expect((await all([{ from: 0, to: 20 }])).asked).toHaveLength(1);
  });
  it("end where they are stopped", async () => {
    const { frames, asked } = await all([{ from: 0, to: 50 }], new AbortController(), 20);
    expect([frames.length, asked.length]).toEqual([20, 1]);
    const stopped = new AbortController();
    stopped.abort();
    expect((await all([{ from: 0, to: 5 }], stopped)).asked).toEqual([]);
  });
});

describe("a transparent picture as two", () => {
  afterEach(() => vi.unstubAllGlobals());
  it("is its colours, and its alpha as brightness without colour", () => {
    const made: { bytes: Uint8Array; about: object }[] = [];
    vi.stubGlobal(
      "VideoFrame",
      class {
        constructor(bytes: ArrayBuffer | Uint8Array, about: object) {
          made.push({ bytes: new Uint8Array(bytes as ArrayBuffer), about });
        }
      },
    );
    const data = Uint8ClampedArray.from([1, 2, 3, 10, 4, 5, 6, 20, 7, 8, 9, 30]);
    const canvas = { width: 3, height: 1, getContext: () => ({ getImageData: () => ({ data }) }) };
    opaqueOf(canvas as never, 40, 20);
    expect(made[0]!.about).toEqual({ codedWidth: 3, codedHeight: 1, timestamp: 40, duration: 20, format: "RGBX" });
    expect([...made[0]!.bytes]).toEqual([...data]);
    expect(made[1]!.about).toMatchObject({ format: "I420", timestamp: 40, duration: 20 });
    // Three of brightness, then two planes of colour of 2 by 1.
    expect([...made[1]!.bytes]).toEqual([10, 20, 30, 128, 128, 128, 128]);
  });
});

describe("logs that can be told", () => {
  const log = (id: string, more: object = {}, content: object = {}) =>
    ({
      ...{ id, hidden: false, pull: "p", name: id, ...more },
      content: { rows: 3, from_s: 0, to_s: 2, channels: [{ name: "load", quantity: "load", unit: "N" }], ...content },
    }) as unknown as LogHere;
  const records = {
    pull: [
      { id: "p", hidden: false, number: 4 },
      { id: "q", hidden: true },
    ],
    anchor: [],
  };
  it("are of pulls that stand, hold a load, and are neither empty nor endless", () => {
    const logs = [
      log("good"),
      log("hidden", { hidden: true }),
      log("of a pull put aside", { pull: "q" }),
      log("of no pull", { pull: null }),
      log("of no load", {}, { channels: [{ name: "depth", quantity: "depth", unit: "m" }] }),
      log("empty", {}, { rows: 0 }),
      log("of no time", {}, { from_s: null }),
      log("endless", {}, { rows: 1e12 }),
    ];
    expect(logsOfPulls({ logs, records } as unknown as BookCopy).map(({ title, named }) => [title, named])).toEqual([
      ["Pull 4", "Pull 4: good"],
    ]);
  });
  it("go out raw of the series' pulls alone, and not more than a browser holds", async () => {
    vi.stubGlobal("fetch", async (input: RequestInfo | URL) => {
      const channels = new URL(String(input), "http://bench").searchParams.get("channels")!.split(",");
      const columns = [{ name: "t", part: "t" }, ...channels.map((name) => ({ name, part: "value" }))];
      const values = [[0, 1, 2], ...channels.map((_, k) => [10, 20, 30].map((value) => value + k))];
      return new Response(Float64Array.from(values.flat()).buffer, {
        headers: { "Rodebench-View": JSON.stringify({ kind: "readings", rows: 3, columns }) },
      });
    });
    const two = [
      { name: "load", quantity: "load", unit: "N" },
      { name: "depth", quantity: "depth", unit: "m" },
    ];
    const pulls = {
      pull: [
        { id: "p", hidden: false, series: "s" },
        { id: "o", hidden: false, series: null },
        { id: "q", hidden: true },
      ],
    };
    const logs = [
      log("1", {}, { channels: two }),
      log("2", { pull: "o" }),
      log("3", { pull: "q" }),
      log("4", { hidden: true }),
      log("5", { pull: null }),
      log("6", {}, { to_s: null }),
    ];
    const of = (series: string, from = logs) =>
      rawLogsOf({ records: pulls, series } as never, from, new AbortController().signal);
    const [raw, ...more] = await of("s");
    expect(more).toEqual([]);
    expect(raw).toMatchObject({ pull: "p", channels: two });
    expect([[...raw!.time], ...raw!.values.map((one) => [...one])]).toEqual([
      [0, 1, 2],
      [10, 20, 30],
      [11, 21, 31],
    ]);
    expect((await of("")).map(({ pull }) => pull)).toEqual(["p", "o"]);
    // Rows times channels and their time: 2 × 5 000 000 is the most.
    const large = (rows: number) => [log("1", {}, { rows, from_s: null })];
    expect(await of("s", large(5_000_000))).toEqual([]);
    await expect(of("s", large(5_000_001))).rejects.toThrow(/^logs: 10000002 values; at most 10000000/);
    vi.unstubAllGlobals();
  });
});
