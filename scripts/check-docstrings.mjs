// What stands on a door tells in a word what it is: every value and type that a door gives has a docstring. Whoever uses the
// package as a library reads those, not the code.
import { readFileSync } from "node:fs";
import { join, relative, resolve } from "node:path";
import ts from "typescript";

const { exports } = JSON.parse(readFileSync("package.json", "utf8"));
const rooms = Object.keys(exports).flatMap((path) => /^\.\/(\w+)$/.exec(path)?.[1] ?? []);
const doors = rooms.map((room) => resolve(join("src", room, "index.ts")));
const { options } = ts.getParsedCommandLineOfConfigFile(
  "tsconfig.build.json",
  {},
  { ...ts.sys, onUnRecoverableConfigFileDiagnostic: () => undefined },
);
const program = ts.createProgram(doors, { ...options, noEmit: true });
const checker = program.getTypeChecker();

let count = 0;
const without = [];
for (const door of doors) {
  const file = program.getSourceFile(door);
  for (const exported of checker.getExportsOfModule(checker.getSymbolAtLocation(file))) {
    const symbol = exported.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(exported) : exported;
    const declaration = symbol.declarations?.[0];
    if (declaration === undefined) continue;
    count++;
    if (symbol.getDocumentationComment(checker).length + symbol.getJsDocTags(checker).length > 0) continue;
    const at = declaration.getSourceFile();
    const { line } = at.getLineAndCharacterOfPosition(declaration.getStart());
    without.push(`${relative(".", at.fileName)}:${line + 1}: ${exported.name} has no docstring`);
  }
}
if (count === 0) without.push("no door was looked at");
for (const line of without) console.error(line);
if (without.length > 0) process.exit(1);
console.log(`${count} values and types of ${rooms.length} doors, each with a docstring`);
