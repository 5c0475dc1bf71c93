/**
 * Puts realistic one-line faults into a copy of the sources, one at a time, runs the tests of the room, and tells which
 * faults no test saw. docs/mutants.md says how to read the table.
 *
 *     node --import tsx scripts/mutants.ts [--room NAME]… [--file PATH]… [--count 40] [--seed 1] [--wide]
 *         [--slow SECONDS] [--without PART]… [--into FILE.jsonl] [--list]
 *     node --import tsx scripts/mutants.ts --table FILE.jsonl…
 *     node --import tsx scripts/mutants.ts --named
 *
 * --count is a room's; --file takes any part of a path; --wide runs every test that enters the line, not the room's
 * alone; --slow leaves out test files that take longer, so that fewer faults are seen but sooner; --without leaves out test files whose path has this part, beforehand; --into keeps each result as it comes, and what stands there already is not tried again; --list only lists.
 */
import { appendFileSync, existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import ts from "typescript";
import { rng } from "../src/statistics/index.ts";
import { Bench } from "./mutants/bench.ts";
import { type Block, blockAt, marked, SETUP } from "./mutants/cover.ts";
import { allMutants, draw, type Mutant, roomsOf } from "./mutants/draw.ts";
import { EQUAL } from "./mutants/equal.ts";
import { NAMED, type Named } from "./mutants/named.ts";

interface Result {
  readonly room: string;
  readonly file: string;
  readonly line: number;
  readonly slip: string;
  readonly before: string;
  readonly after: string;
  readonly seed: number;
  /** What saw it, or null. */
  readonly seenBy: string | null;
}

const { values: options, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    room: { type: "string", multiple: true, default: [] },
    file: { type: "string", multiple: true, default: [] },
    count: { type: "string", default: "40" },
    seed: { type: "string", default: "1" },
    wide: { type: "boolean", default: false },
    slow: { type: "string", default: "Infinity" },
    without: { type: "string", multiple: true, default: [] },
    into: { type: "string" },
    list: { type: "boolean", default: false },
    table: { type: "boolean", default: false },
    named: { type: "boolean", default: false },
  },
});
const root = join(import.meta.dirname, "..");
const seed = Number(options.seed);
/** Rooms whose tests touch disk, network or globals, or put a module in another's place: each test file runs in a process of its own. */
const APART = new Set(["book", "server", "cli", "web", "log", "record", "rode", "study", "words"]);
/** Tests that lie in no room's folder: run beside the room's own where they use its door. */
const SHARED = /^test\/(published|trade)\//;
/** A run takes up to so many times what it took without a fault, and so many seconds more, before it is called endless. */
const PATIENCE = 5;
const PATIENCE_s = 30;
const tell = (text: string): void => void process.stdout.write(`${text}\n`);
const news = (text: string): void => void process.stderr.write(`${text}\n`);

if (options.named) {
  await triedByName(
    NAMED.filter(({ file }) => options.file.length === 0 || options.file.some((part) => file.includes(part))),
  );
} else if (options.table) {
  table(positionals.flatMap((path) => resultsIn(path)));
} else {
  const rooms = options.room.length > 0 ? options.room : roomsOf(root);
  const unknown = rooms.filter((room) => !roomsOf(root).includes(room));
  if (unknown.length > 0) throw new Error(`no such room: ${unknown.join(", ")}`);
  // All that follows is of the sources as they stand now, whatever becomes of them meanwhile.
  const kept = new Bench(root, false);
  process.once("exit", () => kept.remove());
  for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => process.exit(1));
  const all = allMutants(
    kept.root,
    (file) =>
      rooms.includes(file.split("/")[1]!) &&
      file.split("/").length > 2 &&
      (options.file.length === 0 || options.file.some((part) => file.includes(part))),
  ).filter((mutant) => !isEqual(mutant));
  const results: Result[] = [];
  for (const room of rooms) {
    // Each room has a stream of its own, so that its faults do not hang on which other rooms are asked.
    const random = rng(seed * 1000 + [...room].reduce((sum, sign) => sum + sign.charCodeAt(0), 0));
    const drawn = draw(
      all.filter((mutant) => mutant.room === room),
      Number(options.count),
      random,
    );
    if (options.list) for (const mutant of drawn) tell(line(mutant));
    else results.push(...(await tried(kept.root, room, drawn)));
  }
  if (!options.list) table(results);
}

function isEqual({ room, file, before, after }: Mutant): boolean {
  return EQUAL.some(
    (equal) =>
      equal.room === room &&
      (equal.file === undefined || file.endsWith(equal.file)) &&
      equal.before.test(before) &&
      (equal.after === undefined || equal.after.test(after)),
  );
}

function resultsIn(path: string): Result[] {
  if (!existsSync(path)) return [];
  return readFileSync(path, "utf8")
    .split("\n")
    .filter((text) => text !== "")
    .map((text) => JSON.parse(text) as Result);
}

/** Puts in the faults of the list, each against the tests that must see it. */
async function triedByName(list: readonly Named[]): Promise<void> {
  const bench = new Bench(root, true);
  process.once("exit", () => bench.remove());
  try {
    for (const { what, file, before, after, tests } of list) {
      const text = bench.text(file);
      if (text.split(before).length !== 2) throw new Error(`${file} does not hold once: ${before}`);
      bench.write(file, text.replace(before, after));
      const run = await bench.run(tests, 600);
      bench.write(file, text);
      tell(`${what}\n    ${(run === "endless" ? "does not end" : run.failed) ?? "SURVIVED"}`);
    }
  } finally {
    bench.remove();
  }
}

