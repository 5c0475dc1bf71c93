/** What a pull's records leave open, how wide it is taken, and which of two answers stands. */
import { describe, expect, it } from "vitest";
import { type LinePart, type Rig, readRig, settle } from "../../src/rode/index.ts";
import {
  type BookMark,
  carryLoad,
  changedMark,
  comparablePulls,
  type Deployment,
  deploymentOf,
  effectiveMarks,
  pullCases,
  reducePullLog,
  verdictOf,
} from "../../src/study/index.ts";
import { caseOf, record, trialRode } from "./cases.ts";

const filed = readRig(trialRode, "rig");

describe("how wide is taken what was not measured", () => {
  it("a length told in metres 3 %, by a scope 5 %, one nobody told 10 %; a sounding 0.2 m where the rig states none", () => {
    const bare: Rig = { ...filed, uncertainty: {} };
    expect(deploymentOf(bare, { depth: 6, paidOut: 30 }).length.u).toBeCloseTo(0.9, 12);
    expect(deploymentOf(bare, { depth: 6, scope: 4 }).length.u).toBeCloseTo(0.05 * 4 * 7.35, 12);
    expect(deploymentOf(bare, { depth: 6 }).length.u).toBeCloseTo(3.7, 12);
    expect(deploymentOf(bare, { depth: 6, paidOut: 37 }).rise.u).toBe(0.2);
    expect(deploymentOf(bare, { paidOut: 37 }).rise.u).toBeCloseTo(1.5, 12);
    expect(deploymentOf(bare, { paidOut: 37, depthByLevel: { value: 5, u: 0.8, soundings: 4 } }).rise.u).toBe(0.8);
  });
  it("lengths within a hundredth of the longer, or five centimetres, agree", () => {
    const part = (paidOut: number) => deploymentOf(filed, { depth: 6, paidOut }).part;
    expect(part(37.37)).toBeNull();
    expect(part(37.38)).not.toBeNull();
    // 36.63 is 0.37 short of 37: a hundredth of the longer.
    expect(part(36.63)).toBeNull();
    expect(part(36.62)).not.toBeNull();
    const short: Rig = {
      ...filed,
      rode: [{ ...(filed.rode[0] as LinePart), length: 3 }],
      setting: { ...filed.setting, depth: 0.5, rollerHeight: 0.5 } as Rig["setting"],
    };
    expect(deploymentOf(short, { depth: 0.5, paidOut: 3.049 }).part).toBeNull();
    expect(deploymentOf(short, { depth: 0.5, paidOut: 3.06 }).part).not.toBeNull();
  });
});

describe("a load carried", () => {
  const deployment: Deployment = deploymentOf({ ...filed, uncertainty: {} }, { depth: 4.4, paidOut: 28 });
  const carried = (load: { value: number; u: number }, of = deployment) => {
    const answer = carryLoad(of, load, "bow");
    if (answer.kind !== "carried") throw new Error(answer.cause);
    return answer;
  };
  it("moves the load on the rig as it lay, not on the one of the file", () => {
    const answer = carried({ value: 2600, u: 150 });
    const load = answer.sources.find(({ input }) => input === "load")!;
    const at = (newtons: number) => {
      const settled = settle(deployment.rig, { at: "bow", newtons });
      if (settled.kind !== "settled") throw new Error(settled.cause);
      return settled;
    };
    const [mid, up, down] = [at(2600), at(2750), at(2450)];
    const share = (of: (s: typeof mid) => number) =>
      Math.sqrt(((of(up) - of(mid)) ** 2 + (of(down) - of(mid)) ** 2) / 2);
    expect(load.anchor).toBeCloseTo(
      share((s) => s.anchor.tension),
      9,
    );
    expect(load.bow).toBeCloseTo(
      share((s) => s.bow.tension),
      9,
    );
    expect(load.angleToBottom).toBeCloseTo(
      share((s) => s.anchor.angleToBottom),
      12,
    );
    expect(answer.sources.map(({ angleToBottom }) => angleToBottom)).toEqual(
      answer.sources.map(({ angleToBottom }) => angleToBottom).sort((a, b) => b - a),
    );
    for (const name of ["anchor", "bow", "angleToBottom"] as const)
      expect(answer[name].u).toBeCloseTo(Math.hypot(...answer.sources.map((source) => source[name])), 12);
  });
  it("that can be moved to neither side says two, to one side one", () => {
    const chain: Rig = {
      name: "quay",
      setting: { medium: "air", rise: 9, bottomSlope: 0, bottomFriction: 0 },
      rode: [
        { kind: "line", name: "chain", length: 30, massPerLength: 2.3, density: 7850, stretch: { kind: "rigid" } },
      ],
      uncertainty: {},
    };
    const told = (of: Deployment, value: number, u: number) => carried({ value, u }, of).doubts;
    const asIs = {
      ...deploymentOf(chain, { paidOut: 30 }),
      paidOut: { told: "filed", metres: 30, share: 0 },
    } as Deployment;
    // Less than hangs from the upper end to one side: 2.3 · 9.80665 · 9 = 203 N.
    expect(told(asIs, 230, 40)).toEqual([{ kind: "cannotMove", input: "load", sides: 1 }]);
    const neither = { ...asIs, rise: { ...asIs.rise, u: 400 } };
    expect(told(neither, 4000, 0)).toEqual([{ kind: "cannotMove", input: "rise", sides: 2 }]);
  });
});

