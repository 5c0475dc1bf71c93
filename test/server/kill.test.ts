import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { newBook, openBook, systemPorts } from "../../src/book/index.ts";
import { idMaker } from "../../src/record/index.ts";

const KILLS = 10;
const newId = idMaker(systemPorts);

describe("no data is lost on a kill at any moment", () => {
  it(`after each of ${KILLS} kills every acknowledged write is in the book, and the book is sound`, async () => {
    const path = join(mkdtempSync(join(tmpdir(), "kill-")), "test.book");
    newBook(path, { title: "Killed often" }).close();
    const acknowledged = new Map<string, string>();
    let least = 0;
    for (let kill = 0; kill < KILLS; kill++) {
      const { child, address } = await startBench(path);
      // Four writers at once; killed among the first writes or far into them, counted in writes and not in time, so
      // that a slow machine is killed as deep into its work as a fast one.
      const killAfter = acknowledged.size + 1 + 9 * kill;
      least = killAfter;
      const shoot = () => {
        if (acknowledged.size >= killAfter) setTimeout(() => child.kill("SIGKILL"), kill % 4);
      };
      await Promise.all([1, 2, 3, 4].map(() => writeUntilKilled(child, address, acknowledged, shoot)));
      await ended(child);
      expect(child.signalCode).toBe("SIGKILL");
      const book = openBook(path, { backups: false });
      expect(book.check()).toMatchObject({ kind: "sound" });
      for (const [id, text] of acknowledged) expect(book.get("note", id)?.text).toBe(text);
      book.close();
    }
    expect(acknowledged.size).toBeGreaterThanOrEqual(least);
  });
});

/** Writes notes until the bench is gone; only answers that came are acknowledged. */
async function writeUntilKilled(
  child: ChildProcess,
  address: string,
  acknowledged: Map<string, string>,
  then: () => void,
): Promise<void> {
  for (let n = 0; ; n++) {
    const id = newId();
    const text = `note ${n} `.repeat(1 + (n % 50));
    try {
      const answer = await fetch(`${address}/api/1/records/note/${id}`, {
        method: "PUT",
        headers: { "content-type": "application/json" },
        body: JSON.stringify({ expected: null, set: { text: text.trim() } }),
      });
      if (answer.status !== 200) throw new Error(`status ${answer.status}: ${await answer.text()}`);
      await answer.json();
      acknowledged.set(id, text.trim());
      then();
    } catch (error) {
      if (error instanceof Error && error.message.startsWith("status")) throw error;
      // A connection that rested too long is let go as well: only a bench that is gone ends the writing.
      if (child.exitCode !== null || child.signalCode !== null) return;
    }
  }
}

function startBench(path: string): Promise<{ child: ChildProcess; address: string }> {
  const script = join(import.meta.dirname, "..", "..", "bench", "server-load.ts");
  const child = spawn(process.execPath, ["--import", "tsx", script, "--serve", path], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  return new Promise((done, fail) => {
    child.stdout!.once("data", (text: Buffer) => done({ child, address: text.toString().trim() }));
    child.once("exit", (code) => fail(new Error(`the bench ended before it began (${code})`)));
  });
}

const ended = (child: ChildProcess): Promise<void> =>
  new Promise((done) =>
    child.exitCode !== null || child.signalCode !== null ? done() : child.once("exit", () => done()),
  );
