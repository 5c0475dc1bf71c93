import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { applyCorrections, type Correction, type Mark } from "../../../src/pull/trace/marks.ts";
import { reduceTrace } from "../../../src/pull/trace/reduce-trace.ts";
import { simulatePull } from "./simulated-pull.ts";

const plateau: Mark = {
  id: "plateau@10.0",
  kind: "plateau",
  from: 10,
  to: 40,
  value: 1000,
  u: 5,
  of: "force",
  why: { kind: "written", text: "flat" },
};
const drag: Mark = {
  id: "drag@40.0",
  kind: "drag",
  from: 40,
  to: 41,
  value: 990,
  u: 8,
  of: "force",
  why: { kind: "written", text: "fell" },
};
const marks = [plateau, drag];
const lay = (m: Mark) => ({ kind: m.kind, from: m.from, to: m.to });

describe("corrections beside automatic marks", () => {
  it("none leave the marks as they are", () => {
    const { marks: out, takenAway, unmatched } = applyCorrections(marks, []);
    expect(out.map(({ origin, automatic, corrections, ...m }) => [origin, automatic, corrections, m])).toEqual(
      marks.map((m) => ["automatic", m, [], m]),
    );
    expect(takenAway).toEqual([]);
    expect(unmatched).toEqual([]);
  });

  it("a moved mark keeps the automatic one beside it and is measured anew", () => {
    const out = applyCorrections(
      marks,
      [{ change: "move", mark: plateau.id, lay: lay(plateau), from: 12, to: 38, by: "tester" }],
      (m) => ({ value: m.to - m.from, u: 1 }),
    );
    expect(out.marks[0]).toMatchObject({
      id: plateau.id,
      from: 12,
      to: 38,
      value: 26,
      u: 1,
      origin: "corrected",
      automatic: plateau,
      corrections: [0],
    });
  });

  it("a mark taken away is kept aside, not lost", () => {
    const out = applyCorrections(marks, [{ change: "take away", mark: drag.id, lay: lay(drag) }]);
    expect(out.marks.map((m) => m.id)).toEqual([plateau.id]);
    expect(out.takenAway[0]!.mark.automatic).toBe(drag);
  });

  it("a mark can be called something else, valued by hand, and one can be added", () => {
    const added: Mark = {
      id: "reversal@60.0",
      kind: "reversal",
      from: 60,
      to: 70,
      value: 3,
      u: 0,
      of: "angle",
      why: { kind: "written", text: "seen from the boat" },
    };
    const out = applyCorrections(marks, [
      { change: "call", mark: drag.id, lay: lay(drag), kind: "easing" },
      { change: "value", mark: plateau.id, lay: lay(plateau), value: 1010, u: 3 },
      { change: "add", mark: added },
    ]);
    expect(out.marks.map((m) => [m.kind, m.value, m.origin])).toEqual([
      ["plateau", 1010, "corrected"],
      ["easing", 990, "corrected"],
      ["reversal", 3, "added"],
    ]);
  });

  it("find a mark that a later reduction named anew by where it lies", () => {
    const anew: Mark = { ...plateau, id: "plateau@10.5", from: 10.5, to: 41 };
    const out = applyCorrections([anew], [{ change: "value", mark: plateau.id, lay: lay(plateau), value: 1, u: 1 }]);
    expect(out.marks[0]).toMatchObject({ id: "plateau@10.5", value: 1, origin: "corrected" });
  });

  it("whose mark is gone are told, not dropped", () => {
    const out = applyCorrections([drag], [{ change: "value", mark: plateau.id, lay: lay(plateau), value: 1, u: 1 }]);
    expect(out.unmatched).toEqual([0]);
  });

  it("change neither the marks nor themselves, whatever they are, and said twice say no more", () => {
    const times = fc.double({ min: 0, max: 100, noNaN: true });
    const which = fc.constantFrom(plateau, drag);
    const correction: fc.Arbitrary<Correction> = fc.oneof(
      fc
        .record({ change: fc.constant("move" as const), m: which, from: times, to: times })
        .map(({ m, ...c }) => ({ ...c, mark: m.id, lay: lay(m) })),
      fc
        .record({ change: fc.constant("take away" as const), m: which })
        .map(({ m, ...c }) => ({ ...c, mark: m.id, lay: lay(m) })),
      fc
        .record({
          change: fc.constant("call" as const),
          m: which,
          kind: fc.constantFrom("plateau" as const, "easing" as const),
        })
        .map(({ m, ...c }) => ({ ...c, mark: m.id, lay: lay(m) })),
      fc
        .record({ change: fc.constant("add" as const), at: times })
        .map(({ at }) => ({ change: "add" as const, mark: { ...drag, id: `drag by hand ${at}`, from: at, to: at } })),
    );
    fc.assert(
      fc.property(fc.array(correction, { maxLength: 6 }), (corrections) => {
        const before = JSON.stringify([marks, corrections]);
        const once = applyCorrections(marks, corrections);
        expect(JSON.stringify([marks, corrections])).toBe(before);
        const seen = (r: typeof once): unknown[] => r.marks.map(({ corrections: _, ...m }) => m);
        expect(seen(applyCorrections(marks, [...corrections, ...corrections.slice(-1)]))).toEqual(seen(once));
        for (let i = 1; i < once.marks.length; i++)
          expect(once.marks[i]!.from).toBeGreaterThanOrEqual(once.marks[i - 1]!.from);
        // Nothing is lost: every automatic mark stands or is kept aside.
        expect(
          once.marks.filter((m) => m.automatic).length + once.takenAway.filter((t) => t.mark.automatic).length,
        ).toBe(marks.length);
      }),
      { seed: 8, numRuns: 300 },
    );
  });
});

