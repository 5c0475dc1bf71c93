import { open, readFile } from "node:fs/promises";
import { resolve } from "node:path";
import { InputError } from "../quantity/index.ts";
import { diskFull } from "./disk-full.ts";
import { exit } from "./exit.ts";
import type { Io } from "./io.ts";
import { textOfBytes } from "./text-of-bytes.ts";
import { unreadable } from "./unreadable.ts";
import { writeWhole } from "./write-whole.ts";

/** The machine as a terminal gives it. */
export function terminalIo(cwd = process.cwd()): Io {
  const stop = new AbortController();
  let listens = false;
  const out = spoken(process.stdout, stop);
  const err = spoken(process.stderr, stop);
  return {
    out,
    err,
    redraw: (line) => err(`\r\u001b[K${line}`),
    read: async (path) => {
      if (path === "-") return readStandardInput();
      try {
        return await textOfBytes(await readFile(resolve(cwd, path)));
      } catch (error) {
        throw unreadable(path, error);
      }
    },
    pieces: async (path) => {
      if (path === "-") return { bytes: process.stdin as AsyncIterable<Buffer> };
      try {
        const file = await open(resolve(cwd, path), "r");
        const { size } = await file.stat();
        return { size, bytes: file.createReadStream({ highWaterMark: 1 << 20 }) as AsyncIterable<Buffer> };
      } catch (error) {
        throw unreadable(path, error);
      }
    },
    write: async (path, content) => {
      const target = resolve(cwd, path);
      try {
        await writeWhole(target, content);
      } catch (error) {
        if (diskFull(error) !== undefined) throw Object.assign(error as Error, { path });
        throw new InputError(
          path,
          `cannot be written (${(error as NodeJS.ErrnoException).code ?? "unknown cause"})`,
          "a path in a writable folder is expected",
        );
      }
    },
    cwd,
    isTerminal: process.stderr.isTTY === true,
    // Only who asks is told of ctrl-c and ends by itself; what reckons without a pause is ended by the system, at once.
    get stop() {
      if (!listens) process.once("SIGINT", () => stop.abort());
      listens = true;
      return stop.signal;
    },
  };
}

/**
 * Text to a stream. Whoever read it may go away in the middle (`| head`): then the rest is for nobody, work that goes
 * on by itself is stopped, and nothing is wrong. A full disk behind it is told, and ends with its own status.
 */
function spoken(stream: NodeJS.WriteStream, stop: AbortController): (text: string) => void {
  let deaf = false;
  stream.on("error", (error: NodeJS.ErrnoException) => {
    const first = !deaf;
    deaf = true;
    stop.abort();
    if (error.code === "EPIPE" || !first) return;
    process.once("exit", () => {
      process.exitCode = diskFull(error) === undefined ? exit.fault : exit.diskFull;
    });
    if (stream === process.stdout)
      process.stderr.write(`${diskFull({ code: error.code, path: "standard output" }) ?? String(error)}\n`);
  });
  return (text) => {
    if (!deaf) stream.write(text);
  };
}

async function readStandardInput(): Promise<string> {
  const chunks: Buffer[] = [];
  for await (const chunk of process.stdin) chunks.push(chunk as Buffer);
  return textOfBytes(Buffer.concat(chunks));
}
