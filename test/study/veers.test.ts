/** A pull veered half-way: each load is carried with what was then out, checked against settling the rode at either length. */
import { describe, expect, it } from "vitest";
import { readRig, settle } from "../../src/rode/index.ts";
import { comparablePulls, effectiveMarks, pullEvidence, reducePullLog, veersOf } from "../../src/study/index.ts";
import { doubtLine } from "../../src/words/index.ts";
import { caseOf, trialRode } from "./cases.ts";

const [FIRST, THEN] = [25, 37];

/** The trial rode in 6 m with so much out, settled under a load at the bow; the rope is what is veered. */
function settledAt(paidOut: number, newtons: number) {
  const text = trialRode.replace("length: 17 m", `length: ${paidOut - 20} m`);
  const answer = settle(readRig(text, "by hand"), { at: "bow", newtons });
  if (answer.kind !== "settled") throw new Error("an equilibrium is expected");
  return answer.anchor;
}

const record = { depth_m: 6, paidOut_m: FIRST, loadAt: "bow", endedBy: "drag" } as const;
const steps = [{ load_N: 1000 }, { load_N: 2000 }, { load_N: 2500, paidOut_m: THEN }, { load_N: 3000 }];
const carriedBy = (pull: object) => {
  const { heldTo, gaveWayBy, deployment, doubts } = pullEvidence(caseOf({ ...record, ...pull }));
  if (gaveWayBy?.kind !== "carried") throw new Error("a carried load is expected");
  return { held: heldTo?.kind === "carried" ? heldTo : null, gave: gaveWayBy, deployment, doubts };
};

describe("a pull that was veered", () => {
  it("gave way with what its result says was out, and says so to the tester", () => {
    const result = { kind: "gaveWay", load_N: 2500, u_N: 20, paidOut_m: THEN } as const;
    const { gave, deployment, doubts } = carriedBy({ result });
    const [first, then] = [settledAt(FIRST, 2500), settledAt(THEN, 2500)];
    // Twelve metres more move the angle by several degrees: neither is the other by chance.
    expect(first.angleToBottom - then.angleToBottom).toBeGreaterThan(0.05);
    expect(gave.angleToBottom.value).toBeCloseTo(then.angleToBottom, 9);
    expect(gave.anchor.value).toBeCloseTo(then.tension, 6);
    expect(deployment?.length.value).toBe(THEN);
    // 3 % of the length then out, as of any length that was told.
    expect(deployment?.length.u).toBeCloseTo(0.03 * THEN, 9);
    const veered = doubts.filter(({ kind }) => kind === "veered");
    expect(veered).toEqual([{ kind: "veered", first: FIRST, paidOut: THEN }]);
    expect(doubtLine(veered[0]!, "metric")).toContain("37 m out when the load was read, not the 25 m it began with");
    // A scope told for the length it began with contradicts nothing.
    const scoped = carriedBy({ result, scope: FIRST / 7.35 });
    expect(scoped.doubts.some(({ kind }) => kind === "lengthAndScopeDiffer")).toBe(false);
    expect(scoped.gave.angleToBottom).toEqual(gave.angleToBottom);
  });

  it("takes the length from its steps where the result tells none: of the last it gave way in, of the greatest it held", () => {
    const gaveWay = carriedBy({ steps, result: { kind: "gaveWay", load_N: 3000, u_N: 20 } });
    expect(gaveWay.gave.angleToBottom.value).toBeCloseTo(settledAt(THEN, 3000).angleToBottom, 9);
    const eased = [...steps.slice(0, 2), { load_N: 1500, paidOut_m: THEN }];
    const { heldTo } = pullEvidence(
      caseOf({ ...record, endedBy: null, steps: eased, result: { kind: "heldTo", load_N: 2000, u_N: 20 } }),
    );
    if (heldTo?.kind !== "carried") throw new Error("a carried load is expected");
    expect(heldTo.angleToBottom.value).toBeCloseTo(settledAt(FIRST, 2000).angleToBottom, 9);
  });

  it("carries what it held and what it gave way by each with its own length, to the table that compares", () => {
    const about = { steps: steps.slice(0, 3), result: { kind: "gaveWay" } } as const;
    const { held, gave } = carriedBy(about);
    expect(held?.angleToBottom.value).toBeCloseTo(settledAt(FIRST, 2000).angleToBottom, 9);
    expect(gave.angleToBottom.value).toBeCloseTo(settledAt(THEN, 2500).angleToBottom, 9);
    const { pulls } = comparablePulls([caseOf({ ...record, ...about })]);
    expect(pulls[0]!.hold).toMatchObject({ kind: "between" });
    expect(pulls[0]!.angleHeld).toBeCloseTo(settledAt(FIRST, 2000).angleToBottom, 9);
    expect(pulls[0]!.anchorAngle).toBeCloseTo(settledAt(THEN, 2500).angleToBottom, 9);
    // The angle's rise with the load is that of the rode with what was out when it gave way.
    const rise = settledAt(THEN, 2500 * 1.001).angleToBottom - settledAt(THEN, 2500 / 1.001).angleToBottom;
    const tension = Math.log(settledAt(THEN, 2500 * 1.001).tension / settledAt(THEN, 2500 / 1.001).tension);
    expect(pulls[0]!.angleRise! / (rise / tension)).toBeCloseTo(1, 2);
  });

  it("is carried as before where nothing tells of a veer", () => {
    const { gave, doubts } = carriedBy({ result: { kind: "gaveWay", load_N: 2500, u_N: 20 } });
    expect(gave.angleToBottom.value).toBeCloseTo(settledAt(FIRST, 2500).angleToBottom, 9);
    expect(doubts.some(({ kind }) => kind === "veered")).toBe(false);
  });
});

