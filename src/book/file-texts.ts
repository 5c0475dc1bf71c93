/** Texts of files that records keep whole: each is read before it is kept, so that what is asked of it later can be. */

import type { Kept, Kind } from "../record/index.ts";
import { readRig } from "../rode/index.ts";
import { readBoat } from "../sea/index.ts";

const READERS: Partial<Record<Kind, (text: string, place: string) => unknown>> = {
  rigVersion: readRig,
  boat: readBoat,
};

/**
 * @param fields what is to be written; a text that stands already may be said again, whatever earlier programs let in
 * @throws InputError as the reader of such a file tells it
 */
export function readFileTexts(
  kind: Kind,
  fields: ReadonlyMap<string, Kept>,
  standing: ReadonlyMap<string, Kept>,
  place: string,
): void {
  const kept = fields.get("file") ?? null;
  if (kept === null || kept === standing.get("file")) return;
  READERS[kind]?.(JSON.parse(kept) as string, `${place}.file`);
}
