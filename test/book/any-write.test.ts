import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { type Book, newBook, openBook } from "../../src/book/index.ts";
import { InputError } from "../../src/quantity/index.ts";
import { ABOUT, kindNames } from "../../src/record/index.ts";
import { benchWithBook, refused } from "../server/in-process.ts";
import { folder, steadyPorts } from "./folder.ts";

const id = (n: number): string => `0197${String(n).padStart(4, "0")}-0000-7000-8000-000000000000`;
const fresh = (at: string, name = "a.book", seed = 1): Book =>
  newBook(join(at, name), { title: "Quay" }, { ports: steadyPorts(seed), who: "Ada", backups: false });

function expectOpensSound(path: string): void {
  const book = openBook(path, { readOnly: true });
  expect(book.check()).toMatchObject({ kind: "sound" });
  book.close();
}

describe("an id known under one kind is refused under another", () => {
  const line = (kind: string) => `the id of a site; an id of its own, or of a ${kind}, is expected`;

  it("by a write, also within one go of writing", () => {
    const book = fresh(folder());
    const site = book.add("site", { name: "Ebb Cove" });
    expect(() => book.write([{ kind: "note", id: site, set: { text: "x" } }], "x")).toThrow(line("note"));
    const both = () =>
      book.write(
        [
          { kind: "site", id: id(1), set: { name: "x" } },
          { kind: "note", id: id(1), set: { text: "x" } },
        ],
        "x",
      );
    expect(both).toThrow(`note ${id(1)}: given twice; each record once in one go is expected`);
    expect(book.list("note")).toEqual([]);
    expectOpensSound(book.path);
    book.close();
  });

  it("by what was written offline", () => {
    const book = fresh(folder());
    const site = book.add("site", { name: "Ebb Cove" });
    const transaction = { id: id(50), device: id(51), who: "Bo", at: "2031-05-17T09:00:00Z", label: "x" };
    const records = [{ kind: "note", id: site, makes: true, set: { text: "x" } }] as const;
    expect(() => book.joinOffline({ ...transaction, records })).toThrow(line("note"));
    expectOpensSound(book.path);
    book.close();
  });

  it("by a merge, and by an import of history or of records", async () => {
    const at = folder();
    const book = fresh(at);
    const other = fresh(at, "b.book", 2);
    book.write([{ kind: "site", id: id(1), set: { name: "x" } }], "x");
    other.write([{ kind: "note", id: id(1), set: { text: "x" } }], "x");
    expect(() => book.merge(other)).toThrow(line("note"));
    await other.export(join(at, "open"));
    await expect(book.import(join(at, "open"))).rejects.toThrow(line("note"));
    mkdirSync(join(at, "bare/records"), { recursive: true });
    writeFileSync(join(at, "bare/records/note.jsonl"), `{"id":"${id(1)}","text":"x"}\n`);
    await expect(book.import(join(at, "bare"))).rejects.toThrow(line("note"));
    expectOpensSound(book.path);
    book.close();
    other.close();
  });

  it("by the bench, as a record put, as several, and as a transaction that joins", async () => {
    const { book, send, stop, faults } = benchWithBook();
    const site = book.add("site", { name: "Ebb Cove" });
    const put = await send("PUT", `/api/1/records/note/${site}`, { expected: null, set: { text: "x" } });
    expect(await refused(put)).toBe(`400 note ${site}: ${line("note")}`);
    const drafts = [{ kind: "note", id: site, expected: null, set: { text: "x" } }];
    expect((await send("POST", "/api/1/records", { label: "x", drafts })).status).toBe(400);
    const records = [{ kind: "note", id: site, makes: true, set: { text: "x" } }];
    const transactions = [{ id: id(50), device: id(51), at: "2031-05-17T09:00:00Z", label: "x", records }];
    const joined = (await (await send("POST", "/api/1/join", { transactions })).json()) as {
      transactions: { kind: string }[];
    };
    expect(joined.transactions[0]!.kind).toBe("refused");
    expectOpensSound(book.path);
    expect(faults).toEqual([]);
    await stop();
    book.close();
  });
});

