import { readFileSync } from "node:fs";

/** The version of this program, from its package file, which lies two folders above this one in source and build alike. */
export function programVersion(): string {
  const file: unknown = JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8"));
  const version = file !== null && typeof file === "object" && "version" in file ? file.version : undefined;
  return typeof version === "string" ? version : "of unknown version";
}
