// Works on a book until it is killed. Told on standard output: "ready", then a line for each thing done, once it is done.
import { writeSync } from "node:fs";
import { join } from "node:path";
import { newBook, openBook, restoreBook } from "../../src/book/index.ts";
import { LiveBuffer } from "../../src/book/intake/live-buffer.ts";
import { BATCH, CHANNELS, COPIES, type Job, reading, rowsFrom } from "./kill-job.ts";

const [job, at] = process.argv.slice(2) as [Job, string];
const path = join(at, "a.book");
const say = (line: string): void => void writeSync(1, `${line}\n`);

const jobs: Record<Job, () => void> = {
  record: () => {
    const book = openBook(path);
    const { log } = book.logs.open({ name: "cell", channels: CHANNELS, fingerprint: "f" });
    say("ready");
    for (let i = book.logs.progress(log).rows; ; i++) {
      book.logs.record(log, rowsFrom(i, 1));
      say(`${i}`);
    }
  },
  // A capture that cannot write into the book, as another program holds it.
  live: () => {
    const book = openBook(path, { backups: false });
    const log = { name: "cell", channels: CHANNELS, fingerprint: "f" };
    const buffer = new LiveBuffer(book, log, book.logs.open(log).rows);
    say("ready");
    for (let i = 0; ; i++) {
      buffer.append(rowsFrom(i, 1 + (i % 3 === 2 ? 200 : 0)));
      if (i % 3 === 2) i += 200;
      say(`${i}`);
    }
  },
  import: () => {
    const book = openBook(path);
    const { log, position } = book.logs.open({ name: "cell", channels: CHANNELS, fingerprint: "f" });
    say("ready");
    for (let from = position; ; from += BATCH) {
      book.logs.append(log, rowsFrom(from, BATCH), { from, to: from + BATCH, state: { line: from + BATCH } });
      say(`${from + BATCH - 1}`);
    }
  },
  migrate: () => {
    say("ready");
    for (let i = 0; i < COPIES; i++) {
      openBook(join(at, `old${i}.book`), { backups: false }).close();
      say(`${i}`);
    }
    setInterval(() => undefined, 1000);
  },
  backup: () => {
    // The first backup of all, on a book nothing was written into since it was opened: nothing else has the disk keep names.
    const book = openBook(path, { backups: false });
    say("ready");
    for (let i = 0; ; i++) {
      say(book.backup().name);
      book.add("note", { text: `note ${i}` });
    }
  },
  write: () => {
    const book = openBook(path);
    say("ready");
    for (let i = 0; ; i++) {
      const id = book.add("site", { name: `site ${i}` });
      if (i % 5 === 4) book.undo();
      else say(id);
    }
  },
  merge: () => {
    const book = openBook(path);
    const other = openBook(join(at, "b.book"));
    say("ready");
    for (let i = 0; ; i++) {
      other.write(
        Array.from({ length: 20 }, (_, k) => ({ kind: "site", set: { name: `far ${i} ${k}` } })),
        "far sites",
      );
      book.merge(other);
      say(`${20 * (i + 1)}`);
    }
  },
  restore: () => {
    say("ready");
    for (let i = 0; ; i++) {
      restoreBook(path);
      say(`${i}`);
    }
  },
  replace: () => {
    say("ready");
    restoreBook(path);
    say("restored");
    const book = openBook(path);
    for (let i = 0; ; i++) say(book.add("site", { name: `after ${i}` }));
  },
  begin: () => {
    say("ready");
    for (let i = 0; ; i++) {
      newBook(join(at, `new${i}.book`), { title: `${i}` }).close();
      say(`${i}`);
    }
  },
};
// The first reading is computed before the work: what is timed is the book.
reading(0);
jobs[job]();
