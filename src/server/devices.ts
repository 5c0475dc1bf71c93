import { createHash, randomBytes, timingSafeEqual } from "node:crypto";
import { readFileSync, statSync } from "node:fs";
import { z } from "zod";
import { InputError } from "../quantity/index.ts";
import { idMaker, isId } from "../record/index.ts";
import { writePrivately } from "./private-file.ts";

/** A key not used for this long lets nobody in any more, ms. */
const LIFETIME = 180 * 24 * 3_600_000;
/** The time a device was last seen is written down at most this often, ms. */
const SEEN_EVERY = 3_600_000;
const MOST = 100;

const device = z.strictObject({
  id: z.string().refine(isId),
  name: z.string().min(1).max(60),
  /** SHA-256 of the key, hex. The key itself, 256 random bits, is only on the device. */
  keyDigest: z.string().regex(/^[0-9a-f]{64}$/),
  addedAt: z.number(),
  seenAt: z.number(),
});
const file = z.strictObject({ format: z.literal("rodebench/devices@1"), devices: z.array(device).max(MOST) });

type Kept = z.infer<typeof device>;

/** A device as it is shown: never its key. Times in ms since 1970. */
export interface Device {
  readonly id: string;
  readonly name: string;
  readonly addedAt: number;
  readonly seenAt: number;
}

/**
 * The devices let in to one book, kept in one small file that only this user may read. The file is the truth: what
 * another program writes there (a key withdrawn from a terminal) counts from the next request on.
 */
export class Devices {
  readonly #path: string;
  readonly #now: () => number;
  readonly #newId: () => string;
  #devices: Kept[] = [];
  #seen = "";

  /**
   * @param path the file; empty: nothing is kept past this process
   * @param now milliseconds since 1970
   * @throws InputError when the file is damaged
   */
  constructor(path: string, now: () => number) {
    this.#path = path;
    this.#now = now;
    this.#newId = idMaker({ clock: now, random: (count) => new Uint8Array(randomBytes(count)) });
    this.#look();
  }

  list(): Device[] {
    this.#look();
    return this.#devices.map(({ id, name, addedAt, seenAt }) => ({ id, name, addedAt, seenAt }));
  }

  /** Adds a device and hands out its token, once: `id.key`, the key being 256 random bits. */
  add(name: string): { readonly device: Device; readonly token: string } {
    this.#look();
    if (this.#devices.length >= MOST) {
      throw new InputError("devices", `${MOST} are let in already`, "withdraw one that is no longer used");
    }
    const id = this.#newId();
    const key = randomBytes(32);
    const now = this.#now();
    const kept: Kept = { id, name, keyDigest: digest(key).toString("hex"), addedAt: now, seenAt: now };
    this.#keep([...this.#devices, kept]);
    return { device: { id, name, addedAt: now, seenAt: now }, token: `${id}.${key.toString("base64url")}` };
  }

  /** The device a token belongs to; undefined when there is none, it was withdrawn, or it was not used for half a year. */
  recognise(token: string): Device | undefined {
    this.#look();
    const [id, text, ...more] = token.split(".");
    const key = Buffer.from(text ?? "", "base64url");
    const kept = this.#devices.find((one) => one.id === id);
    const same = timingSafeEqual(digest(key), kept ? Buffer.from(kept.keyDigest, "hex") : NOTHING);
    const now = this.#now();
    if (kept === undefined || !same || key.length !== 32 || more.length > 0 || now > kept.seenAt + LIFETIME)
      return undefined;
    if (now > kept.seenAt + SEEN_EVERY) {
      this.#keep(this.#devices.map((one) => (one.id === id ? { ...one, seenAt: now } : one)));
    }
    return { id: kept.id, name: kept.name, addedAt: kept.addedAt, seenAt: kept.seenAt };
  }

  /** Takes a device's key back, at once; false when there is no such device. */
  withdraw(id: string): boolean {
    this.#look();
    const left = this.#devices.filter((one) => one.id !== id);
    if (left.length === this.#devices.length) return false;
    this.#keep(left);
    return true;
  }

  /** On disk first, then in force: a withdrawn key does not come back with a restart. */
  #keep(devices: Kept[]): void {
    if (this.#path !== "") {
      writePrivately(this.#path, `${JSON.stringify({ format: "rodebench/devices@1", devices }, undefined, 2)}\n`);
      this.#seen = fileState(this.#path);
    }
    this.#devices = devices;
  }

  /** Reads the file again when it is another one than last time. */
  #look(): void {
    if (this.#path === "") return;
    const state = fileState(this.#path);
    if (state === this.#seen) return;
    this.#devices = readDevices(this.#path);
    this.#seen = state;
  }
}

/** Tells one state of a file from another: each is written as a new file and renamed into place. */
function fileState(path: string): string {
  const stat = statSync(path, { throwIfNoEntry: false, bigint: true });
  return stat === undefined ? "none" : `${stat.ino} ${stat.mtimeNs} ${stat.size}`;
}

const NOTHING = Buffer.alloc(32);

function digest(key: Buffer): Buffer {
  return createHash("sha256").update(key).digest();
}

function readDevices(path: string): Kept[] {
  let text: string;
  try {
    text = readFileSync(path, "utf8");
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return [];
    throw new InputError(path, "cannot be read", "the file of the devices let in; take it away to withdraw them all");
  }
  try {
    return file.parse(JSON.parse(text)).devices;
  } catch {
    throw new InputError(path, "damaged", "a rodebench/devices@1 file; take it away to withdraw all devices");
  }
}
