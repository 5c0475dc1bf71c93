/** Finished rides of a sweep on the disk, a small file each: what is done stays done, whatever ends the rest. */
import { mkdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import type { SweepRow } from "../motion/index.ts";
import { InputError } from "../quantity/index.ts";
import { writeWhole } from "./write-whole.ts";

const FORMAT = "rodebench/sweep-ride@1";
/** Files in one folder below: a folder of a million is slow everywhere. */
const IN_FOLDER = 1000;

export interface SweepFolder {
  /** A ride that is done; null where it is not. @throws InputError where it is of another sweep or version */
  readonly read: (ride: number) => Promise<SweepRow | null>;
  readonly write: (row: SweepRow) => Promise<void>;
}

/** @param mark fingerprint and version the rides must have been made with */
export function sweepFolder(
  folder: string,
  place: string,
  mark: { fingerprint: string; version: string },
): SweepFolder {
  const pathOf = (ride: number): { readonly under: string; readonly name: string } => ({
    under: join(folder, "rides", String(Math.floor(ride / IN_FOLDER)).padStart(4, "0")),
    name: `${ride}.json`,
  });
  return {
    async read(ride) {
      const { under, name } = pathOf(ride);
      let text: string;
      try {
        text = await readFile(join(under, name), "utf8");
      } catch (error) {
        if ((error as NodeJS.ErrnoException).code === "ENOENT") return null;
        throw new InputError(place, "cannot be read", "a folder of rides that can be read is expected");
      }
      const known = parsed(text);
      // Cut short or not ours: ridden anew.
      if (known?.format !== FORMAT || known.row?.ride !== ride) return null;
      if (known.fingerprint !== mark.fingerprint || known.version !== mark.version)
        throw new InputError(
          place,
          known.fingerprint === mark.fingerprint ? `rides made by version ${known.version}` : "rides of another sweep",
          "an empty folder is expected, or the rides of this file by this version",
        );
      return known.row;
    },
    async write(row) {
      const { under, name } = pathOf(Number(row.ride));
      await mkdir(under, { recursive: true });
      await writeWhole(join(under, name), `${JSON.stringify({ format: FORMAT, ...mark, row })}\n`);
    },
  };
}

function parsed(text: string): { format?: string; fingerprint?: string; version?: string; row?: SweepRow } | null {
  try {
    const known: unknown = JSON.parse(text);
    return known !== null && typeof known === "object" ? known : null;
  } catch {
    return null;
  }
}
