/** The place Publish: what goes out is chosen, looked at, and saved; what is saved is what the commands write. */
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { parseHTML } from "linkedom";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createDemoBook } from "../../src/book/index.ts";
import { answersOfTable } from "../../src/cli/publish-answers.ts";
import { checkPackage, PAGE_SLOTS, type PageContent, saysInvented } from "../../src/publish/index.ts";
import { INVENTED } from "../../src/words/index.ts";
import { readPdf } from "../support/read-pdf.ts";
import { filesStored } from "../support/stored-zip.ts";
import { addressed, axeViolations, chromiumPath, type OpenBench, openBench, sideways, sizes } from "./harness.ts";

let bench: OpenBench;
beforeAll(async () => {
  const opened = await openBench((path) => createDemoBook(path).close());
  if (opened !== null) bench = opened;
});
afterAll(async () => bench?.close());

const journey = chromiumPath() === null ? describe.skip : describe;

async function download(page: Page, button: string): Promise<{ readonly name: string; readonly bytes: Buffer }> {
  const coming = page.waitForEvent("download");
  await page.getByRole("button", { name: button }).click();
  const came = await coming;
  return { name: came.suggestedFilename(), bytes: readFileSync(await came.path()) };
}

journey("the place Publish, on the demonstration book", () => {
  it("makes a page, a report and a package of the book, shows them, and saves them", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at("/publish"));
    await page.getByText("36 pulls").waitFor();
    await page.getByLabel("tested by").fill("=1+1 <b>Nobody</b>");
    await page.getByLabel("your own words").fill("It was **calm**.");
    await page.getByLabel("what was read during each pull").check();
    await page.getByRole("button", { name: "Make page, report and data" }).click();
    await page.getByRole("button", { name: "Save the page" }).waitFor();
    await addressed(page, ({ searchParams }) => searchParams.get("by") === "=1+1 <b>Nobody</b>");

    // The page as a viewer will have it stands here, and answers.
    const preview = page.getByRole("region", { name: "A page that computes for a viewer's own boat" });
    await preview.getByLabel("depth of water").fill("15 m");
    await preview.getByText("depth 15.00 ± 0.20 m").waitFor();
    expect(await axeViolations(page)).toEqual([]);

    const viewer = await download(page, "Save the page");
    expect(viewer.name).toMatch(/-page\.html$/);
    const { document } = parseHTML(viewer.bytes.toString("utf8"));
    const content = JSON.parse(document.getElementById(PAGE_SLOTS.content)!.textContent!) as PageContent;
    expect(content.by).toBe("=1+1 <b>Nobody</b>");
    expect(content.holding!.pulls).toBe(36);
    expect(content.setups.length).toBeGreaterThan(0);
    // The book is the demonstration: page, report, PDF and package each say so.
    expect(content.invented).toBe(true);
    expect(await preview.getByText(INVENTED).count()).toBe(1);
    expect(content.boats.map(({ name }) => name)).toEqual(["Marsh Tern"]);

    await page.getByRole("button", { name: "A report, to read and to print" }).click();
    const report = await download(page, "Save the report");
    expect(report.bytes.toString("utf8")).toContain("<p>It was <strong>calm</strong>.</p>");
    expect(report.bytes.toString("utf8")).toContain(INVENTED);
    expect(report.bytes.toString("utf8")).toContain("Tested by =1+1 &lt;b&gt;Nobody&lt;/b&gt;");
    await page.getByRole("heading", { name: "What may not be concluded" }).waitFor();
    // The same words on pages, read back by another program than wrote them.
    const pdf = await download(page, "Save it as PDF");
    expect(pdf.name).toMatch(/-report\.pdf$/);
    const { pages, info, marked } = await readPdf(pdf.bytes);
    expect(pages.length).toBeGreaterThan(3);
    expect(marked).toBe(true);
    expect(info).toMatchObject({ Author: "=1+1 <b>Nobody</b>", Language: "en" });
    expect(pages.flatMap(({ lines }) => lines).join(" ")).toMatch(/It was calm ?\./);
    expect(pages[0]!.lines.join(" ")).toContain(INVENTED);

    await page.getByRole("button", { name: "Open data", exact: true }).click();
    const data = await download(page, "Save the data");
    const files = filesStored(data.bytes);
    expect([...files.keys()]).toContain("datapackage.json");
    expect(saysInvented(files.get("datapackage.json"))).toBe(true);
    // What was read goes in, where the boat was does not: it was not chosen.
    const logs = [...files].filter(([path]) => /^logs\/pull-\d+.*\.csv$/.test(path));
    expect(logs.length).toBeGreaterThan(3);
    const heads = logs.map(([, bytes]) => new TextDecoder().decode(bytes).split("\r\n")[0]!);
    expect(heads.every((head) => /^time_s,/.test(head))).toBe(true);
    expect(heads.some((head) => /load/i.test(head))).toBe(true);
    expect(heads.join()).not.toMatch(/latitude|longitude/i);
    // Worked out again here, by another engine than drew it: from the package alone.
    const checked = await checkPackage(files, {
      sha256: async (bytes) => createHash("sha256").update(bytes).digest("hex"),
      answersOf: (csv, seed) =>
        answersOfTable(csv, seed, { isTerminal: false, stop: new AbortController().signal } as Parameters<
          typeof answersOfTable
        >[2]),
    });
    expect(checked.differences).toEqual([]);
    expect(checked.pulls).toBe(36);
    expect(page.troubles).toEqual([]);

    // Without the book's computer there is no PDF, and that is said.
    await page.context().setOffline(true);
    await page.getByRole("button", { name: "Save it as PDF" }).click();
    await page
      .getByText(
        "A PDF is written by the book's computer, and the book is out of reach: print the report from the browser instead.",
      )
      .waitFor();
  });

  it("fits a phone", async () => {
    const page = await bench.page(sizes.phone, { theme: "dark" });
    await page.goto(bench.at("/publish"));
    await page.getByText("36 pulls").waitFor();
    const bar = page.getByRole("navigation", { name: "Places" });
    const mine = bar.getByRole("button", { name: "Publish; more places" });
    // The place one is at stands in the bar whole, to the pixel that a bar is drawn by.
    const end = async () => Math.floor((await mine.boundingBox())!.x + (await mine.boundingBox())!.width);
    await expect.poll(end).toBeLessThanOrEqual(sizes.phone.width);
    await expect.poll(() => sideways(page)).toBeLessThanOrEqual(0);
    expect(await axeViolations(page)).toEqual([]);
  });
});
