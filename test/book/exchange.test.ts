import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { newBook } from "../../src/book/index.ts";
import { kindNames } from "../../src/record/index.ts";
import { folder, steadyPorts } from "./folder.ts";
import { deeds, elsewhere, newRandomBook, perform } from "./random-book.ts";

const sound = { kind: "sound" };

describe("open files", () => {
  it("come back as the same book: records, history, readings, pictures", async () => {
    await fc.assert(
      fc.asyncProperty(deeds(25), async (transactions) => {
        const at = folder();
        const book = newRandomBook(join(at, "a.book"), transactions);
        const { digest } = await book.export(join(at, "open"));
        const back = newBook(join(at, "b.book"), null, { ports: steadyPorts(9), backups: false });
        await back.import(join(at, "open"));
        expect(back.check()).toMatchObject(sound);
        for (const kind of kindNames)
          expect(back.list(kind, { hidden: "with" }), kind).toEqual(book.list(kind, { hidden: "with" }));
        expect(back.digest()).toBe(digest);
        expect(book.digest()).toBe(digest);
        book.close();
        back.close();
      }),
      { seed: 20310517, numRuns: 25 },
    );
  });
});

describe("merging", () => {
  it("is commutative, associative and idempotent, whatever three people did apart", () => {
    fc.assert(
      fc.property(
        deeds(10),
        deeds(12),
        deeds(12),
        deeds(12),
        fc.integer({ min: -100_000_000, max: 1e6 }),
        (base, a, b, c, ahead) => {
          const at = folder();
          const root = newRandomBook(join(at, "root.book"), base);
          let copies = 0;
          const copy = (of: typeof root, seed = 1, ms = 0) => elsewhere(of, join(at, `${copies++}.book`), seed, ms);
          const [A, B, C] = [copy(root, 2), copy(root, 3, ahead), copy(root, 4)] as const;
          for (const [book, transactions] of [
            [A, a],
            [B, b],
            [C, c],
          ] as const)
            for (const transaction of transactions) perform(book, transaction);
          const join3 = (...books: (typeof root)[]) => {
            const first = copy(books[0]!);
            for (const other of books.slice(1)) first.merge(other);
            expect(first.check()).toMatchObject(sound);
            return first;
          };
          const AB = join3(A, B);
          const BA = join3(B, A);
          const digest = AB.digest();
          expect(BA.digest()).toBe(digest);
          const all = join3(AB, C).digest();
          expect(join3(A, join3(B, C)).digest()).toBe(all);
          expect(join3(C, A, B, A, C).digest()).toBe(all);
          const again = AB.merge(A);
          expect(again).toMatchObject({ transactions: 0, records: 0, purged: 0, files: 0, logs: 0 });
          expect(AB.digest()).toBe(digest);
        },
      ),
      { seed: 20310518, numRuns: 25 },
    );
  });
});
