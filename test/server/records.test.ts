import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { benchWithBook, boat, overBoat, refused } from "./in-process.ts";

const { ask, askOverBoat, send, newId, network, book, faults } = benchWithBook();
afterAll(() => {
  expect(faults).toEqual([]);
  book.close();
});

type Shown = { id: string; version: string; name: string; hidden: boolean } & Record<string, unknown>;
const json = async <T>(answer: Response | Promise<Response>): Promise<T> => (await answer).json() as Promise<T>;
const put = async (id: string, expected: string | null, set: object) =>
  json<{ transaction: string | null; record: Shown }>(send("PUT", `/api/1/records/site/${id}`, { expected, set }));

describe("a record", () => {
  it("is made, got and listed, in SI, and its version changes with what it says", async () => {
    const id = newId();
    const made = await put(id, null, { name: "North bay", latitude_deg: 51.5 });
    expect(made.record).toMatchObject({ id, name: "North bay", latitude_deg: 51.5, hidden: false });
    expect((await json<{ record: Shown }>(ask(`/api/1/records/site/${id}`))).record).toEqual(made.record);
    const listed = await json<{ records: Shown[] }>(ask("/api/1/records/site"));
    expect(listed.records).toContainEqual(made.record);
    const changed = await put(id, made.record.version, { description: "mud" });
    expect(changed.record.version).not.toBe(made.record.version);
    expect(changed.record).toMatchObject({ name: "North bay", description: "mud" });
  });
  it("seen before somebody else changed it is not overwritten: 409, with the record as it stands", async () => {
    const id = newId();
    const { record } = await put(id, null, { name: "South bay" });
    const faster = await put(id, record.version, { name: "South bay, outer" });
    const late = await send("PUT", `/api/1/records/site/${id}`, { expected: record.version, set: { name: "Inner" } });
    const body = await json<{ error: { place: string }; now: Shown }>(late);
    expect([late.status, body.error.place, body.now]).toEqual([409, `site ${id}`, faster.record]);
    expect((await json<{ record: Shown }>(ask(`/api/1/records/site/${id}`))).record.name).toBe("South bay, outer");
    const stranger = await send("PUT", `/api/1/records/site/${id}`, { expected: null, set: { name: "Inner" } });
    expect(stranger.status).toBe(409);
  });
  it("written twice because the answer was lost is written once", async () => {
    const id = newId();
    const first = await put(id, null, { name: "Once" });
    const again = await put(id, null, { name: "Once" });
    expect([first.transaction === null, again.transaction, again.record]).toEqual([false, null, first.record]);
    const transactions = await json<{ transactions: unknown[] }>(ask(`/api/1/history?record=${id}`));
    expect(transactions.transactions).toHaveLength(1);
  });
  it("put aside leaves the lists, is found with hidden=only, and comes back", async () => {
    const id = newId();
    await put(id, null, { name: "Aside" });
    const names = async (query: string) =>
      (await json<{ records: Shown[] }>(ask(`/api/1/records/site${query}`))).records.map((record) => record.name);
    expect((await send("PUT", `/api/1/records/site/${id}/hidden`, { hidden: true })).status).toBe(200);
    expect([await names(""), await names("?hidden=only")].map((list) => list.includes("Aside"))).toEqual([false, true]);
    await send("PUT", `/api/1/records/site/${id}/hidden`, { hidden: false });
    expect(await names("?where.name=Aside")).toEqual(["Aside"]);
    book.edit("site", id, { latitude_deg: 12.5 });
    expect(await names("?where.latitude_deg=12.5")).toEqual(["Aside"]);
    expect(await names("?where.latitude_deg=12")).toEqual([]);
    expect(await names("?where.latitude_deg=")).not.toContain("Aside");
  });
  it("several are written as one transaction or not at all", async () => {
    const [site, day] = [newId(), newId()];
    const drafts = [
      { kind: "site", id: site, expected: null, set: { name: "Both" } },
      { kind: "day", id: day, expected: null, set: { date: "2031-05-03", site } },
    ];
    const wrong = [...drafts, { kind: "site", id: newId(), expected: null, set: { name: "x", latitude_deg: 91 } }];
    expect(await refused(await send("POST", "/api/1/records", { label: "a day", drafts: wrong }))).toMatch(
      /^400 site.latitude_deg: 91/,
    );
    expect((await ask(`/api/1/records/site/${site}`)).status).toBe(404);
    const wrote = await json<{ transaction: string; records: Shown[] }>(
      send("POST", "/api/1/records", { label: "a day", drafts }),
    );
    expect(wrote.records.map((record) => record.id)).toEqual([site, day]);
    expect(
      (await json<{ transactions: { transaction: string; label: string }[] }>(ask("/api/1/history?limit=1")))
        .transactions[0],
    ).toMatchObject({ transaction: wrote.transaction, label: "a day" });
  });
});