describe("a record beside its log", () => {
  const log = (kind: "gaveWay" | "heldTo", newtons: number, u = 30) =>
    ({
      held: {
        kind,
        newtons,
        u,
        at: "bow",
        mark: "m",
        why: { kind: "held", seconds: 30, most: null, rule: null, gaveWayAtLess: false, open: null },
        untold: null,
      },
      zeroFound: true,
      unmatched: 0,
    }) as const;
  const doubts = (kind: "gaveWay" | "heldTo", load_N: number, of: ReturnType<typeof log>) =>
    verdictOf({ loadAt: "bow", result: { kind, load_N, u_N: 40 } }, of).doubts.map((doubt) => doubt.kind);
  it("agrees within two of both ± together, and no farther", () => {
    // 2 √(40² + 30²) = 100.
    expect(doubts("gaveWay", 2000, log("gaveWay", 2099))).toEqual([]);
    expect(doubts("gaveWay", 2000, log("gaveWay", 1901))).toEqual([]);
    expect(doubts("gaveWay", 2000, log("gaveWay", 2101))).toEqual(["resultDiffersFromLog"]);
    expect(doubts("gaveWay", 2000, log("gaveWay", 1899))).toEqual(["resultDiffersFromLog"]);
  });
  it("differs where one held and the other gave way, whatever the loads", () => {
    expect(doubts("heldTo", 2000, log("gaveWay", 2000))).toEqual(["resultDiffersFromLog"]);
    expect(doubts("gaveWay", 2000, log("heldTo", 2000))).toEqual(["resultDiffersFromLog"]);
    expect(doubts("heldTo", 2000, log("heldTo", 2000))).toEqual([]);
  });
  it("says what of the log was not found", () => {
    const told = verdictOf(
      { loadAt: "bow", result: { kind: "heldTo", load_N: 2000, u_N: 40 } },
      { ...log("heldTo", 2000), zeroFound: false, unmatched: 2 },
    );
    expect(told.doubts).toEqual([{ kind: "zeroNotFound" }, { kind: "correctionsUnmatched", count: 2 }]);
  });
  it("of steps alone held the last but one and gave way by the last, unless they fell", () => {
    const steps = (...loads: number[]) => loads.map((load_N) => ({ load_N }));
    const of = (kind: "gaveWay" | "heldTo", ...loads: number[]) =>
      verdictOf({ loadAt: "bow", result: { kind }, steps: steps(...loads) } as never, null).verdict;
    expect(of("gaveWay", 1000, 1500, 2000)).toMatchObject({
      kind: "between",
      heldTo: { value: 1500, u: 15 },
      gaveWayBy: { value: 2000, u: 20 },
    });
    expect(of("gaveWay", 2000, 1500)).toMatchObject({ kind: "gaveWay", load: { value: 1500 } });
    expect(of("gaveWay", 1500)).toMatchObject({ kind: "gaveWay", load: { value: 1500 } });
    expect(of("heldTo", 1000, 1800)).toMatchObject({ kind: "heldTo", load: { value: 1800, u: 18 } });
    expect(of("heldTo")).toEqual({ kind: "notKnown" });
    expect(of("gaveWay", 0, 0)).toEqual({ kind: "notKnown" });
  });
});

describe("depths of one ground", () => {
  it("are told by their middle and their spread", () => {
    const depths = [6.0, 6.4, 7.1];
    const day = record("day", "d", { date: "2024-05-11", site: "s", waterLevel_m: 1 });
    const later = record("day", "e", { date: "2024-05-12", site: "s", waterLevel_m: 2.5 });
    const cases = pullCases({
      pull: [
        ...depths.map((depth_m, i) => record("pull", `p${i}`, { day: "d", depth_m })),
        record("pull", "q", { day: "e" }),
      ],
      day: [day, later],
      site: [record("site", "s", { name: "cove" })],
      seabed: [],
      anchor: [],
      rigVersion: [],
      series: [],
    });
    const told = cases.at(-1)!.depthByLevel!;
    // Below the datum 5.0, 5.4, 6.1: the middle 5.4, at a level of 2.5 m.
    expect(told.value).toBeCloseTo(7.9, 12);
    expect(told.u).toBeCloseTo(Math.sqrt((0.4 ** 2 + 0 + 0.7 ** 2) / 2), 12);
    expect(told.soundings).toBe(3);
  });
});

