/** R with its survival package, where this machine has it: a general reference to set values beside. */
import { spawn, spawnSync } from "node:child_process";

const probe = spawnSync("Rscript", ["-e", "cat(as.character(packageVersion('survival')))"], { encoding: "utf8" });

/** Version of the survival package, undefined where R is not there. */
export const survivalOfR: string | undefined = probe.status === 0 ? probe.stdout : undefined;

export type FromR = Record<string, number[]>;

/** Runs R; every line it prints is `name number number …` and comes back under its name. */
export async function askR(script: string): Promise<FromR> {
  const whole = `suppressMessages(library(survival)); say <- function(name, x) cat(name, sprintf("%.17g", x), "\\n")\n${script}`;
  const run = spawn("Rscript", ["-"], { stdio: ["pipe", "pipe", "pipe"] });
  let out = "";
  let trouble = "";
  run.stdout.on("data", (text) => {
    out += text;
  });
  run.stderr.on("data", (text) => {
    trouble += text;
  });
  run.stdin.end(whole);
  const status = await new Promise((done) => run.on("close", done));
  if (status !== 0) throw new Error(trouble);
  const found: FromR = {};
  for (const line of out.split("\n")) {
    const [name, ...numbers] = line.trim().split(/\s+/);
    if (name !== undefined && name !== "") {
      found[name] = numbers.map((text) => (text === "Inf" ? Infinity : text === "-Inf" ? -Infinity : Number(text)));
    }
  }
  return found;
}

/** A vector as R writes it, every digit kept. */
export function vector(values: readonly (number | undefined)[]): string {
  return `c(${values.map((v) => (v === undefined || !Number.isFinite(v) ? "NA" : String(v))).join(",")})`;
}
