/**
 * When the anchor first moved, and how far the track's clock is off, as the reduction tells them of pulls of another maker,
 * against what is true of them: the figures in docs/reduction-of-a-pull.md.
 *
 * node --import tsx scripts/pull-times.ts [--pulls 16] [--from 930001]
 */
import { reduceTrace, trackLater } from "../src/pull/index.ts";
import { makePull } from "../test/pull/anchor/make-pull.ts";
import { regimes } from "../test/pull/anchor/regimes.ts";
import { episodes, reduceMade } from "../test/pull/anchor/score.ts";

const told = (name: string, usual: number): number => {
  const i = process.argv.indexOf(name);
  return i < 0 ? usual : Number(process.argv[i + 1]);
};
const pulls = told("--pulls", 16);
/** Seeds no setting was chosen on. */
const from = told("--from", 930_001);

/** An anchor has moved when it went so far at once, and a movement is one from so far, m. */
const BEGUN = 0.3;
const MOVED = 1;
/** Fixes are stamped up to so many seconds early or late. */
const LATE = 8;

/** Where the anchor went so far at once that it had moved: how far, and when it had gone what counts as begun, s. */
const movements = (anchor: Float64Array): { from: number; to: number; way: number; begun: number }[] =>
  episodes(anchor)
    .map(([from, to]) => {
      const start = anchor[Math.round(10 * from)]!;
      const begun = anchor.findIndex((way, k) => k >= 10 * from && way - start >= BEGUN) / 10;
      return { from, to, way: anchor[Math.round(10 * to)]! - start, begun };
    })
    .filter(({ way }) => way >= BEGUN);

const first = { told: 0, within: 0, earlier: 0, less: 0, none: 0, larger: 0 };
const clock = { pulls: 0, told: 0, within: 0, u: [] as number[] };
for (const [k, regime] of regimes.entries())
  for (let i = 0; i < pulls; i++) {
    const seed = from + 1000 * k + i;
    const pull = makePull(regime, seed);
    const { anchor } = pull.truth;
    const reduced = reduceMade(pull).first;
    const all = movements(anchor);
    if (reduced.kind === "moved" && reduced.by === "track") {
      const { value, u } = reduced.at;
      // Digging in at the beginning, and any other way of less than a metre, is none that has to be seen.
      const large = all.filter(({ way }) => way >= MOVED);
      const its = all.find(({ from: a, to: b }) => value > a - 3 * u && value < b + 3 * u);
      if (its === undefined || its.way < MOVED) first.less++;
      else {
        first.told++;
        if (Math.abs(value - its.begun) <= 2 * u) first.within++;
        if (large.some(({ begun }) => begun < its.begun)) first.earlier++;
      }
    } else if (reduced.kind === "none") {
      first.none++;
      let most = 0;
      for (let j = 300; j < anchor.length; j++) most = Math.max(most, anchor[j]! - anchor[j - 300]!);
      if (most > reduced.unseen) first.larger++;
    }
    if (regime.track === false || i >= Math.ceil(pulls / 2)) continue;
    // Another late for each pull, by its seed alone.
    const late = Math.round(10 * LATE * Math.sin(seed)) / 10;
    const question = { readAt: "bow", ...(pull.give ? { give: pull.give } : {}), clock: "told" } as const;
    const answer = reduceTrace(trackLater(pull.trace, late), question).clock;
    clock.pulls++;
    if (answer?.kind !== "told") continue;
    clock.told++;
    clock.u.push(answer.offset.u);
    if (Math.abs(answer.offset.value + late) <= 2 * answer.offset.u) clock.within++;
  }
clock.u.sort((a, b) => a - b);

console.log(
  [
    `${pulls} pulls of each kind, seeds from ${from} on.`,
    `First movement: told of ${first.told} that went a metre or more, ${first.within} within 2 u of when it had gone ${BEGUN} m; ${first.earlier} of them had an earlier one of a metre or more; ${first.less} more told one where the anchor went less. None was told of ${first.none}, of which ${first.larger} had a larger one than may have been missed.`,
    `Clock, on the first half of those with a track, their fixes up to ${LATE} s early or late: told of ${clock.told} of ${clock.pulls}, ${clock.within} within 2 u; u is ${(clock.u[clock.u.length >> 1] ?? Number.NaN).toFixed(1)} s in the median.`,
  ].join("\n"),
);
