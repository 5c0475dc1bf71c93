import { randomBytes } from "node:crypto";
import { open, readFile, rename, rm } from "node:fs/promises";
import { resolve } from "node:path";
import { InputError } from "../quantity/index.ts";
import type { Io } from "./io.ts";

const UNREADABLE: Record<string, string> = {
  ENOENT: "no such file",
  EISDIR: "a folder",
  EACCES: "not permitted to read",
};

/** The machine as a terminal gives it. */
export function terminalIo(cwd = process.cwd()): Io {
  const stop = new AbortController();
  process.once("SIGINT", () => stop.abort());
  return {
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
    read: async (path) => {
      if (path === "-") return readStandardInput();
      try {
        return await readFile(resolve(cwd, path), "utf8");
      } catch (error) {
        throw new InputError(
          path,
          UNREADABLE[(error as NodeJS.ErrnoException).code ?? ""] ?? "cannot be read",
          "a readable file is expected",
        );
      }
    },
    write: async (path, content) => {
      const target = resolve(cwd, path);
      const beside = `${target}.${randomBytes(4).toString("hex")}.part`;
      try {
        const file = await open(beside, "wx");
        try {
          await file.writeFile(content);
          await file.sync();
        } finally {
          await file.close();
        }
        await rename(beside, target);
      } catch (error) {
        await rm(beside, { force: true });
        throw new InputError(
          path,
          `cannot be written (${(error as NodeJS.ErrnoException).code ?? "unknown cause"})`,
          "a path in a writable folder is expected",
        );
      }
    },
    cwd,
    isTerminal: process.stderr.isTTY === true,
    stop: stop.signal,
  };
}

async function readStandardInput(): Promise<string> {
  const chunks: Buffer[] = [];
  for await (const chunk of process.stdin) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks).toString("utf8");
}
