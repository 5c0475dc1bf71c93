import { appendFileSync, cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
  addressed,
  axeViolations,
  boxAtRest,
  builtApp,
  chromiumPath,
  keptOffline,
  type OpenBench,
  openBench,
  PATIENCE,
  sideways,
  sizes,
} from "./harness.ts";

let app: string;
let bench: OpenBench;
const journey = chromiumPath() === null ? describe.skip : describe;
/** Two slow cores under load. */
const SLOW = { timeout: PATIENCE };

beforeAll(async () => {
  if (chromiumPath() === null) return;
  app = join(mkdtempSync(join(tmpdir(), "rodebench-app-")), "web");
  cpSync(builtApp(), app, { recursive: true });
  const opened = await openBench(undefined, app);
  if (opened !== null) bench = opened;
});
afterAll(async () => {
  await bench?.close();
  if (app !== undefined) rmSync(join(app, ".."), { recursive: true, force: true });
});

journey("what stands around the places", () => {
  it("asks nothing of anybody but its own server, and runs under its policy without a complaint", async () => {
    const page = await bench.page(sizes.desk);
    const asked: string[] = [];
    page.on("request", (request) => asked.push(request.url()));
    for (const path of ["/rig", "/readings", "/match", "/weather", "/days"]) {
      await page.goto(bench.at(path));
      await page.getByRole("main").getByRole("heading").first().waitFor({ state: "attached" });
    }
    await page.waitForLoadState("networkidle");
    const own = new URL(bench.at("/")).origin;
    expect(asked.length).toBeGreaterThan(20);
    expect(asked.filter((url) => !url.startsWith(own) && !url.startsWith("blob:") && !url.startsWith("data:"))).toEqual(
      [],
    );
    // A breach of the policy is told on the console.
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("shows a place that is chosen from its top, and keeps Rig's answer in view however far one scrolls", async () => {
    for (const size of [sizes.phone, sizes.desk]) {
      const page = await bench.page(size);
      await page.goto(bench.at("/rig"));
      const answer = page.getByRole("region", { name: "The answer" });
      await answer.waitFor();
      await page.getByRole("heading", { name: "Setting" }).waitFor();
      await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight));
      const head = await boxAtRest(page.locator("header"));
      const top = async () => (await answer.boundingBox())!.y;
      await expect.poll(top, SLOW).toBeGreaterThanOrEqual(head.y + head.height - 1);
      await expect.poll(top, SLOW).toBeLessThan(200);
      // On a phone four places are within reach of a thumb, and the others one touch behind.
      if (size === sizes.phone) {
        await expect
          .poll(() => page.getByRole("navigation", { name: "Places" }).getByRole("link").count(), SLOW)
          .toBe(4);
        await page.getByRole("button", { name: "More places" }).tap();
        expect(await axeViolations(page)).toEqual([]);
      }
      await page.getByRole("link", { name: "Readings" }).click();
      const heading = page.getByRole("heading", { name: "Readings" });
      await heading.waitFor();
      await expect.poll(() => page.evaluate(() => window.scrollY), SLOW).toBe(0);
      await expect.poll(async () => (await heading.boundingBox())!.y, SLOW).toBeGreaterThan(head.y + head.height);
      expect(page.troubles).toEqual([]);
      await page.context().close();
    }
  });

  it("lets nothing stick out sideways at 320, 719 and 760 px, nor with letters twice as large", async () => {
    for (const [width, letters] of [
      [320, 100],
      [719, 100],
      [760, 100],
      [1280, 200],
    ] as const) {
      const page = await bench.page({ width, height: 800, touch: false });
      for (const path of ["/rig", "/readings", "/match", "/weather", "/days", "/holding"]) {
        await page.goto(bench.at(path));
        await page.getByRole("main").getByRole("heading").first().waitFor({ state: "attached" });
        await page.evaluate((share) => {
          document.documentElement.style.fontSize = `${share}%`;
        }, letters);
        await expect.poll(() => sideways(page), SLOW).toBeLessThanOrEqual(0);
      }
      await page.context().close();
    }
  });

  it("can be installed: a manifest with a name, a start and icons of the sizes it says", async () => {
    const page = await bench.page(sizes.phone);
    await page.goto(bench.at("/"));
    const manifest = await page.evaluate(async () => {
      const link = document.querySelector<HTMLLinkElement>('link[rel="manifest"]')!;
      const read = (await (await fetch(link.href)).json()) as {
        name: string;
        start_url: string;
        display: string;
        icons: { src: string; sizes: string }[];
      };
      const icons = await Promise.all(
        read.icons.map(async ({ src, sizes: said }) => {
          const image = new Image();
          image.src = new URL(src, link.href).href;
          await image.decode();
          return `${image.naturalWidth}x${image.naturalHeight}` === said;
        }),
      );
      return { ...read, icons };
    });
    expect(manifest).toMatchObject({ name: "rodebench", start_url: "/", display: "standalone" });
    expect(manifest.icons).toEqual([true, true, true]);
    await page.context().close();
  });

  it("goes from place to place by its bar, moves the focus there, and back by the browser's own button", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at("/rig"));
    await page.getByLabel("Name of the rig").fill("Kept while away");
    await page.getByRole("navigation", { name: "Places" }).getByRole("link", { name: "Days" }).click();
    await expect.poll(() => page.title(), SLOW).toBe("Days · rodebench");
    await addressed(page, ({ pathname }) => pathname === "/days");
    await expect.poll(() => page.evaluate(() => document.activeElement?.id), SLOW).toBe("place");
    await page.goBack();
    await expect.poll(() => page.getByLabel("Name of the rig").inputValue(), SLOW).toBe("Kept while away");
    await page.goto(bench.at("/nowhere"));
    await expect.poll(() => page.getByRole("heading").textContent(), SLOW).toBe("No such place");
    expect(await axeViolations(page)).toEqual([]);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("loses no change of the moment before another place is opened, not even by the browser's own button", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at("/rig"));
    await page.getByLabel("Name of the rig").waitFor();
    await addressed(page, "?");
    // One task: nothing stands still between the last letter and the leaving.
    await page.getByLabel("Name of the rig").evaluate((element) => {
      const field = element as HTMLInputElement;
      Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value")!.set!.call(field, "Written in passing");
      field.dispatchEvent(new Event("input", { bubbles: true }));
      document.querySelector<HTMLAnchorElement>('nav[aria-label="Places"] a[href^="/days"]')!.click();
    });
    await expect.poll(() => page.title(), SLOW).toBe("Days · rodebench");
    await page.goBack();
    await expect.poll(() => page.getByLabel("Name of the rig").inputValue(), SLOW).toBe("Written in passing");
    await addressed(page, "Written");
    await page.context().close();
  });

  it("remembers theme and units on the device, and a unit chosen in one field", async () => {
    const page = await bench.page(sizes.desk);
    await page.goto(bench.at("/rig"));
    await page.getByLabel("Theme").selectOption("sun");
    await page.getByLabel("Units", { exact: true }).selectOption("us");
    const depth = page.getByRole("textbox", { name: "Depth at the anchor" });
    const feet = await depth.inputValue();
    await page.getByLabel("Unit of Depth at the anchor").selectOption("fathom");
    await expect.poll(() => depth.inputValue(), SLOW).not.toBe(feet);
    const shown = await depth.inputValue();
    await page.reload();
    await expect.poll(() => page.evaluate(() => document.documentElement.dataset.theme), SLOW).toBe("sun");
    await expect.poll(() => page.getByLabel("Units", { exact: true }).inputValue(), SLOW).toBe("us");
    await expect.poll(() => page.getByLabel("Unit of Depth at the anchor").inputValue(), SLOW).toBe("fathom");
    await expect.poll(() => page.getByRole("textbox", { name: "Depth at the anchor" }).inputValue(), SLOW).toBe(shown);
    await expect.poll(() => page.getByLabel("Unit of Bow roller above water").inputValue(), SLOW).toBe("ft");
    await page.context().close();
  });

  it("tells of a new version and waits to be asked before it is used", async () => {
    const page = await bench.page(sizes.desk, { keepsOffline: true });
    await page.goto(bench.at("/rig"));
    await keptOffline(page);
    await page.reload();
    await expect.poll(() => page.evaluate(() => navigator.serviceWorker.controller !== null), SLOW).toBe(true);
    await bench.stopServer();
    // What a later build would bring: another service worker.
    appendFileSync(join(app, "sw.js"), "\n// another version\n");
    await bench.startServer();
    await page.reload();
    await page.getByText("A new version of the bench is ready.").waitFor(SLOW);
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole("textbox", { name: "Pull" }).fill("1234");
    await addressed(page, "load=bow+1234");
    await Promise.all([page.waitForEvent("load"), page.getByRole("button", { name: "Use it now" }).click()]);
    await expect.poll(() => page.getByRole("textbox", { name: "Pull" }).inputValue(), SLOW).toBe("1234");
    await expect.poll(() => page.getByText("A new version of the bench is ready.").count(), SLOW).toBe(0);
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });
});
