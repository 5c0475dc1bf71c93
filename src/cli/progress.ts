import type { Io } from "./io.ts";

/** Between two lines of progress, ms: a terminal's line is redrawn, elsewhere lines add up. */
const TERMINAL_MS = 200;
const ELSEWHERE_MS = 5000;

/** How long a calculation may take before it is spoken of, ms. */
const PATIENCE_MS = 1000;

/** Progress of a calculation, on a terminal's standard error alone, once it has taken a second. */
export function workLine(what: string, io: Io) {
  let next = Date.now() + PATIENCE_MS;
  let drawn = false;
  return {
    show: (done: number, of: number): void => {
      if (!io.isTerminal || Date.now() < next) return;
      next = Date.now() + TERMINAL_MS;
      drawn = true;
      io.redraw(`${what}: ${Math.floor((100 * done) / of)} %; ctrl-c stops`);
    },
    end: (): void => {
      if (drawn) io.redraw("");
    },
  };
}

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
      if (io.isTerminal) io.redraw(text);
      else io.err(`${text}\n`);
    },
    end: (): void => {
      if (drawn && io.isTerminal) io.redraw("");
    },
  };
}
