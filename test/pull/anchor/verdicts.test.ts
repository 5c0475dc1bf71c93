/** What the reduction says of pulls of another maker: bounds beside the table of docs/reduction-of-a-pull.md, on other seeds. */
import { describe, expect, it } from "vitest";
import { regimes } from "./regimes.ts";
import { type Count, scoreOf } from "./score.ts";

const some = (name: string, count = 6) => {
  const regime = regimes.find((one) => one.name === name)!;
  return scoreOf(
    regime,
    Array.from({ length: count }, (_, i) => 900_001 + i),
  );
};
const share = (count: Count): number => count.so / count.there;

describe("with a track beside the load", () => {
  it("an anchor that ploughed is not called held because the throttle went off at once", () => {
    const s = some("ploughs, throttle off at once", 8);
    expect(s.heldMoving.so).toBe(0);
    expect(s.wrong.so).toBe(0);
    expect(share(s.drags)).toBeGreaterThan(0.7);
  });
  it("a throttle cut to a lower load is no drag in four of five, and what was held before it stands", () => {
    const s = some("holds, cut to a lower load", 10);
    expect(s.falseDrags.so).toBeLessThanOrEqual(2);
    expect(s.wrong.so).toBeLessThanOrEqual(1);
    expect(share(s.cannotTell)).toBeLessThan(0.5);
  });
  it("a throttle that falls while the boat veers is no drag", () => {
    // Seeds on which such falls were drags when they were told by the load alone.
    const regime = regimes.find((one) => one.name === "veers by 30 to 70 degrees and holds")!;
    expect(scoreOf(regime, [722_003, 722_008, 722_010, 722_013]).falseDrags.so).toBe(0);
  });
  it("a veer is no drag of thirty metres, though its beginning and end are small moves of their own", () => {
    // Seeds on which those told the direction of the pull.
    const regime = regimes.find((one) => one.name === "veers by 30 to 70 degrees and holds")!;
    const s = scoreOf(regime, [12_102, 12_112]);
    expect(s.falseDrags.so).toBe(0);
    expect(s.direction.so).toBe(s.direction.there);
  });
  it("the direction of the pull is where its ± says", () => {
    const s = some("holds, quiet water", 10);
    // Nineteen in twenty of ten or more: one may miss.
    expect(s.direction.there - s.direction.so).toBeLessThanOrEqual(1);
    expect(s.direction.there).toBeGreaterThanOrEqual(8);
  });
  it("a pull ahead is one when it is said to be", () => {
    const s = some("holds, pulled ahead, heading logged");
    expect(s.direction.so).toBe(s.direction.there);
    expect(s.wrong.so).toBe(0);
  });
});

describe("without a track", () => {
  it.each(["no track, holds", "no track, cut to a lower load", "no track, ploughs slowly"])(
    "%s: that it cannot be told is said of every verdict",
    (name) => {
      const s = some(name);
      expect(share(s.cannotTell)).toBe(1);
    },
  );
});
