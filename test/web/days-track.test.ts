/** One pull, one answer: by the command line, in Days, for the comparison of anchors, and in the marks the server finds. */
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { logVerdicts } from "../../src/cli/compare-logs.ts";
import { heldToJson, reduceTrace } from "../../src/pull/index.ts";
import { pullCases, reducePullLog } from "../../src/study/index.ts";
import { readingsOf } from "../../src/web/days/log/readings.ts";
import type { LogHere } from "../../src/web/days/records.ts";
import { traceWords } from "../../src/words/index.ts";
import { makePull } from "../pull/anchor/make-pull.ts";
import { regimes } from "../pull/anchor/regimes.ts";
import { benchWithBook } from "../server/in-process.ts";
import { rodebench } from "../support/command-line.ts";

const START = Date.UTC(2031, 4, 3, 9) / 1000;
/** A metre in degrees at the equator, by the half axis of WGS 84 (6 378 137 m, exact by definition). */
const METRE = 180 / Math.PI / 6_378_137;
const LOAD = { name: "load", quantity: "force", unit: "N", precision: "double" } as const;
const PLACES = ["latitude", "longitude"].map(
  (name) => ({ name, quantity: "angle", unit: "deg", precision: "double" }) as const,
);

const bench = benchWithBook();
const { book } = bench;
const made = makePull(regimes.find(({ name }) => name === "ploughs, throttle off at once")!, 900_002);
const { trace } = made;
const track = trace.track!;
const [latitude, longitude] = [track.north, track.east].map((metres) => metres.map((m) => m * METRE)) as [
  Float64Array,
  Float64Array,
];

/** A pull of the book with its load, and its track in the same log, in another one, or nowhere. */
function pullWith(where: "same log" | "other log" | "nowhere"): { pull: string; log: string } {
  const pull = book.write([{ kind: "pull", set: { loadAt: "bow" } }], "add pull").ids[0]!;
  const write = (name: string, time: Float64Array, channels: readonly (typeof LOAD)[], columns: object): string => {
    const { log } = book.logs.open({ name, pull, channels: [...channels] });
    book.logs.append(log, { times: time.map((t) => START + t), columns: { ...columns } }, { from: 0, to: time.length });
    book.logs.finish(log);
    return log;
  };
  const places = PLACES as unknown as readonly (typeof LOAD)[];
  if (where === "other log") write(`track ${pull}`, track.time, places, { latitude, longitude });
  if (where !== "same log") return { pull, log: write(`load ${pull}`, trace.time, [LOAD], { load: trace.load }) };
  // A place a second among ten readings of load: nothing was read in between.
  const sparse = (column: Float64Array) =>
    trace.time.map((_, i) => (i % 10 === 0 && i / 10 < column.length ? column[i / 10]! : Number.NaN));
  const columns = { load: trace.load, latitude: sparse(latitude), longitude: sparse(longitude) };
  return { pull, log: write(`both ${pull}`, trace.time, [LOAD, ...places], columns) };
}

const pulls = { same: pullWith("same log"), other: pullWith("other log"), none: pullWith("nowhere") };

beforeAll(() => {
  vi.stubGlobal("fetch", async (input: RequestInfo | URL, init?: RequestInit) =>
    bench.ask(String(input), { ...init, headers: { ...init?.headers, origin: "http://127.0.0.1:4711" } }),
  );
});
afterAll(() => {
  vi.unstubAllGlobals();
  book.close();
});

async function inDays({ log, pull }: { log: string; pull: string }) {
  const logs = book.list("log").map((one) => ({ ...one, content: book.logs.content(one.id) })) as unknown as LogHere[];
  const own = logs.find(({ id }) => id === log)!;
  const window = { from: own.content.from_s!, to: own.content.to_s! };
  const readings = await readingsOf(own, logs, "load", window, new AbortController().signal);
  const { log: _, ...about } = pullCases(
    { pull: book.list("pull"), day: [], site: [], seabed: [], anchor: [], rigVersion: [], series: [] },
    [book.get("pull", pull)!],
  )[0]!;
  const reduced = reducePullLog({ ...readings, readAt: "bow", corrections: [], slack: [], about });
  if (reduced.kind === "refused") throw new Error(reduced.line);
  return reduced;
}

