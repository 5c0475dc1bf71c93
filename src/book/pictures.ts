import { createHash } from "node:crypto";
import { InputError } from "../quantity/index.ts";
import type { FieldsOf } from "../record/index.ts";
import { asked, type Context, writing } from "./context.ts";
import { writeRecords } from "./records.ts";

/** Files up to this size are copied in; longer clips are kept by reference, bytes. */
export const COPIED_AT_MOST = 200 * 2 ** 20;

/**
 * Keeps a picture or a clip: by reference, or with its bytes copied into the book (the same bytes only once).
 * @returns the picture's id
 */
export function addPicture(context: Context, set: FieldsOf<"picture">, bytes?: Uint8Array): string {
  if (bytes === undefined && !set.reference)
    throw new InputError("picture.reference", "", "a path or an address, or the file itself, is expected");
  if (bytes !== undefined && bytes.length > COPIED_AT_MOST)
    throw new InputError(
      "picture",
      `${bytes.length} bytes`,
      `at most ${COPIED_AT_MOST} are copied in: keep a longer clip by reference`,
    );
  return writing(context, () => {
    const copy = bytes && keepFile(context, bytes);
    return writeRecords(context, [{ kind: "picture", set: copy ? { ...set, copy } : set }], "add picture").ids[0]!;
  });
}

function keepFile(context: Context, bytes: Uint8Array): string {
  const sha256 = createHash("sha256").update(bytes).digest("hex");
  context.driver.run("INSERT INTO file (sha256, size, bytes) VALUES (?, ?, ?) ON CONFLICT DO NOTHING", [
    sha256,
    bytes.length,
    bytes,
  ]);
  return sha256;
}

/** The bytes copied in under this hash; undefined when there are none. */
export function fileBytes(context: Context, sha256: string): Uint8Array | undefined {
  return asked(
    context,
    () => context.driver.get<{ bytes: Uint8Array }>("SELECT bytes FROM file WHERE sha256 = ?", [sha256])?.bytes,
  );
}
