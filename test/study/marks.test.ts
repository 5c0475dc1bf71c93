/** Marks as they stand once people corrected them, and what the reduction takes from them: every rule by hand. */
import { describe, expect, it } from "vitest";
import {
  type BookMark,
  changedMark,
  correctionsOf,
  effectiveMarks,
  lengthOutAt,
  veeredWithin,
  veersOf,
  veersTogether,
} from "../../src/study/index.ts";

const mark = (id: string, more: Partial<BookMark> = {}): BookMark => ({
  ...{ id, hidden: false, log: "log", kind: "plateau", from_s: 10, to_s: 20, origin: "automatic" },
  ...{ corrects: null, detail: null, remarks: null },
  ...more,
});
const found = { of: "force", value: 900, u: 12, why: null };
const byHand = (id: string, corrects: string | null, more: Partial<BookMark> = {}) =>
  mark(id, { origin: "by hand", corrects, ...more });
const only = (...marks: BookMark[]) => {
  const all = effectiveMarks(marks);
  if (all.length !== 1) throw new Error(`${all.length} marks`);
  return all[0]!;
};

describe("a mark as it stands", () => {
  it("is the automatic one with its load, until a person changes it", () => {
    const automatic = mark("a", { detail: found });
    expect(only(automatic)).toEqual({
      ...{ id: "a", kind: "plateau", from: 10, to: 20, origin: "automatic", takenAway: false },
      ...{ automatic, byHand: null, value: 900, u: 12, why: null },
    });
  });
  it("keeps what it told while it is called otherwise, and tells nothing once it was moved at either end", () => {
    const automatic = mark("a", { detail: found });
    const called = only(automatic, byHand("b", "a", { kind: "peak" }));
    expect(called).toMatchObject({ id: "a", kind: "peak", origin: "corrected", value: 900 });
    for (const ends of [{ from_s: 11 }, { to_s: 21 }])
      expect(only(automatic, byHand("b", "a", ends))).toMatchObject({ value: null, u: 12, origin: "corrected" });
  });
  it("tells no load that is none, and no ± that is none", () => {
    expect(only(mark("a", { detail: { of: "length", value: 3, u: 1 } })).value).toBeNull();
    expect(only(mark("a", { detail: { of: "force", value: "3" } }))).toMatchObject({ value: null, u: 0 });
    expect(only(mark("a"))).toMatchObject({ value: null, u: 0 });
  });
  it("of a moment ends where it begins", () => {
    expect(only(mark("a", { to_s: null }))).toMatchObject({ from: 10, to: 10 });
  });
  it("stands as the later of two corrections, whatever order they come in; one put aside is none", () => {
    const [early, late] = [byHand("b", "a", { from_s: 1 }), byHand("c", "a", { from_s: 2 })];
    expect(only(mark("a"), early, late).from).toBe(2);
    expect(only(late, early, mark("a")).from).toBe(2);
    expect(only(mark("a"), early, { ...late, hidden: true }).from).toBe(1);
    expect(effectiveMarks([mark("a", { hidden: true })])).toEqual([]);
  });
  it("added by hand stands by itself, also where what it corrected is not here, and can be corrected", () => {
    expect(only(byHand("b", null))).toMatchObject({ origin: "added", automatic: null, takenAway: false });
    expect(only(byHand("b", "gone"))).toMatchObject({ id: "b", origin: "added" });
    const added = byHand("b", null);
    expect(only(added, byHand("c", "b", { from_s: 5 }))).toMatchObject({ id: "b", from: 5, origin: "added" });
    expect(only(added).byHand).toEqual(added);
  });
  it("is taken away by what its correction says", () => {
    expect(only(mark("a"), byHand("b", "a", { detail: { change: "take away" } })).takenAway).toBe(true);
    expect(only(mark("a"), byHand("b", "a", { detail: { change: "else" } })).takenAway).toBe(false);
  });
  it("lies among others by where it begins, where it ends, and its id", () => {
    const marks = [
      mark("d", { from_s: 5, to_s: 9, detail: { u: 0 } }),
      mark("c", { from_s: 5, to_s: 7, detail: { u: 9 } }),
      mark("e", { from_s: 5, to_s: 7, detail: { u: 1 } }),
      mark("b", { from_s: 1, to_s: 99, detail: { u: 99 } }),
      mark("a", { from_s: 7, to_s: 8, detail: { u: -50 } }),
    ];
    const order = (of: readonly BookMark[]) => effectiveMarks(of).map(({ id }) => id);
    expect(order(marks)).toEqual(["b", "c", "e", "d", "a"]);
    expect(order(marks.toReversed())).toEqual(["b", "c", "e", "d", "a"]);
  });
});

