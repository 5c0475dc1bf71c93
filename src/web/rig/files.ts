/** Rig files read and written; comes only when a file does (the schema and YAML weigh as much as the rest of the bench). */
import { InputError } from "../../quantity/index.ts";
import { type Rig, readRig, rigToFile } from "../../rode/index.ts";

export type ReadRigFile =
  | { readonly kind: "read"; readonly rig: Rig }
  | { readonly kind: "refused"; readonly line: string };

export function readRigText(text: string, place: string): ReadRigFile {
  try {
    return { kind: "read", rig: readRig(text, place) };
  } catch (error) {
    if (error instanceof InputError) return { kind: "refused", line: error.message };
    throw error;
  }
}

export const writeRigText = (rig: Rig): string => rigToFile(rig);
