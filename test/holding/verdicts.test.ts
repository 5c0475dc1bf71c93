/** What is to be said first, and what is found of pulls before any fit: from answers and pulls set by hand. */
import { describe, expect, it } from "vitest";
import {
  type Compared,
  compare,
  type HoldingVerdict,
  holdingVerdicts,
  type Inquired,
  type Pair,
  type Pull,
} from "../../src/holding/index.ts";
import { chooseTerms } from "../../src/holding/terms.ts";
import { rng } from "../../src/statistics/index.ts";

const pair = (first: string, second: string, moreInTheMean: number): Pair => ({
  first,
  second,
  moreInTheMean,
  moreInOnePull: 0.5 + (moreInTheMean - 0.5) / 2,
  ratio: { middle: 1.25, low: 0.8, high: 2 },
});
const compared = { findings: [{ kind: "nothingGaveWay" }] } as unknown as Compared;
function concluded(over: object, conclusion: object = {}): Inquired {
  return {
    kind: "concluded",
    law: "lognormal",
    pulls: new Array(12),
    more: [],
    sensitivity: [],
    conclusion: { pairs: [], influential: [], elpd: { badK: 0 }, ...conclusion },
    ...over,
  } as unknown as Inquired;
}
const kinds = (verdicts: readonly HoldingVerdict[]): string[] => verdicts.map(({ kind }) => kind);

describe("what is said first of a comparison", () => {
  it("is which pairs cannot be told apart, the one ahead first, with how many more pulls would; then which can", () => {
    const more = [{ first: "A", second: "B", answer: { kind: "enough", each: 12, share: 0.82 } }];
    const pairs = [pair("A", "B", 0.3), pair("A", "C", 0.951), pair("B", "C", 0.04)];
    const said = holdingVerdicts(compared, concluded({ more }, { pairs }));
    expect(kinds(said)).toEqual(["cannotTell", "toldApart", "toldApart", "finding"]);
    const [open, ac, bc] = said;
    // Turned round: chances from 1, the ratio upside down, its limits changed over.
    expect(open).toMatchObject({
      pair: {
        first: "B",
        second: "A",
        moreInTheMean: 0.7,
        moreInOnePull: 0.6,
        ratio: { middle: 0.8, low: 0.5, high: 1.25 },
      },
      more: { each: 12 },
    });
    expect(ac).toMatchObject({ pair: { first: "A", second: "C", moreInTheMean: 0.951 } });
    expect(bc).toMatchObject({ pair: { first: "C", second: "B", moreInTheMean: 0.96 } });
    expect(open).not.toHaveProperty("then");
  });

  it.each([
    [0.95, "toldApart"],
    [0.949, "cannotTell"],
    [0.05, "toldApart"],
    [0.051, "cannotTell"],
    [0.5, "cannotTell"],
  ])("a chance of %s is %s", (chance, kind) => {
    expect(kinds(holdingVerdicts(compared, concluded({}, { pairs: [pair("A", "B", chance)] })))).toEqual([
      kind,
      "finding",
    ]);
  });

  it("then testers, pulls it hangs on, priors that matter, pulls that surprise, laws alike", () => {
    const pairs = [pair("A", "B", 0.7)];
    const influence = { pull: 3, k: 0.2, first: "A", second: "B", with: 0.7, without: 0.5 };
    const said = holdingVerdicts(
      compared,
      concluded(
        {
          sensitivity: [
            { times: 0.5, pairs: [pair("A", "B", 0.61)] },
            { times: 2, pairs: [pair("A", "B", 0.81)] },
          ],
          ahead: { of: "weibull", difference: 1.9, se: 1 },
        },
        { pairs, influential: [influence], elpd: { badK: 2 }, testers: { spread: {}, each: [] } },
      ),
    );
    expect(kinds(said)).toEqual([
      "cannotTell",
      "finding",
      "testers",
      "hangsOnPull",
      "priorsMatter",
      "surprisingPulls",
      "lawsAlike",
    ]);
    // 0.7 to 0.61 is less than a tenth; to 0.81 more.
    expect(said[4]).toHaveProperty("times", 2);
    expect(said[4]).toHaveProperty("then", 0.81);
    expect(said[5]).toEqual({ kind: "surprisingPulls", pulls: 2, of: 12 });
    expect(said[6]).toEqual({ kind: "lawsAlike", law: "lognormal", other: "weibull" });
    const clear = concluded({ ahead: { of: "weibull", difference: 2.1, se: 1 } });
    expect(kinds(holdingVerdicts(compared, clear))).toEqual(["finding"]);
  });

  it("or why nothing is concluded", () => {
    const posterior = { rHatWorst: 1.2, effectiveLeast: 30, divergent: 9 };
    expect(holdingVerdicts(compared, { kind: "unsound", posterior, law: "weibull" } as unknown as Inquired)[0]).toEqual(
      {
        kind: "unsound",
        rHat: 1.2,
        effective: 30,
        divergent: 9,
      },
    );
    for (const kind of ["stopped", "noPulls"] as const)
      expect(holdingVerdicts(compared, { kind })[0]).toEqual({ kind: "notSampled", why: kind });
    expect(holdingVerdicts(compared)).toEqual([
      { kind: "notSampled", why: "notAsked" },
      { kind: "finding", finding: { kind: "nothingGaveWay" } },
    ]);
  });
});