/** Tries the faults of one room in a copy that is removed at the end. */
async function tried(from: string, room: string, drawn: readonly Mutant[]): Promise<Result[]> {
  const known = options.into === undefined ? [] : resultsIn(options.into);
  const bench = new Bench(from, APART.has(room));
  process.once("exit", () => bench.remove());
  try {
    const { blocks, tests } = await covered(bench, room);
    const results: Result[] = [];
    for (const [i, mutant] of drawn.entries()) {
      const before = known.find((k) => k.seed === seed && line(k) === line(mutant));
      if (before !== undefined) {
        results.push(before);
        continue;
      }
      const block = blockAt(blocks, mutant.file, mutant.start);
      const entering = tests.filter((test) => test.blocks.has(block) && test.seconds <= Number(options.slow));
      const seenBy = entering.length === 0 ? null : await seen(bench, mutant, entering);
      const { file, slip, before: was, after, line: at } = mutant;
      const result: Result = { room, file, line: at, slip, before: was, after, seed, seenBy };
      results.push(result);
      if (options.into !== undefined) appendFileSync(options.into, `${JSON.stringify(result)}\n`);
      const how = seenBy ?? (entering.length === 0 ? "SURVIVED, entered by no test" : "SURVIVED");
      news(`${room} ${i + 1}/${drawn.length}  ${line(mutant)}\n    ${how}`);
    }
    return results;
  } finally {
    bench.remove();
  }
}

interface Covered {
  readonly file: string;
  readonly seconds: number;
  readonly blocks: ReadonlySet<number>;
}

/** Runs the room's tests once on marked sources: which blocks each enters, and how long it takes. */
async function covered(bench: Bench, room: string): Promise<{ blocks: Block[]; tests: Covered[] }> {
  const blocks: Block[] = [];
  const texts = new Map<string, string>();
  const sources = ts.sys
    .readDirectory(join(bench.root, "src", room), [".ts", ".tsx"])
    .filter((path) => !path.endsWith(".gen.ts") && !path.endsWith(".d.ts"));
  for (const path of sources) {
    const file = path.slice(bench.root.length + 1);
    texts.set(file, bench.text(file));
    bench.write(file, marked(file, texts.get(file)!, blocks));
  }
  const tests = ts.sys
    .readDirectory(join(bench.root, "test"), [".test.ts", ".test.tsx"])
    .map((path) => path.slice(bench.root.length + 1))
    .filter((file) => !file.startsWith("test/journeys/") && !options.without.some((part) => file.includes(part)))
    .filter(
      (file) =>
        options.wide ||
        file.startsWith(`test/${room}/`) ||
        (SHARED.test(file) && bench.text(file).includes(`src/${room}/`)),
    );
  bench.write("entered-setup.ts", SETUP);
  bench.setUp(join(bench.root, "entered-setup.ts"));
  const run = await bench.run(tests, 3600);
  bench.setUp(undefined);
  for (const [file, text] of texts) bench.write(file, text);
  if (run === "endless") throw new Error(`${room}: the tests do not end`);
  if (run.failed !== null) news(`${room}: fails without a fault, and is left out: ${run.failing.join(", ")}`);
  const entered = readFileSync(join(bench.root, "entered.jsonl"), "utf8")
    .split("\n")
    .filter((text) => text !== "")
    .map((text) => JSON.parse(text) as { test: string; blocks: number[] });
  const own = (test: Covered): number => (test.file.startsWith(`test/${room}/`) ? 0 : 1);
  return {
    blocks,
    tests: entered
      .filter(({ test }) => !run.failing.includes(test.slice(bench.root.length + 1)))
      .map(({ test, blocks: of }) => ({
        file: test.slice(bench.root.length + 1),
        seconds: (run.took[test] ?? 0) / 1000,
        blocks: new Set(of),
      }))
      .sort((a, b) => own(a) - own(b) || a.seconds - b.seconds),
  };
}

/** The claim that saw the fault, or null. */
async function seen(bench: Bench, mutant: Mutant, tests: readonly Covered[]): Promise<string | null> {
  const text = bench.text(mutant.file);
  bench.write(mutant.file, text.slice(0, mutant.start) + mutant.text + text.slice(mutant.end));
  const usual = tests.reduce((sum, test) => sum + test.seconds, 0);
  const run = await bench.run(
    tests.map((test) => test.file),
    PATIENCE * usual + PATIENCE_s,
  );
  bench.write(mutant.file, text);
  return run === "endless" ? "does not end" : run.failed;
}

function line(of: Pick<Mutant, "file" | "line" | "slip" | "before" | "after">): string {
  return `${of.file}:${of.line}  [${of.slip}]  ${of.before}  →  ${of.after}`;
}

function table(results: readonly Result[]): void {
  tell("| room | faults | died | survived | per cent |");
  tell("| --- | ---: | ---: | ---: | ---: |");
  const row = (name: string, of: readonly Result[]): void => {
    const died = of.filter((result) => result.seenBy !== null).length;
    tell(`| ${name} | ${of.length} | ${died} | ${of.length - died} | ${((100 * died) / of.length).toFixed(0)} |`);
  };
  for (const room of new Set(results.map((result) => result.room)))
    row(
      room,
      results.filter((result) => result.room === room),
    );
  row("all", results);
  tell("");
  for (const result of results) if (result.seenBy === null) tell(line(result));
}
