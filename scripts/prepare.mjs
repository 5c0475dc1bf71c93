// After an install: builds where the development packages are, and does nothing where they were left out, as in
// `npm ci --omit=dev` beside a dist that is there already.
import { existsSync } from "node:fs";

if (existsSync("node_modules/typescript/bin/tsc") && existsSync("node_modules/vite/bin/vite.js"))
  await import("./build.mjs");
else if (!existsSync("dist/cli/main.js"))
  process.stdout.write("rodebench: not built, as the development packages were left out; `npm ci` builds it\n");
