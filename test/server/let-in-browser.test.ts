import { existsSync, mkdirSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Bench, type Opened, openBench } from "../../src/server/index.ts";

// A browser keeps rules of its own about forms, origins and cookies: only a browser shows that the guards let it in.
const CHROMIUM = "/usr/bin/chromium";
/** What no machine needs, ms: it only ends what would never end. */
const PATIENCE = 300_000;
const possible = existsSync(CHROMIUM) && process.platform === "linux";

describe.skipIf(!possible)("a device's browser", () => {
  let bench: Bench;
  let opened: Opened;
  let browser: Browser;
  beforeAll(async () => {
    const folder = mkdtempSync(join(tmpdir(), "let-in-"));
    mkdirSync(join(folder, "assets"));
    writeFileSync(
      join(folder, "index.html"),
      '<!doctype html><html lang="en"><title>the bench</title><script src="/assets/a.js"></script><script>document.title = "inline ran"</script>',
    );
    writeFileSync(
      join(folder, "assets", "a.js"),
      'fetch("/api/1/boat-network").then((answer) => { document.title += " " + answer.status; })',
    );
    const ownAddresses = () => ["127.0.0.2"];
    bench = await openBench({
      topics: [],
      builtFolder: folder,
      devicesFile: "",
      port: 0,
      now: Date.now,
      ownAddresses,
      fault: () => undefined,
    });
    opened = await bench.openToBoatNetwork({ encryption: { kind: "none" } });
    browser = await chromium.launch({
      executablePath: CHROMIUM,
      args: ["--no-sandbox", "--disable-background-networking"],
      timeout: PATIENCE,
    });
  });
  afterAll(async () => {
    await browser?.close();
    await bench?.close();
  });

  async function give(page: Page, code: string): Promise<void> {
    await page.fill("#code", code);
    await page.fill("#name", "Foredeck phone");
    await page.click("button");
  }

  it("is asked for the code, told a wrong one, let in by the right one, and then shown the bench", async () => {
    const page = await browser.newPage();
    page.setDefaultTimeout(PATIENCE);
    await page.goto(`${opened.addresses[0]}/rig`);
    expect(new URL(page.url()).pathname).toBe("/let-in");
    await give(page, opened.code === "00000000" ? "11111111" : "0000 0000");
    await expect.poll(() => page.textContent("[role=alert]")).toBe("That is not the code. Tries left: 4.");
    await give(page, opened.code);
    // The app's own script ran and asked; what is for the computer only stays refused; the inline script did not run.
    await expect.poll(() => page.title()).toBe("the bench 403");
    expect(await page.evaluate("document.cookie")).toBe("");
    await page.close();
  });
  it.each(["light", "dark"] as const)("shows a page of the code that everybody can use, %s", async (colorScheme) => {
    const context = await browser.newContext({ viewport: { width: 360, height: 640 }, colorScheme, bypassCSP: true });
    const page = await context.newPage();
    page.setDefaultTimeout(PATIENCE);
    await page.goto(`${opened.addresses[0]}/let-in`);
    await give(page, "x");
    await page.waitForSelector("[role=alert]");
    await page.addScriptTag({ content: readFileSync("node_modules/axe-core/axe.min.js", "utf8") });
    const found = await page.evaluate("axe.run().then((answer) => answer.violations.map((one) => one.id))");
    expect(found).toEqual([]);
    expect(await page.evaluate("document.documentElement.scrollWidth <= innerWidth")).toBe(true);
    await context.close();
  });
});
