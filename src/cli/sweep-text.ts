/** What a sweep, or parts of one put together, say of every case: as text and as JSON. */
import { type CaseTotals, deviationOf, type Running, type Shard, uncertaintyOf } from "../motion/index.ts";
import { type Dimension, formatQuantity, type UnitSystem } from "../quantity/index.ts";
import { CAUTION } from "../words/index.ts";
import { textTable } from "./text-table.ts";

export interface SweptRides {
  readonly sweep: string;
  readonly shard: Shard | null;
  /** Rides of the whole sweep, of what was asked for, and done of those. */
  readonly rides: number;
  readonly asked: number;
  readonly done: number;
  /** Found done when it began. */
  readonly found: number;
  readonly stopped: boolean;
  readonly file: string | null;
  readonly folder: string | null;
  readonly missing?: readonly string[];
  readonly cases: readonly CaseTotals[];
}

export function sweepText(swept: SweptRides, units: UnitSystem): string {
  const part = swept.shard === null || swept.shard.of === 1 ? "" : `, part ${swept.shard.part} of ${swept.shard.of}`;
  const lines = [
    `${swept.sweep}${part}: ${swept.done} of ${swept.asked} rides done${swept.found > 0 ? `, ${swept.found} of them before` : ""}${swept.shard?.of === 1 || swept.rides === swept.asked ? "" : `; the whole sweep has ${swept.rides}`}`,
  ];
  if (swept.stopped) lines.push(`stopped by hand: what is done stands in ${swept.folder}; the same command goes on`);
  if (swept.missing !== undefined && swept.missing.length > 0) lines.push(`not there: ${listOf(swept.missing)}`);
  if (swept.file !== null) lines.push(`written: ${swept.file}`);
  lines.push("");
  const show = (value: number, dimension: Dimension): string =>
    formatQuantity(value, dimension, { system: units, digits: 3 });
  const sure = (r: Running): string => {
    if (r.count === 0) return "none";
    const u = uncertaintyOf(r);
    return formatQuantity(r.mean, "force", { system: units, ...(u !== null && u > 0 ? { u } : { digits: 3 }) });
  };
  const table = textTable(
    [
      "rig",
      "boat",
      "weather",
      "rides",
      "mean at bow",
      "largest at bow",
      "of all",
      "at anchor",
      "angle then",
      "over rest",
    ],
    swept.cases.map((c) => [
      c.rig,
      c.boat,
      c.weather,
      c.without > 0 ? `${c.rides} (${c.without} without an answer)` : String(c.rides),
      sure(c.bowMean),
      sure(c.bowLargest),
      c.bowLargest.count > 0 ? show(c.bowLargest.largest, "force") : "",
      sure(c.anchorLargest),
      c.angleAtLargest.count > 0 ? `${c.angleAtLargest.mean.toFixed(1)}°` : "",
      c.bowOverStill.count > 0 ? c.bowOverStill.mean.toPrecision(2) : "",
    ]),
  );
  lines.push(
    table.trimEnd(),
    "",
    "largest: the mean over the rides of each one's largest load, ± of that mean; of all: the largest of any; angle then: at the anchor, the mean at its largest load.",
    CAUTION,
  );
  return `${lines.join("\n")}\n`;
}

const listOf = (parts: readonly string[]): string =>
  parts.length <= 12
    ? `parts ${parts.join(", ")}`
    : `parts ${parts.slice(0, 12).join(", ")} and ${parts.length - 12} more`;

export function sweepDocument(format: string, swept: SweptRides) {
  const spread = (r: Running) =>
    r.count === 0
      ? null
      : { rides: r.count, mean: r.mean, u: uncertaintyOf(r), deviation: deviationOf(r), largest: r.largest };
  return {
    format,
    sweep: swept.sweep,
    shard: swept.shard === null ? null : `${swept.shard.part}/${swept.shard.of}`,
    rides: { whole: swept.rides, asked: swept.asked, done: swept.done, found: swept.found },
    stopped: swept.stopped,
    missing: swept.missing ?? [],
    file: swept.file,
    cases: swept.cases.map((c) => ({
      rig: c.rig,
      boat: c.boat,
      weather: c.weather,
      rides: c.rides,
      withoutAnswer: c.without,
      brokeOff: c.brokeOff,
      bowMean_N: spread(c.bowMean),
      bowLargest_N: spread(c.bowLargest),
      anchorLargest_N: spread(c.anchorLargest),
      anchorAngleAtLargest_deg: spread(c.angleAtLargest),
      liftedShare: spread(c.liftedShare),
      bowOverStill: spread(c.bowOverStill),
      highestOfWorkingLoad: spread(c.highestOfWorkingLoad),
    })),
  };
}
