import { copyFileSync } from "node:fs";
import fc from "fast-check";
import { type Book, newBook, openBook } from "../../src/book/index.ts";
import type { Channel, Kind } from "../../src/record/index.ts";
import { steadyPorts } from "./folder.ts";

/** What a random user does to a book; numbers choose among the records there are. */
export type Deed =
  | { readonly do: "site"; readonly name: string; readonly latitude_deg: number | null }
  | { readonly do: "anchor"; readonly name: string; readonly mass_kg: number }
  | { readonly do: "pull"; readonly pick: number; readonly depth_m: number; readonly load_N: number }
  | { readonly do: "rename"; readonly pick: number; readonly name: string }
  | { readonly do: "note"; readonly pick: number; readonly text: string }
  | { readonly do: "picture"; readonly pick: number; readonly bytes: Uint8Array }
  | { readonly do: "log"; readonly rows: readonly number[] }
  | { readonly do: "live"; readonly pick: number; readonly rows: readonly number[] }
  | { readonly do: "hide" | "purge"; readonly pick: number }
  | { readonly do: "undo" | "redo" };

// Any text a person or a file can bring, surrogate pairs and quotes with it; what a field refuses is mended here.
const text = fc.string({ unit: "grapheme", minLength: 1, maxLength: 12 }).map((s) => s.replaceAll("\0", "·"));
const anyText = fc.oneof(
  text,
  fc.constantFrom('a "quoted", name', "two\nlines", "=1+1", " ", "1e3", "null", "\u0085", "\ufeffx"),
);
const pick = fc.nat(50);
const double = fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e12, max: 1e12 });
const rows = fc.array(fc.oneof(double, fc.constant(Number.NaN), fc.constant(-0)), { minLength: 1, maxLength: 40 });

export const deed: fc.Arbitrary<Deed> = fc.oneof(
  fc.record({
    do: fc.constant("site" as const),
    name: anyText,
    latitude_deg: fc.option(fc.double({ min: -90, max: 90, noNaN: true })),
  }),
  fc.record({
    do: fc.constant("anchor" as const),
    name: anyText,
    mass_kg: fc.double({ min: 0.1, max: 1000, noNaN: true }),
  }),
  fc.record({
    do: fc.constant("pull" as const),
    pick,
    depth_m: fc.double({ min: 0, max: 100, noNaN: true }),
    load_N: fc.double({ min: 0, max: 1e5, noNaN: true }),
  }),
  fc.record({ do: fc.constant("rename" as const), pick, name: anyText }),
  fc.record({ do: fc.constant("note" as const), pick, text: anyText }),
  fc.record({ do: fc.constant("picture" as const), pick, bytes: fc.uint8Array({ minLength: 1, maxLength: 30 }) }),
  fc.record({ do: fc.constant("log" as const), rows }),
  fc.record({ do: fc.constant("live" as const), pick, rows }),
  fc.record({ do: fc.constantFrom("hide" as const, "purge" as const), pick }),
  fc.record({ do: fc.constantFrom("undo" as const, "redo" as const) }),
);

export const deeds = (max: number): fc.Arbitrary<Deed[]> => fc.array(deed, { maxLength: max });

export function newRandomBook(path: string, transactions: readonly Deed[], seed = 1): Book {
  const book = newBook(path, { title: "Random" }, { ports: steadyPorts(seed), who: "Ada", backups: false });
  for (const transaction of transactions) perform(book, transaction);
  return book;
}

/** A copy of a book on another device, whose clock may run otherwise. */
export function elsewhere(book: Book, path: string, seed: number, ahead_ms = 0): Book {
  book.context.driver.exec("PRAGMA wal_checkpoint(TRUNCATE)");
  copyFileSync(book.path, path);
  const ports = steadyPorts(seed, Date.parse("2031-05-18T08:00:00Z") + ahead_ms);
  const device = `0197${String(seed).padStart(4, "0")}-0000-7000-8000-000000000000`;
  return openBook(path, { ports, device, who: `tester ${seed}`, backups: false });
}

export function perform(book: Book, deed: Deed): void {
  const any = <K extends Kind>(kind: K, n: number, hidden: "with" | "only" = "with") => {
    const all = book.list(kind, { hidden });
    return all[n % Math.max(1, all.length)];
  };
  const id = <K extends Kind>(kind: K, n: number) => any(kind, n)?.id ?? null;
  switch (deed.do) {
    case "site":
      book.add("site", { name: deed.name, latitude_deg: deed.latitude_deg, longitude_deg: deed.latitude_deg });
      return;
    case "anchor":
      book.add("anchor", { name: deed.name, shape: "claw", mass_kg: deed.mass_kg });
      return;
    case "pull":
      book.add("pull", {
        anchor: id("anchor", deed.pick),
        depth_m: deed.depth_m,
        steps: [{ load_N: deed.load_N, remarks: "step" }],
        result: { kind: "heldTo", load_N: deed.load_N },
      });
      return;
    case "rename": {
      const site = any("site", deed.pick);
      if (site) book.edit("site", site.id, { name: deed.name });
      return;
    }
    case "note":
      book.add("note", { text: deed.text, about: id("site", deed.pick) });
      return;
    case "picture":
      book.addPicture({ about: id("pull", deed.pick), type: "image/png" }, deed.bytes);
      return;
    case "log": {
      const log = book.logs.open({ name: "log", channels: CHANNELS, fingerprint: `f${deed.rows.length}` });
      if (log.kind !== "finished")
        book.logs.append(log.log, rowsOf(deed.rows), { from: log.position, to: log.position + 7, state: { line: 3 } });
      if (deed.rows.length % 5 === 0) book.logs.finish(log.log);
      return;
    }
    case "live": {
      const log = any("log", deed.pick);
      if (log && book.logs.progress(log.id).kind !== "finished") book.logs.record(log.id, rowsOf(deed.rows));
      return;
    }
    case "hide": {
      const kinds = ["site", "anchor", "pull", "log", "picture", "note"] as const;
      const record = any(kinds[deed.pick % kinds.length]!, deed.pick);
      if (record) book.hide(record.id);
      return;
    }
    case "purge": {
      const kinds = ["site", "anchor", "pull", "log", "picture", "note"] as const;
      const record = any(kinds[deed.pick % kinds.length]!, deed.pick, "only");
      const question = record && book.askPurge(record.id);
      if (question?.kind === "ask") book.purge(question.record, question.token);
      return;
    }
    case "undo":
      book.undo();
      return;
    case "redo":
      book.redo();
  }
}

const CHANNELS: Channel[] = [
  { name: "load", quantity: "force", unit: "N", precision: "double" },
  { name: "wind. speed/a", quantity: "speed", unit: "m/s", precision: "single" },
];

function rowsOf(values: readonly number[]) {
  return {
    times: Float64Array.from(values, (v, i) => (i % 3 === 0 && Number.isFinite(v) ? v : 1.9e9 + i * 0.01)),
    columns: { load: Float64Array.from(values), "wind. speed/a": Float64Array.from(values, (v) => v / 3) },
  };
}
