import { randomBytes } from "node:crypto";
import {
  closeSync,
  createWriteStream,
  fsyncSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
} from "node:fs";
import { basename, join } from "node:path";
import { finished } from "node:stream/promises";
import { makeFolders, unpackLog } from "../book/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import { idMaker, isId } from "../record/index.ts";
import { syncFolder } from "./private-file.ts";
import { Refusal } from "./refusals.ts";

/** A file that was sent to the bench and waits to be read into the book. */
export interface SentFile {
  readonly id: string;
  /** What its sender called it, made safe to be a name. */
  readonly name: string;
  readonly size: number;
  readonly path: string;
}

const MOST = 50;
/** Bytes a file's name takes at most: file systems take 255. */
const LONGEST = 200;
/** A file nobody read into the book for this long is let go, ms. */
const LIFETIME = 7 * 24 * 3_600_000;

/**
 * The files that were sent, in a folder of the user's own, each whole: `<folder>/<id>/<name>`. They outlast a kill, so
 * that a reading begun can go on.
 */
export class SentFiles {
  readonly #folder: string;
  readonly #newId: () => string;
  #coming = 0;

  /** @param now milliseconds since 1970; files older than a week are let go here */
  constructor(folder: string, now: () => number) {
    this.#folder = folder;
    this.#newId = idMaker({ clock: now, random: (count) => new Uint8Array(randomBytes(count)) });
    makeFolders(folder, 0o700);
    for (const entry of readdirSync(folder)) {
      const path = join(folder, entry);
      if (!isMade(entry) || !lstatSync(path).isDirectory()) continue;
      if (!isId(entry) || statSync(path).mtimeMs < now() - LIFETIME) rmSync(path, { recursive: true, force: true });
    }
  }

  list(): SentFile[] {
    return readdirSync(this.#folder)
      .filter(isId)
      .sort()
      .flatMap((id) => this.find(id) ?? []);
  }

  find(id: string): SentFile | undefined {
    if (!isId(id)) return undefined;
    const name = namesIn(join(this.#folder, id))[0];
    if (name === undefined || !lstatSync(join(this.#folder, id)).isDirectory()) return undefined;
    const path = join(this.#folder, id, name);
    if (!lstatSync(path).isFile()) return undefined;
    return { id, name, size: statSync(path).size, path };
  }

  /**
   * Takes a file in, piece by piece: on disk and whole when this returns, or not there at all.
   * @throws Refusal 409 when too many wait already
   */
  async take(given: string, parts: AsyncIterable<Uint8Array>): Promise<SentFile> {
    const name = safeName(given);
    // Those still coming in count as well: many sent at once are no more than many sent in turn.
    if (this.list().length + this.#coming >= MOST)
      throw new Refusal(409, "sent files", `${MOST} wait already`, "read or remove some first");
    this.#coming++;
    try {
      return await this.#taken(name, parts);
    } finally {
      this.#coming--;
    }
  }

  async #taken(name: string, parts: AsyncIterable<Uint8Array>): Promise<SentFile> {
    const id = this.#newId();
    // Not an id until it is whole: a kill in between leaves what the next start clears away.
    const part = join(this.#folder, `${id}.part`);
    mkdirSync(part, { mode: 0o700 });
    try {
      const path = join(part, name);
      const out = createWriteStream(path, { flags: "wx", mode: 0o600 });
      const failed = new Promise<never>((_done, fail) => out.once("error", fail));
      failed.catch(() => undefined);
      for await (const bytes of parts) {
        if (!out.write(bytes)) await Promise.race([new Promise<void>((done) => out.once("drain", done)), failed]);
      }
      out.end();
      await finished(out);
      sync(await unpackedIn(part, path, name));
      syncFolder(part);
      renameSync(part, join(this.#folder, id));
      syncFolder(this.#folder);
    } catch (error) {
      rmSync(part, { recursive: true, force: true });
      throw error;
    }
    return this.find(id)!;
  }

  remove(id: string): void {
    if (isId(id)) rmSync(join(this.#folder, id), { recursive: true, force: true });
  }
}

/**
 * What a packed file holds, in its place.
 * @throws InputError for what is no log, such as a spreadsheet, and for a packed file that is cut off
 */
async function unpackedIn(folder: string, path: string, name: string): Promise<string> {
  const unpacked = await unpackLog(path, folder, name);
  if (unpacked.path === path) return path;
  if (unpacked.remarks[0] !== undefined)
    throw new InputError(name, "a packed file that is cut off", "a whole one is expected");
  rmSync(path);
  const held = join(folder, safeName(unpacked.name));
  renameSync(unpacked.path, held);
  return held;
}

/** True for the names this class gives: whatever else lies in the folder is somebody's own. */
const isMade = (entry: string): boolean => isId(entry.replace(/\.part$/, ""));

/** The last part of what a file was called, without anything a path is made of. */
export function safeName(given: string): string {
  const last = basename(given.replaceAll("\\", "/"));
  let name = last
    .replace(/[\p{Cc}<>:"|?*/]/gu, "_")
    .replace(/^\.+/, "")
    .trim()
    .slice(-120)
    // The half of a pair of surrogates, where the cut fell between the two.
    .replace(/^\p{Surrogate}/u, "");
  while (Buffer.byteLength(name) > LONGEST) name = Array.from(name).slice(1).join("");
  if (name === "") throw new Refusal(400, "?name", quoted(given), "the name of a file");
  return name;
}

function namesIn(folder: string): string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}

function sync(path: string): void {
  const file = openSync(path, "r+");
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}
