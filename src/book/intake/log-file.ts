import { createHash, type Hash } from "node:crypto";
import { closeSync, fstatSync, openSync, readSync } from "node:fs";
import { type EncodingGuess, guessEncoding, HEAD_BYTES, narrow } from "../../log/index.ts";
import { InputError } from "../../quantity/index.ts";

/** Bytes read from the disk at a time. */
const PIECE = 1 << 20;

const UNREADABLE: Record<string, string> = {
  ENOENT: "no such file",
  EISDIR: "a folder",
  EACCES: "not permitted to read",
};

/**
 * A file of a log, read from front to back in pieces, with the SHA-256 of all that has been read. Its readers see one
 * byte a character: UTF-16 is narrowed on the way. Positions count bytes of the file as it lies on the disk.
 */
export class LogFile {
  /** What it is called in errors. */
  readonly path: string;
  readonly size: number;
  readonly head: Uint8Array;
  readonly encoding: EncodingGuess;
  private readonly file: number;

  /** @param place what errors call it. @throws InputError when it cannot be read. */
  constructor(path: string, place = path) {
    this.path = place;
    try {
      this.file = openSync(path, "r");
    } catch (error) {
      throw unreadable(place, error);
    }
    try {
      const status = fstatSync(this.file);
      if (status.isDirectory()) throw Object.assign(new Error("a folder"), { code: "EISDIR" });
      this.size = status.size;
      const head = new Uint8Array(Math.min(HEAD_BYTES, this.size));
      this.head = head.subarray(0, this.fill(head, 0, head.length, 0));
      this.encoding = guessEncoding(this.head);
    } catch (error) {
      closeSync(this.file);
      throw unreadable(place, error);
    }
  }

  /** True when `head` is all of it. */
  get whole(): boolean {
    return this.head.length === this.size;
  }

  close(): void {
    closeSync(this.file);
  }

  /** All of the file as bytes. */
  all(): Uint8Array {
    const bytes = new Uint8Array(this.size);
    return bytes.subarray(0, this.fill(bytes, 0, bytes.length, 0));
  }

  /** The file as text, piece by piece; `to`: bytes of the file up to the end of the piece. */
  *texts(): Generator<{ readonly text: string; readonly to: number }> {
    const decoder = new TextDecoder(this.encoding.encoding);
    const buffer = new Uint8Array(PIECE);
    for (let at = 0; at < this.size; ) {
      const n = this.fill(buffer, 0, Math.min(PIECE, this.size - at), at);
      if (n === 0) break;
      at += n;
      yield { text: decoder.decode(buffer.subarray(0, n), { stream: true }), to: at };
    }
    yield { text: decoder.decode(), to: this.size };
  }

  /**
   * SHA-256 of the file's first bytes, up to each of `positions` (rising) that lies within it. A position past the end
   * has none.
   */
  prefixHashes(positions: readonly number[]): Map<number, string> {
    const found = new Map<number, string>();
    const hash = createHash("sha256");
    const buffer = new Uint8Array(PIECE);
    let at = 0;
    for (const position of [...positions].sort((a, b) => a - b)) {
      if (position > this.size) break;
      while (at < position) {
        const n = this.fill(buffer, 0, Math.min(PIECE, position - at), at);
        if (n === 0) return found;
        hash.update(buffer.subarray(0, n));
        at += n;
      }
      found.set(position, hash.copy().digest("hex"));
    }
    return found;
  }

  /** The rest of the file behind `position`, stretch by stretch. */
  stretches(position: number): Stretches {
    return new Stretches(this, position);
  }

  /** Fills a buffer from the file at `position`. @returns bytes read */
  fill(buffer: Uint8Array, from: number, length: number, position: number): number {
    let n = 0;
    while (n < length) {
      const read = readSync(this.file, buffer, from + n, length - n, position + n);
      if (read === 0) break;
      n += read;
    }
    return n;
  }
}

/** The rest of a file, stretch by stretch. What was not taken of one comes again at the front of the next. */
export class Stretches {
  /** One byte a character. */
  bytes: Uint8Array;
  to = 0;
  /** True when the file ends at `to`. */
  final = false;
  /** Bytes of the file up to the last character taken, and their hash. */
  position: number;
  private readonly file: LogFile;
  private readonly hash: Hash;
  private readonly raw: Uint8Array;
  private rawEnd = 0;
  private read: number;

  constructor(file: LogFile, position: number) {
    this.file = file;
    this.position = position;
    this.read = position;
    this.raw = new Uint8Array(PIECE);
    this.bytes = file.encoding.unit === 1 ? this.raw : new Uint8Array(PIECE / 2);
    this.hash = createHash("sha256");
    for (let at = 0; at < position; ) {
      const n = file.fill(this.raw, 0, Math.min(PIECE, position - at), at);
      if (n === 0) break;
      this.hash.update(this.raw.subarray(0, n));
      at += n;
    }
  }

  /** Reads on until the buffer is full or the file ends. */
  next(): void {
    const { file, raw } = this;
    const n = file.fill(raw, this.rawEnd, raw.length - this.rawEnd, this.read);
    this.read += n;
    this.rawEnd += n;
    // A file that grows while it is read ends where it ended when it was opened.
    this.final = n === 0 || this.read >= file.size;
    if (file.encoding.unit === 1) {
      this.bytes = raw;
      this.to = this.rawEnd;
    } else this.to = narrow(raw, 0, this.rawEnd, file.encoding.encoding, this.bytes);
  }

  /** Marks the first `count` characters as taken. */
  taken(count: number): void {
    const { unit } = this.file.encoding;
    // The odd byte behind the last UTF-16 unit goes with it.
    const rawCount = this.final && count === this.to ? this.rawEnd : count * unit;
    this.hash.update(this.raw.subarray(0, rawCount));
    this.raw.copyWithin(0, rawCount, this.rawEnd);
    this.rawEnd -= rawCount;
    this.position += rawCount;
  }

  /** SHA-256 of the file up to `position`. */
  digest(): string {
    return this.hash.copy().digest("hex");
  }
}

function unreadable(path: string, error: unknown): unknown {
  const { code } = error as NodeJS.ErrnoException;
  if (code === undefined) return error;
  return new InputError(path, UNREADABLE[code] ?? `cannot be read (${code})`, "a readable file is expected");
}