describe("a correction carried through a reduction", () => {
  const { trace } = simulatePull({ seed: 6, noise: 0.002, surge: 0.005 });
  const plain = reduceTrace(trace, { readAt: "bow" });
  const first = plain.drags[0]!;

  it("a drag taken away makes a held load of what gave way, and the automatic mark stays", () => {
    const mine = plain.marks.filter((m) => m.kind === "drag");
    expect(plain.held.kind).toBe("gaveWay");
    const corrected = reduceTrace(trace, {
      readAt: "bow",
      corrections: mine.map((m) => ({ change: "take away", mark: m.id, lay: lay(m) })),
    });
    expect(corrected.held.kind).toBe("heldTo");
    expect(corrected.drags).toEqual([]);
    expect(corrected.marks).toEqual(plain.marks);
  });

  it("a drag marked by hand counts as one", () => {
    const mark: Mark = {
      id: "drag by hand",
      kind: "drag",
      from: 0.5,
      to: 1,
      value: 1e6,
      u: 1,
      of: "force",
      why: { kind: "written", text: "felt" },
    };
    const r = reduceTrace(trace, { readAt: "bow", corrections: [{ change: "add", mark }] });
    expect(r.drags.find((d) => d.id === "drag by hand")).toMatchObject({ seenIn: "hand" });
    expect(r.held).toMatchObject({ kind: "gaveWay", newtons: 1e6 });
    expect(r.drags.some((d) => d.id === first.id)).toBe(true);
  });

  it("a plateau with its end moved has its mean measured over what is left", () => {
    const p = plain.plateaus[0]!;
    const to = p.from + (p.to - p.from) / 2;
    const r = reduceTrace(trace, {
      readAt: "bow",
      corrections: [{ change: "move", mark: p.id, lay: { kind: "plateau", from: p.from, to: p.to }, from: p.from, to }],
    });
    const q = r.plateaus.find((x) => x.id === p.id)!;
    expect(q.to).toBe(to);
    expect(q.load.value).not.toBe(p.load.value);
    // Half of a flat stretch has nearly the mean of the whole: creep is 4 % at most.
    expect(Math.abs(q.load.value / p.load.value - 1)).toBeLessThan(0.04);
  });
});
