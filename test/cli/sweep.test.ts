import { spawnSync } from "node:child_process";
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parquetReadObjects } from "hyparquet";
import { afterAll, describe, expect, it } from "vitest";
import * as z from "zod";
import { schemaOf } from "../../src/cli/schemas/index.ts";
import { rodebench, root } from "../support/command-line.ts";

const folder = mkdtempSync(join(tmpdir(), "sweep-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const file = (seeds = "1..2", wind = "16 kn") =>
  `format: rodebench/sweep@1
name: Two rodes
rigs: [${root}/data/demo/marsh-tern-rode.yaml, ${root}/data/demo/marsh-tern-nylon.yaml]
boats: [${root}/data/boats/marsh-tern.yaml]
weather: [{ wind: ${wind} }]
seeds: ${seeds}
hours: 0.02
elements: 10
`;
writeFileSync(join(folder, "two.yaml"), file());
writeFileSync(join(folder, "other.yaml"), file("1..2", "17 kn"));

const machine = {
  cwd: folder,
  read: async (path: string) => readFileSync(path.startsWith("/") ? path : join(folder, path), "utf8"),
};
const ask = (...argv: string[]) => rodebench(argv, {}, machine);
const rows = (path: string) => {
  const bytes = readFileSync(join(folder, path));
  return parquetReadObjects({
    file: bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length) as ArrayBuffer,
  });
};

describe("rodebench sweep and join", () => {
  it("rides all of a file, a row a ride, and a row says what a ride of that seed says", async () => {
    const { status, out } = await ask("sweep", "two.yaml", "--json");
    expect(status).toBe(0);
    const answer = JSON.parse(out);
    expect(z.fromJSONSchema(schemaOf("swept@1") as never).safeParse(answer).success).toBe(true);
    expect([answer.format, answer.rides.done, answer.cases.length]).toEqual(["rodebench/swept@1", 4, 2]);
    const all = await rows("two.rides/rides.parquet");
    expect(all.map((row) => row.ride)).toEqual([0, 1, 2, 3]);
    const alone = JSON.parse(
      (
        await ask(
          ...["ride", `${root}/data/demo/marsh-tern-nylon.yaml`, "--boat", `${root}/data/boats/marsh-tern.yaml`],
          ...["--wind", "16 kn", "--hours", "0.02", "--elements", "10", "--seed", "2", "--json"],
        )
      ).out,
    );
    expect(all[3]!.bow_largest_N).toBe(alone.bow.largest_N);
    expect(all[3]!.anchor_mean_N).toBe(alone.anchor.mean_N);
  });

  it("goes on where it was: what is done is not ridden again, what is cut short is", async () => {
    writeFileSync(join(folder, "two.rides/rides/0000/2.json"), '{"format":"rodebench/sweep-ri');
    const before = readFileSync(join(folder, "two.rides/rides.parquet"));
    const { out } = await ask("sweep", "two.yaml", "--json");
    expect(JSON.parse(out).rides).toEqual({ whole: 4, asked: 4, done: 4, found: 3 });
    expect(readFileSync(join(folder, "two.rides/rides.parquet")).equals(before)).toBe(true);
  });

  it("parts put together in any order are what one machine writes, byte for byte", async () => {
    for (const part of [3, 1, 2]) await ask("sweep", "two.yaml", "--shard", `${part}/3`, "--into", "parts");
    const some = await ask("join", "parts/part-3-of-3.parquet", "parts/part-1-of-3.parquet", "--into", "some.parquet");
    expect(some.status).toBe(0);
    expect(some.out).toContain("not there: parts 2/3");
    const whole = await ask("join", "some.parquet", "parts/part-2-of-3.parquet", "--into", "joined.parquet", "--json");
    expect(whole.err).toBe("");
    expect(z.fromJSONSchema(schemaOf("joined@1") as never).safeParse(JSON.parse(whole.out)).success).toBe(true);
    expect(
      readFileSync(join(folder, "joined.parquet")).equals(readFileSync(join(folder, "two.rides/rides.parquet"))),
    ).toBe(true);
  });

  it("refuses parts that do not belong together, rides of another file, and what is no part", async () => {
    const parts = [1, 2, 3].map((k) => `parts/part-${k}-of-3.parquet`);
    await ask("sweep", "other.yaml", "--shard", "1/3", "--into", "others");
    await ask("sweep", "two.yaml", "--shard", "1/2", "--into", "parts");
    writeFileSync(join(folder, "none.parquet"), "nothing");
    const wrong: [string[], string][] = [
      [[parts[1]!, "others/part-1-of-3.parquet"], "a part of the same file"],
      [[parts[0]!, parts[0]!], "each part once"],
      [[parts[0]!, "parts/part-1-of-2.parquet"], "parts of 3"],
      [["none.parquet"], "not Parquet"],
      [["nowhere.parquet"], "no such file"],
    ];
    for (const [paths, said] of wrong) {
      const { status, err } = await ask("join", ...paths, "--into", "x.parquet");
      expect([status, err.trim().split("\n").length]).toEqual([2, 1]);
      expect(err).toContain(said);
    }
    expect(existsSync(join(folder, "x.parquet"))).toBe(false);
    const mixed = await ask("sweep", "other.yaml", "--into", "parts");
    expect(mixed.status).toBe(2);
    expect(mixed.err).toContain("rides of another sweep");
    for (const [path, text] of [
      ["parts/rides/0000/0.json", readFileSync(join(folder, "parts/rides/0000/0.json"), "utf8")],
    ] as const) {
      writeFileSync(join(folder, path), text.replace(/"version":"[^"]*"/, '"version":"9.9.9"'));
      expect((await ask("sweep", "two.yaml", "--into", "parts")).err).toContain("made by version 9.9.9");
      writeFileSync(join(folder, path), text);
    }
  });

  it("stopped by hand it keeps what is done, writes no file of all, and says so", async () => {
    const stop = new AbortController();
    stop.abort();
    const { status, out } = await rodebench(
      ["sweep", "two.yaml", "--into", "stopped"],
      {},
      { ...machine, stop: stop.signal },
    );
    expect(status).toBe(0);
    expect(out).toContain("0 of 4 rides done");
    expect(out).toContain("stopped by hand");
    expect(readdirSync(join(folder, "stopped"))).toEqual([]);
  });

  it.each([
    [["--shard", "0/3"], "--shard"],
    [["--shard", "4/3"], "--shard"],
    [["--shard", "1"], "--shard"],
    [["--threads", "0"], "--threads"],
    [["--into", "two.yaml/x"], "two.yaml/x"],
  ])("refuses %s in one line that names it", async (options, place) => {
    const { status, err } = await ask("sweep", "two.yaml", ...options);
    expect([status, err.trim().split("\n").length]).toEqual([2, 1]);
    expect(err).toContain(place);
  });
});

const has = (program: string, ...argv: string[]): boolean =>
  spawnSync(program, argv, { encoding: "utf8" }).status === 0;
const parallel = has("parallel", "--version");
const slurm = has("sbatch", "--version") && has("sinfo");

/** The blocks of the page that are for a scheduler, run as they stand. */
describe("the examples of docs/sweep.md", () => {
  const page = readFileSync(join(root, "docs/sweep.md"), "utf8");
  const block = (name: string): string => new RegExp(`\`\`\`sh ${name}\n([\\s\\S]*?)\`\`\``).exec(page)![1]!;
  const run = (where: string, script: string, env: Record<string, string> = {}) => {
    const at = join(folder, where);
    mkdirSync(join(at, "bin"), { recursive: true });
    writeFileSync(join(at, "chain-or-nylon.yaml"), file());
    writeFileSync(
      join(at, "bin/rodebench"),
      `#!/bin/sh\nexec "${process.execPath}" --import "${root}/node_modules/tsx/dist/esm/index.mjs" "${root}/src/cli/main.ts" "$@"\n`,
    );
    chmodSync(join(at, "bin/rodebench"), 0o755);
    return spawnSync("bash", ["-e", "-c", script], {
      cwd: at,
      encoding: "utf8",
      env: { ...process.env, PATH: `${join(at, "bin")}:${process.env.PATH}`, ...env },
    });
  };
  const rides = async (where: string) => (await rows(`${where}/rides.parquet`)).map((row) => row.ride);

  it.skipIf(!parallel)(
    `GNU parallel rides every part${parallel ? "" : " (skipped: no parallel on this machine)"}`,
    async () => {
      const { status, stderr } = run("by-parallel", block("parallel"));
      expect(stderr).not.toContain("refused");
      expect(status).toBe(0);
      expect(await rides("by-parallel")).toEqual([0, 1, 2, 3]);
    },
  );

  it("the job of the array rides the part it is numbered", async () => {
    const job = block("slurm");
    for (const part of ["1", "2", "3", "4"])
      expect(run("by-hand", job, { SLURM_ARRAY_TASK_ID: part, SLURM_CPUS_PER_TASK: "1" }).status).toBe(0);
    expect(run("by-hand", "rodebench join parts/part-*-of-4.parquet --into rides.parquet").status).toBe(0);
    expect(await rides("by-hand")).toEqual([0, 1, 2, 3]);
  });

  it.skipIf(!slurm)(
    `Slurm rides every part${slurm ? "" : " (skipped: no Slurm that answers on this machine)"}`,
    async () => {
      mkdirSync(join(folder, "by-slurm"), { recursive: true });
      writeFileSync(join(folder, "by-slurm/sweep.sh"), block("slurm"));
      const { status, stderr } = run(
        "by-slurm",
        "sbatch --wait sweep.sh && rodebench join parts/part-*-of-4.parquet --into rides.parquet",
      );
      expect(stderr).toBe("");
      expect(status).toBe(0);
      expect(await rides("by-slurm")).toEqual([0, 1, 2, 3]);
    },
  );
});
