/** What comparing a package's table answers, chains drawn in threads. */
import Papa from "papaparse";
import { readPullsTable } from "../holding/index.ts";
import { answersOf, usualInquiry } from "../publish/index.ts";
import { chainsOf } from "./chains.ts";
import type { Io } from "./io.ts";

/** @throws InputError when the table holds no pull that can be compared */
export async function answersOfTable(csv: string, seed: number, io: Io): Promise<object> {
  const table = readPullsTable(Papa.parse<string[]>(csv, { delimiter: ",", skipEmptyLines: true }).data, "pulls.csv");
  return answersOf(table, await usualInquiry(table.pulls, seed, chainsOf(io)));
}
