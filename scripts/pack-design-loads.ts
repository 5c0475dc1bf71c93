/**
 * Packs data/published/design-loads.json into src/sea/design-loads.gen.ts, so that the tables are there without reading
 * files. `node --import tsx scripts/pack-design-loads.ts` writes it; a test fails when it is stale.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { readDesignLoads } from "../src/sea/read-design-loads.ts";

const data = fileURLToPath(new URL("../data/published/design-loads.json", import.meta.url));
export const packed = fileURLToPath(new URL("../src/sea/design-loads.gen.ts", import.meta.url));

/** The module's text as the data stand now. */
export function pack(): string {
  const tables = readDesignLoads(readFileSync(data, "utf8"), "design-loads.json");
  return `// Made by scripts/pack-design-loads.ts from data/published/design-loads.json; edit that.
import type { DesignLoadTable } from "./design-loads.ts";

/** Published tables of design loads, as packed with the program. */
export const designLoadTables: readonly DesignLoadTable[] = [
${tables.map((table) => `  ${JSON.stringify(table)},\n`).join("")}];
`;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) writeFileSync(packed, pack());
