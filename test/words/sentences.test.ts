/** Every cause has its sentence, with the right number in the right unit at the right place. Numbers are converted by hand. */
import { describe, expect, it } from "vitest";
import {
  besideWords,
  boundsText,
  countText,
  criterionWords,
  doubtLine,
  durationText,
  heldText,
  noEquilibriumLine,
  notWeighedLine,
  planLimitWords,
  sayChance,
  sayHoldingVerdict,
  sayLaw,
  sayMore,
  sayNotComparable,
  sayPriors,
  sayShares,
  shareOfDraws,
  spreadWords,
  traceWords,
  zeroText,
} from "../../src/words/index.ts";

type Doubt = Parameters<typeof doubtLine>[0];
type Verdict = Parameters<typeof sayHoldingVerdict>[0];

describe("doubts about a pull", () => {
  const none = { kind: "noEquilibrium", cause: "shorterThanRise", given: 5, limit: 9 } as const;
  const lines: [doubt: object, line: string][] = [
    [{ kind: "noRig" }, "the pull names no rig: what was read is not carried to the anchor"],
    [{ kind: "rigUnreadable", line: "rode: no list" }, "the rig of the pull cannot be read: rode: no list"],
    [
      { kind: "deploymentUnreadable", line: "scope: 0" },
      "the pull's own depth, scope or length makes no sense: scope: 0",
    ],
    [
      { kind: "depthUnknown", taken: 7.23, u: 0.51 },
      "no depth was recorded: 7.23 ± 0.51 m is taken, from the rig file",
    ],
    [{ kind: "depthUnknown", taken: 7.2345, u: 0 }, "no depth was recorded: 7.23 m is taken, from the rig file"],
    [
      { kind: "depthFromLevel", taken: 4.126, u: 0.1, soundings: 1 },
      "no depth was recorded: 4.13 ± 0.10 m is taken, from a sounding of other pulls here and the level of the day",
    ],
    [
      { kind: "depthFromLevel", taken: 4.126, u: 0.1, soundings: 3 },
      "no depth was recorded: 4.13 ± 0.10 m is taken, from 3 soundings of other pulls here and the level of the day",
    ],
    [
      { kind: "depthDiffers", recorded: 6.0419, filed: 8 },
      "the depth recorded, 6.04 m, is used, not the 8 m of the rig file",
    ],
    [{ kind: "depthOnLand", recorded: 5.5 }, "the rig hangs in air: the depth recorded, 5.5 m, is not used"],
    [
      { kind: "lengthUnknown", taken: 40, u: 1.2 },
      "neither scope nor length paid out was recorded: 40.0 ± 1.2 m is taken, the whole rode of the rig file",
    ],
    [
      { kind: "lengthDiffers", paidOut: 31.26, filed: 45, part: 2 },
      "by what was recorded 31.3 m lay out, not the 45 m of the rig file: part 2 of the rode is taken as shorter",
    ],
    [
      { kind: "longerThanRode", paidOut: 51, filed: 45, part: "bow" },
      "by what was recorded 51 m lay out, more than the 45 m of the rig file: the rode, taken in from the bow, is taken as longer",
    ],
    [
      { kind: "lengthAndScopeDiffer", paidOut: 30.04, scope: 7, ofLength: 4.13 },
      "30.0 m were recorded as paid out, which is a scope of 4.1 : 1, and a scope of 7 : 1: the length is used",
    ],
    [
      { kind: "lineUnknown", others: [1, 3] },
      "which line was paid out is not recorded: it may have been part 1 of the rode or part 3 of the rode instead, and the ± covers that",
    ],
    [{ kind: "endUnknown", taken: "bow" }, "at which end the load was read is not recorded: the bow is taken"],
    [{ kind: "noResult" }, "neither the record nor a log says what was held"],
    [{ kind: "uncertaintyUnstated", u: 27.36 }, "the load has no uncertainty stated: 27.4 N is assumed, 1 %"],
    [
      { kind: "endingContradicts", ending: "engine", result: "gaveWay" },
      "the pull ended by engine and its result says it gave way",
    ],
    [
      { kind: "endingContradicts", ending: "dragged", result: "heldTo" },
      "the pull ended by dragged and its result says it held",
    ],
    [
      { kind: "endingContradicts", ending: "dragged", result: "neverSet" },
      "the pull ended by dragged and its result says it never set",
    ],
    [
      {
        kind: "resultDiffersFromLog",
        result: { kind: "heldTo", newtons: 1234.5 },
        log: { kind: "gaveWay", newtons: 987 },
      },
      "the record says it held 1230 N, its log it gave way 987 N",
    ],
    [{ kind: "zeroNotFound" }, "the log has no slack to read its zero from: loads stand as read"],
    [
      { kind: "logCannotTell", what: "slowPlough" },
      "the load alone does not tell whether the anchor ploughed slowly meanwhile: the boat's track beside it would, or a mark by hand",
    ],
    [
      { kind: "logCannotTell", what: "fall" },
      "the load alone does not tell whether the anchor gave way or the throttle was cut: the boat's track beside it would, or a mark by hand",
    ],
    [
      { kind: "logCannotTell", what: "smallMovement" },
      "the track does not tell whether the anchor moved: fixes that wander less, a longer track, the rig or the heading would, or a mark by hand",
    ],
    [{ kind: "correctionsUnmatched", count: 1 }, "a correction finds no mark any more"],
    [{ kind: "correctionsUnmatched", count: 4 }, "4 corrections find no mark any more"],
    [
      { kind: "noEquilibrium", newtons: 2500, none },
      "the rig as it lay does not carry 2500 N: the rode, 5 m long, is not longer than the rise of 9 m; a rode of more than 9 m would reach",
    ],
    [
      { kind: "cannotMove", input: "load", sides: 1 },
      "a standard uncertainty of the load away the rig has no equilibrium on one side: the ± is less sure",
    ],
    [
      { kind: "cannotMove", input: "mass per length", sides: 2 },
      "a standard uncertainty of mass per length away the rig has no equilibrium: the ± is less sure",
    ],
    [
      { kind: "cannotMove", input: "rise", sides: 2 },
      "a standard uncertainty of the rise away the rig has no equilibrium: the ± is less sure",
    ],
    [
      { kind: "cannotMove", input: "length paid out", sides: 2 },
      "a standard uncertainty of the length paid out away the rig has no equilibrium: the ± is less sure",
    ],
    [
      { kind: "cannotMove", input: "line paid out", sides: 2 },
      "with the other line paid out the rig has no equilibrium: the ± is less sure",
    ],
    [
      { kind: "cannotMove", input: "end read", sides: 1 },
      "with the other end read the rig has no equilibrium on one side: the ± is less sure",
    ],
  ];
  it.each(lines)("%j", (doubt, line) => {
    expect(doubtLine(doubt as Doubt, "metric")).toBe(line);
  });
  it("are told in feet and pounds-force where asked", () => {
    expect(doubtLine({ kind: "depthDiffers", recorded: 3.048, filed: 6.096 } as Doubt, "us")).toBe(
      "the depth recorded, 10 ft, is used, not the 20 ft of the rig file",
    );
    expect(doubtLine({ kind: "uncertaintyUnstated", u: 44.482216152605 } as Doubt, "us")).toBe(
      "the load has no uncertainty stated: 10 lbf is assumed, 1 %",
    );
  });
});

