/**
 * The packed package as a stranger installs it: into an empty project, from the file, with npm's own cache in the place of
 * a registry. SQLite's binary is that of this repository, as nothing is compiled here; all else is as npm lays it.
 */
import { execFileSync } from "node:child_process";
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { SHELLS } from "../src/cli/completion-script.ts";
import { rodebench, root } from "./support/command-line.ts";
import { readPdf } from "./support/read-pdf.ts";

interface Listed {
  readonly name: string;
  readonly version: string;
  readonly licence: string;
}
const { broughtIn, isAllowed, productionPackages } = (await import(join(root, "scripts/licences.mjs"))) as {
  broughtIn: (lock: object, root: string) => Listed[];
  productionPackages: (lock: object, root: string) => Listed[];
  isAllowed: (licence: string) => boolean;
};

const project = mkdtempSync(join(tmpdir(), "package-"));
const installed = join(project, "node_modules/rodebench");
const bin = join(project, "node_modules/.bin/rodebench");

function npm(cwd: string, ...argv: string[]): string {
  return execFileSync("npm", [...argv, "--no-audit", "--no-fund", "--loglevel=error"], { cwd, encoding: "utf8" });
}

interface Locked {
  readonly dev?: boolean;
  readonly version?: string;
  readonly dependencies?: object;
}

/** The lock file of a project that has this package and, where asked, the compiler: versions as they are locked here. */
function lock(tarball: string): { manifest: object; lock: object } {
  const own = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as {
    version: string;
    dependencies: object;
    bin: object;
    engines: object;
  };
  const { packages } = JSON.parse(readFileSync(join(root, "package-lock.json"), "utf8")) as {
    packages: Record<string, Locked>;
  };
  const compilers = ["node_modules/typescript", "node_modules/@types/node", "node_modules/undici-types"];
  const needed = Object.entries(packages).filter(
    ([path, { dev }]) => path !== "" && (!dev || compilers.includes(path)),
  );
  const dependencies = { rodebench: `file:${tarball}` };
  const devDependencies = {
    typescript: packages["node_modules/typescript"]!.version!,
    "@types/node": packages["node_modules/@types/node"]!.version!,
  };
  const manifest = { name: "stranger", version: "1.0.0", private: true, type: "module", dependencies, devDependencies };
  const { version, bin: bins, engines } = own;
  const here = { version, resolved: `file:${tarball}`, dependencies: own.dependencies, bin: bins, engines };
  return {
    manifest,
    lock: {
      ...manifest,
      lockfileVersion: 3,
      requires: true,
      packages: { "": manifest, "node_modules/rodebench": here, ...Object.fromEntries(needed) },
    },
  };
}

