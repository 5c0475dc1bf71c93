/** The report of a series: what stands in it, from the demonstration book, and that a tester's words are words. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseHTML } from "linkedom";
import Papa from "papaparse";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createDemoBook, systemPorts } from "../../src/book/index.ts";
import {
  compare,
  holdingVerdicts,
  inquire,
  readPullsTable,
  sampleOneChain,
  USUAL_PLAN,
  USUAL_PRIORS,
} from "../../src/holding/index.ts";
import { type SeriesReport, seriesReport } from "../../src/publish/index.ts";
import { formatQuantity } from "../../src/quantity/index.ts";
import { rng } from "../../src/statistics/index.ts";
import { comparablePulls, pullCases } from "../../src/study/index.ts";
import { INVENTED } from "../../src/words/index.ts";

const folder = mkdtempSync(join(tmpdir(), "series-report-"));
let report: SeriesReport;
let testers: string[];

beforeAll(async () => {
  const book = createDemoBook(join(folder, "demo.book"), { who: "test", ports: systemPorts });
  const records = {
    pull: book.list("pull"),
    day: book.list("day"),
    site: book.list("site"),
    seabed: book.list("seabed"),
    anchor: book.list("anchor"),
    rigVersion: book.list("rigVersion"),
    series: book.list("series"),
  };
  testers = records.day.map(({ testers: each }) => each!);
  book.close();
  const cases = pullCases(records);
  const { pulls, evidence } = comparablePulls(cases);
  const compared = compare(pulls, { laws: [], permutations: 99 }, rng(1));
  const inquired = await inquire(
    {
      pulls,
      terms: compared.modelTerms,
      random: compared.random,
      laws: ["lognormal"],
      priors: USUAL_PRIORS,
      wanted: { conditions: {}, chances: [0.9] },
      plan: { ...USUAL_PLAN, seed: 1 },
    },
    async (input, plan) => Array.from({ length: plan.chains }, (_, chain) => sampleOneChain(input, plan, chain)!),
  );
  report = {
    title: "Four shapes",
    by: "An invented tester",
    question: "Which holds most?",
    protocol: "Steps of 500 N.",
    words: [],
    units: "metric",
    cases,
    evidence,
    compared,
    inquired,
    verdicts: holdingVerdicts(compared, inquired),
    numbers: pulls.map((_, i) => i + 1),
    leftOut: [{ row: 40, why: "it names no anchor" }],
    csv: "anchor,heldTo_N,gaveWayBy_N\r\nHeron,3000,\r\n",
    files: ["demo.book"],
    version: "0",
  };
}, 600_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const read = (given: Partial<SeriesReport> = {}) => parseHTML(seriesReport({ ...report, ...given })).document;
type Page = ReturnType<typeof read>;
const headings = (page: Page): string[] => [...page.querySelectorAll("h2")].map((one) => one.textContent!);
function rowsUnder(page: Page, heading: string): string[][] {
  const part = [...page.querySelectorAll("section")].find((one) => one.querySelector("h2")?.textContent === heading)!;
  return [...part.querySelector("table")!.querySelectorAll("tbody tr")].map((row) =>
    [...row.children].map((cell) => cell.textContent!),
  );
}

describe("the report of a series", () => {
  it("says of invented data that they are, below its title and once, and nothing of it of others", () => {
    const [plain, invented] = [seriesReport(report), seriesReport({ ...report, invented: true })];
    expect(plain).not.toContain(INVENTED);
    expect(invented.split(INVENTED)).toHaveLength(2);
    expect(parseHTML(invented).document.querySelector("header")!.textContent).toContain(INVENTED);
    // What of it is of one's own stays as it is, to the byte.
    expect(seriesReport({ ...report, invented: false })).toBe(plain);
  });

  it("tells what was asked, done, read, compared and not known, in this order", () => {
    expect(headings(read())).toEqual([
      "In short",
      "Protocol",
      "What was pulled with",
      "Days and weather",
      "Every pull",
      "Where the ± comes from",
      "What the pulls say by themselves",
      "Concluded",
      "What weakens it",
      "What may not be concluded",
      "How this was computed",
      "The data",
    ]);
  });

  it("has every pull in its table, each with what it says and no more, and those left out with their reason", () => {
    const page = read();
    const rows = rowsUnder(page, "Every pull");
    expect(rows).toHaveLength(36);
    report.compared.pulls.forEach(({ anchor, hold, loadError }, i) => {
      expect(rows[i]![1]).toBe(anchor);
      if (hold.kind !== "heldTo" && hold.kind !== "gaveWay") throw new Error("the book has these alone");
      const load = formatQuantity(hold.newtons, "force", { u: loadError! * hold.newtons });
      expect(rows[i]![4]).toBe(hold.kind === "heldTo" ? `held ${load}` : `gave way at ${load}`);
    });
    expect(page.body.textContent).toContain("pull 40: it names no anchor");
    expect(page.body.textContent).toContain("neither as a failure nor as a record");
  });

  it("counts what held on apart from what gave way, as the pulls were written (counted here)", () => {
    const rows = rowsUnder(read(), "What the pulls say by themselves");
    const { pulls } = report.compared;
    for (const [anchor, all, gaveWay, heldOn] of rows) {
      const own = pulls.filter((pull) => pull.anchor === anchor);
      expect(Number(all)).toBe(own.length);
      expect(Number(gaveWay)).toBe(own.filter(({ hold }) => hold.kind === "gaveWay").length);
      expect(Number(heldOn)).toBe(own.filter(({ hold }) => hold.kind === "heldTo").length);
    }
    expect(rows.reduce((sum, row) => sum + Number(row[1]), 0)).toBe(36);
  });

  it("splits the ± into shares that add up to the whole", () => {
    const rows = rowsUnder(read(), "Where the ± comes from");
    for (const column of [1, 2]) {
      const whole = rows.reduce((sum, row) => sum + Number.parseInt(row[column]!, 10), 0);
      // Each is rounded to a percent.
      expect(Math.abs(whole - 100)).toBeLessThanOrEqual(rows.length / 2 + 0.5);
    }
  });

  it("tells no pair apart in its first lines that the table of pairs does not", () => {
    const page = read();
    const { inquired } = report;
    if (inquired.kind !== "concluded") throw new Error("concluded");
    const lines = [...page.querySelector("section ul")!.querySelectorAll("li")].map((one) => one.textContent!);
    const apart = inquired.conclusion.pairs.filter(({ moreInTheMean: chance }) => chance >= 0.95 || chance <= 0.05);
    expect(lines.filter((line) => line.includes("holds more than") && line.includes("in the mean")).length).toBe(
      apart.length,
    );
    expect(lines.filter((line) => line.includes("cannot be told apart")).length).toBe(
      inquired.conclusion.pairs.length - apart.length,
    );
  });

  it("names nobody but who wants to be named", () => {
    const html = seriesReport(report);
    expect(html).toContain("Tested by An invented tester");
    for (const name of testers.flatMap((one) => [one, one.split(/ and |\(/)[0]!.trim()]))
      expect(html).not.toContain(name);
  });

  it("carries its data as a table that compare reads", () => {
    const link = read().querySelector("a[download]")!;
    const csv = Buffer.from(link.getAttribute("href")!.split("base64,")[1]!, "base64").toString("utf8");
    const { pulls } = readPullsTable(Papa.parse<string[]>(csv, { skipEmptyLines: true }).data, "attached");
    expect(pulls).toEqual([{ anchor: "Heron", hold: { kind: "heldTo", newtons: 3000 } }]);
    expect(link.getAttribute("download")).toBe("four-shapes-pulls.csv");
  });

  it("shows a tester's Markdown as words, lists and links, and takes all else for text", () => {
    const page = read({
      words: [
        "# Days\n\nA **strong** and *leaning* word, `code <b>`, [there](https://example.org/a?b=1&c=2).\n\n- one <img src=x onerror=alert(1)>\n- two\n  goes on\n\n> said\n\n1. first\n\n[bad](javascript:alert(1)) </section><script>alert(1)</script> \u202Eback",
      ],
    });
    const part = [...page.querySelectorAll("section")].find(
      (one) => one.querySelector("h2")?.textContent === "In the tester's words",
    )!;
    expect(part.querySelector("h3")!.textContent).toBe("Days");
    expect(part.querySelector("strong")!.textContent).toBe("strong");
    expect(part.querySelector("em")!.textContent).toBe("leaning");
    expect(part.querySelector("code")!.textContent).toBe("code <b>");
    expect(part.querySelector("a")!.getAttribute("href")).toBe("https://example.org/a?b=1&c=2");
    expect([...part.querySelectorAll("ul li")].map((one) => one.textContent)).toEqual([
      "one <img src=x onerror=alert(1)>",
      "two goes on",
    ]);
    expect(part.querySelector("blockquote")!.textContent).toBe("said");
    expect(part.querySelector("ol li")!.textContent).toBe("first");
    expect(part.textContent).toContain("[bad](javascript:alert(1)) </section><script>alert(1)</script> \ufffdback");
    expect(page.querySelectorAll("script, img")).toHaveLength(0);
    expect(part.querySelectorAll("a")).toHaveLength(1);
  });

  it("takes hostile names as text, and is the same to the byte each time", () => {
    const hostile = `<script>alert(1)</script>\u202E"&'`;
    const page = read({ title: hostile, by: hostile, question: hostile, protocol: hostile });
    expect(page.querySelectorAll("script")).toHaveLength(0);
    expect(page.querySelector("h1")!.textContent).toBe(hostile.replace("\u202E", "\ufffd"));
    expect(seriesReport(report)).toBe(seriesReport(report));
  });
});