describe("anchors compared", () => {
  const words = { units: "metric", pullName: (pull: number) => `pull ${pull + 1}` } as const;
  const pair = {
    first: "A",
    second: "B",
    moreInTheMean: 0.83,
    moreInOnePull: 0.714,
    ratio: { low: 1.234, high: 2.345 },
  };
  // biome-ignore lint/suspicious/noThenProperty: the verdict's own name for the chance with other priors
  const afterwards = (chance: number) => Object.fromEntries([["then", chance]]);
  const enough = { kind: "enough", each: 12, share: 0.87 } as const;
  const lines: [verdict: object, line: string][] = [
    [{ kind: "cannotTell", pair }, "A and B cannot be told apart: A holds more with a chance of 83 %"],
    [
      { kind: "cannotTell", pair, more: enough },
      "A and B cannot be told apart: A holds more with a chance of 83 %; about 12 more pulls of each would tell, in 8 of 10 such series",
    ],
    [
      { kind: "toldApart", pair: { ...pair, moreInTheMean: 0.997 } },
      "A holds more than B in the mean, with a chance of more than 99 %, 1.2× to 2.3× as much; in one pull of each it is ahead with 71 %",
    ],
    [
      { kind: "unsound", rHat: 1.0456, effective: 87.6, divergent: 3 },
      "nothing is concluded: the chains do not agree (R-hat 1.046, 88 effective draws, 3 ran away)",
    ],
    [
      { kind: "notSampled", why: "stopped" },
      "stopped before the draws were made: nothing is concluded beyond the pulls themselves",
    ],
    [{ kind: "notSampled", why: "noPulls" }, "no pull states what the terms need: nothing is concluded"],
    [{ kind: "notSampled", why: "notAsked" }, "not sampled: nothing is concluded beyond the pulls themselves"],
    [
      { kind: "hangsOnPull", influence: { pull: 4, first: "A", second: "B", with: 0.96, without: 0.71, k: 0.2 } },
      "that A holds more than B hangs on pull 5: 96 % with it, 71 % without",
    ],
    [
      { kind: "hangsOnPull", influence: { pull: 0, first: "B", second: "A", with: 0.5, without: 0.9, k: 0.71 } },
      "that B holds more than A hangs on pull 1: 50 % with it, 90 % without (a rough guess: the pull is far from the others)",
    ],
    [{ kind: "surprisingPulls", pulls: 2, of: 30 }, "2 of 30 pulls are far from what the others foretell"],
    [
      { kind: "priorsMatter", pair, ...afterwards(0.6), times: 2 },
      "that A holds more than B rests on what was believed before: 83 %, but 60 % with priors twice as wide",
    ],
    [
      { kind: "priorsMatter", pair, ...afterwards(0.004), times: 0.5 },
      "that A holds more than B rests on what was believed before: 83 %, but less than 1 % with priors half as wide",
    ],
    [
      { kind: "lawsAlike", law: "weibull", other: "loglogistic" },
      "the Weibull and the log-logistic law foretell the pulls about equally well; answers are by the Weibull",
    ],
    ...(
      [
        [
          { kind: "neverGaveWay", anchor: "A", pulls: 1, highest: 3456.7 },
          "A never gave way in 1 pull: they say only that it holds more, to 3460 N; likelihood fits leave it out",
        ],
        [
          { kind: "neverHeld", anchor: "B", pulls: 3, lowest: 812.4 },
          "B never held in 3 pulls: they say only that it holds less than 812 N; likelihood fits leave it out",
        ],
        [{ kind: "onePull", anchor: "C" }, "C has one pull: how much it scatters is taken from the others"],
        [
          { kind: "nothingGaveWay" },
          "no anchor gave way: only lower limits can be told, and no difference between anchors",
        ],
        [
          { kind: "allTheSame", load: 1999.6 },
          "every pull gave way at 2000 N: loads so alike come of steps or of a limit of the gear, not of anchors",
        ],
        [
          { kind: "ownSite", anchors: ["A", "B"] },
          "A, B: pulled only at sites where no other anchor was; what is told is anchor and site together",
        ],
        [
          { kind: "angleFollowsLoad", used: true },
          "the angle at the anchor is the one the rode took under that very load: in the fits its term takes what holds more, and is so pulled steeper, for an effect of the angle; what is concluded counts where the load met what the anchor holds at its angle",
        ],
        [
          { kind: "angleFollowsLoad", used: false },
          "the angle at the anchor is the one the rode took under that very load: the fits leave it out; what is concluded counts where the load met what the anchor holds at its angle",
        ],
        [
          { kind: "termDropped", dropped: { kind: "notStated", term: "mass", lacking: 5, of: 5 } },
          "no pull states the mass: it is no term",
        ],
        [
          { kind: "termDropped", dropped: { kind: "notStated", term: "mass", lacking: 4, of: 5 } },
          "4 of 5 pulls do not state the mass: it is no term unless asked for",
        ],
        [
          { kind: "termDropped", dropped: { kind: "sameInAll", term: "seabed" } },
          "the seabed is the same in every pull: its effect cannot be seen",
        ],
        [
          { kind: "termDropped", dropped: { kind: "confounded", term: "mass", name: "lnMass" } },
          "the effect of the mass cannot be told apart from the other effects (each anchor at one mass?): likelihood fits leave it out",
        ],
        [
          { kind: "termDropped", dropped: { kind: "confounded", term: "seabed", name: "seabed:mud" } },
          "the effect of the seabed mud cannot be told apart from the other effects (each anchor at one seabed?): likelihood fits leave it out",
        ],
        [
          { kind: "notInFits", pulls: 1, terms: ["angle", "mass"] },
          "1 pull lacks what the terms (angle, mass) need, and takes no part in fits",
        ],
        [
          { kind: "notInFits", pulls: 2, terms: ["angle"] },
          "2 pulls lack what the terms (angle) need, and take no part in fits",
        ],
      ] as [object, string][]
    ).map(([finding, line]): [object, string] => [{ kind: "finding", finding }, line]),
  ];
  it.each(lines)("%j", (verdict, line) => {
    expect(sayHoldingVerdict(verdict as Verdict, words)).toBe(line);
  });
  it("loads are told to three digits of the unit asked", () => {
    const finding = { kind: "allTheSame", load: 1779.2886461042 };
    expect(sayHoldingVerdict({ kind: "finding", finding } as Verdict, { ...words, units: "us" })).toContain(
      "every pull gave way at 400 lbf:",
    );
  });
  it("a chance is never sure: its ends are just inside 0.5 % and 99.5 %", () => {
    expect([0, 0.0049, 0.005, 0.014, 0.016, 0.5, 0.994, 0.995, 0.9951, 1].map(sayChance)).toEqual([
      "less than 1 %",
      "less than 1 %",
      "1 %",
      "1 %",
      "2 %",
      "50 %",
      "99 %",
      "100 %",
      "more than 99 %",
      "more than 99 %",
    ]);
  });
  it("more pulls tell, or not even they", () => {
    expect(sayMore(enough)).toBe("about 12 more pulls of each would tell, in 8 of 10 such series");
    expect(sayMore({ ...enough, kind: "notEnough", each: 200, share: 0.39 } as never)).toBe(
      "even 200 more pulls of each would tell in only 3 of 10 such series",
    );
  });
  it("what is believed beforehand is told in factors and per cent", () => {
    const told = sayPriors({
      timesWeight: 30,
      m: Math.log(4.5),
      anchors: Math.log(2),
      seabed: Math.log(3),
      sites: Math.log(1.5),
      testers: Math.log(1.25),
      days: Math.log(1.2),
      scatter: Math.log(1.6),
      angle: { mean: -0.03, sd: 0.05 },
      mass: { mean: 0.93, sd: 0.2 },
    });
    expect(told.split("; ")).toEqual([
      "an anchor holds some 30 times its weight, within a factor of 4.5",
      "anchors are a factor of 2 apart, seabeds 3, sites 1.5, days 1.2",
      "pulls of one anchor scatter by a factor of 1.6",
      "a degree at the anchor changes holding by -3 ± 5 %",
      "holding grows as mass to the power 0.93 ± 0.2",
    ]);
  });
  it("what makes a chance unsure is told widest first, and nothing below half a per cent", () => {
    expect(sayShares({ windLoad: 0.204, angle: 0.006, holding: 0.79 })).toBe("holding 79 %, wind load 20 %, angle 1 %");
    expect(sayShares({ windLoad: 0.996, angle: 0.004, holding: 0 })).toBe("wind load 100 %");
  });
  it("laws and causes have their names", () => {
    expect((["lognormal", "weibull", "loglogistic"] as const).map(sayLaw)).toEqual([
      "lognormal",
      "Weibull",
      "log-logistic",
    ]);
    expect(sayNotComparable("noneReached")).toBe(
      "at that load the resting rode carries all of it: none reaches the anchor",
    );
    expect(sayNotComparable("noAnchor")).toBe("the pull names no anchor");
    expect(sayNotComparable("noResult")).toBe("neither the record nor a log says what was held");
    expect(sayNotComparable("noLoad")).toContain("it never set");
    expect(sayNotComparable("noRig")).toContain("without a rig");
    expect(sayNotComparable("noEquilibrium")).toContain("has no equilibrium at that load");
  });
});

