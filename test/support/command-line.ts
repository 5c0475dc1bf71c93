/** Runs a command line in process, on the files of the repository and those given; nothing is written unless asked. */
import { readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import type { Io } from "../../src/cli/io.ts";
import { run } from "../../src/cli/run.ts";
import { textOfBytes } from "../../src/cli/text-of-bytes.ts";
import { unreadable } from "../../src/cli/unreadable.ts";
import { InputError } from "../../src/quantity/index.ts";

export const root = join(import.meta.dirname, "../..");

export interface Said {
  readonly out: string;
  readonly err: string;
  /** Both, in the order in which they were said, as a terminal shows them. */
  readonly both: string;
  readonly status: number;
}

/** What of the machine is another than usual. */
export interface Machine extends Partial<Omit<Io, "out" | "err" | "redraw">> {
  /** Called with each text of standard output as it is said. */
  readonly heard?: (text: string) => void;
}

/**
 * @param files texts that stand before the files on the disk; `-` is standard input
 * @param machine the folder it runs in, what becomes of writing, what stops it
 */
export async function rodebench(
  argv: readonly string[],
  files: Readonly<Record<string, string>> = {},
  { heard, ...machine }: Machine = {},
): Promise<Said> {
  const said = { out: "", err: "", both: "" };
  const say = (where: "out" | "err") => (text: string) => {
    said[where] += text;
    said.both += text;
    if (where === "out") heard?.(text);
  };
  const cwd = machine.cwd ?? root;
  const fileBytes = (path: string): Buffer => {
    try {
      return readFileSync(resolve(cwd, path));
    } catch (error) {
      throw unreadable(path, error);
    }
  };
  const io: Io = {
    read: async (path) => {
      if (Object.hasOwn(files, path)) return files[path]!;
      return await textOfBytes(fileBytes(path));
    },
    pieces: async (path) => {
      const given = files[path];
      const bytes = given === undefined ? fileBytes(path) : Buffer.from(given);
      return { size: bytes.length, bytes: inPieces(bytes) };
    },
    write: async (path) => {
      throw new InputError(path, "cannot be written", "a path in a writable folder is expected");
    },
    cwd,
    isTerminal: false,
    stop: new AbortController().signal,
    ...machine,
    out: say("out"),
    err: say("err"),
    redraw: say("err"),
  };
  const status = await run(argv, io);
  return { ...said, status };
}

/** An answer whose lines are not folded: those that go on far in are one with the line above. */
export function unfolded(text: string): string {
  return text.replace(/\n {4,}(?=\S)/g, " ");
}

/** Small pieces, so that what is read has seams. */
async function* inPieces(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += 10_000) yield bytes.subarray(at, at + 10_000);
}
