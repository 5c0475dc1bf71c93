import { afterEach, describe, expect, it } from "vitest";
import { openBook } from "../../src/book/index.ts";
import { tcpSource } from "../../src/book/intake/live-source.ts";
import type { Followed } from "../../src/server/following.ts";
import { Instruments } from "../../src/server/instruments.ts";
import { Instrument } from "../book/intake/instrument.ts";
import { waitFor } from "../support/wait-for.ts";
import { benchWithBook, refused } from "./in-process.ts";

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

/** A book with a pull, and an instrument that reads 10, 20, 30 … N. */
async function onDeck() {
  const { path, book, newId } = benchWithBook();
  const pull = newId();
  const day = book.add("day", { date: "2026-06-02" });
  book.write([{ kind: "pull", id: pull, set: { day } }], "a pull");
  const cell = await new Instrument().start();
  closing.push(
    () => cell.stop(),
    () => book.close(),
  );
  let said = 0;
  const say = (many: number) => cell.send(Array.from({ length: many }, () => `${10 * ++said} N\r\n`).join(""));
  const source = tcpSource("127.0.0.1", cell.port, 20);
  const opened = (now: () => number = Date.now) => {
    const instruments = new Instruments({
      sources: [source],
      open: () => openBook(path, { who: "an instrument", backups: false }),
      now,
      fault: (error) => {
        throw error;
      },
      again_ms: 20,
    });
    closing.push(() => instruments.stopAll());
    return instruments;
  };
  const until = async (instruments: Instruments, found: (followed: Followed) => boolean, from = 0) => {
    let last = await instruments.readings(pull, source.name, from, 0);
    await waitFor(async () => {
      last = await instruments.readings(pull, source.name, from, 20);
      return last !== null && found(last);
    });
    return last!;
  };
  return { path, book, pull, cell, say, source, opened, until };
}

const loads = ({ rows }: Followed) => rows.map(({ values }) => values.load);

describe("an instrument followed in a pull", () => {
  it("answers readings that are on disk, from any row on, each once", async () => {
    const { book, pull, cell, say, source, opened, until } = await onDeck();
    const instruments = opened();
    instruments.begin(pull, source.name);
    instruments.begin(pull, source.name);
    await cell.heard();
    await say(12);
    const followed = await until(instruments, ({ rows }) => rows.length >= 11);
    expect(loads(followed)).toEqual([20, 30, 40, 50, 60, 70, 80, 90, 100, 110, 120]);
    expect([...book.logs.rows(followed.log!)].flatMap(({ columns }) => [...columns.load!])).toEqual(loads(followed));
    await say(2);
    const more = await until(instruments, ({ rows }) => rows.length >= 2, followed.next);
    expect([loads(more), more.next]).toEqual([[130, 140], 13]);
    const logs = book.list("log");
    expect(logs.map((log) => log.pull)).toEqual([pull]);
  });

  it("is told as lost at once, found again, and the time without readings is marked", async () => {
    let clock = 1_800_000_000_000;
    const { book, pull, cell, say, source, opened, until } = await onDeck();
    const instruments = opened(() => (clock += 50));
    instruments.begin(pull, source.name);
    await cell.heard();
    await say(9);
    const before = await until(instruments, ({ rows }) => rows.length === 8);
    expect(before.state).toEqual({ kind: "reading" });
    cell.drop();
    expect((await until(instruments, ({ state }) => state.kind === "lost")).state).toMatchObject({ why: /./ });
    await cell.heard();
    await say(3);
    const after = await until(instruments, ({ rows }) => rows.length === 10);
    expect(after.state).toEqual({ kind: "reading" });
    // The first line after a break may be half of one.
    expect(loads(after).slice(8)).toEqual([110, 120]);
    expect(book.list("mark")).toMatchObject([
      { kind: "gap", from_s: after.rows[7]!.time, to_s: after.rows[8]!.time, origin: "automatic" },
    ]);
  });

  it("goes on with one log after the bench was closed or killed, and marks that gap as well", async () => {
    const { book, pull, cell, say, source, opened, until } = await onDeck();
    const first = opened();
    first.begin(pull, source.name);
    await cell.heard();
    await say(9);
    await until(first, ({ rows }) => rows.length === 8);
    await first.stopAll();
    cell.drop();
    const second = opened();
    expect(await second.readings(pull, source.name, 0, 0)).toBeNull();
    second.begin(pull, source.name);
    await cell.heard();
    await say(9);
    const all = await until(second, ({ rows }) => rows.length === 16);
    expect(all.next).toBe(16);
    expect(new Set(loads(all)).size).toBe(16);
    expect(book.list("log")).toHaveLength(1);
    expect(book.list("mark").map(({ kind }) => kind)).toEqual(["gap"]);
    expect(await second.end(pull, source.name)).toEqual({ log: all.log, rows: 16 });
    expect(book.logs.progress(all.log!).kind).toBe("finished");
    expect(await second.end(pull, source.name)).toEqual({ log: all.log, rows: 16 });
  });

  it("is only one that was named at the computer, in a pull that is in the book", async () => {
    const { ask, send, book, newId, stop } = benchWithBook();
    closing.push(() => book.close(), stop);
    expect(await (await ask("/api/1/instruments")).json()).toEqual({ instruments: [] });
    const day = book.add("day", { date: "2026-06-02" });
    const pull = book.add("pull", { day });
    const strange = await send("POST", `/api/1/pulls/${pull}/instruments`, { instrument: "127.0.0.1:22" });
    expect(await refused(strange)).toMatch(/^400 instrument: "127\.0\.0\.1:22"/);
    const nowhere = await send("POST", `/api/1/pulls/${newId()}/instruments`, { instrument: "127.0.0.1:22" });
    expect(nowhere.status).toBe(404);
    expect((await ask(`/api/1/pulls/${pull}/instruments?instrument=x`)).status).toBe(404);
  });
});