const gave = (anchor: string, newtons: number, over: Partial<Pull> = {}): Pull => ({
  anchor,
  hold: { kind: "gaveWay", newtons },
  ...over,
});
const held = (anchor: string, newtons: number, over: Partial<Pull> = {}): Pull => ({
  anchor,
  hold: { kind: "heldTo", newtons },
  ...over,
});
const findingsOf = (pulls: readonly Pull[], asked: Partial<Parameters<typeof compare>[1]> = {}) =>
  compare(pulls, { laws: [], permutations: 0, ...asked }, rng(1)).findings;

describe("what is found of pulls before any fit", () => {
  it("an anchor that never gave way, with the most it held; one that never held, with the least", () => {
    const pulls = [
      held("A", 900),
      held("A", 1500),
      { anchor: "B", hold: { kind: "neverHeld", newtons: 700 } } as const,
      { anchor: "B", hold: { kind: "neverHeld", newtons: 400 } } as const,
      gave("C", 800),
      gave("C", 1100),
    ];
    expect(findingsOf(pulls)).toEqual([
      { kind: "neverGaveWay", anchor: "A", pulls: 2, highest: 1500 },
      { kind: "neverHeld", anchor: "B", pulls: 2, lowest: 400 },
    ]);
  });

  it("that nothing gave way; one load in all; one pull", () => {
    expect(findingsOf([held("A", 900), held("B", 900)]).map(({ kind }) => kind)).toEqual([
      "nothingGaveWay",
      "neverGaveWay",
      "onePull",
      "neverGaveWay",
      "onePull",
    ]);
    expect(findingsOf([gave("A", 900), gave("A", 900)])).toEqual([{ kind: "allTheSame", load: 900 }]);
    expect(findingsOf([gave("A", 900), gave("A", 901)])).toEqual([]);
    expect(findingsOf([gave("A", 900)])).toEqual([{ kind: "onePull", anchor: "A" }]);
  });

  it("anchors each at a site of its own; not where one site is shared or a pull names none", () => {
    const at = (site: string) => ({ site });
    const apart = [gave("A", 1, at("x")), gave("A", 2, at("x")), gave("B", 3, at("y")), gave("B", 4, at("y"))];
    expect(findingsOf(apart)).toContainEqual({ kind: "ownSite", anchors: ["A", "B"] });
    expect(findingsOf([...apart, gave("B", 5, at("x"))])).toEqual([]);
    expect(findingsOf([...apart, gave("B", 5)]).map(({ kind }) => kind)).not.toContain("ownSite");
    // C lies where A lies; B alone has a site to itself.
    expect(findingsOf([...apart, gave("C", 5, at("x")), gave("C", 6, at("x"))])).toContainEqual({
      kind: "ownSite",
      anchors: ["B"],
    });
  });

  it("angles that the loads made: no term of a regression but where it is asked for", () => {
    const pulls = [1, 2, 3, 4].map((k) =>
      gave(k % 2 === 0 ? "A" : "B", 1000 * k, { anchorAngle: 0.01 * k, angleRise: 0.1 }),
    );
    const left = compare(pulls, { laws: [], permutations: 0 }, rng(1));
    expect(left.terms).toEqual(["anchor"]);
    expect(left.modelTerms).toEqual(["anchor", "angle"]);
    expect(left.findings).toContainEqual({ kind: "angleFollowsLoad", used: false });
    const asked = compare(pulls, { laws: [], permutations: 0, terms: ["anchor", "angle"] }, rng(1));
    expect(asked.terms).toEqual(["anchor", "angle"]);
    expect(asked.findings).toContainEqual({ kind: "angleFollowsLoad", used: true });
  });

  it("geometric means, the highest load, and how its pulls ended, with exact limits", () => {
    const pulls = [
      gave("A", 900, { mass: 10, flukeArea: 0.04, ending: "drag" }),
      {
        anchor: "A",
        mass: 40,
        flukeArea: 0.09,
        hold: { kind: "between", heldTo: 1000, gaveWayBy: 1400 },
        ending: "roll-out",
      } as const,
      held("A", 1200, { mass: 20, ending: "engine limit" }),
      gave("A", 1100, { mass: 20, ending: "drag" }),
    ];
    const [about] = compare(pulls, { laws: [], permutations: 0 }, rng(1)).anchors;
    expect(about).toMatchObject({
      pulls: 4,
      gaveWay: 2,
      heldOn: 1,
      between: 1,
      neverHeld: 0,
      by: "turnbull",
      mass: expect.closeTo(20, 9),
      flukeArea: expect.closeTo(0.06, 12),
      highest: 1400,
    });
    // Clopper & Pearson, 2 of 4 and 1 of 4 (R binom.test, recalled): 0.0676 to 0.9324; 0.0063 to 0.8059.
    expect(about!.endings).toEqual([
      expect.objectContaining({
        ending: "drag",
        count: 2,
        of: 4,
        share: 0.5,
        low: expect.closeTo(0.0676, 4),
        high: expect.closeTo(0.9324, 4),
      }),
      expect.objectContaining({
        ending: "roll-out",
        count: 1,
        of: 4,
        share: 0.25,
        low: expect.closeTo(0.0063, 4),
        high: expect.closeTo(0.8059, 4),
      }),
    ]);
    const exact = compare([gave("A", 900), held("A", 1200)], { laws: [], permutations: 0 }, rng(1)).anchors[0]!;
    expect(exact.by).toBe("kaplanMeier");
    expect(exact.curve).toEqual([expect.objectContaining({ load: 900, atRisk: 2, gaveWay: 1, chance: 0.5 })]);
  });
});

