// Builds the library and the command into dist/, and the bench into dist/web. What is built stands beside the old dist
// until it is whole: a build that fails leaves what was there as it was.
import { spawnSync } from "node:child_process";
import { chmodSync, existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { bundleCommand } from "./bundle-command.mjs";
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
const { formats, schemaOf } = await import(pathToFileURL(resolve(BUILT, "cli/schemas/index.js")).href);
mkdirSync(`${BUILT}/schemas`);
for (const name of Object.keys(formats))
  writeFileSync(`${BUILT}/schemas/${name}.json`, `${JSON.stringify(schemaOf(name), null, 2)}\n`);
const { everyCommand } = await import(pathToFileURL(resolve(BUILT, "cli/commands.js")).href);
const all = await everyCommand({});
const { version } = JSON.parse(readFileSync("package.json", "utf8"));
mkdirSync(`${BUILT}/man`);
const page = (name) => (existsSync(`docs/${name}.md`) ? readFileSync(`docs/${name}.md`, "utf8") : undefined);
for (const [name, text] of Object.entries(manPages(all, version, page))) writeFileSync(`${BUILT}/man/${name}`, text);
const { completionScript, SHELLS } = await import(pathToFileURL(resolve(BUILT, "cli/completion-script.js")).href);
mkdirSync(`${BUILT}/completion`);
for (const shell of SHELLS) writeFileSync(`${BUILT}/completion/${shell}`, completionScript(shell, all));
// What only the command needs goes into its few files; it stands beside its rooms until then, as places count from there.
await bundleCommand(BUILT, `${BUILT}/command`);
for (const room of ["cli", "server"]) rmSync(`${BUILT}/${room}`, { recursive: true });
renameSync(`${BUILT}/command`, `${BUILT}/cli`);
chmodSync(`${BUILT}/cli/main.js`, 0o755);
if (existsSync("src/web/index.html"))
  run("node_modules/vite/bin/vite.js", ["build", "--logLevel", "warn", "--outDir", resolve(BUILT, "web")]);
if (existsSync("dist")) renameSync("dist", OLD);
renameSync(BUILT, "dist");
rmSync(OLD, { recursive: true, force: true });
