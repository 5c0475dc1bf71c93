/** What a pull held, by its record or its log: each rule, and each doubt, by hand. */
import { describe, expect, it } from "vitest";
import { ASSUMED } from "../../src/study/assumptions.ts";
import { type LogVerdict, loadOf, verdictOf } from "../../src/study/verdict.ts";

type Pull = Parameters<typeof verdictOf>[0];
const log = (held: object, more: Partial<LogVerdict> = {}): LogVerdict => ({
  held: { untold: null, at: "bow", mark: "m", ...held } as never,
  ...{ zeroFound: true, unmatched: 0 },
  ...more,
});
const gaveWay = (newtons: number, u: number) => ({ kind: "gaveWay", newtons, u });
const heldTo = (newtons: number, u: number) => ({ kind: "heldTo", newtons, u });
const of = (pull: Pull, from: LogVerdict | null = null) => verdictOf({ loadAt: "anchor", ...pull }, from);
const kinds = (read: ReturnType<typeof verdictOf>) => read.doubts.map(({ kind }) => kind);

describe("the record", () => {
  it("is believed as it says, its own ± or the assumed one with a doubt", () => {
    expect(of({ result: { kind: "gaveWay", load_N: 4000, u_N: 30 } })).toMatchObject({
      verdict: { kind: "gaveWay", load: { value: 4000, u: 30 } },
      ...{ from: "record", readAt: "anchor", endKnown: true, doubts: [] },
    });
    const unstated = of({ result: { kind: "heldTo", load_N: 4000 } });
    expect(unstated.verdict).toEqual({ kind: "heldTo", load: { value: 4000, u: ASSUMED.load * 4000 } });
    expect(unstated.doubts).toEqual([{ kind: "uncertaintyUnstated", u: ASSUMED.load * 4000 }]);
  });
  it("that it never set has a load only where one was pulled with", () => {
    expect(of({ result: { kind: "neverSet", load_N: 900, u_N: 9 } }).verdict).toEqual({
      kind: "neverSet",
      by: { value: 900, u: 9 },
    });
    expect(of({ result: { kind: "neverSet", load_N: 0 } }).verdict).toEqual({ kind: "neverSet", by: null });
    expect(of({ result: { kind: "neverSet" } }).verdict).toEqual({ kind: "neverSet", by: null });
  });
  it("without a load tells of its steps: held the last but one, gave way by the last", () => {
    const steps = [{ load_N: 500 }, { load_N: 1000 }, { load_N: 0 }, { load_N: 2000 }] as never;
    const u = (newtons: number) => ASSUMED.load * newtons;
    expect(of({ result: { kind: "gaveWay" }, steps }).verdict).toEqual({
      ...{ kind: "between", heldTo: { value: 1000, u: u(1000) }, gaveWayBy: { value: 2000, u: u(2000) } },
    });
    expect(of({ result: { kind: "heldTo" }, steps }).verdict).toEqual({
      kind: "heldTo",
      load: { value: 2000, u: u(2000) },
    });
    const falling = [{ load_N: 2000 }, { load_N: 1000 }] as never;
    expect(of({ result: { kind: "gaveWay" }, steps: falling }).verdict).toMatchObject({
      kind: "gaveWay",
      load: { value: 1000 },
    });
    const equal = [{ load_N: 1000 }, { load_N: 1000 }] as never;
    expect(of({ result: { kind: "gaveWay" }, steps: equal }).verdict.kind).toBe("gaveWay");
    expect(of({ result: { kind: "gaveWay", load_N: 0 }, steps: [{ load_N: 700 }] as never }).verdict).toMatchObject({
      ...{ kind: "gaveWay", load: { value: 700 } },
    });
    const none = of({ result: { kind: "gaveWay" }, steps: [] });
    expect([none.verdict.kind, none.from, kinds(none)]).toEqual(["notKnown", null, ["noResult"]]);
    for (const result of [null, undefined, { kind: "none" }] as never[])
      expect(of({ result }).verdict.kind).toBe("notKnown");
  });
  it("has rode out as its result or its steps say", () => {
    const steps = [
      ...[
        { load_N: 500 },
        { load_N: 2000, paidOut_m: 30 },
        { load_N: 0, paidOut_m: 40 },
        { load_N: 1500 },
        { load_N: 2000 },
      ],
      { load_N: 900, paidOut_m: 50 },
    ] as never;
    const out = (result: object, of_ = steps) => of({ result: result as never, steps: of_ }).paidOut;
    expect(out({ kind: "gaveWay", load_N: 5, paidOut_m: 33 })).toEqual({ heldTo: 33, gaveWayBy: 33 });
    expect(out({ kind: "gaveWay", load_N: 900 })).toEqual({ heldTo: 50, gaveWayBy: 50 });
    // The greatest load was held twice: the later time with 40 m out.
    expect(out({ kind: "heldTo", load_N: 2000 })).toEqual({ heldTo: 40, gaveWayBy: null });
    expect(out({ kind: "heldTo" })).toEqual({ heldTo: 50, gaveWayBy: 50 });
    const two = [{ load_N: 500 }, { load_N: 900, paidOut_m: 50 }] as never;
    expect(out({ kind: "gaveWay" }, two)).toEqual({ heldTo: null, gaveWayBy: 50 });
    expect(out({ kind: "heldTo", load_N: 5 }, [] as never)).toEqual({ heldTo: null, gaveWayBy: null });
  });
});

