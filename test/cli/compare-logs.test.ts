import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import { createDemoBook } from "../../src/book/index.ts";
import { logVerdicts } from "../../src/cli/compare-logs.ts";
import { comparablePulls, pullCases } from "../../src/study/index.ts";

it("a pull whose record says nothing takes part by its log; one whose record does is left to it", () => {
  const folder = mkdtempSync(join(tmpdir(), "compare-logs-"));
  const book = createDemoBook(join(folder, "demo.book"));
  try {
    const cases = () =>
      pullCases({
        pull: book.list("pull"),
        day: book.list("day"),
        site: book.list("site"),
        seabed: book.list("seabed"),
        anchor: book.list("anchor"),
        rigVersion: book.list("rigVersion"),
        series: book.list("series"),
      });
    expect(logVerdicts(book, cases())).toEqual(new Map());
    const logged = new Set(book.list("log").flatMap(({ pull }) => (pull === null ? [] : [pull])));
    const recorded = new Map([...logged].map((id) => [id, book.get("pull", id)!.result!]));
    expect(recorded.size).toBeGreaterThan(3);
    for (const id of logged) book.edit("pull", id, { result: null });

    const verdicts = logVerdicts(book, cases());
    expect(new Set(verdicts.keys())).toEqual(logged);
    for (const [id, { held }] of verdicts) {
      const said = recorded.get(id)!;
      if (held.kind === "notKnown" || said.kind === "none" || said.load_N === undefined) throw new Error(id);
      // What the log shows beyond a load held (a drag after it) is gave way; the record says which it was.
      expect(held.newtons / said.load_N).toBeGreaterThan(0.9);
      expect(held.newtons / said.load_N).toBeLessThan(1.1);
    }
    const bare = comparablePulls(cases()).ids;
    const withLogs = comparablePulls(cases().map((one) => ({ ...one, log: verdicts.get(one.pull.id) ?? null }))).ids;
    for (const id of logged) expect(bare).not.toContain(id);
    for (const id of logged) expect(withLogs).toContain(id);
  } finally {
    book.close();
    rmSync(folder, { recursive: true });
  }
});
