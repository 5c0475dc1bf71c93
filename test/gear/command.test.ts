import { describe, expect, it } from "vitest";
import { catalogue } from "../../src/gear/index.ts";
import { rodebench } from "../support/command-line.ts";

const gear = (options: readonly string[], files: Record<string, string> = {}) => rodebench(["gear", ...options], files);

const OWN = "format: rodebench/gear@1\nrows:\n  - chain: { grade: 30, size: 3/8 in, massPerLength: 1.65 lb/ft }\n";

describe("rodebench gear", () => {
  it("lists every row, each with its source, and cautions once", async () => {
    const { out, err, status } = await gear([]);
    expect([status, err]).toEqual([0, ""]);
    for (const row of catalogue.rows) expect(out).toContain(`\n${row.name} `);
    const used = new Set(catalogue.rows.flatMap((row) => Object.values(row.figures).flat()).map((f) => f.source));
    const unfolded = out.replace(/\n {4}/g, " ");
    for (const key of used) expect(unfolded).toContain(catalogue.sources[key]!.cite);
    expect(out.split("working load limits marked on it").length).toBe(2);
    for (const line of out.split("\n")) expect(line).toBe(line.trimEnd());
  });

  it("numbers sources in the order in which they are met", async () => {
    const { out } = await gear(["--size", "1/4 in"]);
    const marks = [...out.matchAll(/\[(\d+)[scrom]\]/g)].map((m) => Number(m[1]));
    expect([...new Set(marks)]).toEqual([...new Set(marks)].sort((a, b) => a - b));
    const listed = [...out.matchAll(/^\[(\d+)\] /gm)].map((m) => Number(m[1]));
    expect(listed).toEqual([...new Set(marks)]);
  });

  it("shows both figures where two are known, and which is not used", async () => {
    const { out } = await gear(["--kind", "chain", "--grade", "30", "--size", "14 mm"]);
    expect(out).toContain("4.37 ± 0.13 kg/m");
    expect(out).toMatch(/mass, not used: 4\.25 kg\/m \[\d+s\]/);
  });

  it("filters by kind, grade and size, and shows pounds and feet", async () => {
    const { out } = await gear(["--grade", "G43", "--size", "3/8 in", "--units", "us"]);
    expect(new Set(out.match(/^chain .*? {2}/gm)).size).toBe(1);
    expect(out).toContain("chain 3/8 in grade 43  1.600 ± 0.074 lb/ft");
    expect(out).toContain("5400 lbf");
  });

  it("says the strength of wet nylon", async () => {
    const { out } = await gear(["--kind", "rope", "--size", "1/2 in", "--units", "us"]);
    expect(out).toMatch(/breaking load when wet: 4820 lbf, 85 % \[\d+s\]/);
  });

  it("answers --json with one document in SI", async () => {
    const { out, err, status } = await gear(["--json"]);
    expect([status, err]).toEqual([0, ""]);
    const answer = JSON.parse(out);
    expect(answer.format).toBe("rodebench/catalogue@1");
    expect(answer.rows).toHaveLength(catalogue.rows.length);
    const chain = answer.rows.find((row: { name: string }) => row.name === "chain 10 mm grade 30 ISO 4565");
    expect(chain).toMatchObject({
      kind: "chain",
      grade: "30",
      massPerLength_kg_per_m: 2.25,
      density_kg_per_m3: 7850,
      workingLoad_N: 12_500,
      breakingLoad_N: 50_000,
    });
    for (const row of answer.rows)
      for (const figure of Object.values<{ source: string }[]>(row.figures).flat())
        expect(answer.sources[figure.source]).toBeDefined();
    const us = await gear(["--json", "--units", "us"]);
    expect(us.out).toBe(out);
  });

  it("lets a user's own rows win, and says so", async () => {
    const { out } = await gear(["--with", "mine.yaml", "--size", "3/8 in", "--units", "us"], { "mine.yaml": OWN });
    expect(out).toMatch(/chain 3\/8 in grade 30 +1\.650 ± 0\.029 lb\/ft \[\d+o\]/);
    expect(out).toContain("Your own rows stand in place of those built in: chain 3/8 in grade 30.");
    expect(out).toContain("Stated in mine.yaml");
    const piped = await gear(["--with", "-", "--json"], { "-": OWN });
    expect(JSON.parse(piped.out).replaced).toEqual(["chain 3/8 in grade 30"]);
    expect(JSON.parse(piped.out).rows[2].origin).toBe("standard input");
  });
});

describe("a wrong option gives one line and status 2", () => {
  const wrong: [string, string[], string | RegExp][] = [
    ["an unknown kind", ["--kind", "cable"], /--kind <kind>.*chain, rope, wire, point/],
    ["an unknown grade", ["--grade", "50"], '--grade: "50"; one of 30, 40, 43, 70 is expected'],
    ["a grade of rope", ["--kind", "rope", "--grade", "30"], '--grade: "30"; no grade is expected: only chain has one'],
    [
      "a size there is not",
      ["--kind", "chain", "--size", "9 mm"],
      '--size: "9 mm"; a size in the catalogue is expected; nearest: 3/8 in, 8 mm, 10 mm',
    ],
    ["a size that is a mass", ["--size", "9 kg"], '--size: "9 kg" is a mass; a length is expected, such as "9 m"'],
    ["a size that is nothing", ["--size", "thick"], /^--size: "thick"/],
    ["unknown units", ["--units", "imperial"], /--units <system>.*metric, us/],
    ["a file that is not there", ["--with", "none.yaml"], "none.yaml: no such file; a readable file is expected"],
    [
      "a wrong file",
      ["--with", "mine.yaml"],
      'mine.yaml: rows #1.chain.size: "10 s" is a time; a length is expected, such as "10 m"',
    ],
    ["an option there is not", ["--colour"], /unknown option '--colour'/],
    ["a word too many", ["chain"], /too many arguments/],
  ];
  it.each(wrong)("%s", async (_title, options, line) => {
    const own = "format: rodebench/gear@1\nrows:\n  - chain: { grade: 30, size: 10 s, massPerLength: 2 kg/m }\n";
    const { out, err, status } = await gear(options, { "mine.yaml": own });
    expect([status, out]).toEqual([2, ""]);
    expect(err.trimEnd()).not.toContain("\n");
    if (typeof line === "string") expect(err).toBe(`${line}\n`);
    else expect(err).toMatch(line);
  });
});
