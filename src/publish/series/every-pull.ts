/** Every pull, none left out unsaid: as read, at the anchor, how it ended; what to doubt; and what makes it uncertain. */
import { drawPulls, pullRows } from "../../figure/index.ts";
import type { Hold } from "../../holding/index.ts";
import { formatQuantity, inUnit, plotForceUnit } from "../../quantity/index.ts";
import { clockRemarks, isOfClocks } from "../../study/index.ts";
import { doubtLine } from "../../words/index.ts";
import { type Cell, figure, list, paragraph, section, table } from "../report/page.ts";
import type { SeriesReport } from "./series.ts";

const number = (says: string): Cell => ({ says, number: true });

/** The pulls drawn and in a table. */
export function everyPull(report: SeriesReport): string {
  const { compared, units, leftOut } = report;
  const unit = plotForceUnit(units);
  const to = (newtons: number): number => inUnit(newtons, unit, "force");
  const drawn = drawPulls({
    title: "Every pull",
    description: `${compared.pulls.length} pulls of ${compared.anchors.length} anchors over the load at the anchor`,
    axis: `load at the anchor, ${unit}`,
    rows: pullRows(
      compared.pulls,
      compared.anchors.map(({ anchor }) => anchor),
      to,
    ),
  });
  return section(
    "Every pull",
    paragraph(
      "A pull that ended while the anchor still held says only that it held so much: what it would have held is not known, and such a pull is counted as what it is, neither as a failure nor as a record.",
    ),
    figure(
      drawn.svg,
      "Filled: it gave way at that load. Arrow on: it held so much, and nothing is known beyond. Bar: between the two. Arrow back: it never held.",
    ),
    pullsTable(report),
    leftOut.length === 0
      ? ""
      : `${paragraph(`${leftOut.length} left out of the comparison:`)}${list(leftOut.map(({ row, why }) => `pull ${row}: ${why}`))}`,
    doubts(report),
  );
}

function pullsTable({ compared, numbers, units }: SeriesReport): string {
  const force = (newtons: number, share?: number): string =>
    formatQuantity(newtons, "force", {
      system: units,
      ...(share === undefined || !(share > 0) ? { digits: 3 } : { u: share * newtons }),
    });
  const said = (hold: Hold, share?: number): string => {
    if (hold.kind === "gaveWay") return `gave way at ${force(hold.newtons, share)}`;
    if (hold.kind === "heldTo") return `held ${force(hold.newtons, share)}`;
    if (hold.kind === "neverHeld") return `never held, by ${force(hold.newtons, share)}`;
    return `held ${force(hold.heldTo)}, gave way by ${force(hold.gaveWayBy, share)}`;
  };
  return table(
    "Loads are at the anchor, along the rode, with their standard uncertainty where it is known.",
    [
      number("pull"),
      ...["anchor", "day", "seabed", "what it says"].map((says) => ({ says })),
      number("angle at the anchor"),
      { says: "ended by" },
    ],
    compared.pulls.map((pull, i) => ({
      cells: [
        number(String(numbers[i] ?? i + 1)),
        { says: pull.anchor },
        { says: pull.day ?? "" },
        { says: pull.seabed ?? "" },
        { says: said(pull.hold, pull.loadError) },
        number(pull.anchorAngle === undefined ? "" : formatQuantity(pull.anchorAngle, "angle", { digits: 2 })),
        { says: pull.ending ?? "" },
      ],
    })),
  );
}

/** Doubts by their kind; of clocks each by its pull, for each has numbers of its own; of others each with how many pulls it is of and what it says of the first of them. */
function doubts({ evidence, cases, units }: SeriesReport): string {
  const counted = new Map<string, { readonly count: number; readonly line: string }>();
  for (const { doubts: all } of evidence) {
    const each = all.filter((doubt) => !isOfClocks(doubt));
    for (const kind of new Set(each.map((doubt) => doubt.kind))) {
      const line = doubtLine(each.find((doubt) => doubt.kind === kind)!, units);
      const before = counted.get(kind) ?? { count: 0, line };
      counted.set(kind, { ...before, count: before.count + 1 });
    }
  }
  const named = (row: number): string =>
    [cases[row - 1]?.anchor?.name, cases[row - 1]?.day?.date].filter((text) => Boolean(text)).join(", ") ||
    `pull ${row}`;
  const clocks = clockRemarks(evidence).map(({ row, doubt }) => `${named(row)}: ${doubtLine(doubt, units)}`);
  if (counted.size === 0 && clocks.length === 0) return "";
  const lines = [...counted.values()]
    .sort((a, b) => b.count - a.count)
    .map(({ count, line }) => `${count} of ${evidence.length}${count > 1 ? ", such as" : ""}: ${line}`);
  return `${paragraph("What to doubt of the pulls, and of how many:")}${list([...lines, ...clocks])}`;
}

/** What the loads and angles at the anchor owe their uncertainty to: shares of its square, the mean over pulls. */
export function budget({ evidence }: SeriesReport): string {
  const shares = new Map<string, { anchor: number; angle: number }>();
  let count = 0;
  for (const { heldTo, gaveWayBy } of evidence) {
    const carried = gaveWayBy ?? heldTo;
    if (carried?.kind !== "carried") continue;
    const total = (of: "anchor" | "angleToBottom") => carried.sources.reduce((sum, one) => sum + one[of] ** 2, 0) || 1;
    const [load, angle] = [total("anchor"), total("angleToBottom")];
    count++;
    for (const { input, ...one } of carried.sources) {
      const before = shares.get(input) ?? { anchor: 0, angle: 0 };
      shares.set(input, {
        anchor: before.anchor + one.anchor ** 2 / load,
        angle: before.angle + one.angleToBottom ** 2 / angle,
      });
    }
  }
  if (count === 0) return "";
  const percent = (sum: number): Cell => number(`${Math.round((100 * sum) / count)} %`);
  return section(
    "Where the ± comes from",
    table(
      `Shares of the squared uncertainty at the anchor, the mean over ${count} pulls.`,
      [{ says: "not known" }, number("of the load"), number("of the angle")],
      [...shares]
        .sort((a, b) => b[1].anchor - a[1].anchor)
        .map(([input, { anchor, angle }]) => ({ cells: [{ says: input }, percent(anchor), percent(angle)] })),
    ),
  );
}
