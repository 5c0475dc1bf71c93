import { mkdirSync, statSync } from "node:fs";
import { dirname } from "node:path";

/**
 * Makes a folder and those it lies in, one by one. Node's own way (`recursive`) tries for ever where a system says of a
 * folder that is there that nothing can be made in it, as Linux does of /proc.
 * @returns the first folder that was made; undefined where all were there
 * @throws the system's error of the first folder that cannot be made
 */
export function makeFolders(path: string, mode?: number): string | undefined {
  const missing: string[] = [];
  for (let at = path; statSync(at, { throwIfNoEntry: false }) === undefined; at = dirname(at)) {
    missing.push(at);
    if (dirname(at) === at) break;
  }
  for (const at of [...missing].reverse()) {
    try {
      mkdirSync(at, mode === undefined ? {} : { mode });
    } catch (error) {
      // Another program may have made it meanwhile.
      if ((error as NodeJS.ErrnoException).code !== "EEXIST") throw error;
    }
  }
  return missing.at(-1);
}
