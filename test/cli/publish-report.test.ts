import { describe, expect, it } from "vitest";
import { rodebench } from "../support/command-line.ts";
import { schemaTroubles } from "../support/schema-troubles.ts";

const RUN = "data/demo/gantry-run.yaml";

/** What is written, by path. */
function writing(): {
  readonly files: Map<string, string>;
  readonly write: (path: string, content: string | Uint8Array) => Promise<void>;
} {
  const files = new Map<string, string>();
  return { files, write: async (path, content) => void files.set(path, String(content)) };
}

describe("publish report", () => {
  it("of a run is the report that reduce writes", async () => {
    const { files, write } = writing();
    const published = await rodebench(["publish", "report", RUN, "--to", "one.html", "--json"], {}, { write });
    expect(published.err).toBe("");
    const told = JSON.parse(published.out) as { title: string; bytes: number };
    expect(schemaTroubles("report-published@1", told)).toEqual([]);
    expect(told.bytes).toBe(Buffer.byteLength(files.get("one.html")!));
    await rodebench(["reduce", RUN, "--report", "other.html"], {}, { write });
    expect(files.get("one.html")).toBe(files.get("other.html"));
    expect(files.get("one.html")).toContain(told.title);
  });

  it("of a table tells its rows, and the words of a file among them", async () => {
    const { files, write } = writing();
    const said = await rodebench(
      [
        "publish",
        "report",
        "data/examples/holding/three-anchors.csv",
        "--to",
        "r.html",
        "--words",
        "w.md",
        "--units",
        "us",
      ],
      { "w.md": "# Weather\n\nIt was **calm**." },
      { write },
    );
    expect(said.err).toBe("");
    const html = files.get("r.html")!;
    expect(said.out).toBe(
      `r.html: Anchors compared, ${Math.round(Buffer.byteLength(html) / 1000)} kB; a browser prints it\n`,
    );
    expect(html).toContain("<h3>Weather</h3>\n<p>It was <strong>calm</strong>.</p>");
    expect(html).toMatch(/held [\d.,]+ lbf/);
    // 24 rows below the header of the file.
    const [every] = /<h2>Every pull<\/h2>[\s\S]*?<\/table>/.exec(html)!;
    expect(every!.match(/<tr/g)).toHaveLength(25);
  });
});
