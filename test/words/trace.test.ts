/** What a reduced trace says: every cause its own clause, with its numbers in the reader's units. Converted by hand: a foot is 0.3048 m, a knot 1852/3600 m/s. */
import { describe, expect, it } from "vitest";
import { type HeldLoad, type MarkCause, readMarkCause } from "../../src/pull/index.ts";
import { markCauseWords, traceWords } from "../../src/words/index.ts";

const fall = { share: 0.544, seconds: 1.84 };
const marks: readonly [MarkCause, words: string][] = [
  [{ kind: "slack" }, "the load is all but gone"],
  [{ kind: "flat", seconds: 12.34, perMinute: -0.0123 }, "flat for 12.3 s, changing by -1.2 % a minute"],
  [{ kind: "peak" }, "rises and falls clear of both sides"],
  [{ kind: "standsAlone", times: 19.6, slowLog: false }, "stands alone, 20 times the noise from its neighbours"],
  [
    { kind: "standsAlone", times: 8.4, slowLog: true },
    "stands alone, 8 times the noise from its neighbours; at this rate of the log a glitch and a short peak look alike",
  ],
  [
    { kind: "fellAndWent", ...fall, clear: 123.4 },
    "load fell 54 % in 1.8 s, 120 times the scatter, and the anchor went",
  ],
  [{ kind: "fellAndWent", ...fall, clear: null }, "load fell 54 % in 1.8 s, and the anchor went"],
  [
    { kind: "fellUntracked", share: 0.0567, seconds: 0.4, clear: 3 },
    "load fell 5.7 % in 0.4 s, 3 times the scatter; no track to tell it from an easing",
  ],
  [{ kind: "fellAndStayed", ...fall }, "load fell 54 % in 1.8 s, and nothing shows that the anchor went"],
  [{ kind: "fellInPart", ...fall }, "load fell 54 % in 1.8 s, as part of a slower fall"],
  [{ kind: "fellToSlack", ...fall }, "load fell 54 % in 1.8 s to slack and stayed there"],
  [{ kind: "fellSlowly", ...fall, longest: 4 }, "load fell 54 % in 1.8 s: slower than 4 s"],
  [
    { kind: "ploughed", seconds: 41.6, speed: 0.0772 },
    "the anchor ploughed for 42 s at 0.077 m/s, by load and track together",
  ],
  [{ kind: "went", times: 5.44 }, "the anchor went, by load and track together, 5.4 times the ± of its place"],
  [{ kind: "turned", angle: (174.6 * Math.PI) / 180 }, "the pull turned by 175 degrees"],
  [{ kind: "byHand" }, "marked by hand"],
  [{ kind: "byHandMeanBefore", seconds: 2 }, "marked by hand as a drag; the mean load of the 2 s before"],
  [{ kind: "written", text: "seen from the quay" }, "seen from the quay"],
];

describe("why a mark was made", () => {
  it.each(marks)("%j", (why, words) => {
    expect(markCauseWords(why, "metric")).toBe(words);
    expect(traceWords("metric").mark(why)).toBe(words);
    expect(readMarkCause(JSON.parse(JSON.stringify(why)))).toEqual(why);
  });

  it("has speeds in knots where loads are in pounds", () => {
    const words = markCauseWords({ kind: "ploughed", seconds: 40, speed: 0.0772 }, "us");
    // 0.0772 × 3600 / 1852 = 0.15007
    expect(words).toBe("the anchor ploughed for 40 s at 0.15 kn, by load and track together");
  });

  it.each([
    ["nothing", null],
    ["no text", ""],
    ["a number", 3],
    ["a kind nobody knows", { kind: "bent", times: 3 }],
    ["a name that every object has", { kind: "constructor" }],
    ["a field left out", { kind: "flat", seconds: 3 }],
    ["a number that is none", { kind: "went", times: "many" }],
    ["an infinite one", { kind: "went", times: Number.POSITIVE_INFINITY }],
    ["a text that is none", { kind: "written", text: 7 }],
    ["a yes that is none", { kind: "standsAlone", times: 8, slowLog: "yes" }],
  ])("is not read from %s in a book", (_, kept) => {
    expect(readMarkCause(kept)).toBeNull();
  });

  it("that an earlier book holds in words stays those words", () => {
    expect(readMarkCause("load fell 12 % in 0.6 s")).toEqual({ kind: "written", text: "load fell 12 % in 0.6 s" });
  });
});

