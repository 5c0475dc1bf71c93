/** Figures published by the command: read back by other programs than wrote them. */
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Resvg } from "@resvg/resvg-js";
import Papa from "papaparse";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { createDemoBook, newBook, systemPorts } from "../../src/book/index.ts";
import { readRig } from "../../src/rode/index.ts";
import { INVENTED } from "../../src/words/index.ts";
import { rodebench } from "../support/command-line.ts";
import { readPdf, tagsOf } from "../support/read-pdf.ts";
import { schemaTroubles } from "../support/schema-troubles.ts";

const EXAMPLES = "data/examples";
const QUAY = `${EXAMPLES}/rigs/quay-rig.yaml`;
const AFLOAT = `${EXAMPLES}/rigs/all-chain-afloat.yaml`;
const PULLS = `${EXAMPLES}/holding/three-anchors.csv`;
const BOAT = "data/boats/marsh-tern.yaml";
const RUN = "data/demo/gantry-run.yaml";

const RIDE = ["--boat", BOAT, "--wind", "25 kn", "--sea", "0.6 m, 3 s", "--hours", "0.02"];
const SURGE = [
  ...["--pull", "1.5 kN", "--at", "horizontal", "--speed", "1 m/s", "--mass", "8 t"],
  ...["--map", "8..24/2 mm, 2..20/2 m", "--peak-limit", "9 kN"],
];

const SERIES = "data/series/creek-trial.yaml";
const BRIDLE = [
  ...["--pull", "1.5 kN", "--at", "horizontal", "--speed", "1 m/s", "--mass", "8 t"],
  ...["--snubber", "14 mm, 9 m", "--bridle", "2.4 m, 20 deg"],
];

