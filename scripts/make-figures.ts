/**
 * Makes the figures of the docs.
 *
 *   node --import tsx scripts/make-figures.ts        writes docs/figures/*.svg
 *
 * A test asserts that the files in the tree are these.
 */
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { angleOverLoad, curveLoads, drawRode, drawTogether, movementOverLoad } from "../src/figure/index.ts";
import { fittedCertainty, readRun, reduce, theoryCurve } from "../src/pull/index.ts";
import { type Pull, type Rig, readRig, type SettledTrace, settleTraced } from "../src/rode/index.ts";

const data = (path: string) => readFileSync(new URL(`../data/${path}`, import.meta.url), "utf8");

function settled(rig: Rig, pull: Pull): SettledTrace {
  const traced = settleTraced(rig, pull);
  if (!("settled" in traced)) throw new Error(`${rig.name}: ${traced.cause}`);
  return traced;
}

/** Every figure of the docs by its name in docs/figures. */
export function docsFigures(): Record<string, string> {
  const rig = readRig(data("demo/gantry-rig.yaml"), "gantry-rig.yaml");
  const afloat = readRig(data("demo/gantry-rig-afloat.yaml"), "gantry-rig-afloat.yaml");
  const mixed = readRig(data("examples/rigs/kellet.json"), "kellet.json");
  const { run } = readRun(data("demo/gantry-run.yaml"), "gantry-run.yaml");
  const reduced = reduce(run, rig);
  const readings = {
    run,
    reduced,
    curve: theoryCurve(run, reduced, curveLoads(run, reduced)),
    medium: "air",
    alone: true,
  } as const;
  const high: Pull = { at: "bow", newtons: 2600 };
  const atAnchor: Pull = { at: "anchor", newtons: 620 };
  return {
    "rig-to-scale.svg": drawRode({
      rig: reduced.rig,
      traced: settled(reduced.rig, high),
      certainty: fittedCertainty(reduced, high),
      riseU: reduced.fitted.rise?.u ?? null,
      loadCellAt: "bow",
      beside: { traced: settled(reduced.rig, { at: "bow", newtons: 400 }), label: "at 400 N" },
      alone: true,
    }).svg,
    "angle-over-load.svg": angleOverLoad(readings).svg,
    "movement-over-load.svg": movementOverLoad(readings).svg,
    "in-air-and-afloat.svg": drawTogether({
      first: { rig, traced: settled(rig, atAnchor) },
      second: { rig: afloat, traced: settled(afloat, atAnchor) },
      alone: true,
    }).svg,
    "chain-rope-and-kellet.svg": drawRode({
      rig: mixed,
      traced: settled(mixed, { at: "bow", newtons: 900 }),
      alone: true,
    }).svg,
  };
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  const folder = new URL("../docs/figures/", import.meta.url);
  mkdirSync(folder, { recursive: true });
  for (const [name, svg] of Object.entries(docsFigures())) {
    writeFileSync(new URL(name, folder), `${svg}\n`);
    console.log(`docs/figures/${name}`);
  }
}
