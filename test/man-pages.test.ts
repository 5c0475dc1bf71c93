import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { commands, everyCommand } from "../src/cli/commands.ts";
import type { Io } from "../src/cli/io.ts";
import { root } from "./support/command-line.ts";

const { manPages, roffOf } = (await import(join(root, "scripts/man-pages.mjs"))) as {
  manPages: (
    all: readonly object[],
    version: string,
    page: (name: string) => string | undefined,
  ) => Record<string, string>;
  roffOf: (markdown: string) => string;
};

async function pages(): Promise<Record<string, string>> {
  return manPages(await everyCommand({} as Io), "1.2.3", (name) => {
    const path = join(root, `docs/${name}.md`);
    return existsSync(path) ? readFileSync(path, "utf8") : undefined;
  });
}

describe("manual pages", () => {
  it("are one of the program and one of each command, with its options and what its page in the docs tells", async () => {
    const all = await pages();
    expect(Object.keys(all)).toEqual(["rodebench.1", ...Object.keys(commands).map((name) => `rodebench-${name}.1`)]);
    for (const [name, text] of Object.entries(all)) {
      expect(text, name).toMatch(/^\.TH "RODEBENCH/);
      for (const section of [".SH NAME", ".SH SYNOPSIS", '.SH "EXIT STATUS"']) expect(text, name).toContain(section);
    }
    expect(all["rodebench-settle.1"]).toContain("\\-\\-pull\\-u <u>");
    expect(all["rodebench-settle.1"]).toContain("What angle and load does the anchor feel under this load");
    expect(all["rodebench-book.1"]).toContain("rodebench book restore");
    expect(all["rodebench-trace.1"]!.length).toBeGreaterThan(4000);
  });

  it("hide what means something to roff", () => {
    expect(roffOf(".hidden and 'quoted'\n\n- a `--flag` \\ here\n\n```text\n.fi\n```\n")).toBe(
      "\\&.hidden and 'quoted'\n.IP \\(bu 2\na \\fB\\-\\-flag\\fR \\e here\n.PP\n.RS 4\n.nf\n\\&.fi\n.fi\n.RE\n.PP",
    );
  });

  it.skipIf(!existsSync("/usr/bin/groff"))("are set by groff without a word", async () => {
    for (const [name, input] of Object.entries(await pages())) {
      const said = execFileSync("sh", ["-c", "groff -Kutf8 -man -Tutf8 -ww 2>&1 >/dev/null"], {
        input,
        encoding: "utf8",
      });
      expect(said, name).toBe("");
    }
  });
});