describe("the log of a pull that was veered", () => {
  // Slack, 1500 N held, eased to veer, 2500 N held, slack.
  const time = Float64Array.from({ length: 2000 }, (_, i) => i / 10);
  const load = Float64Array.from(time, (t) => (t < 20 || t > 180 ? 0 : t < 90 ? 1500 : t < 100 ? 300 : 2500));
  const mark = (from_s: number, paidOut_m: number) => ({
    id: `m${from_s}`,
    hidden: false,
    log: "log",
    kind: "step",
    from_s,
    to_s: null,
    origin: "by hand" as const,
    corrects: null,
    detail: { paidOut_m },
    remarks: "veer",
  });
  const { log: _, ...about } = caseOf(record);
  const question = { time, load, readAt: "bow", corrections: [], slack: [], about } as const;
  const veersAt = (at: number) => veersOf(effectiveMarks([mark(at, THEN)]));

  it("is carried with what was out while the load was held", () => {
    const carriedWith = (veers: ReturnType<typeof veersAt>) => {
      const reduced = reducePullLog({ ...question, veers });
      if (reduced.kind !== "reduced" || reduced.held.kind === "notKnown") throw new Error("a held load is expected");
      const carried = reduced.evidence?.heldTo;
      if (carried?.kind !== "carried") throw new Error("a carried load is expected");
      return { angle: carried.angleToBottom.value, newtons: reduced.held.newtons };
    };
    const [after, before, none] = [carriedWith(veersAt(95)), carriedWith(veersAt(190)), carriedWith([])];
    expect(after.angle).toBeCloseTo(settledAt(THEN, after.newtons).angleToBottom, 9);
    expect(before.angle).toBeCloseTo(settledAt(FIRST, before.newtons).angleToBottom, 9);
    expect(none).toEqual(before);
  });

  it("leaves the boat's track out where it went back by the rode let out, and says so", () => {
    // The bow goes back by twelve metres in the ten seconds of the veer, and the anchor not at all.
    const north = Float64Array.from(time, (t) => 54 - Math.min(12, Math.max(0, (t - 90) * 1.2)) / 111_300);
    const places = {
      time,
      columns: [
        { kind: "latitude" as const, values: north },
        { kind: "longitude" as const, values: new Float64Array(time.length).fill(10) },
      ],
    };
    const reduced = reducePullLog({ ...question, places, veers: veersAt(95) });
    if (reduced.kind !== "reduced") throw new Error(reduced.line);
    expect(reduced.held).toMatchObject({ kind: "heldTo", untold: expect.any(String) });
    expect(reduced.evidence?.doubts).toContainEqual({ kind: "trackOverVeer" });
    const unveered = reducePullLog({ ...question, places });
    if (unveered.kind !== "reduced") throw new Error(unveered.line);
    expect(unveered.evidence?.doubts.some(({ kind }) => kind === "trackOverVeer")).toBe(false);
  });
});
