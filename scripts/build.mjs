// Builds the library and the command into dist/, and the bench into dist/web. What is built stands beside the old dist
// until it is whole: a build that fails leaves what was there as it was.
import { spawnSync } from "node:child_process";
import { chmodSync, existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { manPages } from "./man-pages.mjs";

const BUILT = "dist.new";
const OLD = "dist.old";

function run(tool, args) {
  const { status } = spawnSync(process.execPath, [tool, ...args], { stdio: "inherit" });
  if (status !== 0) {
    rmSync(BUILT, { recursive: true, force: true });
    process.exit(status ?? 1);
  }
}

for (const left of [BUILT, OLD]) rmSync(left, { recursive: true, force: true });
run("node_modules/typescript/bin/tsc", ["-p", "tsconfig.build.json", "--outDir", BUILT]);
chmodSync(`${BUILT}/cli/main.js`, 0o755);
const { formats, schemaOf } = await import(pathToFileURL(resolve(BUILT, "cli/schemas/index.js")).href);
mkdirSync(`${BUILT}/schemas`);
for (const name of Object.keys(formats))
  writeFileSync(`${BUILT}/schemas/${name}.json`, `${JSON.stringify(schemaOf(name), null, 2)}\n`);
const { commands } = await import(pathToFileURL(resolve(BUILT, "cli/commands.js")).href);
const all = [];
for (const load of Object.values(commands)) all.push((await load())({}));
const { version } = JSON.parse(readFileSync("package.json", "utf8"));
mkdirSync(`${BUILT}/man`);
const page = (name) => (existsSync(`docs/${name}.md`) ? readFileSync(`docs/${name}.md`, "utf8") : undefined);
for (const [name, text] of Object.entries(manPages(all, version, page))) writeFileSync(`${BUILT}/man/${name}`, text);
if (existsSync("src/web/index.html"))
  run("node_modules/vite/bin/vite.js", ["build", "--logLevel", "warn", "--outDir", resolve(BUILT, "web")]);
if (existsSync("dist")) renameSync("dist", OLD);
renameSync(BUILT, "dist");
rmSync(OLD, { recursive: true, force: true });
