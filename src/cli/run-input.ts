/** A run file and the rig it names, read together. */
import { dirname, join } from "node:path";
import { type Run, readRun } from "../pull/index.ts";
import { InputError } from "../quantity/index.ts";
import { type Rig, readRig } from "../rode/index.ts";
import type { Io } from "./io.ts";
import { placeOf } from "./options.ts";

export async function runAt(path: string, io: Io): Promise<{ run: Run; rig: Rig }> {
  const place = placeOf(path);
  const { run, rig } = readRun(await io.read(path), place);
  if (rig.kind === "within") return { run, rig: rig.rig };
  if (rig.path === "-") throw new InputError(`${place}: rig`, "-", "the path of a rig file is expected");
  // The rig lies beside the run, wherever that is.
  const beside = path === "-" ? rig.path : join(dirname(path), rig.path);
  return { run, rig: readRig(await io.read(beside), beside) };
}
