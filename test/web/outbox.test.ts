/** What is written on a device reaches the book once, in order, whatever happens on the way; a copy of the book stands beside it. */
import { beforeEach, describe, expect, it, vi } from "vitest";
import { type MemoryStore, memoryStore } from "../support/memory-store.ts";

/** What the book's computer is asked, and how it answers. */
type Answer = (body: { transactions: { id: string; records: unknown[] }[] }) => unknown;
let asked: { path: string; method: string; body: unknown }[];
let joins: Answer;
let reach: "here" | "none" | 401 | 503;
const lists = new Map<string, unknown[]>();
let bookId = "book 1";

let store: MemoryStore;
let outbox: typeof import("../../src/web/api/outbox.ts");
let copy: typeof import("../../src/web/days/book-copy.ts");
let written: typeof import("../../src/web/days/written.ts");
let device: typeof import("../../src/web/state/device.ts")["device"];

const allJoined: Answer = ({ transactions }) => ({
  transactions: transactions.map(({ id }) => ({ kind: "joined", transaction: id })),
});

beforeEach(async () => {
  vi.resetModules();
  store = memoryStore((name, value) => vi.stubGlobal(name, value));
  asked = [];
  joins = allJoined;
  reach = "here";
  bookId = "book 1";
  lists.clear();
  vi.stubGlobal("fetch", async (input: RequestInfo | URL, init?: RequestInit) => {
    if (reach === "none") throw new TypeError("no network");
    const path = String(input).replace(/^.*\/api\/1/, "");
    const body = init?.body === undefined || init.body === null ? null : JSON.parse(String(init.body));
    asked.push({ path, method: init?.method ?? "GET", body });
    if (reach !== "here")
      return Response.json({ error: { place: "book", given: "shut", expected: "an open one" } }, { status: reach });
    return Response.json(answerTo(path, body));
  });
  vi.stubGlobal("document", { visibilityState: "visible", addEventListener() {}, getElementById: () => null });
  outbox = await import("../../src/web/api/outbox.ts");
  copy = await import("../../src/web/days/book-copy.ts");
  written = await import("../../src/web/days/written.ts");
  device = (await import("../../src/web/state/device.ts")).device;
});

function answerTo(path: string, body: unknown): unknown {
  const bare = path.split("?")[0]!;
  if (bare === "/join") return joins(body as never);
  if (bare === "/book")
    return {
      id: bookId,
      about: { title: "Ebb", description: "invented", simulated: true },
      readOnly: true,
      you: { via: "boat" },
    };
  if (bare === "/logs") return { logs: lists.get("log") ?? [] };
  if (bare === "/undo") {
    const { transaction } = body as { transaction: string };
    return transaction === "gone" ? { kind: "nothing" } : { kind: "reverted", transaction: `un-${transaction}` };
  }
  if (bare.endsWith("/hidden")) return { transaction: "hid" };
  return { records: lists.get(bare.split("/")[2]!) ?? [] };
}

const site = (name: string) => ({ kind: "site", id: `id of ${name}`, makes: true, set: { name } });
const shelf = () =>
  [...store.shelves.get("outbox")!.values()] as { transaction: { id: string; label: string; book?: string } }[];
const paths = () => asked.filter(({ path }) => path === "/join").length;

