/**
 * Packs data/sizing/facts.yaml into src/sizing/facts.gen.ts, so that the figures are there without reading files.
 * `node --import tsx scripts/pack-sizing.ts` writes it; a test fails when it is stale.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { readFacts } from "../src/sizing/read-facts.ts";

const data = fileURLToPath(new URL("../data/sizing/facts.yaml", import.meta.url));
export const packed = fileURLToPath(new URL("../src/sizing/facts.gen.ts", import.meta.url));

/** The module's text as the data stand now. */
export function pack(): string {
  const facts = readFacts(readFileSync(data, "utf8"), "facts.yaml");
  const fields = Object.entries(facts)
    .map(([key, value]) => `  ${key}: ${JSON.stringify(value)},\n`)
    .join("");
  return `// Made by scripts/pack-sizing.ts from data/sizing/facts.yaml; edit that.\nimport type { Facts } from "./read-facts.ts";\n\n/** Figures of rope the program goes by, each with its source, as packed with it. */\nexport const facts: Facts = {\n${fields}};\n`;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) writeFileSync(packed, pack());
