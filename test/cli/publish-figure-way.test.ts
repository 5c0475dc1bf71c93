/** Load against the anchor's movement, published: what `trace` answered, as a drawing and as rows. */
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { rodebench } from "../support/command-line.ts";
import { schemaTroubles } from "../support/schema-troubles.ts";

const LOG = "data/examples/pulls/three-steps.csv";
const answer = async () => (await rodebench(["trace", LOG, "--json"])).out;

async function published(text: string, ...options: string[]) {
  const written = new Map<string, string>();
  const write = async (path: string, content: string | Uint8Array): Promise<void> =>
    void written.set(path, typeof content === "string" ? content : "");
  const argv = ["publish", "figure", "way", "pull.json", "--to", "way.svg", ...options];
  const said = await rodebench(argv, { "pull.json": text }, { write });
  return { ...said, svg: written.get("way.svg") ?? "", csv: written.get("way.csv") ?? "" };
}

describe("publish figure way", () => {
  it("has a mark and a row for each load held, with the way the anchor had gone and both ±", async () => {
    const text = await answer();
    const { way, log } = JSON.parse(text);
    expect(way).toHaveLength(4);
    const { out, err, svg, csv } = await published(text, "--json");
    expect(err).toBe("");
    const told = JSON.parse(out);
    expect(schemaTroubles("figure-published@1", told)).toEqual([]);
    expect(told).toMatchObject({ title: "pull: load against the anchor's movement", rows: 4 });
    const [head, ...rows] = Papa.parse<string[]>(csv, { skipEmptyLines: true }).data;
    expect(head![2]).toBe("load held, N");
    for (const [k, row] of rows.entries()) {
      const [n, by, load, uLoad, went, uWent] = row.map(Number);
      expect(n).toBe(k + 1);
      // Written to nine digits.
      for (const [is, was] of [
        [by, way[k].at_s - log.from_s],
        [load, way[k].load.value_N],
        [uLoad, way[k].load.u_N],
        [went, way[k].way.value_m],
        [uWent, way[k].way.u_m],
      ] as const)
        expect(is).toBeCloseTo(was, 5);
    }
    // Two bars a mark, and its number beside it.
    const numbers = [...svg.matchAll(/<text [^>]*>([^<]*)<\/text>/g)].map(([, inside]) => inside!.trim());
    for (const n of ["1", "2", "3", "4"]) expect(numbers).toContain(n);
    expect((await published(text, "--json")).svg).toBe(svg);
    expect((await published(text, "--units", "us")).svg).toContain("lbf");
  });

  it("is refused in one line for what is no answer of trace, and says what would tell where the way is not known", async () => {
    for (const [text, expected] of [
      ["no JSON", "an answer of rodebench trace --json is expected"],
      ['{"format":"rodebench/ladder@1"}', "an answer of rodebench trace --json is expected"],
      [JSON.stringify({ ...JSON.parse(await answer()), readAt: "roller" }), "anchor or bow is expected"],
    ] as const) {
      const { err, status, svg } = await published(text);
      expect([status, svg]).toEqual([2, ""]);
      expect(err).toContain("pull.json");
      expect(err).toContain(expected);
      expect(err.trimEnd().split("\n")).toHaveLength(1);
    }
    const { err, status } = await published(JSON.stringify({ ...JSON.parse(await answer()), way: [] }));
    expect(status).toBe(3);
    expect(err).toMatch(/^pull\.json: how far the anchor went is not known; the boat's track/);
  });
});
