/**
 * A series as a package others can work with: what was read, what was worked out from it, the rigs, the answers, how each
 * number was made, and the descriptor. Names, places and days are the tester's own; people, remarks and positions are left
 * out unless chosen.
 */

import { plainText } from "../../quantity/index.ts";
import type { RecordOf } from "../../record/index.ts";
import { HOW_JUDGED, type Private, pullColumns } from "./columns.ts";
import { type About, descriptorOf, type ResourceFile } from "./descriptor.ts";
import { type PackagedPull, rowOfPull } from "./pull-rows.ts";
import { logTable, type RawLog } from "./raw-logs.ts";
import { readmeOf } from "./readme.ts";
import { type TableRow, tableCsv, tableParquet } from "./table.ts";

/** The files of a package by their paths. */
export type PackageFiles = ReadonlyMap<string, Uint8Array>;

/** What goes into a package. */
export interface PackageChoice {
  readonly about: About;
  readonly pulls: readonly PackagedPull[];
  readonly sites: readonly RecordOf<"site">[];
  readonly chosen: readonly Private[];
  /** Logs as they were read, where they are wished. */
  readonly logs?: readonly RawLog[];
  /** Seed of what is drawn; kept in the package, so that the answers can be worked out again. */
  readonly seed: number;
  /** The answers of comparing, from the table of pulls as it stands in the package. */
  readonly answersOf: (csv: string) => Promise<object>;
  readonly sha256: (bytes: Uint8Array) => Promise<string>;
}

/** A package made, and what of the series is not in it. */
export interface MadePackage {
  readonly files: PackageFiles;
  readonly rows: number;
  /** Pulls that say nothing that can be compared. */
  readonly leftOut: number;
  /** Channels of logs left out, as they tell places: by name. */
  readonly channelsLeftOut: readonly string[];
}

export const PULLS_FILE = "pulls.csv";
export const ANSWERS_FILE = "answers.json";
export const DESCRIPTOR_FILE = "datapackage.json";

/** The files of a package; the same choice gives the same bytes. */
export async function dataPackage(choice: PackageChoice): Promise<MadePackage> {
  const { about, pulls, chosen } = choice;
  const rigs = new Map<string, string>();
  const rigPath = (file: string | null): string | null => {
    if (file === null) return null;
    if (!rigs.has(file)) rigs.set(file, `rigs/rig-${rigs.size + 1}.yaml`);
    return rigs.get(file)!;
  };
  const rows: TableRow[] = [];
  const numbers = new Map<string, number>();
  for (const pull of pulls) {
    const names = { number: rows.length + 1, rig: rigPath(pull.about.rigFile), tester: about.by };
    const row = rowOfPull(pull, names, chosen);
    if (row === null) continue;
    rows.push(row);
    numbers.set(pull.about.pull.id, rows.length);
  }
  const columns = pullColumns(chosen);
  const csv = tableCsv(columns, rows);
  const answers = await choice.answersOf(csv);
  const json = (value: unknown): string => `${JSON.stringify(value, null, 1)}\n`;
  const logs = logFiles(choice, numbers);
  const texts: [path: string, title: string, content: string | Uint8Array][] = [
    [PULLS_FILE, "One row a pull: what was read, and the load at the anchor worked out from it", csv],
    ["pulls.parquet", "The same as Parquet", await tableParquet(columns, rows)],
    ...[...rigs].map(([file, path]): [string, string, string] => [
      path,
      `Rig file ${path}`,
      plainText(file.replaceAll("\r\n", "\n")),
    ]),
    ...logs.map(({ path, pull, table }): [string, string, string] => [
      path,
      `What was read during pull ${pull}, reading by reading`,
      table.csv,
    ]),
    ...(chosen.includes("positions")
      ? [["sites.json", "Where the sites lie", json(sitesOf(choice))] as [string, string, string]]
      : []),
    [ANSWERS_FILE, "What comparing these pulls answers", json(answers)],
    ["made.json", "How each number was made", json(madeOf(choice, [...rigs.values()]))],
    ["README.md", "What this is, and how to work it out again", readmeOf(about, rows.length, chosen, logs.length)],
  ];
  const files = new Map<string, Uint8Array>();
  const resources: ResourceFile[] = [];
  for (const [path, title, content] of texts) {
    const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
    files.set(path, bytes);
    const hash = await choice.sha256(bytes);
    const own = path === PULLS_FILE ? columns : logs.find((log) => log.path === path)?.table.columns;
    resources.push({
      path,
      title,
      bytes: bytes.length,
      hash,
      ...(own === undefined ? {} : { columns: own }),
      ...(path === PULLS_FILE ? { key: "pull" } : {}),
    });
  }
  files.set(DESCRIPTOR_FILE, new TextEncoder().encode(json(descriptorOf(about, resources))));
  const channelsLeftOut = [...new Set(logs.flatMap(({ table }) => table.leftOut))].sort();
  return { files, rows: rows.length, leftOut: pulls.length - rows.length, channelsLeftOut };
}

/** Logs of the pulls that are in the table, under their numbers there. */
function logFiles({ logs = [], chosen }: PackageChoice, numbers: ReadonlyMap<string, number>) {
  const counts = new Map<number, number>();
  return logs
    .flatMap((log) => {
      const pull = numbers.get(log.pull);
      return pull === undefined ? [] : [{ log, pull }];
    })
    .sort((a, b) => a.pull - b.pull)
    .map(({ log, pull }) => {
      const count = (counts.get(pull) ?? 0) + 1;
      counts.set(pull, count);
      return { path: `logs/pull-${pull}${count === 1 ? "" : `-${count}`}.csv`, pull, table: logTable(log, chosen) };
    });
}

function sitesOf({ sites }: PackageChoice): object[] {
  return sites.map(({ name, latitude_deg, longitude_deg }) => ({
    name: plainText(name ?? ""),
    latitude_deg,
    longitude_deg,
  }));
}

function madeOf({ seed, about }: PackageChoice, rigs: readonly string[]): object {
  return {
    format: "rodebench/package-made@1",
    program: about.program,
    seed,
    numbers: [
      {
        file: PULLS_FILE,
        columns: [
          "heldTo_N",
          "gaveWayBy_N",
          "uncertainty_N",
          "anchorAngle_deg",
          "anchorAngleHeld_deg",
          "anchorAngleRise_deg",
        ],
        from: [
          "readHeldTo_N",
          "readGaveWayBy_N",
          "read_u_N",
          "readAt",
          "depth_m",
          "levelDepth_m",
          "scope",
          "paidOut_m",
          ...rigs,
        ],
        how: "the rode of the rig file in the pull's own water, in equilibrium under the load read; uncertainty to first order",
      },
      {
        file: PULLS_FILE,
        columns: ["readHeldTo_N", "readGaveWayBy_N", "read_u_N"],
        from: ["the log of the pull, where from is log", ...HOW_JUDGED],
        how: "rodebench trace: the reduction of the log as these columns state it",
      },
      {
        file: ANSWERS_FILE,
        from: [PULLS_FILE],
        how: `rodebench compare ${PULLS_FILE} --seed ${seed} --json`,
      },
    ],
  };
}