/** The examples of docs/library.md: a block of code by its door, and the block of what it prints. */
function examples(): { door: string; code: string; prints: string }[] {
  const page = readFileSync(join(root, "docs/library.md"), "utf8");
  return page
    .split(/^## /m)
    .slice(1)
    .map((part) => {
      const [, code, prints] = /```ts\n([\s\S]*?)```\n\n```text\n([\s\S]*?)```/.exec(part) ?? [];
      return { door: part.split("\n")[0]!, code: code ?? "", prints: prints ?? "" };
    });
}

beforeAll(() => {
  if (!existsSync(join(root, "dist/cli/main.js"))) throw new Error("dist is expected: npm run build makes it");
  const [packed] = JSON.parse(npm(root, "pack", "--ignore-scripts", "--json", "--pack-destination", project)) as {
    filename: string;
  }[];
  const { manifest, lock: locked } = lock(packed!.filename);
  writeFileSync(join(project, "package.json"), JSON.stringify(manifest));
  writeFileSync(join(project, "package-lock.json"), JSON.stringify(locked));
  npm(project, "ci", "--omit=dev", "--ignore-scripts", "--prefer-offline");
  const release = "node_modules/better-sqlite3/build/Release";
  mkdirSync(join(project, release), { recursive: true });
  cpSync(join(root, release, "better_sqlite3.node"), join(project, release, "better_sqlite3.node"));
});
afterAll(() => rmSync(project, { recursive: true, force: true }));

const say = (...argv: string[]): string => execFileSync(bin, argv, { cwd: project, encoding: "utf8" });

describe("without development packages", () => {
  it("is installed with what it needs and no more", () => {
    const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { version: string };
    expect(say("--version")).toBe(`${version}\n`);
    expect(existsSync(join(project, "node_modules/typescript"))).toBe(false);
    const files = readdirSync(installed);
    for (const name of ["dist", "data", "docs", "README.md", "LICENSE", "CHANGELOG.md"]) expect(files).toContain(name);
    for (const name of ["src", "test", "scripts"]) expect(files).not.toContain(name);
    expect(existsSync(join(installed, "dist/schemas/rig@1.json"))).toBe(true);
    expect(existsSync(join(installed, "dist/web/index.html"))).toBe(true);
    expect(readdirSync(join(installed, "dist/man")).length).toBeGreaterThan(10);
    // Libraries whose code is brought into the command's files are named there with their licences.
    const licences = readFileSync(join(installed, "dist/cli/licences.md"), "utf8");
    for (const name of ["commander", "zod", "yaml", "hono"]) expect(licences).toContain(`## ${name}`);
    const map = JSON.parse(readFileSync(join(installed, "dist/rode/settle.js.map"), "utf8")) as {
      sourcesContent: string[];
    };
    expect(map.sourcesContent[0]).toContain("export function settle");
  });

  it("answers on the command line, keeps a book, and is run from any folder", () => {
    const rig = join(installed, "data/examples/rigs/all-chain-afloat.yaml");
    expect(JSON.parse(say("settle", rig, "--pull", "4kN", "--at", "bow", "--json"))).toMatchObject({
      format: "rodebench/settled@1",
    });
    expect(say("book", "demo", "demo.book")).toContain("invented");
    expect(say("book", "check", "demo.book")).toContain("sound");
  });

  it("writes a PDF with what it brings itself, and names each library in it with its licence", async () => {
    expect(existsSync(join(project, "node_modules/pdfkit"))).toBe(false);
    const rig = join(installed, "data/examples/rigs/quay-rig.yaml");
    expect(say("publish", "figure", "rode", rig, "--pull", "4 kN", "--to", "quay.pdf")).toContain("quay.pdf: Quay rig");
    const { pages, marked } = await readPdf(readFileSync(join(project, "quay.pdf")));
    expect(pages).toHaveLength(1);
    expect(marked).toBe(true);
    const licences = readFileSync(join(installed, "dist/cli/licences.md"), "utf8");
    const inside = broughtIn(JSON.parse(readFileSync(join(root, "package-lock.json"), "utf8")) as object, root);
    expect(inside.map(({ name }) => name)).toEqual(expect.arrayContaining(["pdfkit", "fontkit", "png-js"]));
    for (const { name, version, licence } of inside) {
      // Of what nothing is used, nothing is brought in.
      if (licences.includes(`## ${name} `)) expect(licences).toContain(`## ${name} - ${version}`);
      expect(isAllowed(licence), name).toBe(true);
    }
    // And nothing else is in it than what an install brings or that list names.
    const known = new Set([
      ...inside.map(({ name }) => name),
      ...productionPackages(JSON.parse(readFileSync(join(root, "package-lock.json"), "utf8")) as object, root).map(
        ({ name }) => name,
      ),
    ]);
    const named = [...licences.matchAll(/^## (\S+) - [\d.]+/gm)].map(([, name]) => name!);
    expect(named.length).toBeGreaterThan(20);
    expect(named.filter((name) => !known.has(name))).toEqual([]);
  });

  it("begins each command with few files, whatever the time that takes", () => {
    const folder = join(installed, "dist/cli");
    const parts = readdirSync(folder).filter((name) => name.endsWith(".js"));
    expect(parts.length).toBeGreaterThan(50);
    for (const part of parts) {
      const files = read(folder, ["main.js", part]);
      expect(files.size, part).toBeLessThanOrEqual(80);
      expect(bytesOf(folder, files), part).toBeLessThan(2.6e6);
    }
    const begun = read(folder, ["main.js"]);
    expect(begun.size).toBeLessThanOrEqual(15);
    expect(bytesOf(folder, begun)).toBeLessThan(150e3);
  });

  it("tells its version, its help and a wrong command by what it begins with, and completes from a script laid by", async () => {
    // Nothing else of the command is there: a part that was looked for would be missing.
    const alone = mkdtempSync(join(tmpdir(), "begun-"));
    try {
      const folder = join(installed, "dist/cli");
      const [completion] = readdirSync(folder).filter((name) => /^part-completion/.test(name));
      for (const name of read(folder, ["main.js", completion!]))
        cpSync(join(folder, name), join(alone, "dist/cli", name));
      cpSync(join(installed, "dist/completion"), join(alone, "dist/completion"), { recursive: true });
      cpSync(join(installed, "package.json"), join(alone, "package.json"));
      const begun = (...argv: string[]): string =>
        execFileSync("node", [join(alone, "dist/cli/main.js"), ...argv], { encoding: "utf8" });
      expect(begun("--version")).toBe(say("--version"));
      expect(begun("--help")).toBe((await rodebench(["--help"])).out);
      expect(told(() => begun("setle"))).toBe("");
      for (const shell of SHELLS) expect(begun("completion", shell)).toBe((await rodebench(["completion", shell])).out);
    } finally {
      rmSync(alone, { recursive: true, force: true });
    }
  });

  it("has the doors that the docs tell, and each example prints what stands there", () => {
    const all = examples();
    const { exports } = JSON.parse(readFileSync(join(installed, "package.json"), "utf8")) as { exports: object };
    const doors = Object.keys(exports).flatMap((path) => /^\.\/(\w+)$/.exec(path)?.[1] ?? []);
    expect(all.map(({ door }) => door).sort()).toEqual(doors.sort());
    for (const { door, code } of all) {
      expect(code, door).toContain(`"rodebench/${door}"`);
      writeFileSync(join(project, `${door}.mjs`), code);
    }
    // One process for all of them: a line of its own says where each begins.
    const lines = all.map(({ door }) => `console.log("## ${door}");\nawait import("./${door}.mjs");\n`);
    writeFileSync(join(project, "all.mjs"), lines.join(""));
    const said = execFileSync("node", ["all.mjs"], { cwd: project, encoding: "utf8" });
    expect(said).toBe(all.map(({ door, prints }) => `## ${door}\n${prints}`).join(""));
    writeFileSync(
      join(project, "one.mjs"),
      'import * as all from "rodebench";\nconsole.log(Object.keys(all).sort().join(" "));\n',
    );
    const one = execFileSync("node", ["one.mjs"], { cwd: project, encoding: "utf8" });
    expect(one.trim().split(" ")).toEqual(doors.filter((door) => door !== "book").sort());
  });
});

describe("with development packages", () => {
  it.each([
    ["nodenext", "nodenext"],
    ["esnext", "bundler"],
  ])("its types hold in a strict project, module %s, resolved by %s", (module, moduleResolution) => {
    if (!existsSync(join(project, "node_modules/typescript")))
      npm(project, "ci", "--ignore-scripts", "--prefer-offline");
    for (const { door, code } of examples()) writeFileSync(join(project, `${door}.ts`), code);
    const compilerOptions = {
      module,
      moduleResolution,
      target: "es2023",
      strict: true,
      noUncheckedIndexedAccess: true,
      exactOptionalPropertyTypes: true,
      verbatimModuleSyntax: true,
      skipLibCheck: false,
      noEmit: true,
      types: ["node"],
      lib: ["es2023", "dom"],
    };
    writeFileSync(join(project, "tsconfig.json"), JSON.stringify({ compilerOptions, include: ["*.ts"] }));
    const tsc = join(project, "node_modules/typescript/bin/tsc");
    // What is wrong is found, so the types are not all `any`; and nothing else is.
    writeFileSync(join(project, "wrong.ts"), 'import { settle } from "rodebench/rode";\nsettle("a rig", 3);\n');
    const said = told(() => execFileSync("node", [tsc, "-p", "."], { cwd: project, encoding: "utf8" }));
    expect(said.trim().split("\n")).toEqual([expect.stringMatching(/^wrong\.ts\(2,8\): error TS2345/)]);
  });
});

describe("a clone without development packages", () => {
  it("keeps the dist that is there, and says what is missing where there is none", () => {
    const clone = mkdtempSync(join(tmpdir(), "clone-"));
    try {
      mkdirSync(join(clone, "scripts"));
      for (const file of ["package.json", "scripts/prepare.mjs", "scripts/build.mjs"])
        cpSync(join(root, file), join(clone, file));
      expect(npm(clone, "run", "prepare")).toContain("not built");
      mkdirSync(join(clone, "dist/cli"), { recursive: true });
      writeFileSync(join(clone, "dist/cli/main.js"), "as it was");
      const before = statSync(join(clone, "dist/cli/main.js")).mtimeMs;
      npm(clone, "run", "prepare");
      expect(readFileSync(join(clone, "dist/cli/main.js"), "utf8")).toBe("as it was");
      expect(statSync(join(clone, "dist/cli/main.js")).mtimeMs).toBe(before);
    } finally {
      rmSync(clone, { recursive: true, force: true });
    }
  });
});

/** The files that some files of a folder read before they begin, themselves among them; what they read later is not. */
function read(folder: string, files: readonly string[]): Set<string> {
  const found = new Set<string>();
  const open = [...files];
  for (let file = open.pop(); file !== undefined; file = open.pop()) {
    if (found.has(file)) continue;
    found.add(file);
    for (const [, name] of readFileSync(join(folder, file), "utf8").matchAll(
      /^(?:import|export) (?:[^"';]*? from )?"\.\/([^"]+)";/gm,
    ))
      open.push(name!);
  }
  return found;
}

const bytesOf = (folder: string, files: Iterable<string>): number =>
  [...files].reduce((sum, name) => sum + statSync(join(folder, name)).size, 0);

/** What the compiler says, whether or not it is satisfied. */
function told(work: () => string): string {
  try {
    return work();
  } catch (error) {
    return (error as { stdout: string }).stdout;
  }
}
