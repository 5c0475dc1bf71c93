/** A place's state by way of fields of an address. */
import type { Codec } from "../../src/web/state/address.ts";
import { type Fields, problemLine } from "../../src/web/state/fields.ts";

/** The state that fields hold; an error that names the problems when they hold none. */
export function stateOf<T>(codec: Codec<T>, fields: Fields): T {
  const read = codec.read(fields);
  if (read.kind === "read") return read.state;
  throw new Error(read.kind === "none" ? "no state of the place" : read.problems.map(problemLine).join("\n"));
}

/** Why fields are refused, a line a problem; empty when they are not. */
export function refusalOf<T>(codec: Codec<T>, fields: Fields): readonly string[] {
  const read = codec.read(fields);
  return read.kind === "refused" ? read.problems.map(problemLine) : [];
}
