/** The main job on the demo: reduces the invented run, prints the answer and writes its report. Needs the built program. */
import { fileURLToPath } from "node:url";

const root = new URL("../", import.meta.url);
const { run } = await import(new URL("dist/cli/run.js", root).href);
const { terminalIo } = await import(new URL("dist/cli/terminal-io.js", root).href);
const report = "demo-report.html";
const data = fileURLToPath(new URL("data/demo/gantry-run.yaml", root));
process.exitCode = await run(["reduce", data, "--report", report], terminalIo(process.cwd()));
