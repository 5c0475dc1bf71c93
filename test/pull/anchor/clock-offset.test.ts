/** The clock of the track by load and track themselves: pulls of another maker, their fixes stamped late or early. */
import { describe, expect, it } from "vitest";
import { reduceTrace, trackLater } from "../../../src/pull/index.ts";
import { makePull } from "./make-pull.ts";
import { regimes } from "./regimes.ts";

/** What is told of pulls whose tracks are so many seconds late. */
function told(name: string, lates: readonly number[]) {
  const regime = regimes.find((one) => one.name === name)!;
  return lates.map((late, i) => {
    const { trace, give } = makePull(regime, 907_001 + i);
    const question = { readAt: "bow", ...(give ? { give } : {}), clock: "told" } as const;
    return { late, clock: reduceTrace(trackLater(trace, late), question).clock! };
  });
}

describe("the clock of the track", () => {
  it.each(["ploughs in swell, heading logged", "turned round, set again", "holds, gusts"])(
    "%s: where it is told, it is what the fixes were stamped late by, within 3 u; else it is not told",
    (name) => {
      for (const { late, clock } of told(name, [5, -3, 0, 7, -6])) {
        if (clock.kind === "notTold") continue;
        expect(Math.abs(clock.offset.value + late), `${late}`).toBeLessThan(3 * clock.offset.u);
        expect(clock.offset.u).toBeLessThan(3);
      }
    },
  );

  it("is told of most pulls in swell, which moves boat and load together", () => {
    const known = told("ploughs in swell, heading logged", [5, -3, 0, 7, -6]).filter(
      ({ clock }) => clock.kind === "told",
    );
    expect(known.length).toBeGreaterThanOrEqual(3);
  });

  it("is not told without a track", () => {
    const { trace } = makePull(regimes.find((one) => one.track === false)!, 907_001);
    expect(reduceTrace(trace, { readAt: "bow", clock: "told" }).clock).toEqual({ kind: "notTold", applied: false });
    expect(reduceTrace(trace, { readAt: "bow" }).clock).toBeNull();
  });

  it("is added where that is asked, to places and headings: then all is as if it had been stated", () => {
    const regime = regimes.find(({ name }) => name === "holds, heading logged")!;
    const { trace, give } = makePull(regime, 907_001);
    const late = trackLater(trace, 7);
    const question = { readAt: "bow", ...(give ? { give } : {}) } as const;
    const { clock, ...applied } = reduceTrace(late, { ...question, clock: "applied" });
    if (clock?.kind !== "told") throw new Error("told is expected of this pull");
    const { clock: none, ...stated } = reduceTrace(trackLater(late, clock.offset.value), question);
    expect(none).toBeNull();
    expect(JSON.stringify(applied)).toBe(JSON.stringify(stated));
    expect(late.heading!.time[0]! - trace.heading!.time[0]!).toBe(7);
  });
});
