import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { newBook } from "../../src/book/index.ts";
import { applyCorrections, reduceTrace } from "../../src/pull/index.ts";
import { viewBody } from "../../src/server/log-view-body.ts";
import { type BookMark, changedMark, correctionsOf, effectiveMarks, reducePullLog } from "../../src/study/index.ts";
import { clockText, timeTicks } from "../../src/web/days/log/clock.ts";
import { type Bands, bandsOf, chained, condensed, drawnOf } from "../../src/web/days/log/view-bytes.ts";
import { keyed, panned, runsOut, serves, stretchFor, within, zoomed } from "../../src/web/days/log/window.ts";
import { simulatePull } from "../pull/trace/simulated-pull.ts";

const id = (n: number): string => `018f0000-0000-7000-8000-${String(n).padStart(12, "0")}`;

describe("the window on a log", () => {
  const whole = { from: 1000, to: 1100 };
  const window = fc
    .tuple(fc.double({ min: 900, max: 1200, noNaN: true }), fc.double({ min: 0, max: 300, noNaN: true }))
    .map(([from, width]) => within({ from, to: from + width }, whole));
  const inside = (w: { from: number; to: number }) =>
    w.from >= whole.from - 1e-9 && w.to <= whole.to + 1e-9 && w.to > w.from;

  it("never leaves the log nor closes, whatever is done to it", () => {
    fc.assert(
      fc.property(
        window,
        fc.double({ min: 1e-3, max: 1e3, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (w, times, share) => {
          expect(inside(w)).toBe(true);
          expect(inside(zoomed(w, times, share, whole))).toBe(true);
          expect(inside(panned(w, times * (share - 0.5), whole))).toBe(true);
          for (const key of ["ArrowLeft", "ArrowRight", "PageUp", "PageDown", "+", "-", "Home", "End", "0"])
            expect(inside(keyed(key, w, whole, share > 0.5)!)).toBe(true);
        },
      ),
      { seed: 11, numRuns: 500 },
    );
  });

  it("keeps what lies under the pointer where it is while coming nearer", () => {
    fc.assert(
      fc.property(
        window,
        fc.double({ min: 1, max: 20, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (w, times, share) => {
          const before = w.from + share * (w.to - w.from);
          const after = zoomed(w, times, share, whole);
          const now = after.from + share * (after.to - after.from);
          // Only the narrowest window can hold it up, and that is narrower than what is compared.
          expect(Math.abs(now - before)).toBeLessThanOrEqual(0.03);
        },
      ),
      { seed: 12, numRuns: 300 },
    );
  });

  it("is served by what was fetched for it, and asks on before the edge comes into view", () => {
    const w = { from: 1040, to: 1050 };
    const stretch = stretchFor(w, whole);
    expect(serves(stretch, w, w, whole)).toBe(true);
    expect(runsOut(stretch, w, whole)).toBe(false);
    expect(runsOut(stretch, panned(w, 0.8, whole), whole)).toBe(true);
    expect(serves(stretch, w, panned(w, 1.5, whole), whole)).toBe(false);
    expect(serves(stretch, w, zoomed(w, 4, 0.5, whole), whole)).toBe(false);
    // Nothing lies beyond the ends of the log: there it does not run out.
    expect(runsOut(stretchFor({ from: 1000, to: 1010 }, whole), { from: 1000, to: 1010 }, whole)).toBe(false);
  });
});

describe("a stretch as it is drawn", () => {
  const rows = fc.array(fc.option(fc.double({ min: -1e5, max: 1e5, noNaN: true }), { freq: 8 }), {
    minLength: 1,
    maxLength: 300,
  });
  const readings = (values: readonly (number | null)[], from = 0): Bands => {
    const t = Float64Array.from(values, (_, i) => from + i);
    const v = Float64Array.from(values, (value) => value ?? Number.NaN);
    return { readings: true, from: t, to: t, columns: new Map([["load", { min: v, max: v }]]) };
  };
  const extremes = (bands: Bands) => {
    const { min, max } = bands.columns.get("load")!;
    const known = (values: Float64Array) => [...values].filter((v) => !Number.isNaN(v));
    return [Math.min(...known(min)), Math.max(...known(max))];
  };

  it("loses no peak however few rows are left", () => {
    fc.assert(
      fc.property(rows, fc.integer({ min: 1, max: 50 }), (values, most) => {
        const all = readings(values);
        const few = condensed(all, most);
        expect(few.from.length).toBeLessThanOrEqual(Math.max(most, 1));
        expect(extremes(few)).toEqual(extremes(all));
        expect(few.from[0]).toBe(all.from[0]);
        expect(few.to.at(-1)).toBe(all.to.at(-1));
      }),
      { seed: 13, numRuns: 400 },
    );
  });

  it("is the fine stretch where there is one and the coarse one elsewhere, times rising", () => {
    fc.assert(
      fc.property(rows, fc.integer({ min: 0, max: 299 }), fc.integer({ min: 1, max: 100 }), (values, begin, count) => {
        const all = readings(values);
        const coarse = condensed(all, 20);
        const part = values.slice(begin, begin + count);
        const fine = part.length === 0 ? null : readings(part, begin);
        const drawn = drawnOf(coarse, fine, "load", 2);
        for (let i = 1; i < drawn.x.length; i++) expect(drawn.x[i]!).toBeGreaterThanOrEqual(drawn.x[i - 1]!);
        part.forEach((value, i) => {
          const at = drawn.x.indexOf(begin + i);
          if (value !== null) expect([drawn.min[drawn.x.lastIndexOf(begin + i)], drawn.max[at]]).toContain(2 * value);
        });
      }),
      { seed: 14, numRuns: 300 },
    );
  });

  it("is what the server sent, bands and readings, in the order of time", () => {
    const folder = mkdtempSync(join(tmpdir(), "days-view-"));
    const book = newBook(join(folder, "view.book"), { title: "View" }, { who: "test" });
    try {
      const channels = [{ name: "load", quantity: "force", unit: "N", precision: "double" as const }];
      const { log } = book.logs.open({ name: "cell", channels });
      const n = 50_000;
      const times = Float64Array.from({ length: n }, (_, i) => i / 10);
      const load = Float64Array.from({ length: n }, (_, i) => (i === 31_234 ? 9999 : Math.sin(i / 700)));
      book.logs.append(log, { times, columns: { load } }, { from: 0, to: n });
      book.logs.finish(log);
      for (const stretch of [{ points: 300 }, { from_s: 3100, to_s: 3150, points: 2000 }]) {
        const { head, bytes } = viewBody(book.logs.view(log, stretch));
        const bands = bandsOf(head, bytes.buffer);
        expect(extremes(bands)[1]).toBe(9999);
        expect(bands.from.length).toBe(head.rows);
        for (let i = 1; i < bands.from.length; i++) expect(bands.from[i]!).toBeGreaterThan(bands.from[i - 1]!);
      }
    } finally {
      book.close();
      rmSync(folder, { recursive: true, force: true });
    }
  });

  it("is one stretch when fetched in pieces", () => {
    const [a, b] = [readings([1, 2, 3]), readings([4, null], 3)];
    const both = chained([a, b]);
    expect([...both.from]).toEqual([0, 1, 2, 3, 4]);
    expect([...both.columns.get("load")!.max]).toEqual([1, 2, 3, 4, Number.NaN]);
  });
});

describe("times on the axis", () => {
  it("are UTC where the log is dated, and time since the start where it is not", () => {
    const noon = Date.parse("2031-05-17T12:04:05.250Z") / 1000;
    expect(clockText(noon, 1)).toBe("12:04:05");
    expect(clockText(noon, 0.01)).toBe("12:04:05.25");
    expect(clockText(noon, 60)).toBe("12:04");
    expect(clockText(noon, 86_400)).toBe("2031-05-17");
    expect(clockText(3725, 1)).toBe("1:02:05");
    expect(clockText(65.5, 0.1)).toBe("1:05.5");
  });

  it("are round and within the stretch", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 2e9, noNaN: true }),
        fc.double({ min: 0.05, max: 1e6, noNaN: true }),
        (from, span) => {
          const { at, step } = timeTicks(from, from + span, 8);
          expect(at.length).toBeLessThanOrEqual(9);
          for (const tick of at) {
            expect(tick).toBeGreaterThanOrEqual(from - 1e-6 * step - 1e-6);
            expect(tick).toBeLessThanOrEqual(from + span + 1e-6);
          }
        },
      ),
      { seed: 15, numRuns: 300 },
    );
  });
});

