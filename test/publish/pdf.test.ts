/** Pages of ours as PDF, read back by another program: every word, in the order it is read, under the tag it belongs to. */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { pdfTools } from "../../src/cli/figure-tools.ts";
import { documentOfHtml, documentPdf } from "../../src/publish/index.ts";
import { page, paragraph, section, table } from "../../src/publish/report/page.ts";
import { PAGE_STYLE } from "../../src/publish/report/style.ts";
import { markdownHtml } from "../../src/publish/series/markdown.ts";
import { rodebench, root } from "../support/command-line.ts";
import { type PdfPage, readPdf, type Tagged, tagsOf } from "../support/read-pdf.ts";
import { schemaTroubles } from "../support/schema-troubles.ts";

const RUN = "data/demo/gantry-run.yaml";
const ABOUT = { author: "An invented tester", program: "rodebench test" };

const pdfOf = async (html: string): Promise<Uint8Array> => documentPdf(documentOfHtml(html, ABOUT), await pdfTools());

/** Letters and digits alone: how lines are broken and what joins names to values is the page's own. */
const bare = (text: string): string => text.replace(/[^\p{L}\p{N}±°<>=/]/gu, "");

/** The words of a page of ours, drawings apart. */
function wordsOfHtml(html: string): string {
  let body = html.slice(html.indexOf("<body>"));
  for (;;) {
    const from = body.indexOf("<svg");
    if (from < 0) break;
    let [depth, at] = [0, from];
    do {
      const [open, close] = [body.indexOf("<svg", at + 1), body.indexOf("</svg>", at + 1)];
      if (at === from && depth === 0) depth = 1;
      if (open >= 0 && open < close) [depth, at] = [depth + 1, open];
      else [depth, at] = [depth - 1, close];
    } while (depth > 0);
    body = body.slice(0, from) + body.slice(at + "</svg>".length);
  }
  const text = body.replace(/<[^>]*>/g, " ");
  const signs: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', "#39": "'" };
  return bare(text.replace(/&(amp|lt|gt|quot|#39);/g, (_, name: string) => signs[name]!));
}

/** What a screen reader reads of some pages: tag by tag, figures and the marks of lists apart. */
function wordsOfPdf(pages: readonly PdfPage[]): string {
  const said: string[] = [];
  const walk = (tag: Tagged, one: PdfPage): void => {
    if (tag.role === "Figure" || tag.role === "Lbl") return;
    if (tag.type === "content") said.push(one.said.get(tag.id!) ?? "");
    for (const child of tag.children ?? []) walk(child, one);
  };
  for (const one of pages) walk(one.tags, one);
  return bare(said.join(" "));
}

const filed = async (argv: readonly string[], to: string) => {
  const files = new Map<string, Uint8Array>();
  const write = async (path: string, content: string | Uint8Array): Promise<void> =>
    void files.set(path, typeof content === "string" ? new TextEncoder().encode(content) : content);
  const said = await rodebench([...argv, to], {}, { write });
  return { ...said, bytes: files.get(to)! };
};
const written = (argv: readonly string[], to: string) => filed(["publish", "report", ...argv, "--to"], to);

describe("a report as PDF", () => {
  it("of a run says what its page says, word for word, tagged, on numbered pages", async () => {
    const { bytes, out, err } = await written([RUN, "--json"], "r.pdf");
    expect(err).toBe("");
    const told = JSON.parse(out) as { bytes: number; title: string };
    expect(schemaTroubles("report-published@1", told)).toEqual([]);
    expect(told.bytes).toBe(bytes.length);
    const { pages, info, marked } = await readPdf(bytes);
    const html = new TextDecoder().decode((await written([RUN], "r.html")).bytes);
    expect(wordsOfPdf(pages)).toBe(wordsOfHtml(html));
    expect(marked).toBe(true);
    expect(info).toMatchObject({ Title: "Gantry pull, Hallow Yard: readings against theory", Language: "en" });
    // 21 readings in two tables, three figures of a third of a page and more: no fewer than three pages hold them.
    expect(pages.length).toBeGreaterThanOrEqual(3);
    pages.forEach((one, i) => {
      expect([one.width, one.height]).toEqual([595.28, 841.89]);
      expect(one.lines).toContain(`${i + 1} of ${pages.length}`);
    });
    const tags = pages.flatMap(tagsOf);
    const count = (role: string): number => tags.filter((tag) => tag.role === role).length;
    expect(count("H1")).toBe(1);
    expect(count("H2")).toBe(html.match(/<h2>/g)!.length);
    expect(count("Figure")).toBe(html.match(/<figure>/g)!.length);
    for (const { role, alt } of tags) if (role === "Figure") expect(alt).toMatch(/\S.{40}/);
    expect(count("TD") + count("TH")).toBe(html.match(/<t[hd][ >]/g)!.length);
    expect((await written([RUN], "r.pdf")).bytes).toEqual(bytes);
  });

  it("keeps every row whole, says the head of a long table again for the eye alone, and breaks no word away", async () => {
    const rows = Array.from({ length: 120 }, (_, i) => ({
      cells: [
        { says: `row${i}` },
        { says: `${"held and held on ".repeat(i % 7)}end${i}` },
        { says: String(i * i), number: true },
      ],
    }));
    const html = page(
      "Long",
      PAGE_STYLE,
      `<main>${section("Rows", paragraph("All of them."), table("Many rows", [{ says: "name" }, { says: "what it says" }, { says: "square", number: true }], rows))}</main>`,
    );
    const { pages } = await readPdf(await pdfOf(html));
    expect(pages.length).toBeGreaterThan(2);
    expect(wordsOfPdf(pages)).toBe(wordsOfHtml(html));
    for (const one of pages) {
      expect(one.lines).toContain("what it says");
      // What a row holds stands on one page.
      for (const line of one.lines.filter((text) => /^row\d+$/.test(text))) {
        const number = Number(line.slice(3));
        expect(one.lines.some((text) => text.endsWith(`end${number}`))).toBe(true);
        expect(one.lines).toContain(String(number * number));
      }
    }
    expect(pages.flatMap(tagsOf).filter(({ role }) => role === "TR")).toHaveLength(121);
  });

  it("shows a tester's words and hostile names as they were typed, and the data lie in it", async () => {
    const words = markdownHtml(
      "# Calm\n\nIt was **very** calm, see [the tables](https://example.org/t).\n\n- one\n- two\n\n> so they said\n\n`<b>` & <script>alert(1)</script>",
    );
    const link = '<p>Data: <a download="p.csv" href="data:text/csv;charset=utf-8;base64,YSxiDQo=">p.csv</a>.</p>';
    const html = page(
      "A <b>name</b> \u202e=1+1 漢",
      PAGE_STYLE,
      `<main><h1>A &lt;b&gt;name&lt;/b&gt;</h1>${words}${link}<p>漢 😀 ${"w".repeat(300)}</p></main>`,
    );
    const { pages, info } = await readPdf(await pdfOf(html));
    const read = pages.flatMap(({ lines }) => lines).join(" ");
    expect(read).toContain("<script>alert(1)</script>");
    expect(read).toContain("(https://example.org/t)");
    expect(read).not.toContain("\u202e");
    // What the letters lack is a box, and what is wider than the page goes on below.
    expect(read).toContain("□ □");
    expect(read.replaceAll(" ", "")).toContain("w".repeat(300));
    expect(info.Title).toContain("<b>name</b>");
    expect(pages.flatMap(tagsOf).map(({ role }) => role)).toEqual(
      expect.arrayContaining(["H1", "H3", "L", "LI", "BlockQuote"]),
    );
    expect(new TextDecoder("latin1").decode(await pdfOf(html))).toMatch(/\/EmbeddedFile/);
  });

  it("brings letters under the licence that lies beside them", () => {
    const licence = readFileSync(join(root, "data/fonts/LICENSE.txt"), "utf8");
    expect(licence).toContain("SIL OPEN FONT LICENSE Version 1.1");
    for (const name of ["LiberationSans-Regular.ttf", "LiberationSans-Bold.ttf"])
      expect(existsSync(join(root, "data/fonts", name))).toBe(true);
  });
});

describe("a field sheet as PDF", () => {
  const sheet = (to: string, ...more: string[]) =>
    filed(["series", "data/series/creek-trial.yaml", "--no-power", ...more, "--sheet"], to);

  it("says what its page says, word for word, tagged: gear check, codes, loads, holds and blanks, each pull on one page", async () => {
    const { bytes, err, out } = await sheet("s.pdf");
    expect([err, out.trimEnd().split("\n").at(-1)]).toEqual(["", "The field sheet is written to s.pdf"]);
    const html = new TextDecoder().decode((await sheet("s.html")).bytes);
    const { pages, info, marked } = await readPdf(bytes);
    expect(wordsOfPdf(pages)).toBe(wordsOfHtml(html));
    expect([marked, info.Title]).toEqual([true, "Field sheet: Two anchors in the creek"]);
    const tags = pages.flatMap(tagsOf);
    const count = (role: string): number => tags.filter((tag) => tag.role === role).length;
    const codes = [...html.matchAll(/<span class="code">(\w{5})<\/span>/g)].map(([, code]) => code!);
    // Of the eleven pulls of the plan; three of two steps fill an A4 page.
    expect(codes).toHaveLength(11);
    expect(pages.length).toBe(4);
    expect([count("H1"), count("H2"), count("Table")]).toEqual([1, 11, 12]);
    expect(count("TD") + count("TH")).toBe(html.match(/<t[hd][ >]/g)!.length);
    for (const code of codes) {
      const own = pages.filter(({ lines }) => lines.includes(code));
      expect(own).toHaveLength(1);
      const { lines } = own[0]!;
      const from = lines.indexOf(code);
      const next = lines.findIndex((line, i) => i > from && codes.includes(line));
      const block = lines.slice(from, next < 0 ? undefined : next).join(" ");
      for (const said of [
        "hold it 1 min",
        "1000 N",
        "2000 N",
        "Bow read",
        "Angle read",
        "gave way at ____",
        "never set",
      ])
        expect(block).toContain(said);
    }
    expect(pages[0]!.lines.join(" ")).toMatch(/Loaded gear hurts people.*Working load limit.*12500 N.*Who says stop/);
    expect((await sheet("s.pdf")).bytes).toEqual(bytes);
  });

  it("says the units that are asked for, and refuses no name of a file before anything is planned", async () => {
    const { pages } = await readPdf((await sheet("s.PDF", "--units", "us")).bytes);
    expect(pages.flatMap(({ lines }) => lines).join(" ")).toMatch(/\d ft out in .*225 lbf/);
    for (const none of ["-", ""]) {
      const { err, out, status } = await sheet(none);
      expect([status, out, err]).toEqual([2, "", `--sheet: "${none}"; the path of a file to write is expected\n`]);
    }
  });
});
