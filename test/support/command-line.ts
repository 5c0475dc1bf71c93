/** Runs a command line in process, on the files of the repository and those given; nothing is written. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Io } from "../../src/cli/io.ts";
import { run } from "../../src/cli/run.ts";
import { InputError } from "../../src/quantity/index.ts";

export const root = join(import.meta.dirname, "../..");

export interface Said {
  readonly out: string;
  readonly err: string;
  /** Both, in the order in which they were said, as a terminal shows them. */
  readonly both: string;
  readonly status: number;
}

/** @param files texts that stand before the files of the repository; `-` is standard input */
export async function rodebench(argv: readonly string[], files: Readonly<Record<string, string>> = {}): Promise<Said> {
  const said = { out: "", err: "", both: "" };
  const say = (where: "out" | "err") => (text: string) => {
    said[where] += text;
    said.both += text;
  };
  const io: Io = {
    out: say("out"),
    err: say("err"),
    read: async (path) => {
      if (Object.hasOwn(files, path)) return files[path]!;
      try {
        return readFileSync(join(root, path), "utf8");
      } catch {
        throw new InputError(path, "no such file", "a readable file is expected");
      }
    },
    write: async (path) => {
      throw new InputError(path, "cannot be written", "a path in a writable folder is expected");
    },
    cwd: root,
    isTerminal: false,
    stop: new AbortController().signal,
  };
  const status = await run(argv, io);
  return { ...said, status };
}
