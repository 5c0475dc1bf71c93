/** What a command may touch of the machine: handed in, so that commands run in tests as they run in a terminal. */
export interface Io {
  /** Writes to standard output. */
  out(text: string): void;
  /** Writes to standard error. */
  err(text: string): void;
  /** Draws the one line of progress anew on a terminal's standard error; an empty text takes it away. */
  redraw(line: string): void;
  /** Reads a file as text, UTF-8 or UTF-16; `-` is standard input. Throws InputError naming the file when it cannot be read. */
  read(path: string): Promise<string>;
  /** The bytes of a file piece by piece, and how many there are where that is known; `-` is standard input. */
  pieces(path: string): Promise<{ readonly size?: number; readonly bytes: AsyncIterable<Uint8Array> }>;
  /** Writes a whole file or nothing (through a temporary beside it). */
  write(path: string, content: string | Uint8Array): Promise<void>;
  /** Folder that relative paths start from. */
  readonly cwd: string;
  /** True when standard error is a terminal: progress may redraw a line. */
  readonly isTerminal: boolean;
  /** Aborted when the user asks to stop (ctrl-c). */
  readonly stop: AbortSignal;
}