describe("a change to a mark", () => {
  const newId = () => "new";
  it("of an automatic one is a record of its own beside it", () => {
    const stands = only(mark("a"));
    const base = { log: "log", kind: "plateau", from_s: 10, to_s: 20, origin: "by hand", corrects: "a" };
    const changed = (change: Parameters<typeof changedMark>[1]) => changedMark(stands, change, newId);
    expect(changed({ change: "move", from: 30, to: 12 })).toEqual({
      ...{ kind: "mark", id: "new", makes: true },
      set: { ...base, from_s: 12, to_s: 30 },
    });
    expect(changed({ change: "call", kind: "peak" }).set).toEqual({ ...base, kind: "peak" });
    expect(changed({ change: "take away" }).set).toEqual({ ...base, detail: { change: "take away" } });
    expect(changed({ change: "bring back" }).set).toEqual({ ...base, detail: null });
  });
  it("of a moment stays a moment", () => {
    const moment = only(mark("a", { to_s: null }));
    expect(changedMark(moment, { change: "move", from: 12, to: 12 }, newId).set).toMatchObject({
      from_s: 12,
      to_s: null,
    });
  });
  it("of one a person made is of its record, saying what that was", () => {
    const stands = only(mark("a"), byHand("b", "a", { from_s: 11, detail: { paidOut_m: 40 } }));
    expect(changedMark(stands, { change: "move", from: 1, to: 2 }, newId)).toEqual({
      ...{ kind: "mark", id: "b", makes: false },
      ...{ set: { from_s: 1, to_s: 2 }, was: { from_s: 11, to_s: 20 } },
    });
    expect(changedMark(stands, { change: "take away" }, newId)).toMatchObject({
      ...{ set: { detail: { paidOut_m: 40, change: "take away" } }, was: { detail: { paidOut_m: 40 } } },
    });
    expect(changedMark(stands, { change: "call", kind: "drag" }, newId)).toMatchObject({ was: { kind: "plateau" } });
  });
});

describe("what the reduction takes", () => {
  const taken = (...marks: BookMark[]) => correctionsOf(effectiveMarks(marks));
  const lay = { kind: "plateau", from: 10, to: 20 };
  it("is each change of a mark it reads, at the place it lay", () => {
    expect(taken(mark("a"))).toEqual({ corrections: [], slack: [] });
    expect(taken(mark("a"), byHand("b", "a")).corrections).toEqual([]);
    expect(taken(mark("a"), byHand("b", "a", { from_s: 9 })).corrections).toEqual([
      { change: "move", mark: "a", lay, from: 9, to: 20 },
    ]);
    expect(taken(mark("a"), byHand("b", "a", { to_s: 21, kind: "drag" })).corrections).toEqual([
      { change: "call", mark: "a", lay, kind: "drag" },
      { change: "move", mark: "a", lay, from: 10, to: 21 },
    ]);
    expect(taken(mark("a"), byHand("b", "a", { from_s: 9, detail: { change: "take away" } })).corrections).toEqual([
      { change: "take away", mark: "a", lay },
    ]);
  });
  it("is an added mark put where it lies and moved there, and a slack stretch by itself", () => {
    const { corrections, slack } = taken(
      byHand("d", null, { kind: "drag", detail: { of: "force", value: 7, u: 2 } }),
      byHand("s", null, { kind: "slack", from_s: 1, to_s: 3 }),
    );
    expect(slack).toEqual([{ from: 1, to: 3 }]);
    expect(corrections).toMatchObject([
      {
        change: "add",
        mark: { id: "d", kind: "drag", from: 10, to: 20, value: 7, u: 2, of: "force", why: { kind: "byHand" } },
      },
      { change: "move", mark: "d", lay: { kind: "drag", from: 10, to: 20 }, from: 10, to: 20 },
    ]);
    expect(corrections).toHaveLength(2);
  });
  it("is nothing of what was added and taken away, nor of kinds it does not read", () => {
    expect(taken(byHand("d", null, { kind: "drag", detail: { change: "take away" } }))).toEqual({
      corrections: [],
      slack: [],
    });
    expect(taken(byHand("d", null, { kind: "note" })).corrections).toEqual([]);
    expect(taken(mark("a", { kind: "gap" }), byHand("b", "a", { from_s: 3 })).corrections).toEqual([]);
    expect(taken(mark("a", { kind: "gap" }), byHand("b", "a", { kind: "drag" })).corrections).toEqual([]);
    expect(taken(mark("a"), byHand("b", "a", { kind: "note" })).corrections).toEqual([]);
  });
});

describe("veers", () => {
  const step = (id: string, from_s: number, detail: object, more: Partial<BookMark> = {}) =>
    byHand(id, null, { kind: "step", from_s, to_s: null, detail: { ...detail }, ...more });
  it("are steps that tell a length, in the order of their marks", () => {
    const marks = [
      step("a", 5, { paidOut_m: 40 }),
      step("b", 3, { paidOut_m: 35 }),
      step("c", 6, { paidOut_m: 0 }),
      step("d", 7, { paidOut_m: "50" }),
      step("e", 8, { paidOut_m: 50, change: "take away" }),
      step("f", 9, { paidOut_m: 50 }, { kind: "note" }),
    ];
    expect(veersOf(effectiveMarks(marks))).toEqual([
      { from: 3, paidOut: 35 },
      { from: 5, paidOut: 40 },
    ]);
  });
  it("of several logs are told in the order of time, and hold from their moment on", () => {
    const [one, other] = [
      [{ from: 5, paidOut: 40 }],
      [
        { from: 9, paidOut: 50 },
        { from: 3, paidOut: 35 },
      ],
    ];
    const all = veersTogether(one, other);
    expect(all.map(({ from }) => from)).toEqual([3, 5, 9]);
    expect([2.9, 3, 4.9, 5, 8, 9, 99].map((at) => lengthOutAt(all, at))).toEqual([null, 35, 35, 40, 40, 50, 50]);
    expect([
      veeredWithin(all, 3, 5),
      veeredWithin(all, 2, 4),
      veeredWithin(all, 9, 20),
      veeredWithin(all, 8, 9),
      veeredWithin([], 0, 9),
    ]).toEqual([false, true, false, false, false]);
  });
});
