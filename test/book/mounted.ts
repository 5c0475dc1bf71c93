import { execFileSync } from "node:child_process";
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { folder } from "./folder.ts";

/** A small disk in memory, mounted for a test; undefined where this user may not mount. */
export function smallDisk(size: string): { path: string; readOnly(): void; release(): void } | undefined {
  const path = join(folder(), "disk");
  mkdirSync(path);
  const mount = (...options: string[]) => execFileSync("/bin/mount", options, { stdio: "pipe" });
  try {
    mount("-t", "tmpfs", "-o", `size=${size}`, "tmpfs", path);
  } catch {
    return undefined;
  }
  return {
    path,
    readOnly: () => void mount("-o", "remount,ro", path),
    release: () => void execFileSync("/bin/umount", ["-l", path], { stdio: "pipe" }),
  };
}

export const whyNoDisk = "this user may not mount a disk in memory";
