import { afterAll, afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { ApiTrouble, asBytes, boatNetwork, book, isPaired, OutOfReach, until } from "../../src/web/api/client.ts";
import { benchWithBook } from "../server/in-process.ts";

const bench = benchWithBook();
afterAll(() => bench.book.close());

/** What the browser asks its own server reaches the bench in process. */
const toBench = async (input: RequestInfo | URL, init?: RequestInit): Promise<Response> => {
  init?.signal?.throwIfAborted();
  const headers = new Headers(init?.headers);
  headers.set("origin", "http://127.0.0.1:4711");
  return bench.ask(String(input), { ...init, headers });
};
beforeEach(() => {
  vi.stubGlobal("fetch", toBench);
});
afterEach(() => {
  vi.unstubAllGlobals();
});

describe("the client of the bench, on the server itself", () => {
  it("lists what was written offline, with its history, and takes it back", async () => {
    const [site, id, device] = [bench.newId(), bench.newId(), bench.newId()];
    const records = [{ kind: "site", id: site, makes: true, set: { name: "Ebb Cove" } }];
    const json = { transactions: [{ id, device, at: "2031-05-03T09:00:00Z", label: "add site", records }] };
    expect((await (await book.join.$post({ json })).json()).transactions).toMatchObject([{ kind: "joined" }]);
    expect((await (await book.join.$post({ json })).json()).transactions).toMatchObject([{ kind: "known" }]);
    const listed = await book.records[":kind"].$get({ param: { kind: "site" }, query: { "where.name": "Ebb Cove" } });
    expect((await listed.json()).records).toMatchObject([{ id: site, hidden: false }]);
    const hidden = await book.records[":kind"][":id"].hidden.$put({
      param: { kind: "site", id: site },
      json: { hidden: true },
    });
    const { transaction } = await hidden.json();
    const history = await book.history.$get({ query: { record: site, limit: 1 } });
    expect((await history.json()).transactions).toMatchObject([{ transaction }]);
    const undone = await book.undo.$post({ json: { transaction: transaction! } });
    expect(await undone.json()).toMatchObject({ kind: "reverted" });
  });

  it("sends a file as it is, looks at it, and lets it go", async () => {
    const file = new Blob(["Time (s),Load (kN)\n0,1\n1,2\n2,3\n"]);
    const { sent } = await (await book["sent-logs"].$post({ query: { name: "a.csv" } }, asBytes(file))).json();
    expect(sent).toMatchObject({ name: "a.csv", reading: { kind: "waiting" } });
    const one = book["sent-logs"][":id"];
    const param = { id: sent.id };
    const { preview } = await (await one.preview.$post({ param, json: { told: {} } })).json();
    expect(preview.guess.kind).toBe("table");
    await one.$delete({ param });
    expect((await (await book["sent-logs"].$get()).json()).sent).toEqual([]);
  });

  it("reads a stretch of a log as bytes", async () => {
    const channels = [{ name: "load", quantity: "force", unit: "N", precision: "double" }] as const;
    const { log } = bench.book.logs.open({ name: "A log", channels: [...channels] });
    const rows = { times: Float64Array.of(1, 2, 3), columns: { load: Float64Array.of(10, 20, 30) } };
    bench.book.logs.append(log, rows, { from: 0, to: 3 });
    const query = { from_s: 0, to_s: 4, points: 100, channels: "load" };
    const answer = await book.logs[":id"].view.$get({ param: { id: log }, query });
    expect(JSON.parse(answer.headers.get("Rodebench-View")!)).toMatchObject({ kind: "readings", rows: 3 });
    expect([...new Float64Array(await answer.arrayBuffer())]).toEqual([1, 2, 3, 10, 20, 30]);
  });

  it("tells who is let in", async () => {
    expect(await (await boatNetwork.$get()).json()).toMatchObject({ open: false, devices: [] });
    await expect(boatNetwork.code.$post()).rejects.toThrow(/^boat network: closed; open it first/);
  });
});

describe("what goes wrong", () => {
  it("is told in the server's one line, with its status and what stood beside it", async () => {
    const asked = book.records[":kind"].$get({ param: { kind: "keel" }, query: {} });
    await expect(asked).rejects.toThrow(ApiTrouble);
    await expect(asked).rejects.toThrow(/^kind: "keel"; one of about, site/);
    await expect(asked).rejects.toMatchObject({ status: 404 });
  });

  it("is being out of reach where no server answers, or none that knows this device", async () => {
    vi.stubGlobal("fetch", async () => {
      throw new TypeError("Failed to fetch");
    });
    await expect(book.book.$get()).rejects.toThrow(OutOfReach);
    vi.stubGlobal("fetch", async () => new Response("{}", { status: 401 }));
    await expect(book.book.$get()).rejects.toThrow("this device is not let in");
    expect(isPaired.get()).toBe(false);
    vi.stubGlobal("fetch", toBench);
    await book.book.$get();
    expect(isPaired.get()).toBe(true);
  });

  it("is nothing where the question was given up", async () => {
    const stop = new AbortController();
    stop.abort();
    await expect(book.logs.$get({}, until(stop.signal))).rejects.toMatchObject({ name: "AbortError" });
  });
});
