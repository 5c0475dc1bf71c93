import { spawn } from "node:child_process";
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { newBook } from "../../src/book/index.ts";
import { InputError } from "../../src/quantity/index.ts";
import { rodebench, root } from "../support/command-line.ts";

/** A title set anew, a screen wiped, a line gone back over, C1's own introducer, a turned order of signs. */
const STEERS = [
  "\u001b]0;owned\u0007",
  "\u001b[2J",
  "\b\b\b",
  "\r",
  "\u009b31m",
  "\u202egpj.exe\u202c",
  "\u2066x\u2069",
];
const wild = `name${STEERS.join("")}end`;
const steering = /(?![\n\t])[\p{Cc}\p{Bidi_Control}\u2028\u2029]/u;

describe("what steers a terminal is never passed on", () => {
  const cwd = mkdtempSync(join(tmpdir(), "terminal-"));
  const book = newBook(join(cwd, "a.book"), { title: wild, description: wild }, { who: wild });
  const site = book.add("site", { name: wild, description: wild });
  book.add("anchor", { name: wild, shape: "claw" });
  book.close();
  writeFileSync(join(cwd, "log.csv"), `Time (s),Load (kN),${wild.replaceAll("\r", "")}\n0,1,2\n1,2,\u001b[2J\n2,3,4\n`);

  it.each([
    [["book", "list", "a.book"]],
    [["book", "list", "a.book", "site"]],
    [["book", "show", "a.book", site]],
    [["book", "history", "a.book"]],
    [["log", "log.csv", "--preview"]],
    [["log", "log.csv", "--into", "a.book", "--name", wild]],
    [["book", "list", "a.book", wild]],
    [["book", "show", "a.book", wild]],
    [["settle", `${wild}.yaml`, "--span", "5 m"]],
    [[wild]],
    [["settle", `--${wild}`]],
  ])("%j", async (argv) => {
    const text = await rodebench(argv, {}, { cwd });
    expect(text.both).not.toMatch(steering);
    expect(text.both.length).toBeGreaterThan(10);
    const { out, err } = await rodebench([...argv, "--json"], {}, { cwd });
    expect(out + err).not.toMatch(steering);
  });

  it("and JSON still says what stands there", async () => {
    const { out } = await rodebench(["book", "show", "a.book", site, "--json"], {}, { cwd });
    expect(JSON.parse(out)).toMatchObject({ record: { name: wild, description: wild } });
  });
});

describe("lines of refusals stay short", () => {
  const long = "x".repeat(100_000);
  it.each([
    [["settle", "-", "--span", "5 m"], `format: rodebench/rig@1\n${long}: 1\n`],
    [["settle", "-", "--span", "5 m"], `format: ${long}\n`],
    [["settle", "-", "--span", long], ""],
    [["settle", long, "--span", "5 m"], ""],
    [["gear", `--${long}`], ""],
    [[long], ""],
    [["log", "-", "--into", "a.book", "--map", long], ""],
  ])("%#", async (argv, input) => {
    const { err, status } = await rodebench(argv, { "-": input });
    expect([status, err.split("\n").length]).toEqual([2, 2]);
    expect(err.length).toBeLessThan(1_100);
  });

  it("whatever a place, a value or an expectation is made of", () => {
    const error = new InputError(`front ${long} back`, `"${long}"`, `one of ${long} is expected`);
    expect(error.message.length).toBeLessThan(1_000);
    expect(error.message).toMatch(/^front x+\.\.\.x+ back: "x+\.\.\.x+"; one of x+\.\.\.x+ is expected$/);
    const inside = error.within(long);
    expect(inside.message.length).toBeLessThan(1_000);
  });
});

/** Runs the program by itself, its standard output where the shell puts it. */
function shell(line: string): Promise<{ status: number | null; out: string; err: string }> {
  const main = join(root, "src/cli/main.ts");
  const env = { ...process.env, RUN: `${process.execPath} --import tsx ${main}` };
  const child = spawn("bash", ["-c", `set -o pipefail; ${line}`], { cwd: root, env });
  const got = { out: "", err: "" };
  child.stdout.on("data", (part: Buffer) => {
    got.out += part.toString();
  });
  child.stderr.on("data", (part: Buffer) => {
    got.err += part.toString();
  });
  return new Promise((done) => child.once("close", (status) => done({ status, ...got })));
}

describe.skipIf(process.platform !== "linux")("where the output goes", () => {
  it("a reader that goes away ends it quietly", async () => {
    const { status, out, err } = await shell("$RUN gear --json | head -c 20");
    expect([status, out.length, err]).toEqual([0, 20, ""]);
  });
  it("a full disk behind standard output is told in one line, with a status of its own", async () => {
    expect(await shell("$RUN gear > /dev/full")).toEqual({
      status: 4,
      out: "",
      err: "standard output: the disk is full; free some space and repeat the command\n",
    });
  });
});

it("a full disk under a file to be written is told in one line, with a status of its own", async () => {
  const full = () => Promise.reject(Object.assign(new Error("no space"), { code: "ENOSPC", path: "out.html" }));
  const run = join(root, "data/examples/runs/three-loads.yaml");
  const { status, err, out } = await rodebench(["reduce", run, "--report", "out.html"], {}, { write: full });
  expect([status, err, out]).toEqual([4, "out.html: the disk is full; free some space and repeat the command\n", ""]);
});
