// How fast a stretch of a long log is read for a picture of it, and how much room the log takes.
//   node --import tsx bench/book-view.ts [ROWS=10000000]
// Printed as shares of one frame of 60 a second: a view that takes less than 1 never holds a pan up.
import { mkdtempSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { newBook } from "../src/book/index.ts";
import { rng } from "../src/statistics/index.ts";

const ROWS = Number(process.argv[2] ?? 1e7);
const BATCH = 81_920;
const FRAME_ms = 1000 / 60;
const at = mkdtempSync(join(tmpdir(), "rodebench-view-"));
const book = newBook(join(at, "long.book"), { title: "Long" }, { backups: false });
const stream = rng(1);
const { log } = book.logs.open({
  name: "cell",
  channels: [
    { name: "load", quantity: "force", unit: "N", precision: "single" },
    { name: "angle", quantity: "angle", unit: "deg", precision: "single" },
  ],
});
let begun = performance.now();
for (let from = 0; from < ROWS; from += BATCH) {
  const count = Math.min(BATCH, ROWS - from);
  const times = new Float64Array(count);
  const load = new Float64Array(count);
  const angle = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    times[i] = Math.round((1.9e9 + (from + i) / 100) * 100) / 100;
    // A cell that tells whole newtons, an angle to a tenth.
    load[i] = Math.round(2000 + 900 * Math.sin((from + i) / 5000) + 20 * stream.normal());
    angle[i] = Math.round(80 + 30 * Math.sin((from + i) / 7000) + stream.normal()) / 10;
  }
  book.logs.append(log, { times, columns: { load, angle } }, { from, to: from + count });
}
const write_s = (performance.now() - begun) / 1000;
const bytes = statSync(book.path).size + statSync(`${book.path}-wal`).size;
process.stdout.write(
  `${ROWS} rows written in ${write_s.toFixed(1)} s, ${(ROWS / write_s / 1e6).toFixed(2)} million a second, ${(bytes / ROWS).toFixed(2)} bytes a row\n`,
);

const span = ROWS / 100;
for (const share of [1, 0.1, 0.01, 0.001, 1e-4]) {
  const took: number[] = [];
  for (let i = 0; i < 60; i++) {
    // A pan: sixty stretches side by side.
    const from_s = 1.9e9 + (1 - share) * span * (i / 60);
    begun = performance.now();
    book.logs.view(log, { from_s, to_s: from_s + share * span, points: 2000 });
    took.push(performance.now() - begun);
  }
  took.sort((a, b) => a - b);
  const frames = (ms: number) => (ms / FRAME_ms).toFixed(2);
  process.stdout.write(
    `a view of ${share * 100} %: median ${frames(took[30]!)} frames, slowest ${frames(took[59]!)} (${took[59]!.toFixed(1)} ms)\n`,
  );
}
begun = performance.now();
const soundness = book.check();
process.stdout.write(`checked whole in ${((performance.now() - begun) / 1000).toFixed(1)} s: ${soundness.kind}\n`);
process.stdout.write(`peak memory ${(process.resourceUsage().maxRSS / 1024).toFixed(0)} MB\n`);
book.close();
rmSync(at, { recursive: true, force: true });
