/** Figures published by the command: read back by other programs than wrote them. */
import { Resvg } from "@resvg/resvg-js";
import Papa from "papaparse";
import { describe, expect, it, vi } from "vitest";
import { rodebench } from "../support/command-line.ts";
import { readPdf, tagsOf } from "../support/read-pdf.ts";
import { schemaTroubles } from "../support/schema-troubles.ts";

const EXAMPLES = "data/examples";
const QUAY = `${EXAMPLES}/rigs/quay-rig.yaml`;
const AFLOAT = `${EXAMPLES}/rigs/all-chain-afloat.yaml`;
const PULLS = `${EXAMPLES}/holding/three-anchors.csv`;
const BOAT = "data/boats/marsh-tern.yaml";
const RUN = "data/demo/gantry-run.yaml";

const RIDE = ["--boat", BOAT, "--wind", "25 kn", "--sea", "0.6 m, 3 s", "--hours", "0.05"];
const SURGE = [
  ...["--pull", "1.5 kN", "--at", "horizontal", "--speed", "1 m/s", "--mass", "8 t"],
  ...["--map", "8..24/2 mm, 2..20/2 m", "--peak-limit", "9 kN"],
];

/** Every kind that needs no draws. */
const KINDS: readonly (readonly string[])[] = [
  ["rode", QUAY, "--pull", "4 kN"],
  ["together", QUAY, AFLOAT, "--pull", "4 kN"],
  ["ladder", QUAY, "--pull", "0.5..6/0.5kN"],
  ["map", AFLOAT, `${EXAMPLES}/rigs/chain-rope-snubber.yaml`, "--pull", "4 kN"],
  ["angle", RUN],
  ["movement", RUN],
  ["trace", `${EXAMPLES}/logs/unit-column.csv`],
  ["weather", BOAT],
  ["ride", AFLOAT, ...RIDE],
  ["snubbers", AFLOAT, ...SURGE],
  ["pulls", PULLS],
  ["held", PULLS],
];

async function published(argv: readonly string[], to: string, files: Readonly<Record<string, string>> = {}) {
  const written = new Map<string, Uint8Array>();
  const write = async (path: string, content: string | Uint8Array): Promise<void> =>
    void written.set(path, typeof content === "string" ? new TextEncoder().encode(content) : content);
  const said = await rodebench(["publish", "figure", ...argv, "--to", to], files, { write });
  const bytes = written.get(to);
  const csv = written.get(to.replace(/\.[a-z]+$/, ".csv"));
  return { ...said, bytes: bytes!, text: new TextDecoder().decode(bytes), csv: new TextDecoder().decode(csv), written };
}

/** Lines of text of an SVG, tags away. */
const textOf = (svg: string): string[] =>
  [...svg.matchAll(/<text [^>]*>([^<]*)<\/text>/g)].map(([, inside]) => inside!);

