/** Files that a file names: they lie beside it, wherever that is, unless they are named from the root of a disk. */
import { dirname, isAbsolute, join, win32 } from "node:path";

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
