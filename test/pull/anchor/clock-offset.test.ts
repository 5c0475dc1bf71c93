/** The clock of the track by load and track themselves: pulls of another maker, their fixes stamped late or early. */
import { describe, expect, it } from "vitest";
import { trackClockOf } from "../../../src/pull/index.ts";
import { makePull } from "./make-pull.ts";
import { regimes } from "./regimes.ts";

/** What is told of pulls whose tracks are so many seconds late. */
function told(name: string, lates: readonly number[]) {
  const regime = regimes.find((one) => one.name === name)!;
  return lates.map((late, i) => {
    const { trace, give } = makePull(regime, 907_001 + i);
    const track = { ...trace.track!, time: trace.track!.time.map((t) => t + late) };
    return { late, clock: trackClockOf({ ...trace, track }, { readAt: "bow", ...(give ? { give } : {}) }) };
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
    expect(trackClockOf(trace, { readAt: "bow" })).toEqual({ kind: "notTold" });
  });
});
