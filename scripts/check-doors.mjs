// What stands on a room's door is used: by another room, by a test, a script or a bench that comes in by the door, or by
// who uses the package as a library, as docs/library.md lists it. A value nobody asks for is taken off its door.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

const SRC = "src";
const rooms = readdirSync(SRC, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map(({ name }) => name);

/** Every TypeScript file under these folders. */
function files(...folders) {
  return folders.flatMap((folder) =>
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && /\.(tsx?|mjs)$/.test(entry.name))
      .map((entry) => join(entry.parentPath, entry.name)),
  );
}

/** Names in braces: `a, type B, c as d` as what is asked for, and whether it is a type. */
const names = (list) =>
  list
    .split(",")
    .map((part) => part.replace(/\/\*.*?\*\/|\/\/.*$/gms, "").trim())
    .filter(Boolean);

/** The values of a door, by the names it gives them. */
function valuesOf(room) {
  let text;
  try {
    text = readFileSync(join(SRC, room, "index.ts"), "utf8");
  } catch {
    return [];
  }
  const listed = [...text.matchAll(/^export \{([^}]*)\}/gms)].flatMap((match) => names(match[1]));
  const own = [...text.matchAll(/^export (?:async )?(?:const|function|class) (\w+)/gm)].map((match) => match[1]);
  return [
    ...listed.filter((name) => !name.startsWith("type ")).map((name) => name.split(" as ").at(-1).trim()),
    ...own,
  ];
}

const asked = new Map(rooms.map((room) => [room, new Set()]));
for (const file of files(SRC, "test", "scripts", "bench")) {
  const text = readFileSync(file, "utf8");
  const home = file.split("/")[1];
  for (const [, list, from] of text.matchAll(/(?:import|export)\s*(?:type\s*)?\{([^}]*)\}\s*from\s*"([^"]+)"/gs)) {
    const room = /(?:^|\/)(\w+)\/index\.ts$/.exec(from)?.[1];
    if (room === undefined || !asked.has(room) || (file.startsWith(SRC) && home === room)) continue;
    for (const name of names(list))
      asked.get(room).add(
        name
          .replace(/^type /, "")
          .split(" as ")[0]
          .trim(),
      );
  }
  // `await import("…/room/index.ts")` and `import * as room` take all there is.
  for (const [, from] of text.matchAll(/import(?:\s*\*\s*as\s+\w+\s+from)?\s*\(?\s*"([^"]+)\/index\.ts"/g)) {
    const room = from.split("/").at(-1);
    if (asked.has(room) && /import\s*\*|import\(/.test(text) && home !== room) asked.get(room).add("*");
  }
}

let listed = "";
try {
  listed = readFileSync("docs/library.md", "utf8");
} catch {
  // No list: nothing is for a library alone.
}
let count = 0;
const unused = [];
for (const room of rooms) {
  const part = listed.split(new RegExp(`^## ${room}$`, "m"))[1]?.split(/^## /m)[0] ?? "";
  const heads = [...part.matchAll(/^- (.*?)(?::|$)/gm)].map((match) => match[1]).join(" ");
  const known = new Set([...heads.matchAll(/`(\w+)`/g)].map((match) => match[1]));
  const values = valuesOf(room);
  count += values.length;
  for (const name of values)
    if (!asked.get(room).has(name) && !asked.get(room).has("*") && !known.has(name)) unused.push(`${room}: ${name}`);
  for (const name of known)
    if (!values.includes(name)) unused.push(`${room}: ${name} is in docs/library.md and not on the door`);
}
for (const line of unused) process.stdout.write(`${line}\n`);
process.stdout.write(`${unused.length} of ${count} values on doors used by nobody\n`);
if (unused.length > 0 || count === 0) process.exitCode = 1;
