import { readFileSync } from "node:fs";
import type { Io } from "../../src/cli/io.ts";
import { run } from "../../src/cli/run.ts";
import { InputError } from "../../src/quantity/index.ts";

export const cautionOnce = "not a promise that anything holds";
export const read = (path: string) => readFileSync(new URL(`../../${path}`, import.meta.url), "utf8");

/** Runs one command on files held in memory. */
export async function said(argv: readonly string[], files: Record<string, string>) {
  const answer = { out: "", err: "", status: -1 };
  const io: Io = {
    out: (text) => {
      answer.out += text;
    },
    err: (text) => {
      answer.err += text;
    },
    read: async (path) => {
      const text = files[path];
      if (text === undefined) throw new InputError(path, "no such file", "a readable file is expected");
      return text;
    },
    write: async () => {
      throw new Error("no file is written");
    },
    cwd: "/",
    isTerminal: false,
    stop: new AbortController().signal,
  };
  answer.status = await run(argv, io);
  return answer;
}
