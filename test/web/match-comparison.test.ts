/** What Match says of two anchors: by how much one is pulled steeper, which one, and when it may call them the same. */
import { describe, expect, it } from "vitest";
import { type LinePart, type Rig, type SettledUncertainty, settleTraced } from "../../src/rode/index.ts";
import { comparison } from "../../src/web/match/comparison.ts";
import type { MatchState } from "../../src/web/match/state.ts";

const degree = Math.PI / 180;
const line: LinePart = {
  kind: "line",
  name: "line",
  length: 40,
  massPerLength: 1e-3,
  density: 7850,
  stretch: { kind: "rigid" },
};
/** A line next to weightless lies straight: its angle is asin(rise over length). */
const rig = (name: string, degrees: number): Rig => ({
  name,
  setting: { medium: "air", rise: 40 * Math.sin(degrees * degree), bottomSlope: 0, bottomFriction: 0 },
  rode: [line],
  uncertainty: {},
});
const sure = { one: null, other: null };
function said(one: Rig, other: Rig, u: { one: SettledUncertainty | null; other: SettledUncertainty | null } = sure) {
  const state: MatchState = { one, other, paid: { one: 1, other: 1 }, load: 4000, map: "load" };
  const pull = { at: "bow", newtons: 4000 } as const;
  return comparison(state, { one: settleTraced(one, pull), other: settleTraced(other, pull) }, u, "metric");
}

describe("two setups compared", () => {
  it.each([0.2, 0.5, 2, 5])("%d° apart are not the same, and the steeper one is named", (apart) => {
    const [flat, steep] = [rig("Flat", 8), rig("Steep", 8 + apart)];
    for (const [answer, words, sign] of [
      [said(flat, steep), "B pulls its anchor steeper than A.", 1],
      [said(steep, flat), "A pulls its anchor steeper than B.", -1],
    ] as const) {
      expect(answer).toMatchObject({ same: false, words });
      expect(Math.abs((sign * answer.apart!.value) / (apart * degree) - 1)).toBeLessThan(0.01);
    }
  });
  it("the ± of the difference is that of both, and a difference within it is told", () => {
    const known = (angleToBottom: number) => ({ firstOrder: { angleToBottom } }) as SettledUncertainty;
    const u = { one: known(0.3 * degree), other: known(0.4 * degree) };
    const near = said(rig("Flat", 8), rig("Steep", 8.5), u);
    expect(near.apart!.u / degree).toBeCloseTo(0.5, 9);
    expect(near.words).toBe("B pulls its anchor steeper than A, by less than twice their uncertainty.");
    expect(said(rig("Flat", 8), rig("Steep", 9.5), u).words).toBe("B pulls its anchor steeper than A.");
  });
  it("a hundredth of a degree apart are the same on any gauge", () => {
    expect(said(rig("Flat", 8), rig("Steep", 8.01))).toMatchObject({
      words: "Both anchors are pulled at the same angle.",
      same: true,
    });
  });
  it("neither lifted are both pulled along the bottom; one lifted is the steeper", () => {
    const chain = (name: string, length: number): Rig => ({
      ...rig(name, 8),
      rode: [{ ...line, massPerLength: 2.3, length }],
    });
    expect(said(chain("One", 200), chain("Other", 250))).toMatchObject({
      words: "Neither anchor is lifted: both are pulled along the bottom.",
      same: true,
    });
    expect(said(chain("Long", 200), chain("Short", 20)).words).toBe("B pulls its anchor steeper than A.");
    expect(said(chain("Short", 20), chain("Long", 200)).words).toBe("A pulls its anchor steeper than B.");
  });
  it("one that finds no rest says so under its letter and name, and nothing is between the two", () => {
    const none: Rig = { ...rig("None", 8), rode: [{ ...line, length: 1 }] };
    for (const [answer, begins] of [
      [said(none, rig("Flat", 8)), /^A, None: /],
      [said(rig("Flat", 8), none), /^B, None: /],
    ] as const) {
      expect([answer.same, answer.apart]).toEqual([false, null]);
      expect(answer.words).toMatch(begins);
    }
  });
});