describe("shares of draws", () => {
  it.each([
    [350, 1000, "35 of 100"],
    [354, 1000, "35 of 100"],
    [356, 1000, "36 of 100"],
    [10, 1000, "1 of 100"],
    [9, 1000, "9 of 1000"],
    [3, 10_000, "fewer than 1 of 1000"],
    [990, 1000, "99 of 100"],
    [991, 1000, "991 of 1000"],
    [9998, 10_000, "all but a few of 1000"],
    [1, 2, "50 of 100"],
  ])("%i of %i: %s", (count, of, text) => {
    expect(shareOfDraws(count, of)).toBe(text);
  });
  it("bounds may be open at an end, or at both", () => {
    const text = (low: number | null, high: number | null) => boundsText({ low, high }, "force", {});
    expect(text(1899.6, 2601.2)).toBe("1900 N to 2600 N");
    expect(text(1899.6, null)).toBe("from 1900 N");
    expect(text(null, 2601.2)).toBe("up to 2600 N");
    expect(text(null, null)).toBe("no bounds");
  });
  it("the anchor is said to be lifted where it is in some draws alone, and what has no equilibrium is counted", () => {
    const of = (draws: number, without: number, lifted: number) =>
      spreadWords({ spread: { draws, without, lifted } } as never);
    expect(of(1000, 0, 200)).toEqual({ lifted: "the anchor is lifted in 20 of 100 draws", without: null });
    expect(of(1000, 0, 0).lifted).toBeNull();
    expect(of(1000, 0, 1000).lifted).toBeNull();
    expect(of(1000, 100, 900).lifted).toBeNull();
    expect(of(1000, 100, 899).lifted).toBe("the anchor is lifted in 90 of 100 draws");
    expect(of(1000, 100, 900).without).toBe("in 10 of 100 draws; an end beyond them is left open");
    expect(of(1000, 1, 900).without).toBe("in 1 of 1000 draws; an end beyond them is left open");
    expect(spreadWords(null)).toEqual({ lifted: null, without: null });
    expect(spreadWords({ spread: null } as never)).toEqual({ lifted: null, without: null });
  });
});

