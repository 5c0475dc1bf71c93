/**
 * Every example of the docs is run. A block fenced `console` holds commands (`$ rodebench …`, a file on standard input by
 * `< FILE`) each followed by exactly what a terminal shows; `$ echo $?` shows the exit status, which is 0 where it is not
 * shown. Blocks fenced otherwise are not run.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { describe, expect, it } from "vitest";
import { rodebench, root } from "./support/command-line.ts";

interface Step {
  readonly line: number;
  readonly command: string;
  readonly shown: string;
}

interface Block {
  /** Page and line, as an editor opens it. */
  readonly where: string;
  readonly page: string;
  readonly steps: readonly Step[];
}

/** The pages of docs/, by their paths from the root. */
function pages(): string[] {
  return readdirSync(join(root, "docs"), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(".md"))
    .map((entry) => relative(root, join(entry.parentPath, entry.name)))
    .sort();
}

/** The console blocks of a page. A block left open, or one that does not begin with a command, is a fault of the page. */
function blocksOf(page: string, text: string): Block[] {
  const lines = text.split("\n");
  const blocks: Block[] = [];
  for (let i = 0; i < lines.length; i++) {
    if (lines[i] !== "```console") continue;
    const where = `${page}:${i + 1}`;
    const steps: { line: number; command: string; shown: string }[] = [];
    for (i++; lines[i] !== "```"; i++) {
      const line = lines[i];
      if (line === undefined) throw new Error(`${where}: the block is not closed`);
      if (line.startsWith("$ ")) steps.push({ line: i + 1, command: line.slice(2), shown: "" });
      else if (steps.length === 0) throw new Error(`${where}: a block begins with a command`);
      else steps.at(-1)!.shown += `${line}\n`;
    }
    blocks.push({ where, page, steps });
  }
  return blocks;
}

/** Splits a command as a shell does, as far as the docs need it: blanks, single and double quotes. */
function words(command: string): string[] {
  return [...command.matchAll(/(?:[^\s"']+|"[^"]*"|'[^']*')+/g)].map(([word]) =>
    word.replace(/"([^"]*)"|'([^']*)'/g, (_all, double?: string, single?: string) => double ?? single ?? ""),
  );
}

/** What a terminal shows of one block, and where it differs from the page. */
async function play(block: Block): Promise<void> {
  let last = 0;
  for (const [i, { line, command, shown }] of block.steps.entries()) {
    const at = `${block.page}:${line}: $ ${command}`;
    if (command === "echo $?") {
      expect(`${last}\n`, at).toBe(shown);
      continue;
    }
    const [program, ...argv] = words(command);
    expect(program, `${at}: the docs show rodebench alone`).toBe("rodebench");
    const from = argv.indexOf("<");
    const input = from < 0 ? {} : { "-": readFileSync(join(root, argv[from + 1]!), "utf8") };
    const said = await rodebench(from < 0 ? argv : argv.slice(0, from), input);
    expect(said.both, at).toBe(shown);
    const told = block.steps[i + 1]?.command === "echo $?";
    if (!told) expect(said.status, `${at}: exit status`).toBe(0);
    last = said.status;
  }
}

const blocks = pages().flatMap((page) => blocksOf(page, readFileSync(join(root, page), "utf8")));

describe("the examples of the docs", () => {
  it("are there, each with a command", () => {
    expect(blocks.length).toBeGreaterThanOrEqual(15);
    for (const { where, steps } of blocks) expect(steps.length, where).toBeGreaterThan(0);
  });

  it.each(blocks.map((block) => [block.where, block] as const))(
    "%s shows what the program says",
    { timeout: 600_000 },
    async (_, block) => {
      await play(block);
    },
  );

  it("are told wrong when the page shows another number, or hides a failure", async () => {
    const page = (shown: string) =>
      blocksOf("page.md", `\`\`\`console\n$ rodebench settle none.yaml --span 5m\n${shown}`);
    const line = "none.yaml: no such file; a readable file is expected\n";
    await play(page(`${line}$ echo $?\n2\n\`\`\``)[0]!);
    await expect(play(page(`${line}$ echo $?\n3\n\`\`\``)[0]!)).rejects.toThrow("page.md:4: $ echo $?");
    await expect(play(page(`${line}\`\`\``)[0]!)).rejects.toThrow("page.md:2: $ rodebench settle");
    await expect(play(page("another line\n```")[0]!)).rejects.toThrow("page.md:2: $ rodebench settle");
  });
});