describe("pulls to be compared", () => {
  it("carry the anchor's name, its mass and area, where and when", () => {
    const water = { depth_m: 6, scope: 37 / 7.35, loadAt: "bow" } as const;
    const { pulls, ids, leftOut } = comparablePulls([
      caseOf({ ...water, result: { kind: "gaveWay", load_N: 2000, u_N: 20 }, endedBy: "drag" }),
      caseOf(
        { ...water, result: { kind: "heldTo", load_N: 2600, u_N: 20 } },
        { pull: record("pull", "p2", { ...water, result: { kind: "heldTo", load_N: 2600, u_N: 20 } }), anchor: null },
      ),
    ]);
    expect(ids).toEqual(["p1"]);
    expect(pulls[0]).toMatchObject({
      anchor: "Scoop, 15 kg",
      mass: 15,
      seabed: "soft mud",
      site: "Ternhead Flats",
      day: "2024-05-15",
      ending: "drag",
      tester: "two",
      hold: { kind: "gaveWay" },
    });
    expect(leftOut).toEqual([{ pull: "p2", row: 2, cause: "noAnchor" }]);
  });
});

describe("marks as they stand", () => {
  const mark = (id: string, from_s: number, to_s: number | null, over: Partial<BookMark> = {}): BookMark => ({
    id,
    hidden: false,
    log: "l",
    kind: "plateau",
    from_s,
    to_s,
    origin: "automatic",
    corrects: null,
    detail: null,
    remarks: null,
    ...over,
  });
  it("stand in the order of time, then of their end, then of their id", () => {
    const ids = effectiveMarks([mark("c", 5, 9), mark("b", 5, 9), mark("d", 5, 7), mark("a", 2, 3)]).map(
      ({ id }) => id,
    );
    expect(ids).toEqual(["a", "d", "b", "c"]);
    // Whatever order the book gives them in, and whatever else of them differs.
    const times = [3, 1, 2, 5, 4, 8, 6, 7];
    for (const told of [times, times.toReversed()]) {
      const marks = told.map((from, i) => mark(`m${i}`, from, 20 - from, { detail: { u: 10 - from } }));
      expect(effectiveMarks(marks).map(({ from }) => from)).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
      const ends = told.map((to, i) => mark(`m${i}`, 0, to, { detail: { u: 10 - to } }));
      expect(effectiveMarks(ends).map(({ to }) => to)).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
    }
  });
  it("of two corrections of one mark the later record stands", () => {
    const by = (id: string, from: number) => mark(id, from, 9, { origin: "by hand", corrects: "a" });
    expect(effectiveMarks([mark("a", 5, 9), by("y", 6), by("x", 7)])).toMatchObject([
      { id: "a", from: 6, origin: "corrected" },
    ]);
  });
  it("keep the load told with them until they are moved", () => {
    const told = mark("a", 5, 9, { detail: { value: 800, u: 7, of: "force", why: "level" } });
    expect(effectiveMarks([told])[0]).toMatchObject({
      value: 800,
      u: 7,
      why: { kind: "written", text: "level" },
      origin: "automatic",
    });
    const said = mark("z", 5, 9, { origin: "by hand", corrects: "a", remarks: "a lurch" });
    expect(effectiveMarks([told, said])[0]).toMatchObject({ value: 800, why: { kind: "written", text: "a lurch" } });
    expect(effectiveMarks([mark("a", 5, 9)])[0]).toMatchObject({ value: null, u: 0, why: null });
    const called = mark("z", 5, 9, { origin: "by hand", corrects: "a", kind: "drag" });
    expect(effectiveMarks([told, called])[0]).toMatchObject({
      ...{ value: 800, kind: "drag", origin: "corrected" },
      // "level" was said of a plateau.
      why: null,
    });
    const moved = mark("z", 5, 8, { origin: "by hand", corrects: "a" });
    expect(effectiveMarks([told, moved])[0]).toMatchObject({ value: null, to: 8, why: null });
    const away = mark("z", 5, 9, { origin: "by hand", corrects: "a", detail: { change: "take away" } });
    expect(effectiveMarks([told, away])[0]).toMatchObject({ takenAway: true });
    expect(effectiveMarks([told, { ...away, hidden: true }])[0]).toMatchObject({
      takenAway: false,
      origin: "automatic",
    });
  });
});

