/** Files that a file names: they lie beside it, wherever that is, unless they are named from the root of a disk. */
import { dirname, isAbsolute, join, win32 } from "node:path";
import { InputError } from "../quantity/index.ts";
import type { Io } from "./io.ts";

/**
 * @param file the path of the file that names the other; `-` is standard input, beside which is where the user stands
 * @param named as it stands there; a path without a slash may have Windows' own strokes
 */
export function besideFile(file: string, named: string): string {
  // `\x` alone is from the root of a disk on Windows only: there isAbsolute knows it.
  if (isAbsolute(named) || /^[A-Za-z]:[\\/]|^\\\\/.test(named)) return named;
  const path = named.includes("/") ? named : named.split(win32.sep).join("/");
  return file === "-" ? path : join(dirname(file), path);
}

/**
 * Its text, and what errors within it call it.
 * @param naming where it is named: told with a file that cannot be read
 * @throws InputError
 */
export async function readBeside(
  file: string,
  named: string,
  naming: string,
  io: Io,
): Promise<{ readonly text: string; readonly place: string }> {
  const place = besideFile(file, named);
  try {
    return { text: await io.read(place), place };
  } catch (error) {
    throw error instanceof InputError ? error.within(naming) : error;
  }
}
