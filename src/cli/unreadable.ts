import { InputError } from "../quantity/index.ts";

const WHY: Readonly<Record<string, string>> = {
  ENOENT: "no such file",
  EISDIR: "a folder",
  EACCES: "not permitted to read",
};

/** Why a file could not be read, by what the system says of it. */
export function unreadable(path: string, error: unknown): InputError {
  const why = WHY[(error as NodeJS.ErrnoException).code ?? ""] ?? "cannot be read";
  return new InputError(path, why, "a readable file is expected");
}
