/** The clock of a track that lies in another log of the pull: told by load and track in Days, remarked by the commands. */
import { afterAll, describe, expect, it, vi } from "vitest";
import { logVerdicts } from "../../src/cli/compare-logs.ts";
import { pullCases, reducePullLog } from "../../src/study/index.ts";
import { readingsOf } from "../../src/web/days/log/readings.ts";
import type { LogHere } from "../../src/web/days/records.ts";
import { bookPulls } from "../../src/web/holding/book-pulls.ts";
import { doubtLine } from "../../src/words/index.ts";
import { makePull } from "../pull/anchor/make-pull.ts";
import { regimes } from "../pull/anchor/regimes.ts";
import { benchWithBook } from "../server/in-process.ts";
import { rodebench } from "../support/command-line.ts";

const START = Date.UTC(2031, 4, 3, 9) / 1000;
/** A metre in degrees at the equator, by the half axis of WGS 84 (6 378 137 m, exact by definition). */
const METRE = 180 / Math.PI / 6_378_137;
const channel = (name: string, quantity: string, unit: string) =>
  ({ name, quantity, unit, precision: "double" }) as const;

const bench = benchWithBook();
const { book } = bench;
const { trace } = makePull(regimes.find(({ name }) => name === "turned round, set again")!, 907_001);
const track = trace.track!;
const [anchor] = book.write([{ kind: "anchor", set: { name: "Scoop B", shape: "scoop", mass_kg: 6 } }], "anchor").ids;

/** A pull whose places lie in a log of their own, stamped so many seconds late. */
function pullLate(late: number) {
  const pull = book.write([{ kind: "pull", set: { loadAt: "anchor", anchor: anchor! } }], "add pull").ids[0]!;
  const write = (name: string, time: Float64Array, channels: ReturnType<typeof channel>[], columns: object): string => {
    const { log } = book.logs.open({ name, pull, channels });
    book.logs.append(log, { times: time.map((t) => START + t), columns: { ...columns } }, { from: 0, to: time.length });
    book.logs.finish(log);
    return log;
  };
  const places = { latitude: track.north.map((m) => m * METRE), longitude: track.east.map((m) => m * METRE) };
  const there = write(
    `track ${late}`,
    track.time.map((t) => t + late),
    [channel("latitude", "angle", "deg"), channel("longitude", "angle", "deg")],
    places,
  );
  return {
    pull,
    track: there,
    log: write(`load ${late}`, trace.time, [channel("load", "force", "N")], { load: trace.load }),
  };
}
const late = pullLate(7);
const apart = pullLate(5000);

vi.stubGlobal("fetch", async (input: RequestInfo | URL, init?: RequestInit) =>
  bench.ask(String(input), { ...init, headers: { ...init?.headers, origin: "http://127.0.0.1:4711" } }),
);
afterAll(() => {
  vi.unstubAllGlobals();
  book.close();
});

const records = () => ({
  ...{ pull: book.list("pull"), anchor: book.list("anchor"), series: [] },
  ...{ day: [], site: [], seabed: [], rigVersion: [] },
});
const logsHere = () =>
  book.list("log").map((one) => ({ ...one, content: book.logs.content(one.id) })) as unknown as LogHere[];

async function inDays({ log, pull }: { readonly log: string; readonly pull: string }) {
  const [about] = pullCases(records(), [book.get("pull", pull)!]);
  const own = logsHere().find(({ id }) => id === log)!;
  const window = { from: own.content.from_s!, to: own.content.to_s! };
  const clock = about!.pull.trackClock_s ?? 0;
  const readings = await readingsOf(own, logsHere(), "load", window, new AbortController().signal, clock);
  const reduced = reducePullLog({ ...readings, readAt: "anchor", corrections: [], slack: [], about: about! });
  if (reduced.kind === "refused") throw new Error(reduced.line);
  return reduced;
}
const json = async (...argv: string[]) => {
  const { out, err, status } = await rodebench([...argv, "--json"]);
  expect([status, err]).toEqual([0, ""]);
  return JSON.parse(out);
};
const remarked = async () =>
  (await json("compare", bench.path, "--no-sampling")).remarks.map(({ row, why }: { row: number; why: string }) => [
    row,
    why,
  ]);