describe("what is refused, each in one line", () => {
  const id = newId();
  const cases: readonly (readonly [string, string, string, unknown, RegExp])[] = [
    ["an unknown kind", "GET", "/api/1/records/ship", undefined, /^404 kind: "ship"; one of about, site/],
    ["a kind from the prototype", "GET", "/api/1/records/constructor", undefined, /^404 kind/],
    ["a table of the file", "GET", "/api/1/records/sqlite_master", undefined, /^404 kind/],
    [
      "no such record",
      "GET",
      `/api/1/records/site/${id}`,
      undefined,
      /^404 site: "[0-9a-f-]{36}"; a record of this book/,
    ],
    ["an id of another form", "GET", "/api/1/records/site/1", undefined, /^400 id: "1"; a UUID/],
    ["an id that is SQL", "GET", `/api/1/records/site/${encodeURIComponent("' OR 1=1 --")}`, undefined, /^400 id/],
    ["an unknown query", "GET", "/api/1/records/site?order=name", undefined, /^400 \?order: "name"/],
    ["an unknown field asked for", "GET", "/api/1/records/about?where.colour=red", undefined, /^400 \?where.colour/],
    [
      "one of a kind there is none of",
      "GET",
      "/api/1/records/series?where.colour=red",
      undefined,
      /^400 \?where.colour/,
    ],
    ["an id asked for as a field", "GET", "/api/1/records/site?where.id=x", undefined, /^400 \?where.id/],
    ["text for a number", "GET", "/api/1/records/pull?where.depth_m=deep", undefined, /^400 \?where.depth_m/],
    ["text for a yes or no", "GET", "/api/1/records/about?where.simulated=1", undefined, /^400 \?where.simulated/],
    [
      "an unknown field",
      "PUT",
      `/api/1/records/site/${id}`,
      { expected: null, set: { name: "x", colour: 1 } },
      /^400 site.colour: no such field/,
    ],
    [
      "a field of the prototype",
      "PUT",
      `/api/1/records/site/${id}`,
      JSON.parse('{"expected":null,"set":{"name":"x","__proto__":{"a":1}}}'),
      /^400 body: "__proto__"/,
    ],
    [
      "a missing field",
      "PUT",
      `/api/1/records/site/${id}`,
      { expected: null, set: {} },
      /^400 site.name: ; a name is expected/,
    ],
    [
      "a wrong number",
      "PUT",
      `/api/1/records/site/${id}`,
      { expected: null, set: { name: "x", latitude_deg: "north" } },
      /^400 site.latitude_deg: "north"; a latitude/,
    ],
    [
      "a pointer to nothing",
      "PUT",
      `/api/1/records/seabed/${id}`,
      { expected: null, set: { name: "x", site: id } },
      /^400 seabed.site/,
    ],
    ["no version", "PUT", `/api/1/records/site/${id}`, { set: { name: "x" } }, /^400 body.expected/],
    [
      "a field of no envelope",
      "PUT",
      `/api/1/records/site/${id}`,
      { expected: null, set: { name: "x" }, force: true },
      /^400 body/,
    ],
    ["a version of nothing", "PUT", `/api/1/records/site/${id}`, { expected: "abc", set: { name: "x" } }, /^404 site/],
    ["no drafts", "POST", "/api/1/records", { label: "x", drafts: [] }, /^400 body.drafts/],
    ["hiding nothing", "PUT", `/api/1/records/site/${id}/hidden`, { hidden: true }, /^404 site/],
    ["hiding by halves", "PUT", `/api/1/records/site/${id}/hidden`, { hidden: "yes" }, /^400 body.hidden/],
    ["too long a history", "GET", "/api/1/history?limit=100000", undefined, /^400 \?.limit/],
    ["a history before nothing", "GET", `/api/1/history?before=${id}`, undefined, /^400 .*no such transaction/],
    ["an undo of nothing", "POST", "/api/1/undo", { transaction: id }, /^400 .*no such transaction/],
    ["deleting", "DELETE", `/api/1/records/site/${id}`, undefined, /^404 address: "DELETE /],
  ];
  it.each(cases)("%s", async (_name, method, path, body, line) => {
    const answer = body === undefined ? await ask(path, { method }) : await send(method, path, body);
    expect(await refused(answer)).toMatch(line);
    expect(answer.headers.get("cache-control")).toBe("no-store");
  });
  it.each([
    ["no JSON", "{", "application/json", /^400 body: not JSON/],
    ["another type", "{}", "text/plain", /^415 Content-Type/],
    ["a form", "a=1", "application/x-www-form-urlencoded", /^415/],
    ["no type", "{}", "", /^415/],
    ["a list", "[]", "application/json", /^400 body/],
    ["not UTF-8", new Uint8Array([0x22, 0xff, 0x22]), "application/json", /^400 body: not UTF-8/],
  ])("a body that is %s", async (_name, body, type, line) => {
    expect(
      await refused(await ask(`/api/1/records/site/${id}`, { method: "PUT", headers: { "content-type": type }, body })),
    ).toMatch(line);
  });
  it("a body too long is refused by what it claims, and by what it is", async () => {
    const path = `/api/1/records/site/${id}`;
    const headers = { "content-type": "application/json" };
    const body = JSON.stringify({ expected: null, set: { name: "x", description: "y".repeat(1_100_000) } });
    expect(
      await refused(
        await ask(path, { method: "PUT", headers: { ...headers, "content-length": "99999999" }, body: "{}" }),
      ),
    ).toMatch(/^413 body: 99999999 bytes or more; at most 1000000 bytes/);
    expect(await refused(await ask(path, { method: "PUT", headers, body }))).toMatch(/^413/);
    let sent = 0;
    const endless = new ReadableStream({
      pull(controller) {
        sent += 65_536;
        controller.enqueue(new Uint8Array(65_536).fill(0x20));
      },
    });
    const answer = await ask(path, { method: "PUT", headers, body: endless, duplex: "half" } as RequestInit);
    expect(await refused(answer)).toMatch(/^413/);
    // Stopped at the first byte too many, give or take what streams hold.
    expect(sent).toBeLessThan(2_000_000);
  });
  it("whatever is sent, the answer is one of these and never a fault", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom("PUT", "POST", "GET", "DELETE"),
        fc.constantFrom("site", "pull", "log", "mark", "about", "x"),
        fc.json(),
        fc.string(),
        async (method, kind, text, tail) => {
          const path = `/api/1/records/${kind}/${encodeURIComponent(tail)}`;
          const body = method === "PUT" || method === "POST" ? { body: text } : {};
          const answer = await ask(path, { method, headers: { "content-type": "application/json" }, ...body });
          expect([200, 400, 404]).toContain(answer.status);
        },
      ),
      { seed: 20310503, numRuns: 500 },
    );
  });
});

