import { describe, expect, test } from "vitest";
import { messages } from "./by-hand-messages.ts";
import { refusals, tables } from "./by-hand-tables.ts";
import { composeFurther, WAYS } from "./composed-further.ts";
import { composeDeltas, composeSentences, composeTrack } from "./composed-messages.ts";
import { composeTable } from "./composed-tables.ts";
import { judge, judgeComposed } from "./judge.ts";

describe("a log typed by hand is read rightly, or asked or refused in words that help", () => {
  test.each([...tables, ...messages, ...refusals].map((one) => [one.name, one] as const))("%s", (_, one) => {
    const verdict = judge(one);
    expect(verdict.kind === "wrong" ? verdict.why : "").toBe("");
  });
});

describe("of logs composed by chance none is read wrongly without a word", () => {
  const seeds = Array.from({ length: 40 }, (_, i) => i);
  test.each([
    ["tables", seeds.flatMap((i) => [1, 41, 81, 121].map((from) => composeTable(from + i)))],
    ["sentences", seeds.map((i) => composeSentences(1 + i))],
    ["deltas", seeds.map((i) => composeDeltas(1 + i))],
    ["tracks", seeds.map((i) => composeTrack(1 + i))],
    ["further ways of writing", Array.from({ length: 2 * Object.keys(WAYS).length }, (_, i) => composeFurther(i))],
  ] as const)("%s", (_, logs) => {
    const verdicts = logs.map((one) => ({ name: one.name, ...judgeComposed(one) }));
    expect(verdicts.filter(({ kind }) => kind === "wrong")).toEqual([]);
    // What is plain is read, and not asked for safety's sake.
    expect(verdicts.filter(({ kind }) => kind === "read").length).toBeGreaterThan(logs.length / 3);
  });
});
