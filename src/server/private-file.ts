import { randomBytes } from "node:crypto";
import { closeSync, fsyncSync, openSync, renameSync, rmSync, writeSync } from "node:fs";
import { dirname } from "node:path";
import { makeFolders } from "../book/index.ts";

/** Writes a file whole or not at all, on disk when this returns, readable by this user only. */
export function writePrivately(path: string, text: string): void {
  makeFolders(dirname(path), 0o700);
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
    syncFolder(dirname(path));
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  }
}

/** Has the disk keep a folder's list of names. On Windows the file system does so by itself and offers no such call. */
export function syncFolder(path: string): void {
  if (process.platform === "win32") return;
  const folder = openSync(path, "r");
  try {
    fsyncSync(folder);
  } finally {
    closeSync(folder);
  }
}
