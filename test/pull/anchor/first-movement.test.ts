/** When the anchor first moved: against the truth of pulls of another maker. */
import { describe, expect, it } from "vitest";
import { reduceTrace } from "../../../src/pull/index.ts";
import { makePull } from "./make-pull.ts";
import { regimes } from "./regimes.ts";
import { reduceMade } from "./score.ts";

const regimeOf = (name: string) => regimes.find((one) => one.name === name)!;
const pulls = (name: string, count: number) =>
  Array.from({ length: count }, (_, i) => {
    const pull = makePull(regimeOf(name), 905_001 + i);
    return { pull, first: reduceMade(pull).first };
  });
/** s when the anchor had gone so far altogether, m. */
const whenGone = (anchor: Float64Array, metres: number): number => anchor.findIndex((way) => way >= metres) / 10;

describe("the first movement of the anchor", () => {
  it("is told for anchors that break out, where it was by its maker", () => {
    const told = pulls("breaks out, engine stays on", 6).filter(({ first }) => first.kind === "moved");
    expect(told.length).toBeGreaterThanOrEqual(5);
    for (const { pull, first } of told) {
      if (first.kind !== "moved") throw new Error("told");
      // Digging in goes before: no earlier than when it began to go at all, and no later than when it had gone half its way.
      const { anchor } = pull.truth;
      expect(first.at.value + 3 * first.at.u).toBeGreaterThan(whenGone(anchor, 0.1));
      expect(first.at.value - 3 * first.at.u).toBeLessThan(whenGone(anchor, anchor.at(-1)! / 2));
      expect(first.by).toBe("track");
      expect(first.unseen).toBeGreaterThan(0.9);
    }
  });

  it("is none where nothing was seen, with what may have been missed, and never more than that went", () => {
    const held = pulls("holds, quiet water", 8);
    const none = held.flatMap(({ pull, first }) => (first.kind === "none" ? [{ pull, first }] : []));
    expect(none.length).toBeGreaterThanOrEqual(7);
    for (const { pull, first } of none) {
      const { anchor } = pull.truth;
      const most = Math.max(...Array.from(anchor, (way, i) => way - anchor[Math.max(0, i - 300)]!));
      expect(most).toBeLessThan(first.unseen);
    }
  });

  it("cannot be told by the load alone, which says when it first fell", () => {
    for (const { first } of pulls("no track, breaks out", 4))
      expect(first).toMatchObject({ kind: "notKnown", why: "noTrack" });
    const broke = pulls("no track, breaks out", 8).map(({ first }) => first.kind === "notKnown" && first.fell);
    expect(broke.some((fell) => typeof fell === "number")).toBe(true);
  });

  it("is what a person marked, where nobody saw an earlier one", () => {
    const pull = makePull(regimeOf("no track, holds"), 905_001);
    const added = { id: "own", kind: "drag", from: 40, to: 44, value: 2000, u: 50, of: "force" } as const;
    const { first } = reduceTrace(pull.trace, {
      readAt: "bow",
      corrections: [{ change: "add", mark: { ...added, why: { kind: "byHand" } } }],
    });
    expect(first).toMatchObject({ kind: "moved", by: "hand", at: { value: 40 }, unseen: null });
  });
});
