/** What a viewer's page holds and answers, in Node; the page itself is driven in test/journeys/viewer-page.test.ts. */

import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseHTML } from "linkedom";
import Papa from "papaparse";
import { beforeAll, describe, expect, it } from "vitest";
import { createDemoBook, systemPorts } from "../../src/book/index.ts";
import {
  compare,
  drawsInWind,
  holdingInWind,
  type Inquired,
  inquire,
  predictiveDraws,
  readPullsTable,
  sampleOneChain,
  USUAL_PLAN,
  USUAL_PRIORS,
} from "../../src/holding/index.ts";
import {
  boatOf,
  drawsFromText,
  drawsToText,
  liftsAt,
  PAGE_SLOTS,
  type PageContent,
  pageContent,
  pageHolding,
  pageHtml,
  rigOf,
  type Setup,
  setupsOfPulls,
  standsFor,
  usualNumbers,
} from "../../src/publish/index.ts";
import { KNOT } from "../../src/quantity/index.ts";
import { type Rig, readRig } from "../../src/rode/index.ts";
import { readBoat } from "../../src/sea/index.ts";
import { rng } from "../../src/statistics/index.ts";
import { pullCases, pullEvidence } from "../../src/study/index.ts";
import { sayChance } from "../../src/words/index.ts";

const VIEWER = `<title><!--${PAGE_SLOTS.title}--></title><script type="application/json" id="${PAGE_SLOTS.content}"><!--${PAGE_SLOTS.content}--></script><script>1</script>`;
const choice = {
  title: "A page",
  by: "",
  note: "",
  units: "metric",
  setups: [],
  boats: [],
  holding: null,
  program: "0",
} as const;

function line(length: number): Rig["rode"][number] {
  return { kind: "line", name: "chain", length, massPerLength: 2.3, density: 7850, stretch: { kind: "rigid" } };
}
function afloat(depth: number, length: number): Rig {
  const setting = {
    medium: "water",
    depth,
    rollerHeight: 0,
    waterDensity: 1025,
    bottomSlope: 0,
    bottomFriction: 0,
    current: 0,
  } as const;
  return { name: "afloat", setting, rode: [line(length)], uncertainty: {} };
}

describe("a pull in a viewer's water", () => {
  it("stands for the length a catenary of the textbook gives (computed by hand: inextensible, one medium)", () => {
    // T at the anchor is T at the bow less w h; H and V at the anchor follow from the angle; V grows by w s along the line.
    const w = 2.3 * 9.80665 * (1 - 1025 / 7850);
    const load = 3000;
    const setup: Setup = { name: "test", rig: afloat(4, 14), load, at: "bow" };
    const { test, same } = standsFor(setup, afloat(9, 30));
    if (test.kind !== "settled" || same.kind !== "matched") throw new Error("both settle");
    const angle = test.anchor.angleToBottom;
    expect(angle).toBeGreaterThan(0.05);
    const tensionAtAnchor = load - w * 9;
    const level = tensionAtAnchor * Math.cos(angle);
    const length = (Math.sqrt(load ** 2 - level ** 2) - tensionAtAnchor * Math.sin(angle)) / w;
    expect(same.partLength / length).toBeCloseTo(1, 8);
  });

  it("lifts at the load at which a catenary of the textbook leaves the bottom (computed by hand)", () => {
    // s² = h² + 2 h H / w where the line just touches at its end; T at the bow is H + w h.
    const w = 2.3 * 9.80665 * (1 - 1025 / 7850);
    const boat = readBoat(readFileSync("data/boats/marsh-tern.yaml", "utf8"), "boat");
    const lifts = liftsAt(boat, afloat(8, 40));
    if (lifts.kind !== "load") throw new Error("it lifts");
    const level = (w * (40 ** 2 - 8 ** 2)) / (2 * 8);
    expect(lifts.load / (level + w * 8)).toBeCloseTo(1, 8);
    expect(lifts.wind!.value).toBeGreaterThan(10 * KNOT);
  });

  it("is asked of what the page offers, or of a boat by four sizes that says how little is known of her", () => {
    const tern = readBoat(readFileSync("data/boats/marsh-tern.yaml", "utf8"), "boat");
    const content = pageContent({ ...choice, boats: [tern] });
    const numbers = usualNumbers(content);
    expect(boatOf(content, numbers)).toBe(tern);
    const own = boatOf(content, { ...numbers, boat: -1, freeboard: 1.1, mast: 14 });
    expect(own.uncertainty.area).toBe(0.3);
    const { windage } = own;
    if (windage?.kind !== "shapes") throw new Error("shapes");
    expect(windage.shapes[0]).toEqual({ kind: "hull", freeboard: 1.1 });
    expect(windage.shapes.filter((shape) => shape.kind === "mast" && shape.top === 14)).toHaveLength(1);
    const rig = rigOf(content, { ...numbers, chainLength: 12, rope: 3, ropeLength: 30 })!;
    expect(rig.rode.map((part) => (part.kind === "line" ? part.length : 0))).toEqual([12, 30]);
    expect(rigOf(content, { ...numbers, chainLength: 0, ropeLength: 0 })).toBeNull();
  });
});