describe("times and counts", () => {
  it.each([
    [0.04, "0 s"],
    [3.14, "3.1 s"],
    [9.94, "9.9 s"],
    [10.4, "10 s"],
    [59.6, "1 min"],
    [61, "1 min 1 s"],
    [120, "2 min"],
    [3599, "59 min 59 s"],
    [3600, "1 h"],
    [3629, "1 h"],
    [3660, "1 h 1 min"],
    [7199, "2 h"],
    [90_000, "25 h"],
  ])("%d s is %s", (seconds, text) => {
    expect(durationText(seconds)).toBe(text);
  });
  it("one has its own noun, none and many the other", () => {
    expect([0, 1, 2, 1000].map((n) => countText(n, "pull", "pulls"))).toEqual([
      "0 pulls",
      "1 pull",
      "2 pulls",
      "1,000 pulls",
    ]);
  });
});

describe("what a log came to", () => {
  const force = (value: number, u?: number) => `${value} N${u === undefined ? "" : ` ± ${u}`}`;
  const words = traceWords("metric");
  it("the zero, before and after or on one side, with its drift by the minute", () => {
    expect(zeroText({ kind: "fixed", side: "after", slack: { mean: -12, u: 2 } } as never, force, words)).toBe(
      "-12 N ± 2 in the slack after the pull; its drift is not known",
    );
    expect(
      zeroText(
        {
          kind: "drifting",
          before: { mean: 3, u: 1 },
          after: { mean: 9, u: 2 },
          rate: { value: 0.5, u: 0.05 },
        } as never,
        force,
        words,
      ),
    ).toBe("3 N ± 1 before the pull, 9 N ± 2 after: drifting 30 N ± 3 a minute");
  });
  it("that it gave way, and where that was read", () => {
    const held = {
      kind: "gaveWay",
      newtons: 5200,
      u: 40,
      at: "anchor",
      mark: "m",
      why: { kind: "gaveWay", drag: { kind: "written", text: "it dragged" }, open: null },
      untold: null,
    } as const;
    expect(heldText(held, force, words)).toBe("It gave way at 5200 N ± 40, read at the anchor: it dragged");
  });
  it("what the log leaves open, and what would tell it", () => {
    const held = {
      kind: "heldTo",
      newtons: 3000,
      u: 20,
      at: "bow",
      mark: "m",
      why: { kind: "held", seconds: 20, most: null, rule: null, gaveWayAtLess: false, open: null },
    } as const;
    expect(heldText({ ...held, untold: "slowPlough" }, force, words)).toMatch(
      /^It held at least 3000 N ± 20, read at the bow: held for 20 s\. .*ploughed slowly.*track.* would tell/,
    );
    expect(heldText({ kind: "notKnown", why: { kind: "nothingHeld", heldFor: 8 }, untold: null }, force, words)).toBe(
      "Held load: not known; no load was held for 8 s, and nothing shows that the anchor gave way",
    );
  });
});

