/**
 * What the reduction of a pull finds of what is there, on simulated pulls whose truth is known, and what it finds that
 * is not there. Prints the table of docs/reduction-of-a-pull.md; with --write, puts it there.
 *
 * node --import tsx scripts/plateau-recall.ts [--pulls 400] [--write]
 */
import { readFileSync, writeFileSync } from "node:fs";
import { type Recall, recallOf, seedsFrom, type Tally, within } from "../test/pull/trace/recall.ts";
import type { Scene } from "../test/pull/trace/simulated-pull.ts";

const scenes: readonly [name: string, scene: Omit<Scene, "seed">][] = [
  ["load only, 10 readings a second", {}],
  ["and a track", { track: true }],
  ["load only, 100 readings a second", { rate: 100 }],
  ["load only, 1 reading a second", { rate: 1 }],
  ["nothing drags", { drags: false }],
  ["turned round, heading logged", { heading: true, reversal: true }],
  ["turned round, track logged", { track: true, reversal: true }],
];

const pulls = Number(process.argv[process.argv.indexOf("--pulls") + 1]) || 400;
/** Seeds the settings were not chosen on, and the tests do not use. */
const FIRST = 1_000_001;

const found = (t: Tally): string =>
  t.there === 0 ? "none there" : `${((100 * t.found) / t.there).toFixed(1)} % of ${t.there}`;
const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
const perPull = (r: Recall, t: Tally): string => (t.falseAlarms / r.pulls).toFixed(3);

const head = [
  "simulated pulls",
  "plateaus found",
  "false a pull",
  "drags found",
  "false a pull",
  "tall gusts found",
  "spikes found",
  "false a pull",
  "reversals found",
];
const sure = ["simulated pulls", "mean within 2 u", "within 3 u", "drift within 2 u", "zero found", "ends within 2 s"];
const rows: string[][] = [];
const sureRows: string[][] = [];
for (const [name, scene] of scenes) {
  const r = recallOf(seedsFrom(FIRST, pulls), scene);
  rows.push([
    name,
    found(r.plateau),
    perPull(r, r.plateau),
    found(r.drag),
    perPull(r, r.drag),
    found(r.peak),
    found(r.spike),
    perPull(r, r.spike),
    found(r.reversal),
  ]);
  sureRows.push([
    name,
    percent(within(r.meanErrors, 2)),
    percent(within(r.meanErrors, 3)),
    percent(within(r.driftErrors, 2)),
    found(r.zeroFound),
    percent(within(r.endErrors, 2)),
  ]);
}

const table = (titles: string[], lines: string[][]): string =>
  [titles, titles.map(() => "---"), ...lines].map((cells) => `| ${cells.join(" | ")} |`).join("\n");
const text = `${pulls} pulls a row, seeds from ${FIRST} on.\n\n${table(head, rows)}\n\n${table(sure, sureRows)}`;
console.log(text);

if (process.argv.includes("--write")) {
  const page = new URL("../docs/reduction-of-a-pull.md", import.meta.url);
  const [open, close] = ["<!-- recall, made by scripts/plateau-recall.ts -->", "<!-- end of recall -->"];
  const old = readFileSync(page, "utf8");
  const [from, to] = [old.indexOf(open), old.indexOf(close)];
  if (from < 0 || to < from) throw new Error(`${page.pathname} has no place for the table`);
  writeFileSync(page, `${old.slice(0, from + open.length)}\n${text}\n${old.slice(to)}`);
}