describe("the log", () => {
  it("is believed where the record has no result, at the end it was read at", () => {
    const read = of({ loadAt: "anchor" }, log(gaveWay(3000, 40), { paidOut: 44 }));
    expect(read).toMatchObject({
      verdict: { kind: "gaveWay", load: { value: 3000, u: 40 } },
      ...{ from: "log", readAt: "bow", endKnown: true, paidOut: { heldTo: 44, gaveWayBy: 44 }, doubts: [] },
    });
    const nothing = of({}, log({ kind: "notKnown", untold: "noLoad" }));
    expect([nothing.verdict.kind, nothing.from]).toEqual(["notKnown", null]);
    expect(kinds(nothing)).toEqual(["logCannotTell", "noResult"]);
  });
  it("tells its doubts: of zero and corrections always, of the track only where it is believed", () => {
    const doubtful = { zeroFound: false, unmatched: 2, trackOverVeer: true, clockOff: { value: 3, u: 1 }, apart: -7 };
    const believed = of({}, log({ ...heldTo(3000, 40), untold: "movement" }, doubtful));
    expect(believed.doubts).toEqual([
      { kind: "zeroNotFound" },
      { kind: "trackOverVeer" },
      { kind: "trackClockOff", offset: { value: 3, u: 1 } },
      { kind: "trackApart", seconds: -7 },
      { kind: "correctionsUnmatched", count: 2 },
      { kind: "logCannotTell", what: "movement" },
    ]);
    const record = { result: { kind: "heldTo", load_N: 3000, u_N: 1 } } as const;
    expect(kinds(of(record, log({ ...heldTo(3000, 40), untold: "movement" }, doubtful)))).toEqual([
      ...["zeroNotFound", "correctionsUnmatched"],
    ]);
  });
  it("that differs from the record is told, beyond twice both ± or by how it ended", () => {
    const against = (load: number, u: number, held: object) =>
      kinds(of({ result: { kind: "heldTo", load_N: load, u_N: u } }, log(held)));
    // √(3² + 4²) = 5: ten apart agree, eleven do not.
    expect(against(1000, 3, heldTo(1010, 4))).toEqual([]);
    expect(against(1000, 3, heldTo(1011, 4))).toEqual(["resultDiffersFromLog"]);
    expect(against(1000, 3, heldTo(989, 4))).toEqual(["resultDiffersFromLog"]);
    expect(against(1000, 3, gaveWay(1000, 4))).toEqual(["resultDiffersFromLog"]);
    expect(against(1000, 3, { kind: "notKnown" })).toEqual([]);
    expect(of({ result: { kind: "gaveWay", load_N: 1000, u_N: 3 } }, log(heldTo(900, 4))).doubts).toEqual([
      {
        kind: "resultDiffersFromLog",
        result: { kind: "gaveWay", newtons: 1000 },
        log: { kind: "heldTo", newtons: 900 },
      },
    ]);
  });
});

describe("doubts of the end", () => {
  it("read at is the bow where nobody says, with a doubt where there is a load", () => {
    const unsaid = verdictOf({ result: { kind: "heldTo", load_N: 9, u_N: 1 } }, null);
    expect([unsaid.readAt, unsaid.endKnown, unsaid.doubts]).toEqual([
      "bow",
      false,
      [{ kind: "endUnknown", taken: "bow" }],
    ]);
    expect(kinds(verdictOf({}, null))).toEqual(["noResult"]);
  });
  it("that contradicts how it ended is told", () => {
    const ended = (kind: string, endedBy: string) =>
      kinds(of({ result: { kind, load_N: 9, u_N: 1 } as never, endedBy: endedBy as never }));
    for (const by of ["drag", "roll-out", "break-out"]) {
      expect(ended("heldTo", by), by).toEqual(["endingContradicts"]);
      expect(ended("gaveWay", by), by).toEqual([]);
    }
    expect(ended("gaveWay", "engine limit")).toEqual(["endingContradicts"]);
    expect(ended("heldTo", "engine limit")).toEqual([]);
    expect(ended("gaveWay", "stopped by tester")).toEqual([]);
    expect(kinds(of({ endedBy: "drag" as never }))).toEqual(["noResult"]);
  });
  it("has one load a verdict is known by", () => {
    const [a, b] = [
      { value: 1, u: 0 },
      { value: 2, u: 0 },
    ];
    expect(loadOf({ kind: "notKnown" })).toBeNull();
    expect(loadOf({ kind: "between", heldTo: a, gaveWayBy: b })).toBe(b);
    expect(loadOf({ kind: "neverSet", by: null })).toBeNull();
    expect(loadOf({ kind: "neverSet", by: a })).toBe(a);
    expect(loadOf({ kind: "heldTo", load: a })).toBe(a);
  });
});
