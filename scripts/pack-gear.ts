/**
 * Packs data/gear/*.yaml into src/gear/catalogue.gen.ts, so that the catalogue is there without reading files, and the
 * same rows as bare parts of a rode into src/web/rig/part-rows.gen.ts, which is all a first answer in the browser needs.
 * `node --import tsx scripts/pack-gear.ts` writes it; a test fails when it is stale.
 */
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { merge } from "../src/gear/merge.ts";
import { readGear } from "../src/gear/read-catalogue.ts";
import type { Catalogue } from "../src/gear/row.ts";
import { partOfRow } from "../src/web/rig/parts.ts";

const data = fileURLToPath(new URL("../data/gear/", import.meta.url));
export const packed = fileURLToPath(new URL("../src/gear/catalogue.gen.ts", import.meta.url));

export const packedParts = fileURLToPath(new URL("../src/web/rig/part-rows.gen.ts", import.meta.url));

function together(): Catalogue {
  let all: Catalogue = { sources: {}, curves: {}, rows: [] };
  for (const name of readdirSync(data).sort()) {
    if (!name.endsWith(".yaml")) continue;
    const one = readGear(readFileSync(data + name, "utf8"), name, "built in");
    for (const [key, source] of Object.entries(one.sources)) {
      const other = all.sources[key];
      if (other && JSON.stringify(other) !== JSON.stringify(source))
        throw new Error(`${name}: sources.${key} is another in another file`);
    }
    const { catalogue, replaced } = merge(all, one);
    if (replaced.length > 0) throw new Error(`${name}: already in another file: ${replaced.join(", ")}`);
    all = catalogue;
  }
  return all;
}

/** The text of the module of parts: each row as a rode has it, of no length yet. */
export function packParts(): string {
  const parts = together().rows.map((row) => `  ${JSON.stringify(partOfRow(row, 0))},\n`);
  return `// Made by scripts/pack-gear.ts from data/gear/*.yaml; edit those.
import type { Part } from "../../rode/index.ts";

export const partRows: readonly Part[] = [
${parts.join("")}];
`;
}

/** The module's text as the data stand now. */
export function pack(): string {
  const all = together();
  const entries = (record: object) =>
    Object.entries(record)
      .map(([key, value]) => `    ${JSON.stringify(key)}: ${JSON.stringify(value)},\n`)
      .join("");
  const rows = all.rows.map((row) => `    ${JSON.stringify(row)},\n`).join("");
  return `// Made by scripts/pack-gear.ts from data/gear/*.yaml; edit those.
import type { Catalogue } from "./row.ts";

export const builtIn: Catalogue = {
  sources: {
${entries(all.sources)}  },
  curves: {
${entries(all.curves)}  },
  rows: [
${rows}  ],
};
`;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  writeFileSync(packed, pack());
  writeFileSync(packedParts, packParts());
}
