import { describe, expect, it } from "vitest";
import type { NoCause } from "../../src/rode/index.ts";
import {
  assumptionLine,
  complianceOf,
  complianceShown,
  complianceText,
  countText,
  derivationWords,
  doubtLine,
  durationText,
  heldText,
  noEquilibriumLine,
  notWeighedLine,
  remarkLine,
  snubberReasonWords,
  traceWords,
  zeroText,
} from "../../src/words/index.ts";

const causes: readonly NoCause[] = [
  "shorterThanRise",
  "lighterThanHanging",
  "beyondReach",
  "aground",
  "lighterThanResting",
  "tooNear",
  "unknownState",
  "angleOutOfReach",
  "angleToBottomOutOfReach",
  "noSuchValue",
];

describe("why there is no equilibrium", () => {
  it("is told in one line of either unit system, with what would help", () => {
    // 1 lbf is 4.4482216152605 N by definition.
    const none = { cause: "lighterThanHanging", given: 100, limit: 500 } as const;
    expect(noEquilibriumLine(none, "us")).toBe(
      "a pull of 22.48 lbf at the bow is less than the 112.4 lbf of rode that hangs from it; a pull of more than 112.4 lbf would hold it",
    );
    for (const cause of causes)
      for (const system of ["metric", "us"] as const) {
        const line = noEquilibriumLine({ cause, given: 0.5, limit: 1.5 }, system);
        expect(line).toMatch(/^[^\n]+; [^\n]+$/);
        // No unit of the other system, and no sign or number of the inside.
        expect(line, line).not.toMatch(system === "us" ? /\d (m|N)\b/ : /\d (ft|lbf)\b/);
        expect(line).not.toMatch(/NaN|undefined|Infinity/);
      }
  });

  it("stands in the same words where rodes are compared", () => {
    const none = { kind: "noEquilibrium", cause: "shorterThanRise", given: 5, limit: 9 } as const;
    expect(notWeighedLine(none, "metric")).toBe(noEquilibriumLine(none, "metric"));
    expect(notWeighedLine({ kind: "notSnubbed", why: "legsTooShort" }, "metric")).toContain("the legs do not meet");
  });
});

describe("doubts about a pull", () => {
  it("tell a length and a scope that do not go together in the units asked for", () => {
    const doubt = { kind: "lengthAndScopeDiffer", paidOut: 28.75, scope: 7, ofLength: 5 } as const;
    expect(doubtLine(doubt, "metric")).toBe(
      "28.8 m were recorded as paid out, which is a scope of 5 : 1, and a scope of 7 : 1: the length is used",
    );
    // 28.75 m are 94.3 ft by definition.
    expect(doubtLine(doubt, "us")).toContain("94.3 ft");
  });
});

describe("what nobody stated of a boat", () => {
  it("is told by its cause and its number", () => {
    expect(assumptionLine({ kind: "uncertainty", of: "drag", share: 0.2 })).toBe("drag coefficients to 20 %");
    expect(assumptionLine({ kind: "points", at: "horizontal", of: "exponent", u: 0.1 })).toBe(
      "points at the bow, horizontal: exponent to 0.1",
    );
    const fitted = { value: 1.234, u: 0.31, because: "tellsLess" } as const;
    expect(assumptionLine({ kind: "squareLawKept", at: "bow", fitted })).toBe(
      "points at the bow: square law kept, a fitted exponent of 1.23 ± 0.31 tells less than the square law",
    );
    expect(derivationWords({ kind: "shareOfLength", share: 0.9 })).toBe("0.9 of the length over all");
    expect(derivationWords({ kind: "addedWater", motion: "surge", share: 0.0591 })).toMatch(
      /^displacement and 5\.9 % added/,
    );
  });
});

describe("numbers in words", () => {
  it("keep compliance in metres per kilonewton and feet per 100 pounds-force", () => {
    expect(complianceText(1.23e-4, "metric")).toBe("0.12 m per kN");
    // 1 m/kN = 3.280840 ft per 224.809 lbf: 1.459390 ft per 100 lbf (exact definitions of foot and pound-force).
    expect(complianceShown(1e-3, "us")).toBeCloseTo(1.45939, 5);
    expect(complianceOf(complianceShown(2.5e-4, "us"), "us")).toBeCloseTo(2.5e-4, 15);
  });

  it("tell times as people do, and counts with their noun", () => {
    expect([0.44, 9.96, 59.4, 60, 200, 3599.6, 7500].map(durationText)).toEqual([
      "0.4 s",
      "10 s",
      "59 s",
      "1 min",
      "3 min 20 s",
      "1 h",
      "2 h 5 min",
    ]);
    expect(countText(1, "mark", "marks")).toBe("1 mark");
    expect(countText(12_345, "mark", "marks")).toBe("12,345 marks");
  });
});

describe("what a log came to", () => {
  const force = (value: number, u?: number) => `${value} N${u === undefined ? "" : ` ± ${u} N`}`;
  const words = traceWords("metric");
  it("is one sentence of the held load and one of the zero", () => {
    expect(
      heldText(
        {
          kind: "heldTo",
          newtons: 4000,
          u: 20,
          at: "bow",
          mark: "1",
          why: { kind: "held", seconds: 30.2, most: null, rule: null, gaveWayAtLess: false, open: null },
          untold: null,
        },
        force,
        words,
      ),
    ).toBe("It held at least 4000 N ± 20 N, read at the bow: held for 30 s");
    expect(heldText({ kind: "notKnown", why: { kind: "nothingHeld", heldFor: 8 }, untold: null }, force, words)).toBe(
      "Held load: not known; no load was held for 8 s, and nothing shows that the anchor gave way",
    );
    const alone = {
      kind: "heldTo",
      newtons: 4000,
      u: 20,
      at: "bow",
      mark: "1",
      why: { kind: "held", seconds: 30.2, most: null, rule: null, gaveWayAtLess: false, open: null },
    } as const;
    expect(heldText({ ...alone, untold: "slowPlough" }, force, words)).toMatch(
      /held for 30 s\. Cannot be told .*ploughed/,
    );
    expect(heldText({ ...alone, kind: "gaveWay", untold: "fall" }, force, words)).toMatch(
      /Cannot be told .*throttle was cut/,
    );
    expect(zeroText({ kind: "notFound", why: { kind: "unchanging" } }, force, words)).toBe(
      "not found (the load does not change); loads stand as read",
    );
  });
});

describe("remarks and reasons", () => {
  it("name the part from 1 and the diameter in the unit of rope", () => {
    const remark = { about: "diameterAssumed", part: 2, name: "own rope", diameter: 0.0142 } as const;
    expect(remarkLine(remark, "metric")).toMatch(/^part 2, own rope, .* dragged as 14\.2 mm,/);
    expect(remarkLine(remark, "us")).toMatch(/dragged as 0\.559 in,/);
  });

  it("are each their own", () => {
    const long = Object.values(snubberReasonWords).map((one) => one.long);
    expect(new Set(long).size).toBe(long.length);
  });
});
