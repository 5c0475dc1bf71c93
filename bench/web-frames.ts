/**
 * Frames of the bench while things are drawn about by hand with all panels live, and while a ride is shown, by the browser's own count:
 * `node --import tsx bench/web-frames.ts`. Beside it the same page left alone: what the machine gives at best (a browser
 * that paints in software on a busy machine misses frames of an empty page too).
 */
import { drawnAbout, FRAME_BUDGET, type Frames, framesDuring } from "../test/journeys/frames.ts";
import { type OpenBench, openBench, sizeNames, sizes, unfold } from "../test/journeys/harness.ts";

const RIG =
  '/rig?name=Kellet&in=water&depth=9&roller=1.4&friction=0.7&rode=chain+8+mm+grade+30*15~polyester+double-braid+14+mm*10~{"kind":"point","name":"kellet","mass":15,"density":7850}~polyester+double-braid+14+mm*20&u-mass=0.03&u-rise=0.3&load=bow+1400&over=10.4';
/** Three seconds of drawing. */
const FRAMES = 180;

const hands = [
  { what: "boat drawn back", label: /^Boat/, by: { x: 12, y: 0 } },
  { what: "seabed lowered", label: /^Seabed/, by: { x: 0, y: 25 } },
  { what: "kellet slid", label: /^kellet/, by: { x: 40, y: 5 } },
  { what: "rode paid out", label: /^Rode/, by: { x: 30, y: 0 } },
] as const;

function tell(what: string, { median, p95, longest, times }: Frames, script?: number): void {
  const ratio = (value: number) => (value / FRAME_BUDGET).toFixed(2);
  const worked = script === undefined ? "" : `, script ${ratio(script)} a frame`;
  console.log(
    `  ${what}: median ${ratio(median)} of the frame budget, 95 of 100 within ${ratio(p95)}, longest ${ratio(longest)}${worked} (${times.length} frames)`,
  );
}

async function measure(bench: OpenBench): Promise<void> {
  for (const name of sizeNames) {
    const page = await bench.page(sizes[name]);
    await page.goto(bench.at(RIG));
    await page.getByText(/^± \d/).first().waitFor();
    await page.waitForTimeout(1000);
    const probe = await page.context().newCDPSession(page);
    await probe.send("Performance.enable");
    const scriptTime = async (): Promise<number> =>
      (await probe.send("Performance.getMetrics")).metrics.find((metric) => metric.name === "ScriptDuration")!.value;
    console.log(name);
    tell("left alone", await framesDuring(page, () => page.waitForTimeout(3000)));
    for (const { what, label, by } of hands) {
      const before = await scriptTime();
      const frames = await framesDuring(page, () => drawnAbout(page, label, by, FRAMES));
      tell(what, frames, (1000 * ((await scriptTime()) - before)) / FRAMES);
    }
    await page.context().close();
  }
}

/** The boat riding in a gale: frames while the ride is worked out beside the page and shown, and once it is whole. */
async function measureRide(bench: OpenBench): Promise<void> {
  for (const name of sizeNames) {
    const page = await bench.page(sizes[name]);
    await page.goto(bench.at("/weather"));
    await page.getByRole("button", { name: "In a gale" }).waitFor();
    await unfold(page);
    const panel = page.getByRole("region", { name: "In a gale", exact: true });
    await panel.getByRole("button", { name: "Ride it" }).click();
    const motion = panel.getByRole("img", { name: /in motion, to scale/ });
    await motion.waitFor();
    await motion.scrollIntoViewIfNeeded();
    console.log(`${name}, a ride`);
    tell("while it is ridden", await framesDuring(page, () => page.waitForTimeout(1000)));
    await panel.getByText("10 min ridden").waitFor({ timeout: 120_000 });
    tell("shown", await framesDuring(page, () => page.waitForTimeout(3000)));
    await page.context().close();
  }
}

const bench = await openBench();
if (bench !== null) {
  console.log(`frame budget ${FRAME_BUDGET.toFixed(1)} ms; figures are ratios to it`);
  await measure(bench);
  await measureRide(bench);
  await bench.close();
}