const folder = mkdtempSync(join(tmpdir(), "figures-"));
const DEMO = join(folder, "demo.book");
/** The second pull of the demonstration has a log: its id. */
let logged = "";
beforeAll(() => {
  const book = createDemoBook(DEMO, { who: "test", ports: systemPorts });
  logged = book.list("pull").find(({ number }) => number === 2)!.id;
  book.close();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

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
  ["shares", AFLOAT, ...RIDE],
  ["moment", AFLOAT, ...RIDE, "--second", "30 s"],
  ["give", AFLOAT, "--boat", BOAT],
  ["snubbers", AFLOAT, ...SURGE],
  ["bridle", AFLOAT, ...BRIDLE],
  ["water", SERIES],
  ["sites", DEMO],
  ["one-pull", DEMO, "--pull", "second"],
  ["pulls", PULLS],
  ["held", PULLS],
];

/** Rows of data there are at least. */
const FEWEST: Readonly<Record<string, number>> = { sites: 2, bridle: 3 };

async function published(given: readonly string[], to: string, files: Readonly<Record<string, string>> = {}) {
  const argv = given.map((one) => (one === "second" ? logged : one));
  const written = new Map<string, Uint8Array>();
  const write = async (path: string, content: string | Uint8Array): Promise<void> =>
    void written.set(path, typeof content === "string" ? new TextEncoder().encode(content) : content);
  const said = await rodebench(["publish", "figure", ...argv, "--to", to], files, { write });
  const bytes = written.get(to);
  const csv = written.get(to.replace(/\.[a-z]+$/, ".csv"));
  return { ...said, bytes: bytes!, text: new TextDecoder().decode(bytes), csv: new TextDecoder().decode(csv), written };
}

/** Length of the lines of a rig file, m. */
const rodeOf = (path: string): number =>
  readRig(readFileSync(path, "utf8"), path).rode.reduce(
    (sum, part) => sum + (part.kind === "line" ? part.length : 0),
    0,
  );

/** Lines of text of an SVG, tags away. */
const textOf = (svg: string): string[] =>
  [...svg.matchAll(/<text [^>]*>([^<]*)<\/text>/g)].map(([, inside]) => inside!);

/** Kinds whose drawing is as high as what it shows, or fills what room there is. */
const FILMED = ["rode", "together", "angle", "ride", "water", "sites", "shares", "moment"];

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
      expect(told.rows).toBeGreaterThanOrEqual(FEWEST[argv[0]!] ?? 11);
      expect(told.source.endsWith(INVENTED)).toBe(argv.includes(DEMO));

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
    ["film", 1920, 1080, FILMED.length],
    // The same drawing four times as fine, of which one picture shows as much as all; and one of another shape.
    ["film-4k", 3840, 2160, 1],
    ["film-tall", 1080, 1920, 2],
  ] as const)(
    "fills a frame of %s to the pixel, its letters large enough, with and without ground",
    async (sheet, width, height, asPictures) => {
      for (const [i, name] of FILMED.entries()) {
        const argv = KINDS.find(([kind]) => kind === name)!;
        if (i < asPictures) {
          const { bytes } = await published([...argv, "--for", sheet], "f.png");
          const png = Buffer.from(bytes);
          expect([...png.subarray(0, 4)]).toEqual([0x89, 0x50, 0x4e, 0x47]);
          expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([width, height]);
        }
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

  it("has in its data what series, ride and the book answer of the same", async () => {
    const rowsOf = (csv: string) =>
      Papa.parse<Record<string, string>>(csv, { header: true, skipEmptyLines: true }).data;
    const water = rowsOf((await published(["water", SERIES], "f.svg")).csv);
    const series = JSON.parse((await rodebench(["series", SERIES, "--no-power", "--json"])).out) as {
      table: {
        site: string;
        load_N: number;
        had: { depth_m: number; length_m: number; bow_N: number } | null;
      }[];
    };
    expect(water).toHaveLength(series.table.length);
    series.table.forEach(({ site, load_N, had }, i) => {
      const row = water[i]!;
      expect([row.site, Number(row["load at the anchor, N"])]).toEqual([site, load_N]);
      if (had === null) {
        expect(row["length out, m"]).toBe("");
        expect(row["against it"]).not.toBe("");
        return;
      }
      expect(Number(row["water that moves the angle least, m"]) / had.depth_m).toBeCloseTo(1, 7);
      expect(Number(row["length out, m"]) / had.length_m).toBeCloseTo(1, 7);
      expect(Number(row["load at the bow, N"]) / had.bow_N).toBeCloseTo(1, 7);
    });
    const one = rowsOf((await published(["water", SERIES, "--site", "Outer bank"], "f.svg")).csv);
    expect(one).toEqual(water.filter(({ site }) => site === "Outer bank"));

    const shares = rowsOf((await published(["shares", AFLOAT, ...RIDE], "f.svg")).csv);
    const ridden = JSON.parse((await rodebench(["ride", AFLOAT, ...RIDE, "--json"])).out) as {
      bow: { mean_N: number; largest_N: number };
    };
    const share = shares.map((row) => Number(row["share of the time"]));
    expect(share.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 8);
    expect(Number(shares.at(-1)!["to, kN"]) / (ridden.bow.largest_N / 1000)).toBeCloseTo(1, 8);
    // The mean by classes is that of the ride to half a class.
    const width = ridden.bow.largest_N / shares.length;
    const mean = share.reduce((sum, one, i) => sum + one * (i + 0.5) * width, 0);
    expect(Math.abs(mean - ridden.bow.mean_N)).toBeLessThan(width / 2);

    // A second of the ride: the nodes follow one another along a rode as long as its file says, but for its stretch.
    const nodes = rowsOf((await published(["moment", AFLOAT, ...RIDE, "--second", "30 s"], "f.svg")).csv)
      .filter(({ what }) => what!.startsWith("node"))
      .map((row) => [row["downwind, m"], row["across, m"], row["height above the anchor, m"]].map(Number));
    const long = nodes.slice(1).reduce((sum, at, i) => sum + Math.hypot(...at.map((v, k) => v - nodes[i]![k]!)), 0);
    expect(long / rodeOf(AFLOAT)).toBeCloseTo(1, 2);

    const pull = rowsOf((await published(["one-pull", DEMO, "--pull", "second"], "f.svg")).csv);
    const loads = pull.filter(({ line, of }) => line === "" && of === "load at the bow, kN");
    // It held to 2549 N by its record; the highest single reading is a little more.
    expect(Math.max(...loads.map(({ value }) => Number(value)))).toBeGreaterThan(2.549);
    expect(Math.max(...loads.map(({ value }) => Number(value)))).toBeLessThan(2.8);
    const sites = rowsOf((await published(["sites", DEMO], "f.svg")).csv);
    expect(sites.map((row) => [Number(row["latitude, deg"]), Number(row.days)])).toEqual([
      [0.2517, 2],
      [0.2231, 1],
    ]);
  });

  it("says of every figure of a book of invented data that they are", async () => {
    for (const argv of [
      ["pulls", DEMO],
      ["held", DEMO],
    ]) {
      const { text } = await published(argv, "f.svg");
      expect(textOf(text).join(" ")).toContain(INVENTED);
    }
    expect((await published(["pulls", PULLS], "f.svg")).text).not.toContain(INVENTED);
  });

  it("marks where catenary ends in the wind that weather says the load of shock is worth", async () => {
    const { text, out } = await published(["give", AFLOAT, "--boat", BOAT, "--asks", "0.1 m/kN", "--json"], "f.svg");
    const shock = JSON.parse(
      (await rodebench(["shock", AFLOAT, "--pull", "1 kN", "--at", "horizontal", "--asks", "0.1 m/kN", "--json"])).out,
    ) as { catenaryEnd: { horizontal_N: number } };
    const worth = JSON.parse(
      (await rodebench(["weather", BOAT, "--load", `${shock.catenaryEnd.horizontal_N} N`, "--json"])).out,
    ) as { windage: { wind_m_per_s: { value: number } } };
    const [, knots] = /Past ([\d.]+) ± /.exec((JSON.parse(out) as { uncertain: string }).uncertain)!;
    // Told to a tenth of a knot.
    expect(Math.abs(Number(knots) - (worth.windage.wind_m_per_s.value * 3600) / 1852)).toBeLessThan(0.051);
    expect(textOf(text)).toContain("catenary ends");
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

  it("shows hostile names of series, sites, boats, pulls and books as text too", async () => {
    const hostile = `=1+1 <script>alert(1)</script> \u202etxet & x`;
    const quoted = (path: string): string =>
      readFileSync(path, "utf8").replace(/^name: .*$/m, () => `name: ${JSON.stringify(hostile)}`);
    const files = {
      "series.yaml": readFileSync(SERIES, "utf8")
        .replace(/^name: .*$/m, () => `name: ${JSON.stringify(hostile)}`)
        .replaceAll("Outer bank", () => JSON.stringify(hostile)),
      "rig.yaml": quoted(AFLOAT),
      "boat.yaml": quoted(BOAT),
    };
    const path = join(folder, "hostile.book");
    const book = newBook(path, { title: hostile }, { who: "test", ports: systemPorts });
    book.add("site", { name: hostile, latitude_deg: 0.2, longitude_deg: -29 });
    const anchor = book.add("anchor", { name: hostile, shape: "other" });
    const pull = book.add("pull", { anchor, loadAt: "bow" });
    const channels = [{ name: "load", quantity: "load", unit: "N", precision: "double" as const }];
    const log = book.add("log", { pull, name: hostile, source: hostile, channels });
    book.logs.record(log, { times: Float64Array.of(0, 1, 2), columns: { load: Float64Array.of(0, 900, 800) } });
    book.add("mark", { log, kind: "step", from_s: 1, origin: "by hand", remarks: hostile });
    book.close();
    const boat = ["--boat", "boat.yaml"];
    const ride = [...boat, ...RIDE.slice(2)];
    for (const argv of [
      ["water", "series.yaml"],
      ["give", "rig.yaml", ...boat],
      ["shares", "rig.yaml", ...ride],
      ["moment", "rig.yaml", ...ride, "--second", "5 s"],
      ["sites", path],
      ["one-pull", path, "--pull", pull],
    ]) {
      const { text, csv, err } = await published(argv, "f.svg", files);
      expect(err, argv[0]).toBe("");
      expect(text).toContain("&lt;script&gt;");
      expect(text + csv).not.toContain("\u202e");
      expect(text).not.toContain("<script");
      expect(text).not.toContain(INVENTED);
      for (const cell of Papa.parse<string[]>(csv, { skipEmptyLines: true }).data.flat())
        expect(cell).not.toMatch(/^=/);
      const { pages } = await readPdf((await published(argv, "f.pdf", files)).bytes);
      const read = pages[0]!.lines.join(" ");
      expect(read).toContain("<script>alert(1)</script>");
      expect(read).not.toContain("\u202e");
    }
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
      [
        ["water", SERIES, "--site", "Nowhere"],
        "f.svg",
        '--site: "Nowhere"; one of "Creek mouth", "Outer bank" is expected\n',
        2,
      ],
      [
        ["give", AFLOAT, "--boat", BOAT, "--asks", "50 % of 1 m up to 5 kN"],
        "f.svg",
        '--asks: "50 % of 1 m up to 5 kN"; a give per load, such as "0.1 m/kN", is expected\n',
        2,
      ],
      [
        ["moment", AFLOAT, ...RIDE, "--second", "1 h"],
        "f.svg",
        '--second: "1 h"; a time from 0 to 72 s is expected\n',
        2,
      ],
      [["bridle", AFLOAT, ...BRIDLE.slice(0, -2)], "f.svg", "", 2],
      [["one-pull", DEMO, "--pull", "no-such"], "f.svg", "", 2],
      [["sites", PULLS], "f.svg", "", 2],
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
