import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { commands } from "../../src/cli/commands.ts";
import { SHELLS } from "../../src/cli/completion-script.ts";
import { rodebench } from "../support/command-line.ts";

/** What bash would offer after these words. */
function offered(script: string, ...typed: string[]): string[] {
  const line = typed.map((word) => `'${word}'`).join(" ");
  const ask = `${script}\nCOMP_WORDS=(${line}); COMP_CWORD=${typed.length - 1}; _rodebench; printf '%s\\n' "\${COMPREPLY[@]}"`;
  return execFileSync("bash", ["-c", ask], { encoding: "utf8" }).split("\n").filter(Boolean);
}

/** What zsh would be given to offer, of which it shows what fits what is typed; its own machinery is stood in for. */
function zshOffered(script: string, ...typed: string[]): string[] {
  const line = typed.map((word) => `'${word}'`).join(" ");
  const ask = `compdef() { : }; _files() { : }; compadd() { shift; print -l -- "$@" }\n${script}\nwords=(${line}); CURRENT=${typed.length}; _rodebench`;
  const all = execFileSync("zsh", ["-f", "-c", ask], { encoding: "utf8" }).split("\n").filter(Boolean);
  return all.filter((word) => word.startsWith(typed.at(-1)!));
}

/** What fish offers after a line, asked of its own completion. */
function fishOffered(script: string, line: string): string[] {
  const folder = mkdtempSync(join(tmpdir(), "fish-"));
  try {
    const file = join(folder, "rodebench.fish");
    writeFileSync(file, script);
    const ask = `source ${file}; complete -C '${line}'`;
    const said = execFileSync("fish", ["--no-config", "-c", ask], {
      encoding: "utf8",
      cwd: folder,
      env: { ...process.env, HOME: folder },
    });
    return said.split("\n").flatMap((one) => one.split("\t")[0]!.trim() || []);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Whether this machine has a shell; a test of one that it has not is passed over by that name. */
const has = (shell: string): boolean => spawnSync(shell, ["--version"]).status === 0;

const PLACES: readonly (readonly [typed: readonly string[], offered: readonly string[]])[] = [
  [["la"], ["ladder"]],
  [
    ["settle", "--p"],
    ["--pull", "--pull-u"],
  ],
  [
    ["settle", "rig.yaml", "--units", ""],
    ["metric", "us"],
  ],
  [
    ["book", "re"],
    ["redo", "restore"],
  ],
  [["book", "restore", "a.book", "--b"], ["--backup"]],
  [["weather", "boat.yaml", "--spectrum", "j"], ["jonswap"]],
];

describe("completion", () => {
  describe.each([
    ["zsh", (script: string, typed: readonly string[]) => zshOffered(script, "rodebench", ...typed)],
    ["fish", (script: string, typed: readonly string[]) => fishOffered(script, `rodebench ${typed.join(" ")}`)],
  ] as const)("in %s, where this machine has it", (shell, ask) => {
    it.skipIf(!has(shell)).each(PLACES)("after %j offers %j", async (typed, expected) => {
      const { out } = await rodebench(["completion", shell]);
      expect(ask(out, typed).toSorted()).toEqual(expected);
    });
  });

  it("in bash offers commands, options, subcommands, and what an option may be", async () => {
    const { out, status } = await rodebench(["completion", "bash"]);
    expect(status).toBe(0);
    expect(offered(out, "rodebench", "")).toEqual([...Object.keys(commands), "--version", "--help"]);
    expect(offered(out, "rodebench", "la")).toEqual(["ladder"]);
    expect(offered(out, "rodebench", "settle", "--p")).toEqual(["--pull", "--pull-u"]);
    expect(offered(out, "rodebench", "settle", "rig.yaml", "--units", "")).toEqual(["metric", "us"]);
    expect(offered(out, "rodebench", "book", "re")).toEqual(["restore", "redo"]);
    expect(offered(out, "rodebench", "book", "restore", "a.book", "--b")).toEqual(["--backup"]);
    expect(offered(out, "rodebench", "weather", "boat.yaml", "--spectrum", "j")).toEqual(["jonswap"]);
    expect(offered(out, "rodebench", "completion", "").toSorted()).toEqual([...SHELLS, "--help"].toSorted());
  });

  it.each(SHELLS)("for %s knows every command and option, and nothing in it breaks a quote", async (shell) => {
    const { out } = await rodebench(["completion", shell]);
    for (const name of [...Object.keys(commands), "restore", "pull-u", "boat-network", "even-simulated", "jonswap"])
      expect(out, name).toContain(name);
    expect(out).not.toContain("--app");
    for (const line of out.split("\n")) {
      if (line.startsWith("#")) continue;
      expect((line.match(/'/g) ?? []).length % 2, line).toBe(0);
      expect((line.match(/"/g) ?? []).length % 2, line).toBe(0);
    }
  });

  it("offers in PowerShell what it does in bash, place by place, as far as reading the script tells", async () => {
    const bash = (await rodebench(["completion", "bash"])).out;
    const powershell = (await rodebench(["completion", "powershell"])).out;
    const [, words, few] = /\$words = @\{\n([\s\S]*?)\n {2}\}\n {2}\$choices = @\{\n([\s\S]*?)\n {2}\}\n/.exec(
      powershell,
    )!;
    const rows = (text: string) =>
      [...text.matchAll(/^ {4}'([^']*)' = @\(([^)]*)\)$/gm)].map(([, key, list]) => [key!, list!.match(/[^',\s]+/g)]);
    const places = [...bash.matchAll(/^ {4}"([^"]*)"\) words="([^"]*)" ;;$/gm)].map(([, key, list]) => [
      key!,
      list!.split(" "),
    ]);
    expect(places.length).toBeGreaterThan(60);
    expect(words!.split("\n")).toHaveLength(rows(words!).length);
    expect(Object.fromEntries([...rows(words!), ...rows(few!)])).toEqual(Object.fromEntries(places));
  });

  it("asks which shell", async () => {
    expect((await rodebench(["completion", "csh"])).err).toBe(
      "rodebench: shell 'csh'; one of bash, zsh, fish, powershell is expected\n",
    );
  });
});
