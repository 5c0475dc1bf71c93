/** What the system says of a path, in one line: nobody's fault in the program, so no stack is told. */
const WORDS: Readonly<Record<string, readonly [wrong: string, expected: string]>> = {
  EACCES: ["not permitted", "a path that may be read and written is expected"],
  EPERM: ["not permitted", "a path that may be read and written is expected"],
  EROFS: ["on a disk that cannot be written", "a path that may be written is expected"],
  ENOENT: ["no such file or folder", "a path in a folder that exists is expected"],
  ENOTDIR: ["part of its path is no folder", "a path in a folder that exists is expected"],
  EISDIR: ["a folder", "a file is expected"],
  EEXIST: ["there is something already", "a name not yet taken is expected"],
  ENOTEMPTY: ["a folder that is not empty", "an empty one is expected"],
  ENAMETOOLONG: ["its name is too long for the disk", "a shorter name is expected"],
  ELOOP: ["links that lead to each other", "a plain path is expected"],
  EMFILE: ["too many files are open", "close some programs and repeat the command"],
  EIO: ["the disk gave an error", "check the disk and repeat the command"],
  EBUSY: ["in use by another program", "close that program or try again"],
};

/** The line; undefined for an error that is not of a path. */
export function fileTrouble(error: unknown): string | undefined {
  const { code, path, syscall } = error as Partial<NodeJS.ErrnoException>;
  if (syscall === undefined || code === undefined || !Object.hasOwn(WORDS, code)) return undefined;
  const [wrong, expected] = WORDS[code]!;
  return `${path ?? "a file"}: ${wrong}; ${expected}`;
}
