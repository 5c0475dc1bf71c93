/** What of a book's logs a pull is judged by, and what people's corrections say of it. */
import { describe, expect, it } from "vitest";
import {
  type BookLog,
  type BookMark,
  clockBetween,
  correctionsOf,
  effectiveMarks,
  kindOfChannel,
  loadChannelOf,
  logsBeside,
  MOST_LOG_READINGS,
  placeChannelsOf,
  trackApartOf,
  trackLogOf,
  trackSpanOf,
} from "../../src/study/index.ts";

const channel = (name: string, quantity = "", unit = "") => ({ name, quantity, unit });
const places = [channel("latitude", "latitude", "deg"), channel("longitude", "longitude", "deg")];

describe("a channel of a log", () => {
  it("is known by its name, with or without a number behind it, and a load also by what it measures", () => {
    for (const kind of ["load", "latitude", "longitude", "heading", "headingTrue"]) {
      expect(kindOfChannel(channel(kind))).toBe(kind);
      expect(kindOfChannel(channel(`${kind}-2`))).toBe(kind);
      expect(kindOfChannel(channel(`${kind}2`))).toBeNull();
    }
    expect(kindOfChannel(channel("pin", "force", "kN"))).toBe("load");
    expect(kindOfChannel(channel("pin", "pull", "N"))).toBe("load");
    expect(kindOfChannel(channel("depth", "length", "m"))).toBeNull();
    expect(kindOfChannel(channel("latitude", "force", "N"))).toBe("latitude");
  });

  it("of the load is the first in newtons; of each kind of place the first", () => {
    expect(loadChannelOf([channel("depth", "length", "m"), channel("a", "", "N"), channel("b", "", "N")])).toBe("a");
    expect(loadChannelOf([channel("load", "force", "kN")])).toBeUndefined();
    expect(placeChannelsOf([channel("heading"), channel("load"), ...places, channel("latitude-2")])).toEqual([
      { name: "latitude", kind: "latitude" },
      { name: "longitude", kind: "longitude" },
      { name: "heading", kind: "heading" },
    ]);
  });
});

describe("another log of a pull", () => {
  const log = (id: string, from_s: number | null, to_s: number | null, more: Partial<BookLog> = {}): BookLog => ({
    ...{ id, hidden: false, pull: "p", channels: [channel("load", "force", "N")], clockOffset_s: null, from_s, to_s },
    ...more,
  });
  const own = log("own", 100, 200);

  it("ran beside it where their times overlap, the other's moved by its clock", () => {
    const logs = [
      own,
      log("within", 120, 130),
      log("before", 50, 100),
      log("into", 50, 101),
      log("after", 200, 300),
      log("out", 199, 300),
      log("hidden", 120, 130, { hidden: true }),
      log("another's", 120, 130, { pull: "q" }),
      log("empty", null, null),
      log("half", 120, null),
    ];
    const ids = (clock?: number) => logsBeside(own, logs, clock).map(({ id }) => id);
    expect(ids()).toEqual(["within", "into", "out"]);
    // Sixty seconds later on the clock of the load: before is 110 to 160, after 260 on.
    expect(ids(60)).toEqual(["within", "before", "into"]);
    expect(ids(-60)).toEqual(["within", "after", "out"].filter((id) => id !== "within"));
    expect(logsBeside({ ...own, pull: null }, logs)).toEqual([]);
  });

  it("tells where the boat was when it has both places, the one that covers most, unless the log has them itself", () => {
    const track = (id: string, from: number, to: number, channels = places) => log(id, from, to, { channels });
    const short = track("short", 100, 120);
    const long = track("long", 150, 300);
    const half = track("half", 0, 300, places.slice(0, 1));
    const otherHalf = track("other half", 0, 300, places.slice(1));
    expect(trackLogOf(own, [own, half, otherHalf, short, long])?.id).toBe("long");
    expect(trackLogOf(own, [long, short])?.id).toBe("long");
    // Moved back by 120 s: long is 30 to 180, short lies before.
    expect(trackLogOf(own, [short, track("late", 225, 500)], -120)?.id).toBe("late");
    expect(trackLogOf(own, [own, half, otherHalf])).toBeNull();
    const itself = track("itself", 100, 200);
    expect(trackLogOf(itself, [long, itself])?.id).toBe("itself");
    expect(trackSpanOf({ from: 100, to: 200 }, 7)).toEqual({ from: 33, to: 253 });
    expect(trackSpanOf({ from: 100, to: 200 })).toEqual({ from: 40, to: 260 });
  });

  it("runs by its own clock's offset, less that of the log it is laid beside", () => {
    const track = (from: number, to: number, clockOffset_s: number | null = null) =>
      log("track", from, to, { channels: places, clockOffset_s });
    expect(trackLogOf(own, [track(1100, 1200)])).toBeNull();
    expect(trackLogOf(own, [track(1100, 1200, -1000)])?.id).toBe("track");
    expect(trackLogOf({ ...own, clockOffset_s: 1000 }, [track(1100, 1200)])?.id).toBe("track");
    expect(trackLogOf({ ...own, clockOffset_s: 1000 }, [track(1100, 1200, -1000)])).toBeNull();
    expect(trackLogOf(own, [track(1100, 1200, -500)], -500)?.id).toBe("track");
    expect(clockBetween({ clockOffset_s: 3 }, { clockOffset_s: -4 })).toBe(-7);
  });

  it("is apart where it has the boat's places and ran at another time: the nearest, by how long", () => {
    const track = (id: string, from: number | null, to: number | null, more: Partial<BookLog> = {}) =>
      log(id, from, to, { channels: places, ...more });
    expect(trackApartOf(own, [own, track("a", 260, 400), track("b", 10, 30)])).toEqual({ log: "a", seconds: 60 });
    expect(trackApartOf(own, [own, track("a", 290, 400), track("b", 10, 30)])).toEqual({ log: "b", seconds: -70 });
    expect(trackApartOf(own, [track("a", 260, 400)], -50)).toEqual({ log: "a", seconds: 10 });
    expect(trackApartOf(own, [track("a", 260, 400, { clockOffset_s: -300 })])?.seconds).toBe(0);
    // One that overlaps, one that is put aside, one of another pull, one that is empty, one without places: none is apart.
    for (const one of [
      track("a", 150, 400),
      track("a", 260, 400, { hidden: true }),
      track("a", 260, 400, { pull: "q" }),
      track("a", null, null),
      log("a", 260, 400),
    ])
      expect(trackApartOf(own, [own, one])).toBeNull();
    expect(trackApartOf({ ...own, channels: [...own.channels, ...places] }, [track("a", 260, 400)])).toBeNull();
    expect(trackApartOf({ ...own, pull: null }, [track("a", 260, 400, { pull: null })])).toBeNull();
  });

  it("of more than 400 000 readings is not reduced unasked", () => expect(MOST_LOG_READINGS).toBe(400_000));
});

