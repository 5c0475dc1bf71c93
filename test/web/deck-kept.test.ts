/** A pull on deck: kept on the device before it is shown, followed by instruments, brought to the book once, row by row. */
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { DeckPull } from "../../src/web/deck/pull.ts";
import { exampleState } from "../../src/web/rig/state.ts";
import { type MemoryStore, memoryStore } from "../support/memory-store.ts";

const NOW = Date.UTC(2031, 4, 3, 9);
// biome-ignore lint/suspicious/noExplicitAny: what is sent is looked into by its names
type Body = Record<string, any>;
let store: MemoryStore;
let deck: typeof import("../../src/web/deck/keep.ts");
let beginning: typeof import("../../src/web/deck/begin.ts");
let book: { path: string; method: string; query: URLSearchParams; body: Body }[];
let answers: (path: string, body: Body) => unknown;
let reachable = true;
/** Rows of each log in the book. */
let rows: Map<string, number[]>;

beforeEach(async () => {
  vi.resetModules();
  store = memoryStore((name, value) => vi.stubGlobal(name, value));
  book = [];
  rows = new Map();
  reachable = true;
  answers = usualAnswers;
  vi.stubGlobal("navigator", {});
  vi.stubGlobal("fetch", async (input: RequestInfo | URL, init?: RequestInit) => {
    if (!reachable) throw new TypeError("no network");
    const url = new URL(String(input), "http://bench");
    const path = url.pathname.replace("/api/1", "");
    const body = typeof init?.body === "string" ? JSON.parse(init.body) : {};
    book.push({ path, method: init?.method ?? "GET", query: url.searchParams, body });
    const found = answers(path, body);
    return found instanceof Response ? found : Response.json(found);
  });
  deck = await import("../../src/web/deck/keep.ts");
  beginning = await import("../../src/web/deck/begin.ts");
  await deck.openDeck();
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

function usualAnswers(path: string, body: Body): unknown {
  if (path === "/join")
    return {
      transactions: (body.transactions as { id: string }[]).map(({ id }) => ({ kind: "joined", transaction: id })),
    };
  const [, log] = /^\/logs\/(.+)\/rows$/.exec(path) ?? [];
  if (log !== undefined) {
    const { from, times_s } = body as unknown as { from: number; times_s: number[] };
    const there = rows.get(log) ?? [];
    rows.set(log, [...there.slice(0, from), ...times_s]);
    return { rows: rows.get(log)!.length };
  }
  if (path.endsWith("/end")) return { ended: { log: "server log" } };
  throw new Error(`nobody answers ${path}`);
}

async function begun(more: Partial<DeckPull> = {}): Promise<DeckPull> {
  const { usualSetup } = await import("../../src/web/deck/setup-state.ts");
  const setup = { ...usualSetup, anchor: " Scoop ", heldFor: 8, heldWithin: 0.5, direction: 1 };
  const pull = { ...beginning.pullOf(setup, exampleState.rig, NOW), ...more };
  expect(await beginning.begin(pull)).toBe(true);
  return pull;
}
const under = () => deck.deckStore.get()!.pull!;
const onDevice = () => store.shelves.get("states")!.get("deck: pulls") as { pull: DeckPull; cautioned: boolean };

describe("a pull that begins", () => {
  it("is on the device as it is shown, for the book last seen, with what was set up", async () => {
    const { seeBook } = await import("../../src/web/api/book-here.ts");
    await seeBook("book 1");
    const pull = await begun();
    expect(under()).toEqual({ ...pull, book: "book 1" });
    expect(onDevice()).toEqual(deck.deckStore.get());
    expect(onDevice().cautioned).toBe(true);
    expect(pull).toMatchObject({
      ...{
        anchor: "Scoop",
        begunAt: NOW,
        heldFor: 8,
        heldWithin: 0.5,
        direction: 1,
        loadU: 20,
        code: null,
        ended: null,
      },
      ...{ deployed: { depth: 7, paidOut: 35 }, known: { day: false, anchor: false } },
    });
    expect(new Set(Object.values(pull.ids)).size).toBe(8);
    expect(await beginning.begin({ ...pull, anchor: "another" })).toBe(true);
    expect(under().anchor).toBe("Scoop");
  });

  it("points to the day and the anchor that the book has, not to those put aside", async () => {
    const { bookCopy } = await import("../../src/web/days/book-copy.ts");
    const { dateOf } = await import("../../src/web/deck/pull-records.ts");
    const { usualSetup } = await import("../../src/web/deck/setup-state.ts");
    const day = { id: "d", date: dateOf(NOW), hidden: false };
    const anchor = { id: "a", name: "Scoop", hidden: false };
    const seen = (records: object) =>
      bookCopy.put({ ...bookCopy.get(), records: { ...bookCopy.get().records, ...records } as never });
    const made = () => beginning.pullOf({ ...usualSetup, anchor: "Scoop " }, exampleState.rig, NOW);
    seen({
      day: [{ ...day, id: "old", date: "2031-01-01" }, day],
      anchor: [{ ...anchor, id: "b", name: "Claw" }, anchor],
    });
    expect(made()).toMatchObject({ ids: { day: "d", anchor: "a" }, known: { day: true, anchor: true } });
    seen({ day: [{ ...day, hidden: true }], anchor: [{ ...anchor, hidden: true }] });
    expect(made().known).toEqual({ day: false, anchor: false });
  });
});

describe("what happens in a pull", () => {
  it("is noted in order, each with its place and its time, on the device first", async () => {
    await begun();
    const both = [deck.note({ kind: "load", newtons: 500 }, NOW + 1), deck.note({ kind: "moved" }, NOW + 2)];
    expect(await Promise.all(both)).toEqual([true, true]);
    expect(under().events).toEqual([
      { kind: "load", newtons: 500, n: 0, at: NOW + 1 },
      { kind: "moved", n: 1, at: NOW + 2 },
    ]);
    expect(onDevice().pull.events).toHaveLength(2);
  });

  it("is not shown where the device cannot keep it, and the trouble is told until it can", async () => {
    await begun();
    store.fails = "abort";
    expect(await deck.note({ kind: "moved" })).toBe(false);
    expect(under().events).toEqual([]);
    expect(deck.deckTrouble.get()).toBe("this device could not keep it: the device's store is full");
    store.fails = null;
    expect(await deck.note({ kind: "moved" })).toBe(true);
    expect(deck.deckTrouble.get()).toBeNull();
  });

  it("is nothing in a pull that has ended, nor where none is under way", async () => {
    expect(await deck.note({ kind: "moved" })).toBe(true);
    expect(deck.deckStore.get()!.pull).toBeNull();
    await begun({ ended: { kind: "none", load: null, at: NOW } });
    await deck.note({ kind: "moved" });
    expect(under().events).toEqual([]);
  });

  it("is known to another window, and to the next visit", async () => {
    await begun();
    const other = structuredClone(onDevice());
    store.shelves.get("states")!.set("deck: pulls", { ...other, pull: { ...other.pull, anchor: "Claw" } });
    // By hand what another window says.
    const channel = new BroadcastChannel("deck: pulls");
    channel.postMessage("kept");
    await vi.waitFor(() => expect(under().anchor).toBe("Claw"));
    channel.close();
    vi.resetModules();
    const next = await import("../../src/web/deck/keep.ts");
    expect(next.deckStore.get()).toBeNull();
    await next.openDeck();
    expect(next.deckStore.get()!.pull!.anchor).toBe("Claw");
  });

  it("is changed one window at a time, where the browser has locks", async () => {
    const held: string[] = [];
    vi.stubGlobal("navigator", {
      locks: {
        request: async (name: string, work: () => Promise<unknown>) => {
          held.push(name);
          return work();
        },
      },
    });
    await begun();
    expect(held).toEqual(["deck: pulls"]);
  });
});

describe("readings kept on the device", () => {
  const reading = (n: number) => ({ n, at: NOW + n, time_s: (NOW + n) / 1000, values: { load: n } });
  it("come back in order, each row once, of their pull and instrument alone", async () => {
    const { keepReadings, keptReadings, forgetReadings } = await import("../../src/web/deck/live/kept-readings.ts");
    await keepReadings("p", "cell", 10, { next: 12, rows: [reading(10), reading(11)] });
    await keepReadings("p", "cell", 2, { next: 10, rows: [reading(2), reading(9)] });
    await keepReadings("p", "cell", 0, { next: 3, rows: [reading(0), reading(1), reading(2)] });
    await keepReadings("p", "gps", 0, { next: 1, rows: [reading(0)] });
    await keepReadings("q", "cell", 0, { next: 1, rows: [reading(0)] });
    const kept = await keptReadings("p", "cell");
    expect(kept.rows.map(({ n }) => n)).toEqual([0, 1, 2, 9, 10, 11]);
    expect(kept.next).toBe(12);
    expect(await keptReadings("p", "none")).toEqual({ rows: [], next: 0 });
    await forgetReadings("p");
    expect((await keptReadings("p", "gps")).rows).toEqual([]);
    expect((await keptReadings("q", "cell")).rows).toHaveLength(1);
  });

  it("are shown by instrument, of one pull, by their time", async () => {
    const { liveRows, liveStore, showLive } = await import("../../src/web/deck/live/live-store.ts");
    showLive("p", "cell", { rows: [reading(3), reading(7)] });
    expect(liveStore.get().of.cell).toMatchObject({ state: "waiting", why: "" });
    expect(liveRows(liveStore.get(), "p").map(({ n }) => n)).toEqual([3, 7]);
    showLive("p", "gps", { rows: [reading(5)], state: "reading" });
    showLive("p", "cell", { state: "lost", why: "gone" });
    expect(liveStore.get().of).toMatchObject({ cell: { state: "lost", why: "gone" }, gps: { state: "reading" } });
    expect(liveRows(liveStore.get(), "p").map(({ n }) => n)).toEqual([3, 5, 7]);
    expect(liveRows(liveStore.get(), "q")).toEqual([]);
    showLive("q", "cell", {});
    expect(Object.keys(liveStore.get().of)).toEqual(["cell"]);
    expect(liveStore.get().of.cell!.rows).toEqual([]);
  });

  it("tell a load by its channel or of the first of several cells, and places with how near they are", async () => {
    const { loadIn, fixesOf, gapsOf, thinned } = await import("../../src/web/deck/live/reading.ts");
    const of = (values: Record<string, number>) => ({ ...reading(0), values });
    expect(loadIn(of({ load: 5, "load-1": 7 }))).toBe(5);
    expect(loadIn(of({ "load-1": 7, "load-2": 9 }))).toBe(7);
    expect(loadIn(of({ angle: 1 }))).toBeNull();
    expect(
      fixesOf([
        of({ latitude: 10, longitude: 20, accuracy: 5 }),
        of({ latitude: 1 }),
        of({ latitude: 2, longitude: 3 }),
      ]),
    ).toEqual([
      { time: NOW / 1000, latitude: 10, longitude: 20, accuracy: 5 },
      { time: NOW / 1000, latitude: 2, longitude: 3 },
    ]);
    const row = (n: number, time_s: number, load: number, afterGap?: true) => ({
      ...{ n, at: time_s * 1000, time_s, values: { load } },
      ...(afterGap ? { afterGap } : {}),
    });
    expect(gapsOf([row(0, 1, 1, true), row(1, 2, 1), row(2, 9, 1, true)])).toEqual([{ from: 2, to: 9 }]);
    // A twentieth of a second a stretch: the highest of each, of equals the later.
    const fast = [row(0, 1.01, 5), row(1, 1.02, 9), row(2, 1.03, 9), row(3, 1.04, 2), row(4, 1.051, 1)];
    expect(thinned(fast).map(({ n }) => n)).toEqual([2, 4]);
    expect(thinned([row(0, 1.01, 5, true), row(1, 1.02, 9)]).map(({ n }) => n)).toEqual([0, 1]);
  });
});

describe("instruments of a pull", () => {
  it("are added once each, with a log of their own where this device reads them", async () => {
    const { addServer, addPosition, addPort } = await import("../../src/web/deck/live/follow.ts");
    expect(await addServer("cell")).toBe(true);
    expect(deck.deckStore.get()!.pull).toBeNull();
    await begun();
    await addServer("cell");
    await addPosition();
    const [first, position] = under().live!;
    expect(first).toMatchObject({ via: "server", name: "cell", log: null, clock: 0, channels: [] });
    expect(position).toMatchObject({ via: "position", name: "this device's position" });
    expect(position!.log).toMatch(/^[0-9a-f-]{36}$/);
    await addPort({ via: "serial", name: "wire", bytes: async function* () {} });
    await addServer("cell");
    expect(under().live!.map(({ name }) => name)).toEqual(["this device's position", "wire", "cell"]);
    expect(under().live!.find(({ name }) => name === "cell")).toEqual(first);
  });

  it("of the server are asked row by row, by the clock of the first answer", async () => {
    const { addServer } = await import("../../src/web/deck/live/follow.ts");
    const { followByServer } = await import("../../src/web/deck/live/server-link.ts");
    const { liveStore } = await import("../../src/web/deck/live/live-store.ts");
    const pull = await begun();
    await addServer("cell");
    const stop = new AbortController();
    const asked: string[] = [];
    const now_s = Date.now() / 1000 - 100;
    let turn = 0;
    answers = (path) => {
      if (path !== `/pulls/${pull.ids.pull}/instruments`) throw new Error(path);
      const one = book.at(-1)!;
      asked.push(
        one.method === "POST" ? `POST ${(one.body as { instrument?: string }).instrument}` : one.query.get("from")!,
      );
      if (one.method === "POST") return {};
      turn++;
      if (turn === 1)
        return Response.json({ error: { place: "cell", given: "nothing", expected: "x" } }, { status: 404 });
      const row = (time: number, rows: number, load: number) => ({ time, rows, values: { load } });
      if (turn === 2)
        return {
          log: "L",
          now_s,
          next: 3,
          rows: [row(now_s - 2, 1, 5), row(now_s - 1, 3, 7)],
          state: { kind: "reading" },
        };
      stop.abort();
      return { log: "L", now_s: now_s + 50, next: 3, rows: [], state: { kind: "lost", why: "cut" } };
    };
    await followByServer(pull.ids.pull, "cell", stop.signal);
    expect(asked).toEqual(["0", "POST cell", "0", "3"]);
    const shown = liveStore.get().of.cell!;
    expect(shown).toMatchObject({ state: "lost", why: "cut" });
    expect(shown.rows.map(({ n, values }) => [n, values.load])).toEqual([
      [0, 5],
      [2, 7],
    ]);
    // This device's clock is 100 s ahead of the log's, within what an answer takes.
    const [first] = shown.rows;
    expect((first!.at - first!.time_s * 1000) / 1000).toBeCloseTo(100, 0);
    expect(under().live![0]).toMatchObject({ log: "L" });
    expect(under().live![0]!.clock / 1000).toBeCloseTo(100, 0);
    const { keptReadings } = await import("../../src/web/deck/live/kept-readings.ts");
    expect((await keptReadings(pull.ids.pull, "cell")).next).toBe(3);
  });

  it("of the server are waited for or lost in words, and ended and named by it", async () => {
    const { endByServer, followByServer, pause, serverInstruments } = await import(
      "../../src/web/deck/live/server-link.ts"
    );
    const { liveStore } = await import("../../src/web/deck/live/live-store.ts");
    const pull = await begun();
    answers = (path) => (path === "/instruments" ? { instruments: ["cell"] } : usualAnswers(path, {}));
    expect(await serverInstruments()).toEqual(["cell"]);
    expect(await endByServer(pull.ids.pull, "cell")).toBe("server log");
    expect(book.at(-1)).toMatchObject({
      path: `/pulls/${pull.ids.pull}/instruments/end`,
      body: { instrument: "cell" },
    });
    answers = () => ({ ended: null });
    expect(await endByServer(pull.ids.pull, "cell")).toBeNull();
    reachable = false;
    expect(await serverInstruments()).toEqual([]);
    const told = async () => {
      const stop = new AbortController();
      const done = followByServer(pull.ids.pull, "cell", stop.signal);
      await new Promise((over) => setTimeout(over, 30));
      stop.abort();
      await done;
      return liveStore.get().of.cell;
    };
    expect(await told()).toMatchObject({ state: "lost", why: "the book is out of reach" });
    reachable = true;
    answers = () => Response.json({ error: { place: "pull", given: "p", expected: "one" } }, { status: 404 });
    expect(await told()).toMatchObject({ state: "waiting" });
    answers = () => Response.json({ error: { place: "pull", given: "p", expected: "one" } }, { status: 500 });
    expect(await told()).toMatchObject({ state: "lost", why: "pull: p; one" });
    const begin = Date.now();
    await pause(20, new AbortController().signal);
    expect(Date.now() - begin).toBeGreaterThanOrEqual(18);
  });

  it("of this device are kept before they are shown, gaps told, and read again after a break", async () => {
    const { addPort } = await import("../../src/web/deck/live/follow.ts");
    const { followOwn } = await import("../../src/web/deck/live/port-link.ts");
    const { liveStore } = await import("../../src/web/deck/live/live-store.ts");
    const pull = await begun();
    await addPort({ via: "serial", name: "wire", bytes: async function* () {} });
    const stop = new AbortController();
    const channels = [{ name: "load", quantity: "load", unit: "N", precision: "double" }] as const;
    let turn = 0;
    await followOwn(
      pull.ids.pull,
      {
        name: "wire",
        silent: 1000,
        async *came() {
          turn++;
          if (turn === 1) {
            yield {
              readings: [
                { at: NOW, values: { load: 1 } },
                { at: NOW + 1000, values: { load: 2 } },
              ],
              channels,
            };
            yield { readings: [{ at: NOW + 2001, values: { load: 3 } }], channels };
            setTimeout(() => stop.abort(), 20);
            throw new Error("pulled out");
          }
        },
      },
      stop.signal,
    );
    expect(liveStore.get().of.wire).toMatchObject({ state: "lost", why: "pulled out" });
    expect(liveStore.get().of.wire!.rows).toEqual([
      { n: 0, at: NOW, time_s: NOW / 1000, values: { load: 1 } },
      { n: 1, at: NOW + 1000, time_s: NOW / 1000 + 1, values: { load: 2 } },
      { n: 2, at: NOW + 2001, time_s: (NOW + 2001) / 1000, values: { load: 3 }, afterGap: true },
    ]);
    expect(under().live![0]!.channels).toEqual(channels);
    // Taken up again, the first reading comes after a gap, with the next number.
    const again = new AbortController();
    await followOwn(
      pull.ids.pull,
      {
        name: "wire",
        async *came() {
          yield { readings: [{ at: NOW + 2002, values: { load: 4 } }], channels };
          again.abort();
        },
      },
      again.signal,
    );
    expect(liveStore.get().of.wire!.rows.at(-1)).toMatchObject({ n: 3, afterGap: true });
    expect(liveStore.get().of.wire!.state).toBe("reading");
  });
});

describe("the way into the book", () => {
  const load = (n: number, newtons: number) => ({ kind: "load", newtons, n, at: NOW + 1000 * n }) as const;
  const joined = () =>
    book
      .filter(({ path }) => path === "/join")
      .flatMap(
        ({ body }) =>
          body.transactions as unknown as {
            id: string;
            label: string;
            at: string;
            book?: string;
            records: { kind: string }[];
          }[],
      );

  it("is one beginning, rows that are never sent twice, and one end; then nothing stays", async () => {
    const { bring } = await import("../../src/web/deck/to-book.ts");
    const pull = await begun();
    await bring();
    expect(joined().map(({ id, label }) => [id, label])).toEqual([[pull.ids.begin, "begin a pull of Scoop"]]);
    expect(joined()[0]!.at).toBe("2031-05-03T09:00:00.000Z");
    expect(joined()[0]!.records.map(({ kind }) => kind)).toEqual(["day", "anchor", "rig", "rigVersion", "pull"]);
    await deck.note({ kind: "load", newtons: 500 }, NOW + 1000);
    await deck.note({ kind: "load", newtons: 900 }, NOW + 2000);
    await bring();
    // The newest load may still be taken back.
    expect(rows.get(pull.ids.log)).toEqual([NOW / 1000 + 1]);
    const sent = () => book.filter(({ path }) => path.endsWith("/rows"));
    expect(sent()[0]!.body).toEqual({ from: 0, times_s: [NOW / 1000 + 1], columns: { load: [500] }, finished: false });
    const ended = { kind: "heldTo", load: 900, at: NOW + 3000 } as const;
    await deck.keep((before) => ({ ...before, pull: null, waiting: [{ ...before.pull!, ended }] }));
    await bring();
    expect(sent().at(-1)!.body).toEqual({
      from: 1,
      times_s: [NOW / 1000 + 2],
      columns: { load: [900] },
      finished: true,
    });
    expect(joined().map(({ label }) => label)).toEqual([
      "begin a pull of Scoop",
      "loads typed on deck",
      "end a pull of Scoop",
    ]);
    expect(joined()[2]).toMatchObject({ id: pull.ids.end, at: "2031-05-03T09:00:03.000Z" });
    expect(deck.deckStore.get()!.waiting).toEqual([]);
  });

  it("is tried again when the book was out of reach, and told where the book refuses", async () => {
    const { bring } = await import("../../src/web/deck/to-book.ts");
    await begun({ book: "book 1" });
    reachable = false;
    await bring();
    expect(deck.deckTrouble.get()).toBeNull();
    reachable = true;
    answers = (_, body) => ({
      transactions: (body.transactions as { id: string }[]).map(({ id }) => ({ kind: "otherBook", transaction: id })),
    });
    await bring();
    expect(joined()[0]!.book).toBe("book 1");
    expect(deck.deckTrouble.get()).toBe(
      "the book did not take the pull: it was begun for another book, and goes there when that is open again; it stays on this device",
    );
    answers = () => ({ transactions: [{ kind: "refused", error: { place: "day", given: "x", expected: "y" } }] });
    await bring();
    expect(deck.deckTrouble.get()).toBe("the book did not take the pull: day: x; y; it stays on this device");
    answers = usualAnswers;
    const before = joined().length;
    await bring();
    await bring();
    expect(joined().length).toBe(before + 1);
  });

  it("brings what this device read itself with its channels and gaps, and lays the marks on its log", async () => {
    const { bring } = await import("../../src/web/deck/to-book.ts");
    const { keepReadings } = await import("../../src/web/deck/live/kept-readings.ts");
    const channels = [{ name: "load", quantity: "load", unit: "N", precision: "double" }] as const;
    const source = {
      via: "serial",
      name: "wire",
      log: "own-log",
      begin: "018f0000-0000-7000-8000-00000000000a",
      clock: 500,
      channels,
    } as const;
    const pull = await begun({ live: [source], helps: true });
    const row = (n: number, at: number, more = {}) => ({ n, at, time_s: at / 1000, values: { load: n + 1 }, ...more });
    await keepReadings(pull.ids.pull, "wire", 0, {
      next: 2,
      rows: [row(0, NOW), row(1, NOW + 9000, { afterGap: true })],
    });
    const events = [{ kind: "gaveWay", n: 0, at: NOW + 9500 }] as const;
    await deck.keep((before) => ({
      ...before,
      ...{ pull: null, waiting: [{ ...before.pull!, events, ended: { kind: "none", load: null, at: NOW + 10_000 } }] },
    }));
    await bring();
    expect(joined().map(({ label }) => label)).toEqual(["readings of wire", "mark gaps", "help with a pull of Scoop"]);
    expect(rows.get("own-log")).toEqual([NOW / 1000, NOW / 1000 + 9]);
    expect(book.find(({ path }) => path.endsWith("/rows"))!.body).toMatchObject({
      columns: { load: [1, 2] },
      finished: true,
    });
    expect(joined()[1]!.records).toMatchObject([
      { set: { log: "own-log", from_s: NOW / 1000, to_s: NOW / 1000 + 9, kind: "gap" } },
    ]);
    // Laid on the log by that log's clock.
    expect(joined()[2]!.records).toMatchObject([{ set: { log: "own-log", kind: "drag", from_s: NOW / 1000 + 9 } }]);
    expect(store.shelves.get("readings")!.size).toBe(0);
  });

  it("sends five thousand rows at once, each once", async () => {
    const { bring } = await import("../../src/web/deck/to-book.ts");
    const events = Array.from({ length: 5002 }, (_, n) => load(n, n));
    const pull = await begun({ events });
    await bring();
    const sizes = book
      .filter(({ path }) => path.endsWith("/rows"))
      .map(({ body }) => (body.times_s as number[]).length);
    expect(sizes).toEqual([5000, 1]);
    expect(new Set(rows.get(pull.ids.log)).size).toBe(5001);
  });
});

describe("a pull as its figure is made of it", () => {
  it("has loads and what was touched by the clock, none of what was taken back", async () => {
    const { onePullOf } = await import("../../src/web/deck/ended.ts");
    const events = [
      { kind: "step", step: 1, n: 0, at: 1000 },
      { kind: "load", newtons: 500, n: 1, at: 2000 },
      { kind: "load", newtons: 9000, n: 2, at: 2500 },
      { kind: "takenBack", of: 2, n: 3, at: 2600 },
      { kind: "angle", angle: 1, u: 0.1, n: 4, at: 2700 },
      { kind: "moved", n: 5, at: 3000 },
      { kind: "step", step: 9, n: 6, at: 3500 },
      { kind: "stop", n: 7, at: 4000 },
      { kind: "gaveWay", n: 8, at: 5000 },
    ] as const;
    const steps = [
      { kind: "set", load: null, hold: 0 },
      { kind: "hold", load: 500, hold: 60 },
    ] as const;
    const ended = { kind: "gaveWay", load: 500, at: 5000 } as const;
    const shown = onePullOf({ id: "p", events, steps, anchor: "", loadU: 20, ended });
    expect(shown).toEqual({
      ...{ name: "An anchor", at: "bow", time: [2], load: [500], result: { kind: "gaveWay", newtons: 500, u: 20 } },
      marks: [
        { time: 1, text: "step 2: hold" },
        { time: 3, text: "moved" },
        { time: 3.5, text: "step 10: on" },
        { time: 4, text: "stop" },
        { time: 5, text: "gave way" },
      ],
    });
    const of = (end: object) => onePullOf({ id: "p", events: [], steps, anchor: "A", loadU: 20, ended: end as never });
    expect(of({ kind: "none", load: 5, at: 1 }).result).toBeNull();
    expect(of({ kind: "heldTo", load: null, at: 1 }).result).toBeNull();
    expect(of({ kind: "heldTo", load: 5, at: 1 })).toMatchObject({ name: "A", result: { kind: "heldTo", newtons: 5 } });
  });
});