describe("a write", () => {
  it("is joined: sent with the device's own id, its label and its moment, and let go", async () => {
    const before = Date.now();
    const wrote = await outbox.writeRecords("add site", [site("A")]);
    expect(wrote.kind).toBe("joined");
    const [sent] = (asked[0]!.body as { transactions: Record<string, unknown>[] }).transactions;
    expect(asked[0]).toMatchObject({ path: "/join", method: "POST" });
    expect(sent).toMatchObject({ id: wrote.transaction, device: await outbox.ownId(), label: "add site" });
    expect(sent!.records).toEqual([site("A")]);
    expect(Date.parse(String(sent!.at))).toBeGreaterThanOrEqual(before);
    expect(sent).not.toHaveProperty("book");
    expect(shelf()).toEqual([]);
  });

  it("names the book it was written for, once one was seen", async () => {
    await copy.look();
    await outbox.writeRecords("add site", [site("A")]);
    const body = asked.find(({ path }) => path === "/join")!.body as { transactions: { book: string }[] };
    expect(body.transactions[0]!.book).toBe("book 1");
  });

  it("waits on the device while the book is out of reach, and is sent in the order written", async () => {
    for (const how of ["none", 401, 503] as const) {
      reach = how;
      expect((await outbox.writeRecords(`while ${how}`, [site(String(how))])).kind).toBe("waits");
    }
    expect(shelf()).toHaveLength(3);
    expect((await outbox.waitingHere()).map(({ label }) => label)).toEqual(["while none", "while 401", "while 503"]);
    reach = "here";
    asked = [];
    const became = await outbox.send();
    expect([...became.values()]).toEqual(["", "", ""]);
    const body = asked[0]!.body as { transactions: { label: string }[] };
    expect(body.transactions.map(({ label }) => label)).toEqual(["while none", "while 401", "while 503"]);
    expect(shelf()).toEqual([]);
  });

  it("is not kept at all where the device cannot keep it", async () => {
    await outbox.ownId();
    store.fails = "abort";
    await expect(outbox.writeRecords("add site", [site("A")])).rejects.toThrow("the device's store is full");
    expect(paths()).toBe(0);
  });

  it("refused stays on the device with why, and is not sent again by itself", async () => {
    joins = ({ transactions }) => ({
      transactions: transactions.map(({ id }) => ({
        kind: "refused",
        transaction: id,
        error: { place: "site, name", given: "nothing", expected: "a name is expected" },
      })),
    });
    const wrote = await outbox.writeRecords("add site", [site("")]);
    const why = "site, name: nothing; a name is expected";
    expect(wrote).toEqual({ kind: "refused", transaction: wrote.transaction, why });
    expect(shelf()).toMatchObject([{ refused: why }]);
    expect(await outbox.waitingHere()).toEqual([]);
    asked = [];
    expect((await outbox.send()).size).toBe(0);
    expect(paths()).toBe(0);
  });

  it("for another book waits for that one", async () => {
    await copy.look();
    reach = "none";
    await outbox.writeRecords("for the first", [site("A")]);
    reach = "here";
    bookId = "book 2";
    await copy.look();
    expect(await outbox.waitingHere()).toEqual([]);
    joins = ({ transactions }) => ({
      transactions: transactions.map(({ id }) => ({ kind: "otherBook", transaction: id })),
    });
    asked = [];
    expect((await outbox.send()).size).toBe(0);
    expect(paths()).toBe(1);
    expect(shelf()).toHaveLength(1);
    bookId = "book 1";
    await copy.look();
    expect(await outbox.waitingHere()).toHaveLength(1);
  });

  it("goes two hundred at a time", async () => {
    reach = "none";
    await outbox.writeRecords("first", [site("A")]);
    const [{ transaction } = { transaction: { id: "" } }] = shelf();
    for (let i = 0; i < 200; i++) {
      const id = `${transaction.id.slice(0, -4)}${String(i).padStart(4, "0")}`;
      store.shelves.get("outbox")!.set(id, { transaction: { ...transaction, id } });
    }
    const all = store.shelves.get("outbox")!.size;
    reach = "here";
    await outbox.send();
    const sizes = asked
      .filter(({ path }) => path === "/join")
      .map(({ body }) => (body as { transactions: [] }).transactions.length);
    expect(sizes).toEqual([200, all - 200]);
  });

  it("stops where the book answers nothing of what it was sent", async () => {
    joins = () => ({ transactions: [] });
    expect((await outbox.writeRecords("add site", [site("A")])).kind).toBe("waits");
    expect(paths()).toBe(1);
  });

  it("is read as an earlier bench kept it", async () => {
    await outbox.ownId();
    const act = { id: "018f", device: "d", at: "2031-05-03T09:00:00Z", label: "old", records: [] };
    store.shelves.get("outbox")!.set("018f", { act });
    expect(await outbox.waitingHere()).toEqual([act]);
  });

  it("comes always from one device", async () => {
    const id = await outbox.ownId();
    expect(id).toMatch(/^[0-9a-f-]{36}$/);
    expect(await outbox.ownId()).toBe(id);
    expect(await device.get("states", "device id")).toBe(id);
  });
});