describe("publish figure", () => {
  it.each(KINDS)(
    "%s has its title, its ± and its source, as SVG and as a tagged PDF of one page, the same again",
    async (...argv) => {
      const { bytes, text, csv, err, out } = await published(
        [...argv, "--by", "An invented tester", "--json"],
        "f.svg",
      );
      expect(err).toBe("");
      const told = JSON.parse(out) as { title: string; uncertain: string; source: string; bytes: number; rows: number };
      expect(schemaTroubles("figure-published@1", told)).toEqual([]);
      expect(told.bytes).toBe(bytes.length);
      const lines = textOf(text).join(" ").replaceAll("&#39;", "'");
      for (const line of [told.title, told.uncertain, told.source]) expect(lines).toContain(line);
      expect(told.uncertain).toMatch(/±|standard uncertaint|95 %/);
      expect(told.source).toMatch(/^An invented tester\. Made from \S+.* by rodebench \d/);
      expect(text).not.toMatch(/var\(|<style|class=/);
      const rows = Papa.parse<string[]>(csv, { skipEmptyLines: true });
      expect(rows.errors).toEqual([]);
      expect(rows.data.length - 1).toBe(told.rows);
      expect(told.rows).toBeGreaterThan(10);

      const pdf = await published([...argv, "--by", "An invented tester"], "f.pdf");
      const { pages, info, marked } = await readPdf(pdf.bytes);
      expect(pages).toHaveLength(1);
      expect(marked).toBe(true);
      expect(info).toMatchObject({ Title: told.title, Author: "An invented tester", Language: "en" });
      // 170 mm across in points of 1/72 in.
      expect(pages[0]!.width).toBeCloseTo((170 / 25.4) * 72, 3);
      const figure = tagsOf(pages[0]!).find(({ role }) => role === "Figure")!;
      expect(figure.alt).toContain(told.title);
      expect(figure.alt).toContain(told.uncertain);
      const read = pages[0]!.lines.join(" ");
      for (const line of [told.title, told.uncertain, told.source]) expect(read).toContain(line);
      // Every line of the SVG stands in the PDF once: nothing is lost, and no rim is read twice.
      const count = (all: readonly string[]) =>
        all
          .map((one) => one.trim())
          .filter((one) => one !== "")
          .sort();
      expect(count(pages[0]!.lines)).toEqual(
        count(textOf(text).map((one) => one.replaceAll("&#39;", "'").replaceAll("&amp;", "&"))),
      );
      expect((await published([...argv, "--by", "An invented tester"], "f.pdf")).bytes).toEqual(pdf.bytes);
      expect((await published([...argv, "--by", "An invented tester"], "f.svg")).bytes).toEqual(bytes);
    },
  );

  it.each([
    ["film", 1920, 1080],
    ["film-4k", 3840, 2160],
    ["film-tall", 1080, 1920],
  ] as const)(
    "fills a frame of %s to the pixel, its letters large enough, with and without ground",
    async (sheet, width, height) => {
      for (const argv of [KINDS[0]!, KINDS[1]!, KINDS[4]!, KINDS[8]!]) {
        const { bytes } = await published([...argv, "--for", sheet], "f.png");
        const png = Buffer.from(bytes);
        expect([...png.subarray(0, 4)]).toEqual([0x89, 0x50, 0x4e, 0x47]);
        expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([width, height]);
        const { text } = await published([...argv, "--for", sheet], "f.svg");
        const [, across] = /viewBox="0 0 ([\d.]+) /.exec(text)!.map(Number);
        const [, scale] = / scale\(([\d.]+)\)/.exec(text)!.map(Number);
        const smallest = Math.min(
          ...[...text.matchAll(/<text [^>]*font-size="([\d.]+)"/g)].map(([, size]) => Number(size)),
        );
        // 1/75 of the shorter side: what film lettering is not set below (common practice, no source).
        expect((smallest * Math.min(1, scale!) * width) / across!).toBeGreaterThan(Math.min(width, height) / 75);
      }
      const corner = async (...more: string[]): Promise<number[]> => {
        const { text } = await published([...KINDS[0]!, "--for", sheet, ...more], "f.svg");
        return [...new Resvg(text, { font: { loadSystemFonts: false } }).render().pixels.subarray(0, 4)];
      };
      expect(await corner()).toEqual([255, 255, 255, 255]);
      expect(await corner("--theme", "dark")).toEqual([15, 24, 32, 255]);
      expect(await corner("--no-ground", "--theme", "dark")).toEqual([0, 0, 0, 0]);
    },
  );

  it("has in its data what settle answers of the same pull", async () => {
    const { csv } = await published(KINDS[0]!, "f.svg");
    const settled = JSON.parse((await rodebench(["settle", QUAY, "--pull", "4 kN", "--at", "bow", "--json"])).out) as {
      anchor: { tension_N: number; angle_deg: number };
      span_m: number;
    };
    const { data } = Papa.parse<Record<string, string>>(csv, { header: true, skipEmptyLines: true });
    const [anchor, bow] = ["anchor", "bow"].map((what) => data.find((row) => row.what === what)!);
    // Written to nine digits.
    expect(Number(anchor!["tension, N"]) / settled.anchor.tension_N).toBeCloseTo(1, 8);
    expect(Number(anchor!["angle, deg"]) / settled.anchor.angle_deg).toBeCloseTo(1, 8);
    expect(Number(bow!["distance from the anchor, m"]) / settled.span_m).toBeCloseTo(1, 8);
    expect(Number(anchor!["u of angle, deg"])).toBeGreaterThan(0);
  });

  it("has in its data what shock and ride answer of the same", async () => {
    const { csv } = await published(["snubbers", AFLOAT, ...SURGE], "f.svg");
    const { data } = Papa.parse<Record<string, string>>(csv, { header: true, skipEmptyLines: true });
    const shock = await rodebench(["shock", AFLOAT, ...SURGE, "--json"]);
    const { map } = JSON.parse(shock.out) as { map: { peak_N: (number | null)[][]; reason: string[][] } };
    expect(data).toHaveLength(90);
    const peaks = data.map((row) => Number(row["peak at the bow, kN"]) * 1000);
    map.peak_N.flat().forEach((peak, i) => {
      expect(peaks[i]! / peak!).toBeCloseTo(1, 3);
    });
    expect(new Set(data.map(({ verdict }) => verdict))).toContain("within all limits");
    expect(data.filter(({ verdict }) => verdict === "within all limits")).toHaveLength(
      map.reason.flat().filter((reason) => reason === "within").length,
    );

    const ride = await published(["ride", AFLOAT, ...RIDE], "f.svg");
    const ridden = JSON.parse((await rodebench(["ride", AFLOAT, ...RIDE, "--json"])).out) as {
      bow: { largest_N: number };
      anchor: { largest_N: number };
    };
    const rows = Papa.parse<Record<string, string>>(ride.csv, { header: true, skipEmptyLines: true }).data;
    // Thinned by the highest and lowest of each piece of time, the peak stays.
    const most = (line: string) =>
      1000 * Math.max(...rows.filter((row) => row.line === line).map(({ value }) => Number(value)));
    expect(most("at the bow") / ridden.bow.largest_N).toBeCloseTo(1, 8);
    expect(most("at the anchor") / ridden.anchor.largest_N).toBeCloseTo(1, 8);
  });

  it("says that there is no ± where none is stated", async () => {
    const exact =
      "format: rodebench/rig@1\nname: Exact\nsetting: { medium: air, rise: 5 m }\nrode: [ { line: { length: 20 m, massPerLength: 2 kg/m, density: 7850 kg/m3 } } ]\n";
    const { text } = await published(["rode", "exact.yaml", "--pull", "2 kN"], "f.svg", { "exact.yaml": exact });
    expect(textOf(text).join(" ")).toContain("No ±: Exact states no uncertainties, and the load is taken as exact.");
    const stated = await published(["rode", "exact.yaml", "--pull", "2 kN", "--pull-u", "5 %"], "f.svg", {
      "exact.yaml": exact,
    });
    expect(textOf(stated.text).join(" ")).toContain("± is one standard uncertainty");
  });

  it("shows hostile names as text everywhere: markup, a sign that turns the reading, a formula", async () => {
    const hostile = `=1+1 <script>alert(1)</script> \u202etxet & "x"`;
    const rig = JSON.stringify({
      format: "rodebench/rig@1",
      name: hostile,
      setting: { medium: "air", rise: "5 m" },
      rode: [{ line: { length: "20 m", massPerLength: "2 kg/m", density: "7850 kg/m3" } }],
    });
    const argv = ["rode", "h.json", "--pull", "2 kN", "--title", hostile];
    const { text, csv } = await published(argv, "f.svg", { "h.json": rig });
    expect(text).not.toContain("<script");
    expect(text).not.toContain("\u202e");
    expect(text).toContain("&lt;script&gt;");
    expect(new Resvg(text, { font: { loadSystemFonts: false } }).render().width).toBeGreaterThan(100);
    const { data } = Papa.parse<string[]>(csv, { skipEmptyLines: true });
    expect(data[1]![0]).toMatch(/^'=1\+1/);
    const { pages } = await readPdf((await published(argv, "f.pdf", { "h.json": rig })).bytes);
    expect(pages[0]!.lines.join(" ")).toContain("=1+1 <script>alert(1)</script>");
    expect(pages[0]!.lines.join(" ")).not.toContain("\u202e");
  });

  it("refuses what it cannot draw or write, in one line", async () => {
    const cases: [argv: string[], to: string, line: string, status: number][] = [
      [
        ["rode", QUAY, "--pull", "4 kN"],
        "f.jpg",
        '--to: "f.jpg"; a file name that ends in .svg, .png or .pdf is expected\n',
        2,
      ],
      [
        ["rode", QUAY],
        "f.svg",
        "--pull: nothing given; a load such as --pull 2kN with --at anchor, bow or horizontal, or --span, is expected\n",
        2,
      ],
      [["map", QUAY, AFLOAT, "--pull", "0 N"], "f.svg", '--pull: "0 N"; a load above zero is expected\n', 2],
      [["weather", BOAT, "--wind", "900 kn"], "f.svg", '--wind: "900 kn"; a wind of at most 100 m/s is expected\n', 2],
      [["movement", "data/examples/runs/three-loads.yaml"], "f.svg", "", 3],
    ];
    for (const [argv, to, line, status] of cases) {
      const said = await published(argv, to);
      if (line !== "") expect(said.err).toBe(line);
      expect(said.err.trimEnd().split("\n")).toHaveLength(1);
      expect(said.status).toBe(status);
      expect([...said.written.keys()]).toEqual([]);
    }
  });

  it("says in one line which package is missing for a kind of file", async () => {
    vi.resetModules();
    vi.doMock("@resvg/resvg-js", () => {
      throw new Error("not installed");
    });
    try {
      const { pictures } = await import("../../src/cli/figure-tools.ts");
      await expect(pictures("f.png")).rejects.toThrow(
        "f.png: PNG needs the package @resvg/resvg-js, which is not installed; npm install @resvg/resvg-js, or another kind of file, is expected",
      );
    } finally {
      vi.doUnmock("@resvg/resvg-js");
      vi.resetModules();
    }
  });
});
