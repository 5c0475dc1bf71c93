/** A published page as a viewer meets it: from a file, in a frame of another page, offline, on the narrowest phone. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { gzipSync } from "node:zlib";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { drawsInWind, peakLoad } from "../../src/holding/index.ts";
import { drawsFromText, PAGE_SLOTS, type PageContent } from "../../src/publish/index.ts";
import { formatQuantity, KNOT } from "../../src/quantity/index.ts";
import {
  certaintyOf,
  find,
  foundUncertainty,
  match,
  matchedUncertainty,
  type Rig,
  readRig,
  settle,
} from "../../src/rode/index.ts";
import { readBoat } from "../../src/sea/index.ts";
import { rng } from "../../src/statistics/index.ts";
import { sayChance } from "../../src/words/index.ts";
import { rodebench } from "../support/command-line.ts";
import {
  addressed,
  axeViolations,
  builtCopy,
  chromiumPath,
  freshDevices,
  NO_BROWSER,
  PATIENCE,
  sideways,
} from "./harness.ts";

const HOSTILE = `Pull </script><img src=x onerror=alert(1)> \u202Egnp & =1+1`;
const executablePath = chromiumPath();
if (executablePath === null) console.log(NO_BROWSER);

describe.skipIf(executablePath === null)("a published page", () => {
  const folder = mkdtempSync(join(tmpdir(), "viewer-page-"));
  const file = join(folder, "page.html");
  const address = pathToFileURL(file).href;
  let devices: ReturnType<typeof freshDevices>;
  let content: PageContent;
  const read = (path: string): string => readFileSync(path, "utf8");

  beforeAll(async () => {
    devices = freshDevices(executablePath!);
    const app = builtCopy(folder);
    const said = await rodebench(
      [
        ...["publish", "page", "data/examples/holding/three-anchors.csv", "--to", file, "--app", app],
        ...["--rig", "data/examples/rigs/quay-rig.yaml", "--pull", "4 kN", "--boat", "data/boats/marsh-tern.yaml"],
        ...["--title", HOSTILE, "--by", HOSTILE, "--note", HOSTILE],
      ],
      {},
      { write: async (path, text) => writeFileSync(path, text) },
    );
    expect(said.err).toBe("");
    const [, json] = new RegExp(`id="${PAGE_SLOTS.content}">(.*?)</script>`).exec(read(file))!;
    content = JSON.parse(json!) as PageContent;
  });
  afterAll(async () => {
    await devices.close();
    rmSync(folder, { recursive: true, force: true });
  });

  async function opened(
    width: number,
    where = address,
  ): Promise<Page & { readonly troubles: string[]; readonly asked: string[] }> {
    const page = Object.assign(await devices.page({ width, height: 800 }), { asked: [] as string[] });
    page.on("request", (request) => {
      if (!request.url().startsWith("file:")) page.asked.push(request.url());
    });
    await page.context().setOffline(true);
    await page.goto(where);
    return page;
  }

  const answer = (page: Page, name: string) =>
    page.locator("dt", { hasText: new RegExp(`^${name}$`) }).locator("xpath=../dd");
  const shown = (value: number, dimension: "force" | "length" | "angle", u: number): string =>
    formatQuantity(value, dimension, { u });

  it("weighs less than 250 kB compressed and asks for nothing", () => {
    const packed = gzipSync(readFileSync(file)).length;
    console.log(`a page with three anchors: ${(packed / 1000).toFixed(1)} kB compressed`);
    expect(packed).toBeGreaterThan(50_000);
    expect(packed).toBeLessThan(250_000);
    expect(read(file)).toMatch(/http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'sha256-/);
  });

  it("answers from a file as the library does, to the last digit shown, by keyboard, offline", async () => {
    const page = await opened(1200, `${address}#depth=12+m&wind=30+kn&anchor=Plaice&mass=20+kg&chainLength=150+ft`);
    const boat = readBoat(read("data/boats/marsh-tern.yaml"), "boat");
    const quay = readRig(read("data/examples/rigs/quay-rig.yaml"), "rig");
    const chain = readRig(
      "format: rodebench/rig@1\nname: r\nsetting: { medium: water, depth: 12 m, rollerHeight: 1.2 m }\nrode: [{ chain: { grade: 30, size: 10 mm, length: 150 ft } }]\nuncertainty: { massPerLength: 3 %, length: 2 %, rise: 0.2 m }",
      "rig",
    );
    await page.getByLabel("chain next to the anchor").selectOption(chain.rode[0]!.name);
    const { workingLoad: _, breakingLoad: __, ...own } = chain.rode[0] as Rig["rode"][number] & { kind: "line" };
    expect(content.chains.map(({ name }) => name)).toContain(own.name);

    const test = settle(quay, { at: "bow", newtons: 4000 });
    if (test.kind !== "settled") throw new Error("it settles");
    const pull = { at: "bow", newtons: test.bow.tension } as const;
    const same = match(quay, chain, pull, 1);
    if (same.kind !== "matched") throw new Error("it matches");
    const u = matchedUncertainty(quay, chain, pull, same, { draws: 0 })!.u!;
    await expect
      .poll(() => answer(page, "for the same angle at your anchor").textContent())
      .toContain(`let out ${shown(same.partLength, "length", u)} of ${own.name}`);
    const here = settle(chain, pull);
    if (here.kind !== "settled") throw new Error("it settles");
    const hereU = certaintyOf(chain, pull)!.angleToBottom;
    await expect
      .poll(() => answer(page, "your rode as it is, under that load at your bow").textContent())
      .toBe(`pulls its anchor at ${shown(here.anchor.angleToBottom, "angle", hereU)} above the bottom`);

    const peak = peakLoad(boat, 30 * KNOT)!;
    const wind = { at: "bow", newtons: peak.value } as const;
    const lies = settle(chain, wind);
    const sure = certaintyOf(chain, wind, peak.u)!;
    if (lies.kind !== "settled") throw new Error("it settles");
    await expect
      .poll(() => answer(page, "at your anchor").textContent())
      .toContain(shown(lies.anchor.tension, "force", sure.anchorTension));
    const question = { unknown: { what: "pull" }, goal: { goal: "liftoff" }, pull: { at: "bow", newtons: 1 } } as const;
    const lift = find(chain, question);
    if (lift.kind !== "found") throw new Error("it lifts");
    const liftU = foundUncertainty(chain, question, lift, { draws: 0 })!.u!;
    await expect
      .poll(() => answer(page, "your anchor end begins to rise at").textContent())
      .toContain(`${shown(lift.value, "force", liftU)} at the bow: a mean wind of `);

    const holding = content.holding!;
    const points = drawsInWind(
      drawsFromText(holding.draws),
      {
        boat,
        rig: chain,
        winds: [30 * KNOT],
        anchor: "Plaice",
        mass: 20,
        seabed: holding.seabed!,
        angles: holding.angles!,
      },
      rng(1 + 2),
    );
    const [point] = points;
    if (point?.kind !== "chance") throw new Error("a chance is expected");
    const row = page.getByRole("row", { name: /^30 kn/ });
    await expect
      .poll(() => row.locator("td").allInnerTexts())
      .toEqual([
        shown(peak.value, "force", peak.u),
        expect.stringContaining("°"),
        sayChance(point.chance),
        `${sayChance(point.low)} to ${sayChance(point.high)}`,
      ]);

    // By keyboard alone: a number wrong is told in place, and the answers of before stay and say so.
    await page.getByLabel("depth of water").focus();
    await page.keyboard.press("ControlOrMeta+a");
    await page.keyboard.type("12 kn");
    await expect.poll(() => page.getByRole("alert").textContent()).toContain("depth of water");
    await expect.poll(() => page.getByLabel("depth of water").getAttribute("aria-invalid")).toBe("true");
    await expect.poll(() => page.getByText("still those of the numbers before").count()).toBe(1);
    await page.keyboard.press("ControlOrMeta+a");
    await page.keyboard.type("40 ft");
    await expect.poll(() => page.getByRole("alert").count()).toBe(0);
    await addressed(page, ({ hash }) => new URLSearchParams(hash.slice(1)).get("depth") === "40 ft");
    expect(page.asked).toEqual([]);
    expect(page.troubles).toEqual([]);
  });

  it("takes names as text, fits 320 px in the dark, and has no fault for a screen reader", async () => {
    const page = await opened(320);
    await page.emulateMedia({ colorScheme: "dark" });
    const told = HOSTILE.replace("\u202E", "\ufffd");
    await expect.poll(() => page.getByRole("heading", { level: 1 }).textContent()).toBe(told);
    await expect.poll(() => page.title()).toBe(told);
    await expect.poll(() => page.locator("img").count()).toBe(0);
    await page.locator("table").waitFor();
    await expect.poll(() => sideways(page)).toBeLessThanOrEqual(0);
    expect(await axeViolations(page)).toEqual([]);
    await page.getByLabel("boat", { exact: true }).selectOption("your own");
    await page.getByLabel("feet and pounds").check();
    await expect
      .poll(() => answer(page, "largest load").textContent())
      .toMatch(/lbf at the bow, level, by the 3-second gust/);
    expect(await axeViolations(page)).toEqual([]);
    expect(page.asked).toEqual([]);
    expect(page.troubles).toEqual([]);
  });

  it("sizes itself in a frame of another page", async () => {
    const around = join(folder, "around.html");
    writeFileSync(
      around,
      `<!doctype html><title>around</title><iframe id="f" src="page.html" title="page" sandbox="allow-scripts" style="width:600px;height:100px"></iframe>
<script>addEventListener("message", ({ source, data }) => { const f = document.getElementById("f"); if (source === f.contentWindow && data?.format === "rodebench/page-size@1") f.style.height = data.height_px + "px"; });</script>`,
    );
    const page = await opened(700, pathToFileURL(around).href);
    const inside = page.frameLocator("#f");
    await inside.locator("table").waitFor();
    const high = () => page.locator("#f").evaluate((frame) => frame.getBoundingClientRect().height);
    const own = () => inside.locator("#page").evaluate((it) => Math.ceil(it.getBoundingClientRect().height));
    await expect
      .poll(async () => Math.abs((await high()) - (await own()) - 4), { timeout: PATIENCE })
      .toBeLessThanOrEqual(1);
    const before = await high();
    expect(before).toBeGreaterThan(800);
    await inside.getByLabel("boat", { exact: true }).selectOption("your own");
    await expect.poll(high, { timeout: PATIENCE }).not.toBe(before);
    expect(page.asked).toEqual([]);
    // What the harness itself keeps in a device, a sandbox has no place for.
    expect(page.troubles.filter((line) => !line.includes("localStorage"))).toEqual([]);
  });

  it("has a report beside it that reads by screen reader and prints to pages with tags", async () => {
    const report = join(folder, "report.html");
    const said = await rodebench(
      ["publish", "report", "data/examples/holding/three-anchors.csv", "--to", report, "--by", HOSTILE],
      {},
      { write: async (path, text) => writeFileSync(path, text) },
    );
    expect(said.err).toBe("");
    const page = await opened(360, pathToFileURL(report).href);
    await expect.poll(() => sideways(page)).toBeLessThanOrEqual(0);
    expect(await axeViolations(page)).toEqual([]);
    await expect.poll(() => page.locator(".under").textContent()).toContain("\ufffdgnp & =1+1");
    const pdf = (await page.pdf({ format: "A4", tagged: true })).toString("latin1");
    expect(pdf.startsWith("%PDF-")).toBe(true);
    // What makes a PDF one that is read aloud: it says that it is marked, has a tree of its parts, and a language.
    expect(pdf).toContain("/Marked true");
    expect(pdf).toContain("/StructTreeRoot");
    expect(pdf).toMatch(/\/Lang \(en\)/);
    expect(pdf.match(/\/Type \/Page\b(?!s)/g)!.length).toBeGreaterThanOrEqual(3);
    expect(page.asked).toEqual([]);
    expect(page.troubles).toEqual([]);
  });

  it.each([
    ["a field sheet", ["series", "data/series/creek-trial.yaml", "--no-power", "--sheet"]],
    ["the report of a run", ["publish", "report", "data/demo/gantry-run.yaml", "--to"]],
  ] as const)(
    "has %s beside it without a fault for a screen reader, hostile names as text, on a phone",
    async (_, argv) => {
      const sheet = join(folder, "beside.html");
      const said = await rodebench(
        [...argv, sheet],
        {},
        {
          // Its own title, or that of the run, taken for a hostile one.
          read: async (path) =>
            readFileSync(path, "utf8").replace(/^(title|name): .*$/m, `$1: ${JSON.stringify(HOSTILE)}`),
          write: async (path, text) => writeFileSync(path, text),
        },
      );
      expect(said.err).toBe("");
      const page = await opened(360, pathToFileURL(sheet).href);
      expect(await page.locator("h1").first().textContent()).toContain("</script><img src=x onerror=alert(1)>");
      expect(await page.locator("img[src=x], script").count()).toBe(0);
      expect(await page.evaluate(() => document.body.textContent!.includes("\u202e"))).toBe(false);
      expect(await axeViolations(page)).toEqual([]);
      expect(page.asked).toEqual([]);
      expect(page.troubles).toEqual([]);
    },
  );
});
