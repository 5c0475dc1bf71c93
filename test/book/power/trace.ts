// What trace.c recorded, read back: every act of a program on the files of one folder, in order.
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

export type Step =
  | {
      readonly kind: "open";
      readonly fd: number;
      readonly path: string;
      readonly folder: boolean;
      readonly emptied: boolean;
    }
  | { readonly kind: "write"; readonly fd: number; readonly offset: number; readonly bytes: Buffer }
  | { readonly kind: "truncate"; readonly fd: number; readonly size: number }
  | { readonly kind: "sync"; readonly fd: number }
  | { readonly kind: "rename"; readonly from: string; readonly to: string }
  | { readonly kind: "link"; readonly from: string; readonly to: string }
  | { readonly kind: "unlink"; readonly path: string }
  | { readonly kind: "mkdir"; readonly path: string }
  | { readonly kind: "say"; readonly text: string };

/** Compiles the recorder; why not, where that cannot be done. */
export function buildRecorder(folder: string): { readonly library: string } | { readonly why: string } {
  if (process.platform !== "linux")
    return { why: `calls are recorded by preloading a library, which ${process.platform} does not do` };
  const library = join(folder, "trace.so");
  try {
    const source = fileURLToPath(new URL("trace.c", import.meta.url));
    execFileSync("gcc", ["-shared", "-fPIC", "-O1", "-o", library, source, "-ldl", "-lpthread"], { stdio: "pipe" });
    return { library };
  } catch (error) {
    const missing = (error as NodeJS.ErrnoException).code === "ENOENT";
    if (missing) return { why: "there is no gcc to compile the recorder with" };
    throw error;
  }
}

/** Reads a recording; paths are given from the folder on. A last record cut short by the end of the program is none. */
export function readTrace(file: string, root: string): Step[] {
  const bytes = readFileSync(file);
  const steps: Step[] = [];
  const text = (from: number, length: number) => bytes.toString("utf8", from, from + length);
  const within = (path: string) => path.slice(root.length + 1);
  for (let at = 0; at + 32 <= bytes.length; ) {
    const [op, fd, flags, aLength, bLength] = [0, 4, 8, 12, 16].map((o) => bytes.readUInt32LE(at + o)) as number[];
    const offset = Number(bytes.readBigUInt64LE(at + 24));
    const a = at + 32;
    const b = a + aLength!;
    at = b + bLength!;
    if (at > bytes.length) break;
    steps.push(
      stepOf(op!, fd!, flags!, offset, {
        a: () => within(text(a, aLength!)),
        b: () => within(text(b, bLength!)),
        text: () => text(a, aLength!),
        bytes: () => bytes.subarray(a, b),
      }),
    );
  }
  return steps;
}

interface Strings {
  a(): string;
  b(): string;
  text(): string;
  bytes(): Buffer;
}

function stepOf(op: number, fd: number, flags: number, offset: number, { a, b, text, bytes }: Strings): Step {
  switch (op) {
    case 1:
      return { kind: "open", fd, path: a(), folder: (flags & 1) !== 0, emptied: (flags & 2) !== 0 };
    case 2:
      return { kind: "write", fd, offset, bytes: bytes() };
    case 3:
      return { kind: "truncate", fd, size: offset };
    case 4:
      return { kind: "sync", fd };
    case 5:
      return { kind: "rename", from: a(), to: b() };
    case 6:
      return { kind: "unlink", path: a() };
    case 7:
      return { kind: "link", from: a(), to: b() };
    case 8:
      return { kind: "mkdir", path: a() };
    case 9:
      return { kind: "say", text: text() };
    default:
      throw new Error(`an unknown record in the trace: ${op}`);
  }
}