describe("undo", () => {
  it("takes back one's own last transaction, not another device's", async () => {
    const { code } = network.code.issue();
    const form = new URLSearchParams({ code, name: "Foredeck phone" });
    const letIn = await askOverBoat("/let-in", { method: "POST", headers: { origin: boat }, body: form });
    const headers = { cookie: letIn.headers.get("set-cookie")!.split(";")[0]!, "content-type": "application/json" };
    const mine = newId();
    await put(mine, null, { name: "At the computer" });
    const theirs = newId();
    const body = JSON.stringify({ expected: null, set: { name: "On the phone" } });
    expect(
      (await askOverBoat(`/api/1/records/site/${theirs}`, { method: "PUT", headers, body }, overBoat)).status,
    ).toBe(200);
    const transactions = (await json<{ transactions: { who: string }[] }>(ask("/api/1/history?limit=2"))).transactions;
    expect(transactions.map((transaction) => transaction.who)).toEqual(["Foredeck phone", "this computer"]);
    // The computer undoes: its own site goes, the phone's, which is newer, stays.
    expect(await json(send("POST", "/api/1/undo", {}))).toMatchObject({ kind: "reverted", label: "undo: write site" });
    const hidden = async (id: string) =>
      (await json<{ record: Shown }>(ask(`/api/1/records/site/${id}`))).record.hidden;
    expect([await hidden(mine), await hidden(theirs)]).toEqual([true, false]);
    expect(await json(send("POST", "/api/1/redo", {}))).toMatchObject({ kind: "reverted" });
    expect(await hidden(mine)).toBe(false);
  });
  it("of what somebody has changed since is refused: 409", async () => {
    const id = newId();
    const first = await put(id, null, { name: "First" });
    const second = await put(id, first.record.version, { name: "Second" });
    await put(id, second.record.version, { name: "Third" });
    expect(await refused(await send("POST", "/api/1/undo", { transaction: second.transaction }))).toMatch(
      /^409 .*changed by somebody since/,
    );
  });
});

describe("the book", () => {
  it("tells what it is, what it holds and who asks", async () => {
    const about = await json<Record<string, unknown>>(ask("/api/1/book"));
    expect(about).toMatchObject({
      about: { title: "A book of tests", simulated: true },
      readOnly: false,
      you: { who: "this computer", via: "computer" },
    });
    expect((about.counts as { records: { site: number } }).records.site).toBe(book.counts().records.site);
  });
});
