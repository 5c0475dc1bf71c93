/** A run file and the rig it names, read together. */
import { basename } from "node:path";
import { type Run, readRun } from "../pull/index.ts";
import { InputError } from "../quantity/index.ts";
import { type Rig, readRig } from "../rode/index.ts";
import { readBeside } from "./beside.ts";
import type { Io } from "./io.ts";
import { placeOf } from "./options.ts";

/** `files`: the names of the files read, without their folders. */
export async function runAt(path: string, io: Io): Promise<{ run: Run; rig: Rig; files: string[] }> {
  const place = placeOf(path);
  const { run, rig } = readRun(await io.read(path), place);
  const own = path === "-" ? placeOf(path) : basename(path);
  if (rig.kind === "within") return { run, rig: rig.rig, files: [own] };
  if (rig.path === "-") throw new InputError(`${place}: rig`, "-", "the path of a rig file is expected");
  // The rig lies beside the run, wherever that is.
  const beside = await readBeside(path, rig.path, `${place}: rig`, io);
  return { run, rig: readRig(beside.text, beside.place), files: [own, basename(beside.place)] };
}
