import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { formats } from "../../src/cli/schemas/index.ts";
import { rodebench, root } from "../support/command-line.ts";
import { schemaTroubles } from "../support/schema-troubles.ts";

const RIG = "data/demo/gantry-rig-afloat.yaml";
const OTHER = "data/demo/marsh-tern-rode.yaml";
const RUN = "data/demo/gantry-run.yaml";

const commands: readonly (readonly [format: string, argv: readonly string[]])[] = [
  ["settled@1", ["settle", RIG, "--pull", "3 kN", "--at", "bow"]],
  ["ladder@1", ["ladder", RIG, "--pull", "1..3/1kN", "--at", "bow"]],
  ["found@1", ["find", RIG, "--unknown", "pull", "--anchor-angle", "4 deg"]],
  ["matched@1", ["match", RIG, OTHER, "--pull", "2 kN", "--at", "bow"]],
  ["carried@1", ["carry", RUN, "--to", RIG]],
  ["reduced@1", ["reduce", RUN]],
  ["weather@1", ["weather", "data/boats/marsh-tern.yaml", "--wind", "20 kn"]],
  ["wind-worth@1", ["weather", "data/boats/marsh-tern.yaml", "--load", "800 N"]],
  ["shock@1", ["shock", "data/examples/rigs/all-chain-afloat.yaml", "--pull", "1.5 kN", "--at", "bow"]],
  ["choice@1", ["choose", "data/plans/marsh-tern.yaml"]],
  ["series-plan@1", ["series", "data/series/creek-trial.yaml"]],
  ["planned-pull@1", ["series", "data/series/creek-trial.yaml", "--code", "X922E"]],
  ["ridden@1", ["ride", OTHER, "--boat", "data/boats/marsh-tern.yaml", "--wind", "16 kn", "--hours", "0.03"]],
  ["compared@1", ["compare", "data/examples/holding/three-anchors.csv", "--no-sampling"]],
  ["page-published@1", ["publish", "page", "--rig", RIG, "--pull", "3 kN"]],
  ["catalogue@1", ["gear", "--kind", "chain"]],
  ["log-guess@1", ["log", "data/examples/logs/windows-1252.csv", "--preview"]],
  ["formats@1", ["schema"]],
];

describe("the JSON Schema of an answer", () => {
  it.each(commands)("%s is held by what is printed", async (format, argv) => {
    const { out, err, status } = await rodebench([...argv, "--json"]);
    expect(err).toBe("");
    expect(status).toBe(0);
    const document = JSON.parse(out) as Record<string, unknown>;
    expect(document.format).toBe(`rodebench/${format}`);
    expect(schemaTroubles(format, document)).toEqual([]);
    // A schema that holds anything would hold this too.
    const { format: _, ...nameless } = document;
    expect(schemaTroubles(format, nameless)).not.toEqual([]);
  });

  it("refuses an answer whose field has another type", async () => {
    const { out } = await rodebench(["settle", RIG, "--pull", "3 kN", "--at", "bow", "--json"]);
    const settled = JSON.parse(out) as { bow: { tension_N: unknown } };
    settled.bow.tension_N = "3000";
    expect(schemaTroubles("settled@1", settled)).toHaveLength(1);
  });
});

describe("the JSON Schema of a file", () => {
  const folders = [
    "data/demo",
    "data/boats",
    "data/plans",
    "data/series",
    "data/examples/rigs",
    "data/examples/runs",
    "data/examples/sweeps",
  ];
  const files = folders.flatMap((folder) =>
    readdirSync(join(root, folder))
      .filter((name) => name.endsWith(".yaml"))
      .map((name) => join(folder, name)),
  );
  it.each(files)("%s is held by its format's", (path) => {
    const document = parse(readFileSync(join(root, path), "utf8")) as { format: string };
    const name = document.format.replace("rodebench/", "");
    expect(Object.keys(formats)).toContain(name);
    expect(schemaTroubles(name, document)).toEqual([]);
    expect(schemaTroubles(name, { ...document, unheardOf: 1 })).not.toEqual([]);
  });
});

describe("a file that names its schema", () => {
  const named = ["rigs", "runs", "gear"].flatMap((folder) =>
    readdirSync(join(root, "data/examples", folder)).map((name) => join("data/examples", folder, name)),
  );
  it.each(named)("%s names that of its format", (path) => {
    const text = readFileSync(join(root, path), "utf8");
    const { format } = parse(text) as { format: string };
    expect(text).toMatch(/^(# yaml-language-server: \$schema=|\{\s*"\$schema": ")\.\.\/\.\.\/\.\.\/dist\/schemas\//);
    expect(text.slice(0, 100)).toContain(`/${format.replace("rodebench/", "")}.json`);
    expect(schemaTroubles(format.replace("rodebench/", ""), parse(text))).toEqual([]);
  });

  it("is read as if it did not, and one that names something else is not", async () => {
    const rig = readFileSync(join(root, "data/examples/rigs/quay-rig.yaml"), "utf8");
    const asked = ["settle", "rig.yaml", "--pull", "3 kN", "--at", "bow"];
    const plain = await rodebench(asked, { "rig.yaml": rig });
    expect(await rodebench(asked, { "rig.yaml": `$schema: rig.json\n${rig}` })).toEqual(plain);
    expect((await rodebench(asked, { "rig.yaml": `$schema: 3\n${rig}` })).err).toContain("$schema: no such field");
  });
});

describe("rodebench schema", () => {
  it("prints a schema by any way its format is named, and lists them all", async () => {
    for (const name of ["rig", "rig@1", "rodebench/rig@1"]) {
      const { out } = await rodebench(["schema", name]);
      expect(JSON.parse(out)).toMatchObject({
        $schema: "https://json-schema.org/draft/2020-12/schema",
        $id: "rodebench/rig@1",
        type: "object",
      });
    }
    const { out } = await rodebench(["schema"]);
    for (const name of Object.keys(formats)) expect(out).toContain(name);
    const listed = JSON.parse((await rodebench(["schema", "--json"])).out) as { format: string; formats: unknown[] };
    expect(listed.format).toBe("rodebench/formats@1");
    expect(listed.formats).toHaveLength(Object.keys(formats).length);
  });

  it("refuses a name that is none in one line", async () => {
    const { err, status } = await rodebench(["schema", "keel"]);
    expect(status).toBe(2);
    expect(err).toMatch(/^[^\n]*schema: "keel"; one of those `rodebench schema` lists is expected\n$/);
  });
});
