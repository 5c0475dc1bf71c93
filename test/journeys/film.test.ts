/** A film overlay in the bench: in time with a clip while it plays, and saved as a clip with alpha and as pictures. */
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createDemoBook } from "../../src/book/index.ts";
import { frameOfStamp, readFrameRate } from "../../src/publish/index.ts";
import { filesStored } from "../support/stored-zip.ts";
import { webmFrames } from "../support/webm-frames.ts";
import {
  addressed,
  axeViolations,
  chromiumPath,
  type OpenBench,
  openBench,
  PATIENCE,
  sideways,
  sizes,
} from "./harness.ts";

let bench: OpenBench;
beforeAll(async () => {
  const opened = await openBench((path) => createDemoBook(path).close());
  if (opened !== null) bench = opened;
});
afterAll(async () => bench?.close());

const journey = chromiumPath() === null ? describe.skip : describe;
/** Two slow cores under load. */
const SLOW = { timeout: PATIENCE };

async function film(page: Page): Promise<void> {
  await page.goto(bench.at("/publish"));
  await page.getByRole("button", { name: "A film overlay" }).click();
  await page.getByRole("img", { name: "Overlay of frame 0" }).waitFor(SLOW);
}

async function download(page: Page, button: string): Promise<{ readonly name: string; readonly bytes: Buffer }> {
  const coming = page.waitForEvent("download", SLOW);
  await page.getByRole("button", { name: button }).click();
  const came = await coming;
  return { name: came.suggestedFilename(), bytes: readFileSync(await came.path()) };
}

/** Alpha of a clip as the browser plays it, at some places of its first frame, 0 to 255. */
const alphaOf = (page: Page, clip: Buffer, places: readonly (readonly [x: number, y: number])[]): Promise<number[]> =>
  page.evaluate(
    async ([base64, asked]) => {
      const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
      const video = document.createElement("video");
      video.muted = true;
      const shown = new Promise((done) => video.requestVideoFrameCallback(done));
      video.src = URL.createObjectURL(new Blob([bytes], { type: "video/webm" }));
      await shown;
      const canvas = document.createElement("canvas");
      [canvas.width, canvas.height] = [video.videoWidth, video.videoHeight];
      const context = canvas.getContext("2d")!;
      context.drawImage(video, 0, 0);
      return asked.map(([x, y]) => context.getImageData(x, y, 1, 1).data[3]!);
    },
    [clip.toString("base64"), places] as const,
  );