describe("no equilibrium", () => {
  it.each([
    ["shorterThanRise", "the rode, 3 m long, is not longer than the rise of 5 m; a rode of more than 5 m would reach"],
    [
      "shortUntilStretched",
      "the rode is not longer than the rise, and a pull of 3 N does not stretch it so far; a longer rode would reach, or a pull of more than 5 N",
    ],
    [
      "lighterThanHanging",
      "a pull of 3 N at the bow is less than the 5 N of rode that hangs from it; a pull of more than 5 N would hold it",
    ],
    ["beyondReach", "the rode does not reach a span of 3 m; a span of less than 5 m would do, or a longer rode"],
    [
      "aground",
      "the bottom rises to the boat within the rode's reach, 5 m from the anchor; a shorter rode, a lighter pull or a gentler slope would leave the boat afloat",
    ],
    [
      "lighterThanResting",
      "a pull of 3 N there is less than the 5 N that the rode's own weight or the current makes; a pull of more than 5 N would settle",
    ],
    ["tooNear", "at a span of 3 m the rode is slack; it comes under load from a span of 5 m on"],
    [
      "unknownState",
      "the rode touches the bottom or the surface in a way that is not modelled; a heavier pull, or floats and weights farther apart, would settle",
    ],
    ["noSuchValue", "no value within reach answers the question; another pull or another unknown may have an answer"],
  ] as const)("%s", (cause, line) => {
    expect(noEquilibriumLine({ cause, given: 3, limit: 5 }, "metric")).toBe(line);
  });
  it("angles are told in degrees, of the horizontal or of the bottom", () => {
    const at = { given: Math.PI / 18, limit: Math.PI / 36 };
    expect(noEquilibriumLine({ cause: "angleOutOfReach", ...at }, "metric")).toBe(
      "no value gives an angle of 10° at the anchor; the nearest angle that can be had is 5°",
    );
    expect(noEquilibriumLine({ cause: "angleToBottomOutOfReach", ...at }, "metric")).toBe(
      "no value gives an angle of 10° to the bottom at the anchor; the nearest angle to the bottom that can be had is 5°",
    );
    expect(noEquilibriumLine({ cause: "aground", given: 0, limit: 5 }, "metric")).toContain(
      "; a shorter rode, or a gentler",
    );
  });
  it("and why a rode cannot be weighed", () => {
    expect(notWeighedLine({ kind: "surgeNotTaken" }, "metric")).toBe("the surge is more than the rode ever takes up");
    expect(notWeighedLine({ kind: "notSnubbed", why: "noChain" }, "metric")).toBe(
      "its snubber cannot be rigged on it: the rode has no line to hook on to",
    );
    expect(notWeighedLine({ kind: "notSnubbed", why: "tooLong" }, "metric")).toBe(
      "its snubber cannot be rigged on it: rope and loop take more of the rode than there is",
    );
  });
});

it("limits and criteria are each told by a name of their own", () => {
  for (const names of [planLimitWords, criterionWords])
    expect(new Set(Object.values(names)).size).toBe(Object.keys(names).length);
  expect(planLimitWords.anchorAngle).toBe("angle at the anchor");
  expect(criterionWords.workingLoad).toBe("share of working load limit");
});

it("tells two answers apart only beyond twice the ± of their difference", () => {
  // By hand: √(3² + 4²) = 5, so 10 is twice it and no more.
  const first = { value: 100, u: 3 };
  const beside = (value: number) => besideWords(first, { value, u: 4 }, "force", { system: "metric", unit: "N" });
  expect(beside(110)).toBe("the same within their ±");
  expect(beside(90)).toBe("the same within their ±");
  expect(beside(111)).toBe("11.0 ± 5.0 N more");
  expect(beside(89)).toBe("11.0 ± 5.0 N less");
});