describe("groups that share an unknown", () => {
  const randomOf = (rows: readonly (readonly [site?: string, day?: string, tester?: string])[]) =>
    compare(
      rows.map(([site, day, tester], i) =>
        gave("A", 1000 + i, { ...(site && { site }), ...(day && { day }), ...(tester && { tester }) }),
      ),
      { laws: [], permutations: 0 },
      rng(1),
    ).random;

  it("are sites, days and testers that every pull names and that group pulls", () => {
    expect(
      randomOf([
        ["x", "1", "p"],
        ["x", "2", "q"],
        ["y", "1", "q"],
        ["y", "2", "p"],
      ]),
    ).toEqual(["site", "day", "tester"]);
    expect(randomOf([["x", "1"], ["x", "2"], ["y", "1"], ["y"]])).toEqual(["site"]);
    expect(randomOf([["x"], ["x"], ["x"]])).toEqual([]);
    // As many sites as pulls group nothing.
    expect(randomOf([["x"], ["y"], ["z"]])).toEqual([]);
  });

  it("not days or testers that are the sites over again, though finer ones stay", () => {
    expect(
      randomOf([
        ["x", "1", "p"],
        ["x", "1", "p"],
        ["y", "2", "q"],
        ["y", "2", "q"],
      ]),
    ).toEqual(["site"]);
    expect(
      randomOf([
        ["x", "1"],
        ["x", "2"],
        ["x", "2"],
        ["y", "3"],
        ["y", "3"],
      ]),
    ).toEqual(["site", "day"]);
    // Several sites a day: the day is not the site.
    expect(
      randomOf([
        ["x", "1"],
        ["x", "1"],
        ["y", "1"],
        ["z", "2"],
        ["z", "2"],
      ]),
    ).toEqual(["site", "day"]);
  });
});

describe("the terms of a comparison", () => {
  const full = { mass: 10, anchorAngle: 0.1, seabed: "mud" };
  it("are the anchor and all that every pull states and that varies", () => {
    const pulls = [
      gave("A", 1, full),
      gave("B", 2, { ...full, mass: 12 }),
      gave("B", 3, { ...full, anchorAngle: 0.2 }),
    ];
    const chosen = chooseTerms(pulls);
    expect(chosen.terms).toEqual(["anchor", "angle", "mass"]);
    expect(chosen.dropped).toEqual([{ kind: "sameInAll", term: "seabed" }]);
    expect(chosen.takesPart).toEqual([true, true, true]);
  });
  it("leave out what some do not state, and say how many; nothing of what none states", () => {
    const pulls = [gave("A", 1, { mass: 10 }), gave("B", 2), gave("B", 3)];
    expect(chooseTerms(pulls)).toEqual({
      terms: ["anchor"],
      dropped: [{ kind: "notStated", term: "mass", lacking: 2, of: 3 }],
      takesPart: [true, true, true],
    });
  });
  it("asked for, leave out the pulls that do not state them", () => {
    const pulls = [gave("A", 1, { mass: 10 }), gave("B", 2, { mass: 12 }), gave("B", 3)];
    const chosen = chooseTerms(pulls, ["anchor", "mass"]);
    expect(chosen.terms).toEqual(["anchor", "mass"]);
    expect(chosen.takesPart).toEqual([true, true, false]);
    expect(findingsOf(pulls, { terms: ["anchor", "mass"] })).toContainEqual({
      kind: "notInFits",
      pulls: 1,
      terms: ["anchor", "mass"],
    });
    expect(chooseTerms(pulls, ["seabed"]).dropped).toEqual([{ kind: "notStated", term: "seabed", lacking: 3, of: 3 }]);
  });
});
