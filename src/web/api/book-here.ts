/**
 * Which book this device writes for: the one it last saw. The computer may open another while this device is out of reach;
 * what was written for the one before must not end in it.
 */
import { device } from "../state/device.ts";

const KEPT_AS = "id of the book";

/** The id of the book as it was last seen; undefined when none was. */
export async function bookHere(): Promise<string | undefined> {
  const known = await device.get("states", KEPT_AS).catch(() => undefined);
  return typeof known === "string" ? known : undefined;
}

/** Notes the id of the book that answers. */
export const seeBook = (id: string): Promise<void> => device.put("states", KEPT_AS, id).catch(() => undefined);
