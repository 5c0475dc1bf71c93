/**
 * What the reduction says of pulls of another maker, regime by regime, against what is true of them. Prints the table of
 * docs/reduction-of-a-pull.md; with --write, puts it there.
 *
 * node --import tsx scripts/pull-trials.ts [--pulls 24] [--from 500001] [--regime TEXT] [--write]
 */
import { readFileSync, writeFileSync } from "node:fs";
import { regimes } from "../test/pull/anchor/regimes.ts";
import { type Count, type Score, scoreOf } from "../test/pull/anchor/score.ts";

const told = (name: string): string | undefined => {
  const i = process.argv.indexOf(name);
  return i < 0 ? undefined : process.argv[i + 1];
};
const pulls = Number(told("--pulls") ?? 24);
/** Seeds no setting was chosen on. */
const from = Number(told("--from") ?? 500_001);
const wanted = told("--regime");

const columns: readonly [title: string, of: (s: Score) => Count, rate?: true][] = [
  ["verdict wrong", (s) => s.wrong],
  ["cannot be told", (s) => s.cannotTell],
  ["held, moved over 1 m", (s) => s.heldMoving],
  ["drags ≥ 3 m found", (s) => s.drags],
  ["false drags a pull", (s) => s.falseDrags, true],
  ["direction within 2 u", (s) => s.direction],
  ["zero within 2 u", (s) => s.zero],
  ["plateau loads within 2 u", (s) => s.plateauLoads],
  ["set distance within 2 u", (s) => s.setDistance],
  ["held steps with a plateau", (s) => s.plateaus],
  ["reversals found", (s) => s.reversals],
];

const scores = regimes
  .filter((regime) => wanted === undefined || regime.name.includes(wanted))
  .map((regime, k) =>
    scoreOf(
      regime,
      Array.from({ length: pulls }, (_, i) => from + 1000 * k + i),
    ),
  );

const said = (count: Count, rate?: true): string =>
  count.there === 0
    ? "–"
    : rate
      ? (count.so / count.there).toFixed(2)
      : `${Math.round((100 * count.so) / count.there)} % of ${count.there}`;
const sum = (of: (s: Score) => Count): Count => ({
  there: scores.reduce((n, s) => n + of(s).there, 0),
  so: scores.reduce((n, s) => n + of(s).so, 0),
});

const table = [
  `${pulls} pulls a row, seeds from ${from} on.`,
  "",
  `| pulls | ${columns.map(([title]) => title).join(" | ")} |`,
  `| --- |${" --- |".repeat(columns.length)}`,
  ...scores.map((s) => `| ${s.regime} | ${columns.map(([, of, rate]) => said(of(s), rate)).join(" | ")} |`),
  `| all | ${columns.map(([, of, rate]) => said(sum(of), rate)).join(" | ")} |`,
].join("\n");
console.log(table);

if (process.argv.includes("--write")) {
  const page = "docs/reduction-of-a-pull.md";
  const marked = /(<!-- trials, made by scripts\/pull-trials.ts -->\n)[\s\S]*?(<!-- end of trials -->)/;
  const text = readFileSync(page, "utf8");
  if (!marked.test(text)) throw new Error(`${page}: no place for the table`);
  writeFileSync(
    page,
    text.replace(marked, (_, a: string, b: string) => `${a}${table}\n${b}`),
  );
}
