#!/usr/bin/env node
import { run } from "./run.ts";
import { terminalIo } from "./terminal-io.ts";

process.exitCode = await run(process.argv.slice(2), terminalIo());
