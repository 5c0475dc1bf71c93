import type { Io } from "./io.ts";

/** Between two lines of progress, ms: a terminal's line is redrawn, elsewhere lines add up. */
const TERMINAL_MS = 200;
const ELSEWHERE_MS = 5000;

/** Progress of one file on standard error; a file that is read at once shows none. */
export function progressLine(file: string, io: Io) {
  const every = io.isTerminal ? TERMINAL_MS : ELSEWHERE_MS;
  let last = Date.now();
  let drawn = false;
  return {
    show: ({ position, size, rows }: { position: number; size: number; rows: number }): void => {
      const now = Date.now();
      if (now - last < every) return;
      last = now;
      drawn = true;
      const share = size === 0 ? 100 : Math.floor((100 * position) / size);
      const text = `${file}: ${share} %, ${rows} rows; ctrl-c stops, the same command goes on`;
      io.err(io.isTerminal ? `\r\u001b[K${text}` : `${text}\n`);
    },
    end: (): void => {
      if (drawn && io.isTerminal) io.err("\r\u001b[K");
    },
  };
}