/** Something anybody may send, with ids from a small pool, so that they meet. */
type Write =
  | { readonly by: "put"; readonly kind: string; readonly record: number; readonly set: object }
  | {
      readonly by: "join";
      readonly makes: boolean;
      readonly kind: string;
      readonly record: number;
      readonly set: object;
    }
  | {
      readonly by: "several" | "joinTwice";
      readonly kind: string;
      readonly other: string;
      readonly record: number;
      readonly set: object;
    }
  | { readonly by: "hide" | "purge"; readonly record: number; readonly kind: string }
  | { readonly by: "undo"; readonly transaction: number | null }
  | { readonly by: "redo" }
  | { readonly by: "import" | "merge"; readonly kind: string; readonly record: number; readonly set: object };

const record = fc.nat(5);
const kind = fc.constantFrom(...kindNames, "boot", "meta", "change");
const file =
  "format: rodebench/rig@1\nsetting: { medium: air, rise: 9 m }\nrode: [{ chain: { grade: '30', size: 10 mm, length: 30 m } }]\n";
const channel = (name: string) => ({ name, quantity: "force", unit: "N", precision: "double" });
/** Fields of several kinds at once: those a kind has not are left out in most draws. */
const set = fc.record(
  {
    name: fc.constantFrom("a", "b", null, ""),
    text: fc.constantFrom("a", null),
    title: fc.constantFrom("t", null),
    shape: fc.constantFrom("claw", "round"),
    date: fc.constant("2031-05-17"),
    rig: record.map(id),
    file: fc.constantFrom(file, `${file}name: other\n`),
    log: record.map(id),
    kind: fc.constant("peak"),
    from_s: fc.constantFrom(1.9e9, -0),
    origin: fc.constant("by hand"),
    channels: fc.constantFrom([channel("load")], [channel("angle")], [channel("load"), channel("angle")], null),
    about: record.map(id),
    day: record.map(id),
    result: fc.constantFrom({ kind: "heldTo", load_N: 1 }, { kind: "heldTo" }, { kind: "none" }),
    hidden: fc.boolean(),
    __proto__: fc.constant("x"),
  },
  { requiredKeys: [] },
);
const FIELDS: Record<string, readonly string[]> = {
  about: ["title"],
  site: ["name"],
  seabed: ["name"],
  anchor: ["name", "shape"],
  boat: ["name"],
  rig: ["name"],
  rigVersion: ["rig", "file"],
  series: ["name"],
  day: ["date"],
  pull: ["day", "result"],
  log: ["name", "channels"],
  mark: ["log", "kind", "from_s", "origin"],
  picture: ["about"],
  note: ["text", "about"],
};
const fits = ({ kind, set, exact }: { kind: string; set: object; exact: boolean }) => ({
  kind,
  set: exact ? Object.fromEntries(Object.entries(set).filter(([f]) => (FIELDS[kind] ?? []).includes(f))) : set,
});
const draft = fc
  .record({
    kind,
    set,
    exact: fc.oneof({ weight: 9, arbitrary: fc.constant(true) }, { weight: 1, arbitrary: fc.constant(false) }),
  })
  .map(fits);
const write: fc.Arbitrary<Write> = fc.oneof(
  fc.tuple(draft, record).map(([d, r]) => ({ by: "put" as const, record: r, ...d })),
  fc.tuple(draft, record, fc.boolean()).map(([d, r, makes]) => ({ by: "join" as const, record: r, makes, ...d })),
  fc
    .tuple(draft, record, kind, fc.constantFrom("several" as const, "joinTwice" as const))
    .map(([d, r, other, by]) => ({ by, record: r, other, ...d })),
  fc.record({ by: fc.constantFrom("hide" as const, "purge" as const), record, kind }),
  fc.record({ by: fc.constant("undo" as const), transaction: fc.option(fc.nat(8)) }),
  fc.record({ by: fc.constant("redo" as const) }),
  fc
    .tuple(draft, record, fc.constantFrom("import" as const, "merge" as const))
    .map(([d, r, by]) => ({ by, record: r, ...d })),
);

