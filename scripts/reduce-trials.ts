/**
 * How often `reduce` tells a wild reading, calls a good one wild, is wrong about scatter, and covers the truth with its ±:
 * simulated runs, a cell a design. `node --import tsx scripts/reduce-trials.ts [runs] [seed]`
 */
import { reduce } from "../src/pull/index.ts";
import { rng } from "../src/statistics/index.ts";
import { type Design, simulatedRun } from "../test/pull/run/simulated-run.ts";

const runs = Number(process.argv[2] ?? 1000);
const seed = Number(process.argv[3] ?? 1);
const only = process.argv[4];

const designs: [string, Design][] = [];
for (const angles of [4, 5, 6, 8, 12]) {
  designs.push([`${angles} angles`, { angles, release: 0 }]);
  designs.push([`${angles} angles, one 8 to 15 u off`, { angles, release: 0, planted: [8, 15] }]);
}
for (const [angles, release] of [
  [4, 6],
  [7, 8],
] as const) {
  designs.push([`${angles} angles, ${release} movements`, { angles, release }]);
  designs.push([`${angles} angles, ${release} movements, one 8 to 15 u off`, { angles, release, planted: [8, 15] }]);
}
designs.push(["8 angles that scatter 3 times", { angles: 8, release: 0, scatter: 3 }]);
designs.push(["12 angles that scatter 2 times", { angles: 12, release: 0, scatter: 2 }]);

const percent = (part: number, of: number): string => (of === 0 ? "" : ((100 * part) / of).toFixed(1));
const names = ["massPerLength", "rise", "gaugeZero", "rigGive"] as const;
process.stdout.write(
  `| ${runs} runs each | found | undecided | false | scatter wrongly told | ${names.map((name) => `${name} 68 / 95`).join(" | ")} |\n| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n`,
);
for (const [name, design] of designs) {
  if (only !== undefined && !name.includes(only)) continue;
  const stream = rng(seed);
  let [found, undecided, wrong, good, scatter] = [0, 0, 0, 0, 0];
  const inside = names.map(() => [0, 0, 0]);
  for (let k = 0; k < runs; k++) {
    const { run, rig, truth, planted } = simulatedRun(stream, design);
    const reduced = reduce(run, rig);
    const rows = [...reduced.readings, ...reduced.release.slice(1)];
    rows.forEach((row, i) => {
      if (i === planted) {
        if (row.outlier) found++;
      } else {
        good++;
        if (row.outlier) wrong++;
      }
    });
    if (rows.some((row) => row.suspect)) undecided++;
    if (reduced.spread.kind === "more" || reduced.spread.kind === "less") scatter++;
    names.forEach((unknown, i) => {
      const fitted = reduced.fitted[unknown];
      if (fitted === null) return;
      const off = Math.abs(fitted.value - truth[unknown]) / fitted.u;
      inside[i]![0]!++;
      if (off <= 1) inside[i]![1]!++;
      if (off <= 1.959964) inside[i]![2]!++;
    });
  }
  const cover = inside.map(([n, one, two]) => (n === 0 ? "" : `${percent(one!, n!)} / ${percent(two!, n!)}`));
  process.stdout.write(
    `| ${name} | ${design.planted ? percent(found, runs) : ""} | ${percent(undecided, runs)} | ${percent(wrong, good)} | ${percent(scatter, runs)} | ${cover.join(" | ")} |\n`,
  );
}