describe("why a load counts as held", () => {
  const open = { from: 151.04, seconds: 30.4, way: { value: 3.048, u: 1.524 } };
  const drag = { kind: "went", times: 5 } as const;
  const held = { kind: "held", seconds: 29.6, most: null, rule: null, gaveWayAtLess: false, open: null } as const;
  const causes: readonly [HeldLoad["why"], metric: string, us: string][] = [
    [held, "held for 30 s", "held for 30 s"],
    [
      { ...held, most: 0.6096 },
      "held for 30 s, the anchor moving less than 0.61 m (95 %)",
      "held for 30 s, the anchor moving less than 2 ft (95 %)",
    ],
    [
      { ...held, most: 1.524, rule: 0.9144, gaveWayAtLess: true },
      "held for 30 s, the anchor moving less than 1.5 m (95 %): more than the 0.91 m of the hold rule; it had given way at less",
      "held for 30 s, the anchor moving less than 5 ft (95 %): more than the 3 ft of the hold rule; it had given way at less",
    ],
    [
      { ...held, open },
      "held for 30 s; whether it held longer at more, for 30 s from 151.0 s on, cannot be told: by the track the anchor went 3.0 ± 1.5 m",
      "held for 30 s; whether it held longer at more, for 30 s from 151.0 s on, cannot be told: by the track the anchor went 10.0 ± 5.0 ft",
    ],
    [
      { kind: "heldThenGaveWay", seconds: 16.2, drag },
      "held for 16 s; then the anchor went, by load and track together, 5 times the ± of its place",
      "held for 16 s; then the anchor went, by load and track together, 5 times the ± of its place",
    ],
    [
      { kind: "gaveWay", drag, open },
      "the anchor went, by load and track together, 5 times the ± of its place; whether it held longer at more, for 30 s from 151.0 s on, cannot be told: by the track the anchor went 3.0 ± 1.5 m",
      "the anchor went, by load and track together, 5 times the ± of its place; whether it held longer at more, for 30 s from 151.0 s on, cannot be told: by the track the anchor went 10.0 ± 5.0 ft",
    ],
    [
      { kind: "open", open },
      "whether it held for 30 s from 151.0 s on cannot be told: by the track the anchor went 3.0 ± 1.5 m",
      "whether it held for 30 s from 151.0 s on cannot be told: by the track the anchor went 10.0 ± 5.0 ft",
    ],
    [
      { kind: "nothingHeld", heldFor: 8 },
      "no load was held for 8 s, and nothing shows that the anchor gave way",
      "no load was held for 8 s, and nothing shows that the anchor gave way",
    ],
  ];
  it.each(causes)("%j", (why, metric, us) => {
    expect(traceWords("metric").held(why)).toBe(metric);
    expect(traceWords("us").held(why)).toBe(us);
  });

  it("has its times as the reader has them", () => {
    const words = traceWords("metric", (seconds) => `minute ${(seconds / 60).toFixed(1)}`);
    expect(words.held({ kind: "open", open })).toContain("from minute 2.5 on");
  });
});

describe("what else a trace says", () => {
  const words = traceWords("metric");
  it("why no zero was found", () => {
    expect(words.noZero({ kind: "unchanging" })).toBe("the load does not change");
    expect(words.noZero({ kind: "neverSlack", share: 0.417 })).toBe(
      "the lowest load is 42 % of the highest: not taken for slack",
    );
    expect(words.noZero({ kind: "tooShort", shortest: 2 })).toBe("no slack stretch of 2 s before or after the pull");
  });
  it("why no set distance is known", () => {
    expect((["noTrack", "nothingHeld", "noLine"] as const).map(words.noSet)).toEqual([
      "no track was logged",
      "no load was held",
      "the boat's movement does not show the line of the pull",
    ]);
  });
  it("what the anchor held once the pull had turned", () => {
    const turned = (outcome: object): string =>
      words.reversal({ why: { kind: "turned", angle: Math.PI }, outcome } as Parameters<typeof words.reversal>[0]);
    expect(turned({ kind: "notTried" })).toBe("the pull turned by 180 degrees");
    expect(turned({ kind: "reset", at: 1, share: 0.87, distance: null })).toBe(
      "the pull turned by 180 degrees; then held 87 % of what it held before",
    );
    expect(turned({ kind: "didNotReset", share: 0.31, gaveWay: true })).toBe(
      "the pull turned by 180 degrees; then held no more than 31 % of what it held before and gave way",
    );
    expect(turned({ kind: "didNotReset", share: 0, gaveWay: false })).toBe(
      "the pull turned by 180 degrees; then held nothing",
    );
  });
});