describe("the clock of a track in another log", () => {
  it("is told in Days by load and track, with its ±, as trace tells it, and is a doubt of the verdict", async () => {
    const { clock, evidence, verdict, apart } = await inDays(late);
    if (clock?.kind !== "told") throw new Error("told is expected of a track 7 s late");
    expect(clock.applied).toBe(false);
    expect(Math.abs(clock.offset.value + 7)).toBeLessThan(2 * clock.offset.u);
    expect(apart).toBeNull();
    expect(evidence!.doubts).toContainEqual({ kind: "trackClockOff", offset: clock.offset });
    const traced = await json("trace", late.log, "--book", bench.path);
    expect(traced.trackClock).toEqual({
      ...{ kind: "told", applied: false },
      offset_s: clock.offset.value,
      u_s: clock.offset.u,
    });
    expect(traced.trackApart).toBeNull();
    // The comparison in the command and in the bench rest on the same verdict, which names its channel as well.
    expect(logVerdicts(book, pullCases(records())).get(late.pull)).toEqual({ ...verdict, cell: "load" });
  });

  it("is remarked by compare and publish with how much, until it is stated: then all is as trace says with it", async () => {
    const remarks = await remarked();
    expect(remarks[0][0]).toBe(1);
    const [, by, u] =
      /^by load and track the track's clock is off: (-\d\.?\d*) ± (\d\.?\d*) s would have to be added to its times, and it is taken as it stands$/.exec(
        remarks[0][1],
      )!;
    expect(Math.abs(Number(by) + 7)).toBeLessThan(2 * Number(u));
    const { out } = await rodebench(["compare", bench.path, "--no-sampling"]);
    expect(out).toContain(`Remark on row 1: ${remarks[0][1]}\n`);
    const published = await rodebench(
      ["publish", "report", bench.path, "--to", "report.html"],
      {},
      {
        write: async (_: string, content: string | Uint8Array) => {
          expect(String(content)).toContain(`Scoop B: ${remarks[0][1].replaceAll("'", "&#39;")}`);
        },
      },
    );
    expect(published.status).toBe(0);
    expect(published.out).toContain(`Remark on row 1: ${remarks[0][1]}\n`);

    const stated = await json("trace", late.log, "--book", bench.path, "--track-clock=-7 s");
    book.edit("pull", late.pull, { trackClock_s: -7 });
    const reduced = await inDays(late);
    expect(reduced.clock).toBeNull();
    expect(reduced.drags.length).toBe(stated.drags.length);
    expect(reduced.plateaus.length).toBe(stated.plateaus.length);
    expect(reduced.evidence!.doubts.some(({ kind }) => kind === "trackClockOff")).toBe(false);
    expect((await remarked()).map(([row]: [number]) => row)).toEqual([2]);
    expect(book.undo()).toMatchObject({ kind: "reverted" });
  });

  it("may be stated by its log: added to its times where it is laid beside another, in Days as in the commands", async () => {
    book.edit("pull", late.pull, { trackClock_s: -7 });
    const [byPull, traced] = [await inDays(late), await json("trace", late.log, "--book", bench.path)];
    book.edit("pull", late.pull, { trackClock_s: null });
    book.edit("log", late.track, { clockOffset_s: -7 });
    const { clock, apart: _, ...byLog } = await inDays(late);
    if (clock?.kind !== "told") throw new Error("told is expected");
    expect(Math.abs(clock.offset.value)).toBeLessThan(2 * clock.offset.u);
    expect(byLog.held).toEqual(byPull.held);
    expect(byLog.way).toEqual(byPull.way);
    expect((await json("trace", late.log, "--book", bench.path)).path).toEqual(traced.path);
    // The other way round: the load's own log is the one that is early.
    book.edit("log", late.track, { clockOffset_s: null });
    book.edit("log", late.log, { clockOffset_s: 7 });
    expect((await inDays(late)).held).toEqual(byPull.held);
    book.edit("log", late.log, { clockOffset_s: null });
  });

  it("is said where the track and the load do not overlap, with how far they are apart, and stated it is judged", async () => {
    const reduced = await inDays(apart);
    const gap = track.time[0]! + 5000 - trace.time.at(-1)!;
    expect(reduced.rule.tracked).toBe(false);
    expect(reduced.apart!.log).toBe(apart.track);
    expect(reduced.apart!.seconds).toBeCloseTo(gap, 6);
    expect(reduced.evidence!.doubts).toContainEqual({ kind: "trackApart", seconds: reduced.apart!.seconds });
    const said =
      "the boat's track of this pull and the load do not overlap, and the load is judged alone: by their clocks the track begins";
    expect((await remarked()).find(([row]: [number]) => row === 2)[1]).toContain(said);
    const { out } = await rodebench(["trace", apart.log, "--book", bench.path]);
    expect(out).toContain(`\nNote: "track 5000": ${said}`);
    expect((await json("trace", apart.log, "--book", bench.path)).trackApart).toMatchObject({ log: "track 5000" });
    const stated = await json("trace", apart.log, "--book", bench.path, "--track-clock=-5000 s");
    expect(stated.trackApart).toBeNull();
    expect(stated.holdRule.tracked).toBe(true);

    book.edit("log", apart.track, { clockOffset_s: -5000 });
    expect(await inDays(apart)).toMatchObject({ apart: null, rule: { tracked: true } });
    book.edit("log", apart.track, { clockOffset_s: -12_000 });
    const before = (await inDays(apart)).apart!.seconds;
    expect(before).toBeCloseTo(track.time.at(-1)! + 5000 - 12_000 - trace.time[0]!, 6);
    expect((await rodebench(["trace", apart.log, "--book", bench.path])).out).toMatch(
      /the track ends 1 h \d+ min before the load begins/,
    );
    book.edit("log", apart.track, { clockOffset_s: null });
  });

  it("is remarked in Holding as by compare", async () => {
    const verdicts = logVerdicts(book, pullCases(records()));
    const { remarks } = bookPulls(records(), verdicts);
    expect(remarks.map(({ pull, doubt }) => [pull, doubt.kind])).toEqual([
      [late.pull, "trackClockOff"],
      [apart.pull, "trackApart"],
    ]);
    const said = await remarked();
    expect(remarks.map(({ doubt }) => doubtLine(doubt, "metric"))).toEqual(
      said.map(([, why]: [number, string]) => why),
    );
  });
});
