/** docs/worked-example.md, run as it stands in an empty folder: its files written, its commands typed in their order. */
import { copyFileSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, it } from "vitest";
import { folder } from "./book/folder.ts";
import { rodebench, root } from "./support/command-line.ts";
import { maskedSession, typed } from "./support/session.ts";

it("the worked example goes from the rig to the report as the page tells", async () => {
  const cwd = folder();
  copyFileSync(join(root, "data/examples/pulls/three-steps.csv"), join(cwd, "three-steps.csv"));
  const page = readFileSync(join(root, "docs/worked-example.md"), "utf8");
  const write = async (path: string, content: string | Uint8Array): Promise<void> => {
    mkdirSync(dirname(join(cwd, path)), { recursive: true });
    writeFileSync(join(cwd, path), content);
  };
  // Files and commands as they follow each other on the page.
  const blocks = [...page.matchAll(/(?:`([\w-]+\.yaml)`:\n\n```yaml\n([\s\S]*?)```)|(?:```session\n([\s\S]*?)```)/g)];
  expect(blocks.length).toBeGreaterThan(8);
  const known: Record<string, string> = {};
  let commands = 0;
  for (const [, name, text, session] of blocks) {
    if (name !== undefined) {
      await write(name, text!);
      continue;
    }
    for (const turn of session!.split(/^\$ /m).slice(1)) {
      const [line, ...rest] = turn.split("\n");
      const said = await rodebench(typed(line!, known).slice(1), {}, { cwd, write });
      const kind = /book add trials\.book (\w+)/.exec(line!)?.[1];
      if (kind !== undefined) known[kind] = said.out.trim();
      expect(
        maskedSession(`${said.out}${said.err}${said.status === 0 ? "" : `[exit status ${said.status}]\n`}`),
        line,
      ).toBe(rest.join("\n"));
      commands++;
    }
  }
  expect(commands).toBeGreaterThan(15);
  const report = readFileSync(join(cwd, "report.html"), "utf8");
  expect(report).toContain("<svg");
  expect(report).not.toMatch(/(src|href)="http/);
  expect(readFileSync(join(cwd, "fitted.yaml"), "utf8")).toContain("rodebench/rig@1");
});