journey("a film overlay in the bench", () => {
  it("is saved as a clip with alpha, each frame at its own time, and lies over a clip in time with it", async () => {
    const page = await bench.page(sizes.desk);
    await film(page);
    await page.getByLabel("frames a second").fill("30000/1001");
    await page.getByLabel("size of a frame").fill("640x360");
    await page.getByLabel("stretches of the clip").fill("60..90,300..330");
    await page.getByText("60 frames, 2.002 s").waitFor(SLOW);
    await addressed(page, ({ searchParams }) => searchParams.get("film-cuts") === "60..90,300..330");
    expect(await axeViolations(page)).toEqual([]);
    const clip = await download(page, "Save a clip with alpha");
    expect(clip.name).toMatch(/-overlay\.webm$/);

    // Read back by the format's own rules, not by what wrote it: a stamp a frame, to the millisecond, alpha with each.
    const read = webmFrames(clip.bytes);
    expect(read.codec).toBe("V_VP9");
    expect(read.alphaMode).toBe(1);
    expect([read.width, read.height]).toEqual([640, 360]);
    expect(read.frames).toHaveLength(60);
    // A stamp is a whole number of milliseconds, the nearest: half a millisecond off at most, and of one frame alone.
    const off = read.frames.map(({ ms }, frame) => Math.abs(ms - (frame * 1001) / 30));
    expect(Math.max(...off)).toBeLessThanOrEqual(0.5 + 1e-9);
    const rate = readFrameRate("30000/1001", "rate");
    expect(read.frames.map(({ ms }) => frameOfStamp(ms / 1000, rate))).toEqual([...Array(60).keys()]);
    expect(read.frames.filter(({ alpha }) => alpha === 0)).toEqual([]);
    // The middle of the frame is empty. The overlay, 224 px wide, stands 18 px from the left and the lower edge: the line
    // of the ground in it, at 186 of its 420 × 250 px, is filled.
    const scale = (0.35 * 640) / 420;
    const ground = [Math.floor(18 + 200 * scale), Math.floor(360 - 18 - (250 - 186) * scale)] as const;
    const [empty, filled] = await alphaOf(page, clip.bytes, [[320, 100], ground]);
    expect(empty).toBeLessThan(8);
    expect(filled).toBeGreaterThan(247);

    // The same clip, as one that was filmed: 60 frames, the mark in its frame 6.
    await page.getByLabel("stretches of the clip").fill("");
    await page.getByLabel("Clip", { exact: true }).setInputFiles({
      name: "<b>pull</b>.webm",
      mimeType: "video/webm",
      buffer: clip.bytes,
    });
    await page.getByText("60 frames, 2.002 s").waitFor(SLOW);
    await page.getByText("<b>pull</b>.webm").waitFor();
    const over = page.locator("[data-frame]");
    const frameShown = async (): Promise<number> => Number(await over.getAttribute("data-frame"));
    for (let k = 1; k <= 6; k++) await page.getByRole("button", { name: "One frame on" }).click();
    await expect.poll(frameShown, SLOW).toBe(6);
    await page.getByRole("button", { name: "The mark is in this frame" }).click();
    await page.getByText("frame 6 of 60, 0.200 s of the clip, 0.000 s of the log").waitFor(SLOW);

    // Played, every frame the browser tells of is one whose overlay is asked for; the last stays.
    const video = page.locator("video");
    await video.evaluate((element: HTMLVideoElement) => {
      element.muted = true;
      element.playbackRate = 0.5;
    });
    await page.getByRole("button", { name: "Play" }).click();
    await expect.poll(frameShown, SLOW).toBeGreaterThan(20);
    const pause = page.getByRole("button", { name: "Pause" });
    if ((await pause.count()) > 0) await pause.click().catch(() => undefined);
    const stamp = await video.evaluate(
      (element: HTMLVideoElement) =>
        new Promise<number>((done) => {
          element.pause();
          element.requestVideoFrameCallback((_, { mediaTime }) => done(mediaTime));
          // A frame is told of once: the one that stands is asked for anew.
          element.currentTime += 0;
        }),
    );
    await expect.poll(frameShown, SLOW).toBe(Math.round((stamp * 30_000) / 1001));
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });

  it("says of a browser that encodes no VP9 that it does not, and saves the pictures all the same", async () => {
    for (const without of [
      "delete globalThis.VideoEncoder",
      "VideoEncoder.isConfigSupported = async (config) => ({ supported: false, config })",
    ]) {
      const page = await bench.page(sizes.phone);
      await page.context().addInitScript(without);
      await film(page);
      await page.getByText("This browser does not encode VP9", { exact: false }).waitFor(SLOW);
      expect(await page.getByRole("button", { name: "Save a clip with alpha" }).count()).toBe(0);
      await page.getByLabel("size of a frame").fill("320x180");
      await page.getByLabel("frames a second").fill("25");
      await page.getByLabel("stretches of the clip").fill("50..52");
      await page.getByText("2 frames, 0.080 s").waitFor(SLOW);
      const files = filesStored((await download(page, "Save transparent pictures")).bytes);
      expect([...files.keys()]).toEqual(["frame-000000.png", "frame-000001.png", "frames.csv"]);
      expect(await axeViolations(page)).toEqual([]);
      expect(page.troubles).toEqual([]);
      await page.context().close();
    }
  });

  it("is saved as transparent pictures with their times, and stopped at will", async () => {
    const page = await bench.page(sizes.phone, { theme: "dark", units: "us" });
    await film(page);
    await page.getByLabel("frames a second").fill("fast");
    await page
      .getByText('frames a second: "fast"; frames a second from 0.1 to 1000 are expected, such as 25 or 30000/1001')
      .waitFor(SLOW);
    expect(await page.getByRole("button", { name: "Save transparent pictures" }).count()).toBe(0);
    await page.getByLabel("frames a second").fill("25");
    await page.getByRole("button", { name: "Save transparent pictures" }).click();
    await page.getByRole("progressbar", { name: "frames made" }).waitFor(SLOW);
    await page.getByRole("button", { name: "Stop" }).click();
    await page.getByText("Stopped: nothing is saved.").waitFor(SLOW);

    await page.getByLabel("size of a frame").fill("320x180");
    await page.getByLabel("stretches of the clip").fill("0..2,50..53");
    await page.getByText("5 frames, 0.200 s").waitFor(SLOW);
    const archive = await download(page, "Save transparent pictures");
    expect(archive.name).toMatch(/-overlay\.zip$/);
    const files = filesStored(archive.bytes);
    expect([...files.keys()]).toEqual([...[0, 1, 2, 3, 4].map((frame) => `frame-00000${frame}.png`), "frames.csv"]);
    const png = Buffer.from(files.get("frame-000004.png")!);
    // Width, height, and colour type 6: with alpha.
    expect([png.readUInt32BE(16), png.readUInt32BE(20), png[25]]).toEqual([320, 180, 6]);
    const rows = new TextDecoder().decode(files.get("frames.csv")).split("\r\n");
    expect(rows[0]).toBe("frame,clipFrame,clip_s,log_s,load_N,anchorAngle_deg");
    expect(rows[3]).toMatch(/^2,50,2\.000000000,2\.000000000,-?\d/);
    await expect.poll(() => sideways(page)).toBeLessThanOrEqual(0);
    expect(await axeViolations(page)).toEqual([]);
    expect(page.troubles).toEqual([]);
  });
});