describe("the copy of the book", () => {
  it("is as the book answers, and kept on the device for when that is out of reach", async () => {
    lists.set("site", [{ id: "s", hidden: true, name: "A" }]);
    lists.set("log", [{ id: "l" }]);
    await copy.look();
    const fresh = copy.bookCopy.get();
    expect(fresh).toMatchObject({
      ...{ state: "fresh", trouble: null, title: "Ebb", description: "invented", simulated: true, readOnly: true },
      ...{ via: "boat", logs: [{ id: "l" }] },
    });
    expect(fresh.records.site).toEqual([{ id: "s", hidden: true, name: "A" }]);
    // What was put aside is asked for as well, of every kind that is kept and of pictures.
    const kinds = asked.filter(({ path }) => path.startsWith("/records/"));
    expect(kinds.every(({ path }) => path.endsWith("?hidden=with"))).toBe(true);
    expect(kinds).toHaveLength(11);
    expect(await device.get("states", "id of the book")).toBe("book 1");
    reach = "none";
    await copy.look();
    expect(copy.bookCopy.get()).toMatchObject({ state: "kept", title: "Ebb", trouble: null });
  });

  it("is read from the device by a bench that was opened out of reach", async () => {
    lists.set("anchor", [{ id: "a", hidden: false, name: "Scoop" }]);
    await copy.look();
    vi.resetModules();
    const again = await import("../../src/web/days/book-copy.ts");
    reach = "none";
    expect(again.bookCopy.get().state).toBe("asking");
    await again.look();
    expect(again.bookCopy.get()).toMatchObject({ state: "kept", title: "Ebb" });
    expect(again.bookCopy.get().records.anchor).toEqual([{ id: "a", hidden: false, name: "Scoop" }]);
    await again.forgetCopy();
    vi.resetModules();
    const none = await import("../../src/web/days/book-copy.ts");
    await none.look();
    expect(none.bookCopy.get()).toMatchObject({
      state: "none",
      title: "",
      via: null,
      readOnly: false,
      simulated: false,
    });
  });

  it("says in one line why the book did not answer, over what was seen before", async () => {
    reach = 503;
    await copy.look();
    expect(copy.bookCopy.get()).toMatchObject({ state: "none", trouble: "book: shut; an open one" });
    reach = "here";
    await copy.look();
    expect(copy.bookCopy.get()).toMatchObject({ state: "fresh", trouble: null });
    reach = 503;
    await copy.look();
    expect(copy.bookCopy.get()).toMatchObject({ state: "fresh", title: "Ebb", trouble: "book: shut; an open one" });
  });

  it("is asked for once more when it is asked for meanwhile, and once only", async () => {
    const first = copy.look();
    const second = copy.look();
    void copy.look();
    expect(second).toBe(first);
    await first;
    expect(asked.filter(({ path }) => path === "/book")).toHaveLength(2);
    await copy.look();
    expect(asked.filter(({ path }) => path === "/book")).toHaveLength(3);
  });

  it("has what waits on the device laid over it", async () => {
    lists.set("site", [{ id: "id of A", hidden: false, name: "Old" }]);
    await copy.look();
    reach = "none";
    await outbox.writeRecords("name", [{ kind: "site", id: "id of A", makes: false, set: { name: "New" } }]);
    await copy.layOver();
    expect(copy.bookCopy.get().records.site).toEqual([{ id: "id of A", hidden: false, name: "New", waits: true }]);
  });
});