describe("what a pull held is the same wherever it is asked", () => {
  it.each(["same", "other", "none"] as const)("the track in the log: %s", async (where) => {
    const { pull, log } = pulls[where];
    const reduced = await inDays({ pull, log });
    const { out, err, status } = await rodebench(["trace", log, "--book", bench.path, "--json"]);
    expect([status, err]).toEqual([0, ""]);
    const traced = JSON.parse(out);
    expect(JSON.parse(JSON.stringify(heldToJson(reduced.held, traceWords("metric"))))).toEqual(traced.held);
    expect(traced.drags.length).toBe(reduced.drags.length);
    expect(traced.path === null).toBe(where === "none");
    const all = { pull: book.list("pull"), day: [], site: [], seabed: [], anchor: [], rigVersion: [], series: [] };
    const verdict = logVerdicts(book, pullCases(all)).get(pull)!;
    expect(verdict.held).toEqual(reduced.held);
  });

  it("is that of the trace itself: the anchor that ploughed gave way, by its movement", async () => {
    const own = reduceTrace(
      { ...trace, time: trace.time.map((t) => START + t), track: { ...track, time: track.time.map((t) => START + t) } },
      { readAt: "bow" },
    );
    const reduced = await inDays(pulls.same);
    expect(own.held.kind).toBe("gaveWay");
    const said = made.truth.anchor.at(-1)! - made.truth.anchor[0]!;
    // This pull ploughed 7.9 m, as its maker says.
    expect(said).toBeGreaterThan(7);
    expect(reduced.held).toMatchObject({ kind: "gaveWay", untold: null });
    expect(reduced.drags.some(({ distance }) => distance !== null && distance.value > 1)).toBe(true);
  });

  it("told in its record is as told on the line, in Days, in a comparison and in the marks the server finds", async () => {
    const { pull, log } = pulls.other;
    const asks = async (...options: string[]) => {
      const { out, err, status } = await rodebench(["trace", log, "--book", bench.path, "--json", ...options]);
      expect([status, err]).toEqual([0, ""]);
      return JSON.parse(out);
    };
    const here = { latitude: latitude[0]! - 40 * METRE, longitude: longitude[0]! };
    const plain = await asks();
    const stated = await asks(
      ...["--hold-for", "20 s", "--hold-within", "0.4 m", "--calibration", "1.1", "--tare", "35 N"],
      ...["--slack-load", "60 N", "--bearing", "200 deg", "--ahead", "--track-clock", "2 s"],
      ...["--anchor-at", `${here.latitude}, ${here.longitude}`],
    );
    // Each of them is seen in the answer.
    expect(stated.holdRule).toEqual({ heldFor_s: 20, heldWithin_m: 0.4, tracked: true });
    expect(stated.path.stretches[0]).toMatchObject({ by: "anchor" });
    expect((await asks("--track-clock", "9 s")).path.movements).not.toEqual(plain.path.movements);
    expect(stated.plateaus[0].load_N).toBeCloseTo(1.1 * plain.plateaus[0].load_N + 60, 0);

    const fields = {
      ...{ heldFor_s: 20, heldWithin_m: 0.4, calibration: 1.1, tare_N: 35, slackLoad_N: 60 },
      ...{ bearing_deg: 200, pulls: "ahead" as const, trackClock_s: 2 },
      ...{ anchorLatitude_deg: here.latitude, anchorLongitude_deg: here.longitude },
    };
    book.edit("pull", pull, fields);
    expect(book.get("pull", pull)).toMatchObject(fields);
    expect(await asks()).toEqual(stated);
    const reduced = await inDays({ pull, log });
    expect(JSON.parse(JSON.stringify(heldToJson(reduced.held, traceWords("metric"))))).toEqual(stated.held);
    expect(reduced.rule).toEqual({ heldFor: 20, heldWithin: 0.4, tracked: true });
    expect(reduced.plateaus.map(({ load }) => load.value)).toEqual(
      stated.plateaus.map((one: { load_N: number }) => one.load_N),
    );
    const all = { pull: book.list("pull"), day: [], site: [], seabed: [], anchor: [], rigVersion: [], series: [] };
    expect(logVerdicts(book, pullCases(all)).get(pull)?.held).toEqual(reduced.held);

    // A word on the line is before the record's.
    const over = await asks("--hold-for", "5 s", "--astern", "--calibration", "1");
    expect(over.holdRule).toMatchObject({ heldFor_s: 5, heldWithin_m: 0.4 });
    expect(over.plateaus[0].load_N).toBeCloseTo(plain.plateaus[0].load_N + 60, 0);
    expect(book.undo()).toMatchObject({ kind: "reverted" });
    expect(await asks()).toEqual(plain);
  });

  it("is judged by the hold rule of the pull's series where the pull has none, and by its own where it has", async () => {
    const { pull, log } = pulls.same;
    const [series] = book.write(
      [{ kind: "series", set: { name: "sand", heldFor_s: 45, heldWithin_m: 0.3 } }],
      "add series",
    ).ids;
    const rule = async () => {
      const { out } = await rodebench(["trace", log, "--book", bench.path, "--json"]);
      return JSON.parse(out).holdRule;
    };
    book.edit("pull", pull, { series: series! });
    expect(await rule()).toEqual({ heldFor_s: 45, heldWithin_m: 0.3, tracked: true });
    book.edit("pull", pull, { heldFor_s: 12 });
    expect(await rule()).toEqual({ heldFor_s: 12, heldWithin_m: 0.3, tracked: true });
    book.edit("pull", pull, { heldFor_s: null, series: null });
    expect(await rule()).toEqual({ heldFor_s: 8, heldWithin_m: 1, tracked: true });
  });

  it("kept with what was stated on the line is judged so from then on", async () => {
    const { pull, log } = pulls.none;
    const written = await rodebench(
      ["trace", log, "--book", bench.path, "--keep", "--hold-for", "3 s", "--calibration", "1.05", "--json"],
      {},
    );
    expect([written.status, written.err]).toEqual([0, ""]);
    expect(book.get("pull", pull)).toMatchObject({ heldFor_s: 3, calibration: 1.05, heldWithin_m: null, tare_N: null });
    const again = await rodebench(["trace", log, "--book", bench.path, "--json"]);
    expect(JSON.parse(again.out).held).toEqual(JSON.parse(written.out).held);
    expect(book.get("pull", pull)?.result).toMatchObject({ load_N: JSON.parse(again.out).held.load_N });
    book.edit("pull", pull, { result: null, heldFor_s: null, calibration: null, loadAt: "bow" });
  });

  it("says with a doubt what the load alone cannot tell, and none where the track tells it", async () => {
    const [alone, beside] = [await inDays(pulls.none), await inDays(pulls.same)];
    expect(alone.evidence!.doubts.map(({ kind }) => kind)).toContain("logCannotTell");
    expect(beside.evidence!.doubts.map(({ kind }) => kind)).not.toContain("logCannotTell");
  });

  it("and the marks the server finds rest on the track as well", async () => {
    const found = async (log: string) => {
      const answer = await bench.send("POST", `/api/1/logs/${log}/automatic-marks`, { readAt: "bow", channel: "load" });
      const { marks } = (await answer.json()) as { marks: { kind: string; from_s: number; to_s: number }[] };
      return marks.filter(({ kind }) => kind === "drag").map(({ from_s, to_s }) => [from_s, to_s]);
    };
    const reduced = await inDays(pulls.same);
    const drags = reduced.drags.map(({ from, to }) => [from, to]);
    expect(drags.length).toBeGreaterThan(0);
    expect(await found(pulls.same.log)).toEqual(drags);
    expect(await found(pulls.other.log)).toEqual((await inDays(pulls.other)).drags.map(({ from, to }) => [from, to]));
  });
});
