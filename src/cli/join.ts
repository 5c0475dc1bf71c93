import { resolve } from "node:path";
import { Command } from "commander";
import { type SweepRow, sweepTotals } from "../motion/index.ts";
import { InputError } from "../quantity/index.ts";
import type { Io } from "./io.ts";
import { answerJson, type Shown, shown } from "./options.ts";
import { openRides, type RidesFile, writeRides } from "./rides-parquet.ts";
import { sweepDocument, sweepText } from "./sweep-text.ts";
import { programVersion } from "./version.ts";

export function joinCommand(io: Io): Command {
  return shown(
    new Command("join")
      .argument("<parts...>", "Parquet files that sweep --shard wrote")
      .option("--into <file>", "the file to write", "rides.parquet"),
  ).action(async (paths: readonly string[], options: Shown & { readonly into: string }) => {
    if (!options.into.endsWith(".parquet"))
      throw new InputError("--into", options.into, "a file that ends in .parquet is expected");
    const parts: RidesFile[] = [];
    for (const path of paths) parts.push(await openRides(resolve(io.cwd, path), path));
    const { name, rides, of } = partsOfOne(parts, paths);
    const held = parts.flatMap((part) => part.of.parts);
    const missing = Array.from({ length: of }, (_, k) => `${k + 1}/${of}`).filter((part) => !held.includes(part));
    const totals = sweepTotals();
    const merged = async function* (): AsyncGenerator<SweepRow> {
      for await (const row of inOrder(parts)) {
        totals.add(row);
        yield row;
      }
    };
    const { fingerprint, version } = parts[0]!.of;
    const joined = missing.length === 0 ? ["1/1"] : held;
    const done = await writeRides(
      resolve(io.cwd, options.into),
      { name, fingerprint, version, rides, parts: joined },
      merged(),
    );
    const told = {
      sweep: name,
      shard: null,
      rides,
      asked: rides,
      done,
      found: 0,
      stopped: false,
      file: options.into,
      folder: null,
      missing,
      cases: totals.cases(),
    };
    if (options.json) answerJson(io, sweepDocument("rodebench/joined@1", told));
    else io.out(sweepText(told, options.units));
  });
}

/** Refuses what does not belong together. @returns the sweep all are parts of */
function partsOfOne(
  parts: readonly RidesFile[],
  paths: readonly string[],
): { name: string; rides: number; of: number } {
  const first = parts[0]!.of;
  const of = Number(first.parts[0]!.split("/")[1]);
  const from = new Map<string, string>();
  parts.forEach((part, i) => {
    const place = paths[i]!;
    if (part.of.version !== programVersion())
      throw new InputError(
        place,
        `made by version ${part.of.version}`,
        `parts made by this version, ${programVersion()}, are expected`,
      );
    if (part.of.fingerprint !== first.fingerprint)
      throw new InputError(place, `a part of ${part.of.name}`, `a part of the same file as ${paths[0]} is expected`);
    for (const one of part.of.parts) {
      const other = from.get(one);
      if (other !== undefined)
        throw new InputError(place, `part ${one}`, `it stands in ${other}: each part once is expected`);
      if (Number(one.split("/")[1]) !== of)
        throw new InputError(place, `part ${one}`, `parts of ${of}, as in ${paths[0]}, are expected`);
      from.set(one, place);
    }
  });
  return { name: first.name, rides: first.rides, of };
}

/** Rows of all parts by the number of their ride; each part has its own in order. */
async function* inOrder(parts: readonly RidesFile[]): AsyncGenerator<SweepRow> {
  const open = await Promise.all(
    parts.map(async (part) => {
      const rows = part.rows();
      return { rows, now: await rows.next() };
    }),
  );
  for (;;) {
    let least: (typeof open)[number] | undefined;
    for (const one of open)
      if (
        !one.now.done &&
        (least === undefined || Number(one.now.value.ride) < Number((least.now.value as SweepRow).ride))
      )
        least = one;
    if (least === undefined) return;
    yield least.now.value as SweepRow;
    least.now = await least.rows.next();
  }
}
