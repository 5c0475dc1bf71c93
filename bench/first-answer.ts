/**
 * How long the bench takes to its first answer on a new device whose processor is slowed four times, and how much comes
 * over the wire before it: the built app by the real command, in a real Chromium.
 *
 * node --import tsx bench/first-answer.ts [TIMES]
 */
import { openBench, sizes } from "../test/journeys/harness.ts";

const TIMES = Number(process.argv[2] ?? 5);
const SLOWED = 4;

const bench = await openBench();
if (bench === null) process.exit(1);
const times: number[] = [];
let kB = 0;
try {
  for (let i = 0; i < TIMES; i++) {
    const page = await bench.page(sizes.phone);
    const devtools = await page.context().newCDPSession(page);
    await devtools.send("Emulation.setCPUThrottlingRate", { rate: SLOWED });
    await devtools.send("Network.enable");
    let answered = false;
    let bytes = 0;
    devtools.on("Network.loadingFinished", ({ encodedDataLength }) => {
      if (!answered) bytes += encodedDataLength;
    });
    // The moment the answer stands in the page, by the page's own clock since it was asked for.
    await page.addInitScript(() => {
      const look = (): void => {
        if (document.querySelector("main section[aria-label='The answer'] strong") === null)
          requestAnimationFrame(look);
        else requestAnimationFrame(() => Object.assign(globalThis, { firstAnswer: performance.now() }));
      };
      requestAnimationFrame(look);
    });
    await page.goto(bench.at("/rig"), { waitUntil: "commit" });
    await page.locator("main section[aria-label='The answer'] strong").waitFor({ timeout: 60_000 });
    answered = true;
    await page.waitForTimeout(300);
    times.push(await page.evaluate(() => (globalThis as unknown as { firstAnswer: number }).firstAnswer / 1000));
    kB = bytes / 1000;
    await page.context().close();
  }
} finally {
  await bench.close();
}
times.sort((a, b) => a - b);
const say = (seconds: number): string => seconds.toFixed(2);
console.log(
  `first answer, processor slowed ${SLOWED} times: ${say(times[Math.floor(times.length / 2)]!)} s (${say(times[0]!)} to ${say(times.at(-1)!)} s of ${TIMES}); ${kB.toFixed(0)} kB by then`,
);
