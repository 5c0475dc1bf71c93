import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { Book } from "../../src/book/index.ts";
import { benchWithBook, boat, refused } from "./in-process.ts";

const { ask, askOverBoat, send, newId, network, book, faults, clock } = benchWithBook();
afterAll(() => {
  expect(faults).toEqual([]);
  book.close();
});

const phone = newId();
interface Became {
  transaction: string;
  kind: "joined" | "known" | "refused" | "otherBook";
  error?: { place: string; given: string; expected: string };
}
const at = (minute: number) => new Date(Date.UTC(2031, 4, 3, 10, minute)).toISOString();
const note = (text: string, minute = 0) => {
  const id = newId();
  const record = { kind: "note", id, makes: true, set: { text } };
  return { id: newId(), device: phone, at: at(minute), label: "note on the foredeck", records: [record] };
};
const join = async (transactions: readonly object[]) =>
  ((await (await send("POST", "/api/1/join", { transactions })).json()) as { transactions: Became[] }).transactions;
const notes = () => book.list("note").map((one) => one.text);

describe("what was written offline joins the book", () => {
  it("each transaction once, however often it is sent", async () => {
    const transactions = [note("first"), note("second")];
    expect((await join(transactions)).map((one) => one.kind)).toEqual(["joined", "joined"]);
    expect((await join(transactions)).map((one) => one.kind)).toEqual(["known", "known"]);
    expect(notes().filter((text) => text === "first" || text === "second")).toHaveLength(2);
  });
  it("sent in any pieces, in any order, with any repeats: the same book", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: 6 }).chain((count) =>
          fc.record({
            count: fc.constant(count),
            pieces: fc.array(fc.array(fc.integer({ min: 0, max: count - 1 }), { minLength: 1, maxLength: 8 }), {
              minLength: 1,
              maxLength: 5,
            }),
          }),
        ),
        async ({ count, pieces }) => {
          const mark = newId();
          const transactions = Array.from({ length: count }, (_, i) => note(`${mark} ${i}`, i));
          for (const piece of pieces) await join(piece.map((i) => transactions[i]!));
          // What never got through is sent at last, with all the rest again.
          await join(transactions);
          const mine = notes().filter((text) => text?.startsWith(mark));
          expect(mine.sort()).toEqual(transactions.map((_, i) => `${mark} ${i}`));
        },
      ),
      { seed: 20310503, numRuns: 40 },
    );
  });
  it("one that is refused holds up no other and tells why", async () => {
    const good = [note("before"), note("after")];
    const bad = {
      ...note("x"),
      records: [{ kind: "site", id: newId(), makes: true, set: { name: "x", latitude_deg: 91 } }],
    };
    const became = await join([good[0]!, bad, good[1]!]);
    expect(became.map((one) => one.kind)).toEqual(["joined", "refused", "joined"]);
    expect(became[1]!.error!.place).toMatch(/latitude_deg$/);
    expect(became[1]!.error!.given).toBe("91");
  });
  it("takes nothing that was written for another book, and what names no book or this one", async () => {
    const { id } = (await (await ask("/api/1/book")).json()) as { id: string };
    const sent = [
      { ...note("for another"), book: newId() },
      { ...note("for this one"), book: id },
      note("for whichever is open"),
    ];
    expect((await join(sent)).map(({ kind }) => kind)).toEqual(["otherBook", "joined", "joined"]);
    expect(notes()).not.toContain("for another");
    expect(notes()).toEqual(expect.arrayContaining(["for this one", "for whichever is open"]));
    // Sent again it is as before: nothing was remembered of it.
    expect((await join(sent.slice(0, 1))).map(({ kind }) => kind)).toEqual(["otherBook"]);
  });
  it("keeps the device's own time, and a later change at the computer stands", async () => {
    const site = newId();
    const made = await send("PUT", `/api/1/records/site/${site}`, { expected: null, set: { name: "At the computer" } });
    expect(made.status).toBe(200);
    // The phone changed the name in 2001, long before the computer did.
    const early = {
      ...note("x"),
      at: "2001-05-03T09:00:00.000Z",
      records: [{ kind: "site", id: site, makes: false, set: { name: "On the phone", description: "mud" } }],
    };
    expect((await join([early]))[0]!.kind).toBe("joined");
    expect(book.get("site", site)).toMatchObject({ name: "At the computer", description: "mud" });
  });
  it("carries the name of the device that was let in, whatever it says of itself", async () => {
    const { code } = network.code.issue();
    const form = new URLSearchParams({ code, name: "Foredeck phone" });
    const letIn = await askOverBoat("/let-in", { method: "POST", headers: { origin: boat }, body: form });
    const headers = { cookie: letIn.headers.get("set-cookie")!.split(";")[0]!, "content-type": "application/json" };
    const transaction = note("from the phone");
    const forged = await askOverBoat("/api/1/join", {
      method: "POST",
      headers,
      body: JSON.stringify({ transactions: [{ ...transaction, who: "Skipper" }] }),
    });
    expect(await refused(forged)).toMatch(/^400 body.transactions/);
    expect(
      (
        await askOverBoat("/api/1/join", {
          method: "POST",
          headers,
          body: JSON.stringify({ transactions: [transaction] }),
        })
      ).status,
    ).toBe(200);
    expect(book.history({ record: transaction.records[0]!.id })[0]).toMatchObject({
      who: "Foredeck phone",
      manner: "offline",
    });
    // Withdrawn and let in again, it sends the same transaction once more: known.
    network.devices.withdraw(network.devices.list()[0]!.id);
    expect(
      (
        await askOverBoat("/api/1/join", {
          method: "POST",
          headers,
          body: JSON.stringify({ transactions: [transaction] }),
        })
      ).status,
    ).toBe(401);
    clock.ms += 1;
    expect((await join([transaction]))[0]!.kind).toBe("known");
  });
  describe("is held to what every other write is", () => {
    const rig = newId();
    const version = newId();
    const log = newId();
    const text =
      "format: rodebench/rig@1\nsetting: { medium: air, rise: 9 m }\nrode: [{ chain: { grade: '30', size: 10 mm, length: 30 m } }]\n";
    const load = { name: "load", quantity: "force", unit: "N", precision: "double" };
    const wrote = (kind: string, id: string, set: object, makes = false) => ({
      ...note("x", 30),
      records: [{ kind, id, makes, set }],
    });
    it("made first", async () => {
      const made = {
        ...note("x"),
        records: [
          { kind: "rig", id: rig, makes: true, set: { name: "Quay rig" } },
          { kind: "rigVersion", id: version, makes: true, set: { rig, file: text } },
          { kind: "log", id: log, makes: true, set: { name: "cell", channels: [load] } },
        ],
      };
      expect(await join([made])).toEqual([{ transaction: made.id, kind: "joined", ahead_s: expect.any(Number) }]);
    });
    it.each([
      ["a rig file rewritten", "rigVersion", version, { file: `${text}name: other\n` }, false],
      ["a rig file rewritten as if new", "rigVersion", version, { rig, file: `${text}name: other\n` }, true],
      ["a required field taken back", "rig", rig, { name: null }, false],
      ["a required field emptied", "rig", rig, { name: "" }, false],
      ["the channels of a log renamed", "log", log, { channels: [{ ...load, name: "weight" }] }, false],
      ["the channels of a log taken away", "log", log, { channels: [] }, false],
      ["the channels of a log in another order", "log", log, { channels: [{ ...load, name: "angle" }, load] }, false],
      ["a second account of the book", "about", newId(), { title: "x" }, true],
    ])("%s is refused", async (_what, kind, id, set, makes) => {
      const before = book.digest();
      expect((await join([wrote(kind, id, set, makes)]))[0]!.kind).toBe("refused");
      expect(book.digest()).toBe(before);
    });
    it("a channel more is taken", async () => {
      expect((await join([wrote("log", log, { channels: [load, { ...load, name: "angle" }] })]))[0]!.kind).toBe(
        "joined",
      );
    });
    it("a record made that is there already shows no hidden one again, and changes what may change", async () => {
      book.hide(rig);
      const later = { ...wrote("rig", rig, { name: "Other rig" }, true), at: at(50) };
      expect((await join([later]))[0]!.kind).toBe("joined");
      expect(book.get("rig", rig)).toMatchObject({ name: "Other rig" });
      expect(book.get("rig", rig)).toMatchObject({ hidden: true });
      book.show(rig);
    });
    it("one record written twice in a transaction: the later value stands, over what was seen first", async () => {
      const site = newId();
      const transaction = {
        ...note("x", 40),
        records: [
          { kind: "site", id: site, makes: true, set: { name: "first", latitude_deg: 1 } },
          { kind: "site", id: site, makes: false, set: { name: "later" }, was: { name: "first" } },
        ],
      };
      const other = note("beside");
      expect((await join([transaction, other])).map(({ kind }) => kind)).toEqual(["joined", "joined"]);
      expect(book.get("site", site)).toMatchObject({ name: "later", latitude_deg: 1 });
    });
    it("the id of the book's own computer, and of a device that writes to it directly, are not another's", async () => {
      expect((await join([{ ...note("x"), device: book.context.device }]))[0]).toMatchObject({
        kind: "refused",
        error: { place: "offline.device" },
      });
      const direct = newId();
      new Book({ ...book.context, who: "Bo's phone", device: direct }, []).add("note", { text: "direct" });
      expect((await join([{ ...note("x"), device: direct }]))[0]!.kind).toBe("refused");
    });
    it.each(["+275760-09-13T00:00:00.000Z", "+010000-01-01T00:00:00.000Z", "1969-12-31T23:59:59.999Z"])(
      "a time no later change could follow, or before 1970, is refused: %s",
      async (at) => {
        expect((await join([{ ...note("x"), at }]))[0]!.kind).toBe("refused");
      },
    );
    it("a clock far ahead is told by how much, and later changes here still stand over it", async () => {
      const ahead = { ...wrote("rig", rig, { name: "from the future" }), at: "9999-12-31T23:59:59.999Z" };
      const [became] = await join([ahead]);
      expect(became).toMatchObject({ kind: "joined" });
      const told = ((await (await ask("/api/1/book")).json()) as { notices: string[] }).notices;
      expect(told.filter((line) => line.startsWith("the clock of this computer is ahead"))).toHaveLength(1);
      const { ahead_s } = became as unknown as { ahead_s: number };
      expect(ahead_s).toBeCloseTo((Date.UTC(10_000, 0) - Date.now()) / 1000, -3);
      expect(book.edit("rig", rig, { name: "set right" })).not.toBeNull();
      expect(book.get("rig", rig)?.name).toBe("set right");
      expect(book.check()).toMatchObject({ kind: "sound" });
    });
  });
  it("from the boat's network a device takes back its own transactions only, also by their ids; the computer any", async () => {
    const letIn = async (name: string) => {
      const { code } = network.code.issue();
      const form = new URLSearchParams({ code, name });
      const answer = await askOverBoat("/let-in", { method: "POST", headers: { origin: boat }, body: form });
      return { cookie: answer.headers.get("set-cookie")!.split(";")[0]!, "content-type": "application/json" };
    };
    const [mine, theirs] = [await letIn("Bow phone"), await letIn("Stern phone")];
    const post = (headers: Record<string, string>, path: string, body: object) =>
      askOverBoat(`/api/1/${path}`, { method: "POST", headers, body: JSON.stringify(body) });
    const offline = note("from the bow");
    await post(mine, "join", { transactions: [offline] });
    const site = newId();
    const put = await askOverBoat(`/api/1/records/site/${site}`, {
      method: "PUT",
      headers: mine,
      body: JSON.stringify({ expected: null, set: { name: "put from the bow" } }),
    });
    const { transaction } = (await put.json()) as { transaction: string };
    for (const id of [offline.id, transaction])
      expect(await refused(await post(theirs, "undo", { transaction: id }))).toMatch(
        /^400 [0-9a-f-]{36}: written by Bow phone/,
      );
    expect(book.get("site", site)?.hidden).toBe(false);
    expect(await (await post(theirs, "undo", {})).json()).toMatchObject({ kind: "nothing" });
    expect((await post(mine, "undo", { transaction: offline.id })).status).toBe(200);
    expect((await send("POST", "/api/1/undo", { transaction })).status).toBe(200);
    expect(book.get("site", site)?.hidden).toBe(true);
  });
  it.each([
    ["no transactions", { transactions: [] }, /^400 body.transactions/],
    [
      "a transaction without records",
      { transactions: [{ ...note("x"), records: [] }] },
      /^400 body.transactions.0.records/,
    ],
    ["more", { transactions: [note("x")], force: true }, /^400 body/],
    ["nothing", {}, /^400 body.transactions/],
  ])("a batch with %s is refused", async (_name, body, line) => {
    expect(await refused(await send("POST", "/api/1/join", body))).toMatch(line);
  });
  it.each([
    ["an id that is none", { id: "1" }],
    ["a device that is none", { device: "phone" }],
    ["a time that is none", { at: "yesterday" }],
    ["a kind that is none", { records: [{ kind: "ship", id: newId(), makes: true, set: {} }] }],
    ["a change to nothing", { records: [{ kind: "site", id: newId(), makes: false, set: { name: "x" } }] }],
    [
      "a pointer to nothing",
      { records: [{ kind: "seabed", id: newId(), makes: true, set: { name: "x", site: newId() } }] },
    ],
  ])("a transaction with %s is refused, and nothing of it is written", async (_name, wrong) => {
    const before = book.counts();
    expect((await join([{ ...note("x"), ...wrong }]))[0]!.kind).toBe("refused");
    expect(book.counts()).toEqual(before);
  });
  it("only as JSON, only so much", async () => {
    expect(await refused(await ask("/api/1/join", { method: "POST", body: "{}" }))).toMatch(/^415/);
    const headers = { "content-type": "application/json", "content-length": "17000000" };
    expect(await refused(await ask("/api/1/join", { method: "POST", headers, body: "{}" }))).toMatch(/^413/);
  });
});