describe("what was written in this visit", () => {
  const labels = () => [written.writtenHere.undoLabel(), written.writtenHere.redoLabel()];
  const settled = async () => {
    for (let i = 0; i < 20; i++) await new Promise((done) => setTimeout(done, 1));
  };

  it("is taken back and done again, step by step, by the transaction that did it", async () => {
    const count = written.changes.get();
    expect(await written.write("add A", [site("A")])).toBeNull();
    expect(await written.write("add B", [site("B")])).toBeNull();
    expect(written.changes.get()).toBe(count + 2);
    expect(copy.bookCopy.get().state).toBe("fresh");
    expect(labels()).toEqual(["add B", null]);
    const sent = asked
      .filter(({ path }) => path === "/join")
      .map(({ body }) => (body as { transactions: { id: string }[] }).transactions[0]!.id);
    written.writtenHere.undo();
    written.writtenHere.undo();
    await vi.waitFor(() => expect(labels()).toEqual([null, "add A"]));
    const undone = () =>
      asked.filter(({ path }) => path === "/undo").map(({ body }) => (body as { transaction: string }).transaction);
    expect(undone()).toEqual([sent[1], sent[0]]);
    written.writtenHere.redo();
    await vi.waitFor(() => expect(labels()).toEqual(["add A", "add B"]));
    // What is done again is the taking back, taken back.
    expect(undone().at(-1)).toBe(`un-${sent[0]}`);
    expect(await written.write("add C", [site("C")])).toBeNull();
    expect(labels()).toEqual(["add C", null]);
  });

  it("is not taken back out of reach: the step stays, with the one line why", async () => {
    await written.write("add A", [site("A")]);
    reach = "none";
    written.writtenHere.undo();
    await vi.waitFor(() => expect(written.trouble.get()).toBe("this asks the book, which is out of reach now"));
    expect(labels()).toEqual(["add A", null]);
    reach = 503;
    written.writtenHere.undo();
    await vi.waitFor(() => expect(written.trouble.get()).toBe("book: shut; an open one"));
    reach = "here";
    written.writtenHere.undo();
    await vi.waitFor(() => expect(labels()).toEqual([null, "add A"]));
    expect(written.trouble.get()).toBeNull();
  });

  it("with nothing to take back asks nothing", async () => {
    written.writtenHere.undo();
    written.writtenHere.redo();
    await settled();
    expect(asked).toEqual([]);
  });

  it("that was refused is told and no step, and waits nowhere", async () => {
    joins = ({ transactions }) => ({
      transactions: transactions.map(({ id }) => ({
        kind: "refused",
        transaction: id,
        error: { place: "name", given: "nothing", expected: "a name" },
      })),
    });
    const count = written.changes.get();
    expect(await written.write("add", [site("")])).toBe("name: nothing; a name");
    expect(labels()).toEqual([null, null]);
    expect(written.changes.get()).toBe(count);
    expect(shelf()).toEqual([]);
  });

  it("that waits is a step as well, and laid over the copy", async () => {
    reach = "none";
    expect(await written.write("add A", [site("A")])).toBeNull();
    expect(labels()).toEqual(["add A", null]);
    expect(copy.bookCopy.get().records.site).toMatchObject([{ name: "A", waits: true }]);
  });

  it("puts records aside by the book itself, and brings them back", async () => {
    expect(await written.putAside("site", "s1", true, "Ebb Cove")).toBeNull();
    expect(asked[0]).toMatchObject({ path: "/records/site/s1/hidden", method: "PUT", body: { hidden: true } });
    expect(labels()).toEqual(["put aside Ebb Cove", null]);
    await written.putAside("site", "s1", false, "Ebb Cove");
    expect(labels()).toEqual(["bring back Ebb Cove", null]);
    reach = "none";
    expect(await written.putAside("site", "s", true, "A")).toBe("this asks the book, which is out of reach now");
    expect(labels()[0]).toBe("bring back Ebb Cove");
  });

  it("takes back any transaction of the history, as a step of its own", async () => {
    expect(await written.takeBack("t", "add site")).toBeNull();
    expect(labels()).toEqual(["taking back add site", null]);
    expect(await written.takeBack("gone", "nothing")).toBeNull();
    expect(labels()).toEqual(["taking back add site", null]);
    const count = written.changes.get();
    written.noteTransaction("marks", "find marks");
    expect(labels()[0]).toBe("find marks");
    expect(written.changes.get()).toBe(count + 1);
  });
});
