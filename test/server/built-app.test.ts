import { mkdirSync, mkdtempSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { brotliDecompressSync, gunzipSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { readBuiltApp } from "../../src/server/built-app.ts";
import { knownStyles } from "../../src/server/known-styles.ts";
import { walks } from "../../src/server/paths.ts";
import { benchInProcess, refused } from "./in-process.ts";

const folder = mkdtempSync(join(tmpdir(), "built-"));
mkdirSync(join(folder, "assets"));
const script = `console.log(${JSON.stringify("x".repeat(3000))})`;
writeFileSync(join(folder, "index.html"), "<!doctype html><title>bench</title>");
writeFileSync(join(folder, "assets", "index-Bq3xK9_a.js"), script);
writeFileSync(join(folder, "assets", "icon-maskable.png"), "png");
writeFileSync(join(folder, "assets", "style-aB3dE5fG.css"), "a{}");
writeFileSync(join(folder, "sw.js"), "self.x=1");
writeFileSync(join(folder, "manifest.webmanifest"), "{}");
writeFileSync(join(folder, "..", "outside.txt"), "secret");
symlinkSync(join(folder, "..", "outside.txt"), join(folder, "assets", "link.txt"));
const builtApp = readBuiltApp(folder)!;
const { ask, askOverBoat } = benchInProcess([], { builtApp });

describe("the built app", () => {
  it.each([
    ["/", "text/html; charset=utf-8", "no-cache"],
    ["/index.html", "text/html; charset=utf-8", "no-cache"],
    ["/assets/index-Bq3xK9_a.js", "text/javascript; charset=utf-8", "public, max-age=31536000, immutable"],
    ["/assets/style-aB3dE5fG.css", "text/css; charset=utf-8", "public, max-age=31536000, immutable"],
    ["/assets/icon-maskable.png", "image/png", "no-cache"],
    ["/sw.js", "text/javascript; charset=utf-8", "no-cache"],
    ["/manifest.webmanifest", "application/manifest+json; charset=utf-8", "no-cache"],
  ])("%s is served as %s, %s", async (path, type, cache) => {
    const answer = await ask(path);
    expect([answer.status, answer.headers.get("content-type"), answer.headers.get("cache-control")]).toEqual([
      200,
      type,
      cache,
    ]);
    expect(answer.headers.get("content-security-policy")).toContain("default-src 'none'");
  });
  it("any address of the app opens its one page; a missing file is missing", async () => {
    const headers = { accept: "text/html,application/xhtml+xml" };
    for (const path of ["/rig", "/days/2031-05-03?pull=4"]) {
      expect(await (await ask(path, { headers })).text()).toContain("<title>bench</title>");
    }
    for (const path of [
      "/assets/index-00000000.js",
      "/rig.js",
      "/assets/nothing",
      "/api/2/book",
      "/api",
      "/api/1/none",
    ]) {
      expect(await refused(await ask(path, { headers })), path).toMatch(/^404 address/);
    }
    expect(await refused(await ask("/rig"))).toMatch(/^404 address/);
  });
  it("an address of a place may hold its whole state, one that asks the server may not", async () => {
    const headers = { accept: "text/html,application/xhtml+xml" };
    const rode = "x".repeat(100_000);
    expect((await ask(`/rig?rode=${rode}`, { headers })).status).toBe(200);
    for (const path of [`/api/1/book?x=${rode}`, `/${rode}`, `/rig?rode=${"x".repeat(1 << 20)}`])
      expect(await refused(await ask(path, { headers })), path.slice(0, 20)).toMatch(/^400 address: \d+ characters/);
  });
  it("a link out of the folder is not followed", async () => {
    expect(await refused(await ask("/assets/link.txt"))).toMatch(/^404/);
  });
  it("is packed as the browser takes it, and unchanged inside", async () => {
    const path = "/assets/index-Bq3xK9_a.js";
    const br = await ask(path, { headers: { "accept-encoding": "gzip, deflate, br" } });
    expect(br.headers.get("content-encoding")).toBe("br");
    expect(brotliDecompressSync(Buffer.from(await br.arrayBuffer())).toString()).toBe(script);
    const gz = await ask(path, { headers: { "accept-encoding": "gzip" } });
    expect(gunzipSync(Buffer.from(await gz.arrayBuffer())).toString()).toBe(script);
    expect(await (await ask(path)).text()).toBe(script);
  });
  it("an unchanged file is not sent twice", async () => {
    const etag = (await ask("/sw.js")).headers.get("etag")!;
    expect((await ask("/sw.js", { headers: { "if-none-match": etag } })).status).toBe(304);
    expect((await ask("/sw.js", { headers: { "if-none-match": '"other"' } })).status).toBe(200);
  });
  it("HEAD answers the headers and no body", async () => {
    const answer = await ask("/sw.js", { method: "HEAD" });
    expect([answer.status, await answer.text()]).toEqual([200, ""]);
  });
  it("is not shown to a device without a key", async () => {
    expect((await askOverBoat("/assets/index-Bq3xK9_a.js")).status).toBe(401);
  });
  it("a folder without a page is no app", () => {
    expect(readBuiltApp(join(folder, "assets"))).toBeUndefined();
    expect(readBuiltApp(join(folder, "none"))).toBeUndefined();
  });
});

describe("a path that walks", () => {
  it.each([
    "/../x",
    "/a/../../x",
    "/./x",
    "/%2e%2e/x",
    "/%2E./x",
    "/..%2fx",
    "/%252e%252e/x",
    "/a\\b",
    "/a%5cb",
    "/a%00",
    "/a%0ab",
    "/%",
    "/%c0%ae%c0%ae/",
    "/%25%32%65%25%32%65/x",
  ])("%s is seen", (path) => expect(walks(path)).toBe(true));
  it.each(["/", "/rig", "/days/2031-05-03", "/a..b", "/...", "/caf%C3%A9", "/a%20b", "/100%25"])(
    "%s does not",
    (path) => expect(walks(path)).toBe(false),
  );
});

describe("the inline styles allowed by hash", () => {
  // Held to the installed packages: an upgrade that changes a text shows here, not as a refused style on a boat.
  const packages = [
    "node_modules/react-aria/dist/private/interactions/usePress.mjs",
    "node_modules/react-aria/dist/private/overlays/usePreventScroll.mjs",
  ].map((path) =>
    readFileSync(path, "utf8").replaceAll(/\$\{[^}]*PRESSABLE_ATTRIBUTE\}/g, "data-react-aria-pressable"),
  );
  it.each(knownStyles.map((text, i) => [i, text] as const))("text %i is the library's own", (i, text) => {
    expect(packages[i]).toContain(text);
  });
});
