import { lstatSync } from "node:fs";
import { dirname, join } from "node:path";
import { InputError } from "../quantity/index.ts";

/**
 * Where a file of a folder of open files lies; undefined when there is none. The folder may come from anybody: a link
 * in it could have any file of this computer read into the book, and what is no plain file could be waited on for ever.
 * @param name one of the names an export gives, checked before
 * @throws InputError for a link, or anything but a plain file
 */
export function fileIn(folder: string, name: string): string | undefined {
  const path = join(folder, name);
  for (const part of dirname(name) === "." ? [name] : [dirname(name), name]) {
    const found = lstatSync(join(folder, part), { throwIfNoEntry: false });
    if (found === undefined) return undefined;
    if (found.isSymbolicLink())
      throw new InputError(join(folder, part), "a link", "a plain file in the folder is expected");
    if (part === name ? !found.isFile() : !found.isDirectory())
      throw new InputError(join(folder, part), "no plain file", "a plain file in the folder is expected");
  }
  return path;
}
