/** A package as a folder: written whole into a new one, and read back. */
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { dirname, join, relative, resolve, sep } from "node:path";
import { makeFolders } from "../book/index.ts";
import type { PackageFiles } from "../publish/index.ts";
import { InputError } from "../quantity/index.ts";
import type { Io } from "./io.ts";

/** Nothing a series holds comes near it: a folder beyond is another. */
const MOST_FILES = 20_000;
const MOST_BYTES = 1 << 30;

export const sha256 = async (bytes: Uint8Array): Promise<string> => createHash("sha256").update(bytes).digest("hex");

/** @throws InputError when something is there already */
export async function writeFolder(folder: string, files: PackageFiles, io: Io): Promise<void> {
  const whole = resolve(io.cwd, folder);
  if (existsSync(whole) && (!statSync(whole).isDirectory() || readdirSync(whole).length > 0))
    throw new InputError(folder, "there is something already", "a new or empty folder is expected");
  for (const [path, bytes] of files) {
    makeFolders(dirname(join(whole, path)));
    await io.write(join(folder, path), bytes);
  }
}

/** @throws InputError when there is no such folder, or it is no package */
export function readFolder(folder: string, io: Io): PackageFiles {
  const whole = resolve(io.cwd, folder);
  if (!existsSync(join(whole, "datapackage.json")))
    throw new InputError(folder, "no datapackage.json in it", "the folder of a data package is expected");
  const files = new Map<string, Uint8Array>();
  let bytes = 0;
  const read = (at: string): void => {
    for (const entry of readdirSync(at, { withFileTypes: true })) {
      const path = join(at, entry.name);
      if (entry.isDirectory()) read(path);
      // Links are not followed: what they lead to is none of the package's.
      if (!entry.isFile()) continue;
      bytes += statSync(path).size;
      if (files.size >= MOST_FILES || bytes > MOST_BYTES)
        throw new InputError(folder, "more than a package holds", "the folder of a data package alone is expected");
      files.set(relative(whole, path).split(sep).join("/"), new Uint8Array(readFileSync(path)));
    }
  };
  read(whole);
  return files;
}
