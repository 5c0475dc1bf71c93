import { randomBytes } from "node:crypto";
import { closeSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync, writeSync } from "node:fs";
import { dirname } from "node:path";

/** Writes a file whole or not at all, on disk when this returns, readable by this user only. */
export function writePrivately(path: string, text: string): void {
  mkdirSync(dirname(path), { recursive: true, mode: 0o700 });
  const beside = `${path}.${randomBytes(4).toString("hex")}.part`;
  const target = openSync(beside, "wx", 0o600);
  try {
    try {
      writeSync(target, text);
      fsyncSync(target);
    } finally {
      closeSync(target);
    }
    renameSync(beside, path);
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  }
}
