/** The faults of the rooms, and a fair draw among them. */
import { readdirSync } from "node:fs";
import { join } from "node:path";
import ts from "typescript";
import type { Rng } from "../../src/statistics/index.ts";
import { type Fault, faultsOf } from "./faults.ts";

export interface Mutant extends Fault {
  readonly room: string;
  /** From the root of the repository, with forward slashes. */
  readonly file: string;
  /** 1 is the first. */
  readonly line: number;
  readonly before: string;
  readonly after: string;
}

export function roomsOf(root: string): string[] {
  return readdirSync(join(root, "src"), { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name);
}

/** Every fault of the files that are wanted. */
export function allMutants(root: string, isWanted: (file: string) => boolean): Mutant[] {
  const files = ts.sys
    .readDirectory(join(root, "src"), [".ts", ".tsx"])
    .filter((path) => !path.endsWith(".gen.ts") && !path.endsWith(".d.ts"));
  const program = ts.createProgram(files, {
    ...ts.convertCompilerOptionsFromJson(
      ts.readConfigFile(join(root, "tsconfig.web.json"), ts.sys.readFile).config.compilerOptions,
      root,
    ).options,
    strict: true,
    noUncheckedIndexedAccess: true,
    skipLibCheck: true,
    target: ts.ScriptTarget.ES2023,
    allowImportingTsExtensions: true,
    noEmit: true,
  });
  const checker = program.getTypeChecker();
  return files.flatMap((path) => {
    const file = path.slice(root.length + 1).replaceAll("\\", "/");
    const source = program.getSourceFile(path);
    if (source === undefined || !isWanted(file)) return [];
    const room = file.split("/")[1]!;
    return faultsOf(source, checker).map((fault) => ({ ...fault, ...told(source, fault), room, file }));
  });
}

/** The line as it was and as it is with the fault; what stands on more lines is drawn together. */
function told(source: ts.SourceFile, { start, end, text }: Fault): Pick<Mutant, "line" | "before" | "after"> {
  const all = source.text;
  const from = all.lastIndexOf("\n", start - 1) + 1;
  const to = all.indexOf("\n", end) < 0 ? all.length : all.indexOf("\n", end);
  const short = (line: string): string => line.replace(/\s+/g, " ").trim();
  return {
    line: source.getLineAndCharacterOfPosition(start).line + 1,
    before: short(all.slice(from, to)),
    after: short(all.slice(from, start) + text + all.slice(end, to)),
  };
}

/**
 * So many of them: first the kind of slip, the rarer ones as often as the square root of their number lets them, then
 * one of that kind; never two on one line.
 */
export function draw(mutants: readonly Mutant[], count: number, random: Rng): Mutant[] {
  const left = new Map<string, Mutant[]>();
  for (const mutant of mutants) left.set(mutant.slip, [...(left.get(mutant.slip) ?? []), mutant]);
  const weight = new Map([...left].map(([slip, of]) => [slip, Math.sqrt(of.length)]));
  const drawn: Mutant[] = [];
  const lines = new Set<string>();
  while (drawn.length < count && left.size > 0) {
    let at = random.uniform() * [...left.keys()].reduce((sum, slip) => sum + weight.get(slip)!, 0);
    let kind = "";
    for (const slip of left.keys()) {
      kind = slip;
      at -= weight.get(slip)!;
      if (at < 0) break;
    }
    const of = left.get(kind)!;
    const [mutant] = of.splice(random.integer(of.length), 1);
    if (of.length === 0) left.delete(kind);
    const line = `${mutant!.file}:${mutant!.line}`;
    if (lines.has(line)) continue;
    lines.add(line);
    drawn.push(mutant!);
  }
  return drawn;
}