describe("after any write, by whichever way", () => {
  const { book, send, stop, faults } = benchWithBook();
  afterAll(async () => {
    await stop();
    book.close();
  });
  let n = 100;

  async function perform(w: Write): Promise<void> {
    const target = "record" in w ? id(w.record) : "";
    switch (w.by) {
      case "put": {
        const now = await (await send("GET", `/api/1/records/${w.kind}/${target}`, undefined)).json().catch(() => ({}));
        const expected = (now as { record?: { version: string } }).record?.version ?? null;
        await send("PUT", `/api/1/records/${w.kind}/${target}`, { expected, set: w.set });
        return;
      }
      case "several":
        await send("POST", "/api/1/records", {
          label: "several",
          drafts: [w.kind, w.other].map((kind) => ({ kind, id: target, expected: null, set: w.set })),
        });
        return;
      case "join":
      case "joinTwice": {
        const one = { kind: w.kind, id: target, makes: w.by === "join" ? w.makes : true, set: w.set };
        const records = w.by === "joinTwice" ? [one, { ...one, kind: w.other }, one] : [one];
        const transactions = [{ id: id(n++), device: id(99), at: "2031-05-03T09:00:00Z", label: "x", records }];
        const answer = await send("POST", "/api/1/join", { transactions });
        expect(answer.status, await answer.clone().text()).toBe(200);
        return;
      }
      case "hide":
        await send("PUT", `/api/1/records/${w.kind}/${target}/hidden`, { hidden: true });
        return;
      case "undo": {
        const transactions = book.history({ limit: 10 });
        await send(
          "POST",
          "/api/1/undo",
          w.transaction === null ? {} : { transaction: transactions[w.transaction % transactions.length]!.transaction },
        );
        return;
      }
      case "redo":
        await send("POST", "/api/1/redo", {});
        return;
      case "purge":
      case "import":
      case "merge":
        await allowing(() => byHand(w, target));
    }
  }

  async function byHand(
    w: Extract<Write, { by: "hide" | "purge" | "import" | "merge" }>,
    target: string,
  ): Promise<void> {
    if (!("set" in w)) {
      const question = book.askPurge(target);
      if (question.kind === "ask") book.purge(target, question.token);
      return;
    }
    const at = folder();
    if (w.by === "import") {
      mkdirSync(join(at, "records"));
      writeFileSync(join(at, `records/${w.kind}.jsonl`), `${JSON.stringify({ id: target, ...w.set })}\n`);
      await book.import(at);
      return;
    }
    const other = fresh(at, "other.book", n++);
    other.write([{ kind: w.kind, id: target, set: w.set } as never], "x");
    book.merge(other);
    other.close();
  }

  async function allowing(work: () => Promise<void>): Promise<void> {
    try {
      await work();
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
    }
  }

  it("the book opens and checks whole, and nothing raised a fault", async () => {
    let accepted = 0;
    await fc.assert(
      fc.asyncProperty(fc.array(write, { minLength: 1, maxLength: 12 }), async (writes) => {
        faults.splice(0);
        for (const w of writes) {
          const before = book.counts().transactions;
          await perform(w);
          if (book.counts().transactions === before && w.by !== "purge") continue;
          accepted++;
          const soundness = book.check();
          expect(soundness, JSON.stringify(w)).toMatchObject({ kind: "sound" });
        }
        expectOpensSound(book.path);
        expect(faults).toEqual([]);
      }),
      { seed: 20310519, numRuns: 60 },
    );
    // The draws are not all refused at the door.
    expect(accepted).toBeGreaterThan(40);
    expect(book.get("about", ABOUT)).toBeDefined();
  });
});