describe("what people's marks say to the reduction", () => {
  const mark = (id: string, over: Partial<BookMark> = {}): BookMark => ({
    ...{ id, hidden: false, log: "l", kind: "plateau", from_s: 5, to_s: 9, origin: "automatic", corrects: null },
    ...{ detail: null, remarks: null },
    ...over,
  });
  const by = (corrects: string | null, over: Partial<BookMark> = {}) =>
    mark(`by-${corrects ?? over.kind}`, { origin: "by hand", corrects, ...over });
  const said = (...marks: BookMark[]) => correctionsOf(effectiveMarks(marks));

  it("of an automatic mark: what was moved, called something else or taken away, each where it lay", () => {
    const lay = { kind: "plateau", from: 5, to: 9 };
    expect(said(mark("a"))).toEqual({ corrections: [], slack: [] });
    expect(said(mark("a"), by("a")).corrections).toEqual([]);
    expect(said(mark("a"), by("a", { from_s: 6 })).corrections).toEqual([
      { change: "move", mark: "a", lay, from: 6, to: 9 },
    ]);
    expect(said(mark("a"), by("a", { to_s: 8 })).corrections).toEqual([
      { change: "move", mark: "a", lay, from: 5, to: 8 },
    ]);
    expect(said(mark("a"), by("a", { kind: "drag", to_s: 8 })).corrections).toEqual([
      { change: "call", mark: "a", lay, kind: "drag" },
      { change: "move", mark: "a", lay, from: 5, to: 8 },
    ]);
    expect(said(mark("a"), by("a", { from_s: 1, detail: { change: "take away" } })).corrections).toEqual([
      { change: "take away", mark: "a", lay },
    ]);
    // A moment ends where it begins.
    const moment = { kind: "peak", to_s: null };
    expect(said(mark("a", moment), by("a", { ...moment, from_s: 7 })).corrections).toEqual([
      { change: "move", mark: "a", lay: { kind: "peak", from: 5, to: 5 }, from: 7, to: 7 },
    ]);
  });

  it("of one added: that it is there, measured where it lies; a slack by itself; one taken away again is none", () => {
    expect(said(by(null, { kind: "drag" })).corrections).toEqual([
      {
        change: "add",
        mark: { id: "by-drag", kind: "drag", from: 5, to: 9, value: 0, u: 0, of: "force", why: { kind: "byHand" } },
      },
      { change: "move", mark: "by-drag", lay: { kind: "drag", from: 5, to: 9 }, from: 5, to: 9 },
    ]);
    expect(said(by(null, { kind: "slack" }))).toEqual({ corrections: [], slack: [{ from: 5, to: 9 }] });
    expect(said(by(null, { kind: "drag", detail: { change: "take away" } }))).toEqual({ corrections: [], slack: [] });
    expect(said(by(null, { kind: "slack", detail: { change: "take away" } }))).toEqual({ corrections: [], slack: [] });
  });

  it("of kinds that no reduction reads: nothing, made by hand or found", () => {
    for (const kind of ["note", "set", "reset", "step"]) {
      expect(said(by(null, { kind })).corrections).toEqual([]);
      expect(said(mark("a", { kind }), by("a", { kind, from_s: 6 })).corrections).toEqual([]);
      // A note that is called a plateau was never found as one: there is none to move.
      expect(said(mark("a", { kind }), by("a", { kind: "plateau" })).corrections).toEqual([]);
    }
  });
});