const mark = (n: number, fields: Partial<BookMark>): BookMark => ({
  id: id(n),
  hidden: false,
  log: id(99),
  kind: "plateau",
  from_s: 10,
  to_s: 20,
  origin: "automatic",
  corrects: null,
  detail: { value: 500, u: 5, of: "force", why: "flat" },
  remarks: null,
  ...fields,
});

describe("marks as they stand", () => {
  it("keep the automatic mark beside its correction, and bring it back when that is put aside", () => {
    const automatic = mark(1, {});
    const correction = mark(2, { origin: "by hand", corrects: id(1), from_s: 12, to_s: 19, detail: null });
    const [standing] = effectiveMarks([automatic, correction]);
    expect(standing).toMatchObject({
      id: id(1),
      from: 12,
      to: 19,
      origin: "corrected",
      automatic,
      byHand: correction,
      value: null,
    });
    expect(effectiveMarks([automatic, { ...correction, hidden: true }])[0]).toMatchObject({
      from: 10,
      to: 20,
      origin: "automatic",
      value: 500,
    });
  });

  it("are changed by a record of their own, never in the automatic one", () => {
    const [standing] = effectiveMarks([mark(1, {})]);
    const written = changedMark(standing!, { change: "move", from: 18, to: 11 }, () => id(7));
    expect(written).toEqual({
      kind: "mark",
      id: id(7),
      makes: true,
      set: { log: id(99), kind: "plateau", from_s: 11, to_s: 18, origin: "by hand", corrects: id(1) },
    });
    const again = effectiveMarks([
      mark(1, {}),
      mark(7, { origin: "by hand", corrects: id(1), from_s: 11, to_s: 18, detail: null }),
    ]);
    expect(changedMark(again[0]!, { change: "call", kind: "drag" }, () => id(8))).toEqual({
      kind: "mark",
      id: id(7),
      makes: false,
      set: { kind: "drag" },
      was: { kind: "plateau" },
    });
  });

  it("of two corrections show the later record, whatever order they come in", () => {
    const [one, other] = [4, 5].map((n) => mark(n, { origin: "by hand", corrects: id(1), from_s: n, detail: null }));
    for (const list of [
      [mark(1, {}), one!, other!],
      [other!, one!, mark(1, {})],
    ])
      expect(effectiveMarks(list)[0]!.from).toBe(5);
  });

  it("reach the reduction as its own corrections", () => {
    const { trace } = simulatePull({ seed: 3, rate: 10, top: 4000, spikes: 0 });
    const bare = reduceTrace(trace, { readAt: "bow" });
    const found = bare.marks.filter((one) => one.kind === "plateau");
    const last = found.at(-1)!;
    const book = bare.marks.map((one, n) =>
      mark(n + 1, {
        kind: one.kind,
        from_s: one.from,
        to_s: one.to,
        detail: { value: one.value, u: one.u, of: one.of, why: one.why },
      }),
    );
    const automatic = book[bare.marks.indexOf(last)]!;
    const moved = mark(500, {
      origin: "by hand",
      corrects: automatic.id,
      from_s: last.from + 2,
      to_s: last.to - 2,
      detail: null,
    });
    const away = mark(501, {
      kind: found[0]!.kind,
      origin: "by hand",
      corrects: book[bare.marks.indexOf(found[0]!)]!.id,
      detail: { change: "take away" },
    });
    const { corrections } = correctionsOf(effectiveMarks([...book, moved, away]));
    expect(corrections.map(({ change }) => change).sort()).toEqual(["move", "take away"]);
    const applied = applyCorrections(bare.marks, corrections);
    expect(applied.unmatched).toEqual([]);
    expect(applied.takenAway.map((one) => one.mark.id)).toEqual([found[0]!.id]);
    expect(applied.marks.find((one) => one.id === last.id)).toMatchObject({
      from: last.from + 2,
      to: last.to - 2,
      origin: "corrected",
    });
    const reduced = reducePullLog({
      time: trace.time,
      load: trace.load,
      readAt: "bow",
      corrections,
      slack: [],
      about: null,
    });
    expect(reduced.kind).toBe("reduced");
    if (reduced.kind !== "reduced") return;
    expect(reduced.corrected).toBe(2);
    expect(reduced.plateaus).toHaveLength(found.length - 1);
    expect(reduced.evidence).toBeNull();
  });

  it("that a person adds are measured on the trace", () => {
    const { trace } = simulatePull({ seed: 3, rate: 10, top: 4000, spikes: 0 });
    const bare = reduceTrace(trace, { readAt: "bow" });
    const plateau = bare.marks.filter((one) => one.kind === "plateau").at(-1)!;
    const [from, to] = [plateau.from + 1, plateau.to - 1];
    const added = mark(1, { origin: "by hand", kind: "plateau", from_s: from, to_s: to, detail: null });
    const drag = mark(2, { origin: "by hand", kind: "drag", from_s: to, to_s: to + 1, detail: null });
    const { corrections } = correctionsOf(effectiveMarks([added, drag]));
    const reduced = reducePullLog({
      time: trace.time,
      load: trace.load,
      readAt: "bow",
      corrections,
      slack: [],
      about: null,
    });
    if (reduced.kind !== "reduced") throw new Error(reduced.line);
    const loads = reduced.marks.filter((one) => Math.abs(one.from - from) < 1e-9 || Math.abs(one.from - to) < 1e-9);
    expect(loads.map(({ kind }) => kind).sort()).toEqual(["drag", "plateau"]);
    // Both lie on the plateau the reduction measured: within its own scatter of one reading.
    for (const { value } of loads)
      expect(Math.abs(value - plateau.value)).toBeLessThan(6 * bare.log.noise + 6 * plateau.u);
  });
});