describe("a change to an automatic mark", () => {
  const automatic = {
    id: "a",
    log: "log",
    kind: "plateau",
    from_s: 5,
    to_s: 9,
    origin: "automatic",
    corrects: null,
    detail: null,
    remarks: null,
  } as unknown as BookMark;
  const changed = (change: Parameters<typeof changedMark>[1], mark: BookMark = automatic) =>
    changedMark(effectiveMarks([mark])[0]!, change, () => "new");

  it("is a record of its own that keeps what is not changed", () => {
    const kept = { log: "log", origin: "by hand", corrects: "a" };
    expect(changed({ change: "call", kind: "drag" })).toEqual({
      kind: "mark",
      id: "new",
      makes: true,
      set: { ...kept, kind: "drag", from_s: 5, to_s: 9 },
    });
    expect(changed({ change: "move", from: 12, to: 7 }).set).toEqual({ ...kept, kind: "plateau", from_s: 7, to_s: 12 });
    expect(changed({ change: "take away" }).set).toMatchObject({ from_s: 5, to_s: 9, detail: { change: "take away" } });
  });

  it("leaves a moment a moment", () => {
    const moment = { ...automatic, kind: "peak", to_s: null };
    expect(changed({ change: "move", from: 6, to: 6 }, moment).set).toMatchObject({ from_s: 6, to_s: null });
  });
});

describe("a drag marked by hand in a log", () => {
  it("is told by the mean of the two seconds before it, with their scatter as its ±", () => {
    const rows = 1200;
    const time = Float64Array.from({ length: rows }, (_, i) => i / 10);
    // Slack, then a load that swings by ±50 N about 2000 N.
    const load = Float64Array.from(time, (t, i) => (t < 20 || t > 100 ? 0 : 2000 + (i % 2 === 0 ? 50 : -50)));
    const told = reducePullLog({
      time,
      load,
      readAt: "bow",
      corrections: [
        {
          change: "add",
          mark: { id: "m", kind: "drag", from: 60, to: 62, value: 0, u: 0, of: "force", why: { kind: "byHand" } },
        },
      ],
      slack: [],
      about: null,
    });
    if (told.kind !== "reduced") throw new Error(told.line);
    const drag = told.marks.find((one) => one.kind === "drag" && Math.abs(one.from - 60) < 1)!;
    expect(Math.abs(drag.value - 2000)).toBeLessThan(30);
    expect(drag.u).toBeLessThan(60);
    expect(told.corrected).toBe(1);
    expect(told.evidence).toBeNull();
  });

  it("has a load that grows evenly by its middle, and how evenly spaced values scatter", () => {
    const time = Float64Array.from({ length: 1200 }, (_, i) => i / 10);
    // 10 N/s: at 59 s, a second before the drag, 2000 N.
    const load = Float64Array.from(time, (t) => (t < 20 || t > 100 ? 0 : 2000 + 10 * (t - 59)));
    const told = reducePullLog({
      ...{ time, load, readAt: "bow", slack: [], about: null },
      corrections: [
        {
          change: "add",
          mark: { id: "m", kind: "drag", from: 60, to: 62, value: 0, u: 0, of: "force", why: { kind: "byHand" } },
        },
      ],
    });
    if (told.kind !== "reduced") throw new Error(told.line);
    const drag = told.marks.find((one) => one.kind === "drag" && Math.abs(one.from - 60) < 1)!;
    expect(drag.why).toEqual({ kind: "byHandMeanBefore", seconds: 2 });
    // 21 values a newton apart: √((21² − 1)/12). A low pass lets a straight line through.
    expect(drag.value).toBeCloseTo(2000, 0);
    expect(drag.u).toBeCloseTo(Math.sqrt((21 ** 2 - 1) / 12), 1);
  });

  it("has no scatter where the load stood still, also beside a correction of another sort", () => {
    const time = Float64Array.from({ length: 1200 }, (_, i) => i / 10);
    const load = Float64Array.from(time, (t) => (t < 20 || t > 100 ? 0 : 2000));
    const mark = {
      id: "m",
      kind: "drag",
      from: 60,
      to: 62,
      value: 0,
      u: 0,
      of: "force",
      why: { kind: "byHand" },
    } as const;
    const told = reducePullLog({
      time,
      load,
      readAt: "bow",
      corrections: [
        { change: "add", mark },
        { change: "add", mark: { ...mark, id: "n", kind: "slack", from: 2, to: 18 } },
      ],
      slack: [],
      about: null,
    });
    if (told.kind !== "reduced") throw new Error(told.line);
    const drag = told.marks.find((one) => one.kind === "drag" && Math.abs(one.from - 60) < 1)!;
    expect(drag.value).toBeCloseTo(2000, 3);
    expect(drag.u).toBeLessThan(0.5);
  });
});
