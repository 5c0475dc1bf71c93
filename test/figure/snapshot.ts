/** Drawings under test are kept as SVG beside the tests; a changed one is laid beside the kept one, for the eye. */
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect } from "vitest";

const folder = import.meta.dirname;

/** KEEP_FIGURES=1 keeps the new ones, after they were looked at. */
export function expectKept(svg: string, name: string): void {
  const kept = join(folder, `${name}.svg`);
  const beside = join(folder, "__output__", `${name}.svg`);
  const drawn = `${svg.replaceAll("><", ">\n<")}\n`;
  if (process.env.KEEP_FIGURES === "1") writeFileSync(kept, drawn);
  if (existsSync(kept) && readFileSync(kept, "utf8") === drawn) {
    rmSync(beside, { force: true });
    return;
  }
  mkdirSync(join(folder, "__output__"), { recursive: true });
  writeFileSync(beside, drawn);
  expect.fail(`${name}.svg changed: look at ${beside} beside ${kept}, and keep it with KEEP_FIGURES=1 if it is right`);
}