describe("holding within a page", () => {
  let concluded: Extract<Inquired, { kind: "concluded" }>;
  beforeAll(async () => {
    const table = Papa.parse<string[]>(readFileSync("data/examples/holding/three-anchors.csv", "utf8"), {
      skipEmptyLines: true,
    });
    const { pulls } = readPullsTable(table.data, "pulls");
    const compared = compare(pulls, { laws: [], permutations: 0 }, rng(1));
    const found = await inquire(
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
    if (found.kind !== "concluded") throw new Error(found.kind);
    concluded = found;
  }, 600_000);

  it("gives every chance over the wind as the library gives it from the posterior itself", () => {
    const rig = readRig(readFileSync("data/demo/marsh-tern-rode.yaml", "utf8"), "rig");
    const boat = readBoat(readFileSync("data/boats/marsh-tern.yaml", "utf8"), "boat");
    const question = {
      boat,
      rig,
      winds: [15, 25, 35, 45].map((kn) => kn * KNOT),
      anchor: "Plaice",
      mass: 12,
      seabed: "mud",
    };
    const own = holdingInWind(concluded.posterior, question, rng(3));
    const kept = drawsInWind(drawsFromText(pageHolding(concluded, 1).draws), question, rng(3));
    expect(kept).toHaveLength(4);
    kept.forEach((point, i) => {
      const other = own[i]!;
      if (point.kind !== "chance" || other.kind !== "chance") throw new Error("a chance is expected");
      for (const part of ["chance", "low", "high"] as const) {
        expect(sayChance(point[part])).toBe(sayChance(other[part]));
        // Single precision of ln of a load: 1e-7 of some eight, steepened by at most a few.
        expect(Math.abs(point[part] - other[part])).toBeLessThan(1e-5);
      }
    });
    const chances = kept.map((point) => (point.kind === "chance" ? point.chance : 0));
    expect(chances[0]).toBeGreaterThan(chances[3]! + 0.3);
  });

  it("keeps draws to the seven digits of single precision", () => {
    const draws = predictiveDraws(concluded.posterior, 500);
    const back = drawsFromText(drawsToText(draws));
    expect(back.length).toBe(500);
    for (const name of ["centre", "angle", "mass", "spread", "scatter"] as const)
      back[name].forEach((value, i) => {
        expect(value).toBe(Math.fround(draws[name][i]!));
      });
    expect(back.ofAnchor.map((column) => column[7])).toEqual(draws.ofAnchor.map((column) => Math.fround(column[7]!)));
  });

  it("tells each anchor's pulls and how many ended while it held, and no site, day or tester", () => {
    const holding = pageHolding(concluded, 1);
    // Counted in the table by hand.
    expect(holding.anchors.map(({ anchor, pulls, heldOn }) => [anchor, pulls, heldOn])).toEqual([
      ["Heron", 8, 0],
      ["Plaice", 8, 2],
      ["Whelk", 8, 6],
    ]);
    const text = JSON.stringify(holding);
    const table = readFileSync("data/examples/holding/three-anchors.csv", "utf8")
      .trim()
      .split("\n")
      .map((row) => row.split(","));
    const private_ = ["site", "day", "tester"].map((name) => table[0]!.indexOf(name)).filter((at) => at >= 0);
    expect(private_.length).toBeGreaterThan(0);
    for (const at of private_)
      for (const row of table.slice(1)) if (row[at]) expect(text).not.toContain(JSON.stringify(row[at]).slice(1, -1));
  });
});

describe("the setups of a book's pulls", () => {
  it("are the hardest pull of each rig, and bear no name of a person or place", () => {
    const folder = mkdtempSync(join(tmpdir(), "page-"));
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
    const evidence = pullCases(records).map((one) => pullEvidence(one));
    const setups = setupsOfPulls(evidence);
    expect(setups.length).toBeGreaterThan(0);
    for (const { rig, load, at } of setups) {
      const loads = evidence.flatMap(({ deployment, heldTo, gaveWayBy }) => {
        const carried = heldTo ?? gaveWayBy;
        return deployment?.rig.name === rig.name && carried?.kind === "carried"
          ? [carried[at === "horizontal" ? "bow" : at].value]
          : [];
      });
      expect(load).toBe(Math.max(...loads));
    }
    const page = pageHtml(VIEWER, pageContent({ ...choice, setups }));
    const names = [...records.site.map(({ name }) => name), ...records.day.map(({ date }) => date)].filter(
      (name) => name !== null,
    );
    expect(names.length).toBeGreaterThan(1);
    for (const name of names) expect(page).not.toContain(name);
    book.close();
    rmSync(folder, { recursive: true, force: true });
  });
});

describe("a page of invented data", () => {
  it("says so in its content; one of others is the same to the byte with and without the question", () => {
    expect(pageContent({ ...choice, invented: true }).invented).toBe(true);
    expect(JSON.stringify(pageContent(choice))).not.toContain("invented");
    const page = (content: PageContent): string => pageHtml(VIEWER, content);
    expect(page(pageContent({ ...choice, invented: true }))).not.toBe(page(pageContent(choice)));
  });
});

describe("a page's text", () => {
  const hostile = `</title></script><script>alert(1)</script><!--<script>\u202Egnp.exe & "'=1+1\u0007`;
  const content: PageContent = pageContent({ ...choice, title: hostile, by: hostile, note: `${hostile}\nsecond line` });

  it("is text whatever a name holds: nothing of it becomes an element, and no sign turns the order of reading", () => {
    const html = pageHtml(VIEWER, content);
    const { document } = parseHTML(html);
    expect(document.querySelectorAll("script")).toHaveLength(2);
    expect(html).not.toMatch(/\p{Bidi_Control}/u);
    const told = hostile.replace("\u202E", "\ufffd").replace("\u0007", "\ufffd");
    expect(html).not.toContain("<script>alert");
    expect(html.match(/<title>[^<]*<\/title>/g)).toHaveLength(1);
    const read = JSON.parse(document.getElementById(PAGE_SLOTS.content)!.textContent!) as PageContent;
    expect(read.by).toBe(told);
    expect(read.note).toBe(`${told}\nsecond line`);
    expect({ ...read, title: "", by: "", note: "" }).toEqual(
      JSON.parse(JSON.stringify({ ...content, title: "", by: "", note: "" })),
    );
  });

  it("is refused of a file that is no viewer", () => {
    expect(() => pageHtml("<p>", content)).toThrow("viewer: a file without the places");
    expect(() => pageHtml(VIEWER + VIEWER, content)).toThrow("viewer");
  });

  it("is the same to the byte for the same content", () => {
    expect(pageHtml(VIEWER, content)).toBe(
      pageHtml(VIEWER, pageContent({ ...choice, title: hostile, by: hostile, note: content.note })),
    );
  });
});
