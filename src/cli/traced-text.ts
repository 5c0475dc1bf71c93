/** A reduced pull in words and columns. */
import type { LogRows } from "../log/index.ts";
import type { MatchedStep, TraceOfRows, TraceReduction, TrackClock } from "../pull/index.ts";
import { formatQuantity, quoted, roundToUncertainty, significant, type UnitSystem } from "../quantity/index.ts";
import type { CarriedLoad, Deployment } from "../study/index.ts";
import {
  CAUTION,
  doubtLine,
  endedWords,
  firstMovementText,
  grantedWords,
  groundWord,
  heldText,
  holdRuleText,
  leftOutWords,
  loadWarnings,
  traceWords,
  trackApartText,
  trackClockWords,
  zeroText,
} from "../words/index.ts";
import { textTable } from "./text-table.ts";
import type { MarkOnLog } from "./trace-marks.ts";

export interface Traced {
  readonly reduction: TraceReduction;
  readonly made: TraceOfRows;
  readonly rows: LogRows;
  readonly carried: CarriedLoad | null;
  readonly deployment: Deployment | null;
  readonly place: string;
  readonly units: UnitSystem;
  readonly video: readonly MarkOnLog[] | null;
  /** The clock of the track, as load and track tell it; null where it was stated, or is that of the load. */
  readonly clock: TrackClock | null;
  /** A track of the pull that ran at another time; null where one overlaps, or there is none. */
  readonly apart: { readonly place: string; readonly seconds: number } | null;
}

export function tracedText(traced: Traced): string {
  const { reduction: r, units } = traced;
  const force = (value: number, u?: number): string =>
    formatQuantity(value, "force", { system: units, ...(u !== undefined && u > 0 ? { u } : {}) });
  const length = (value: number, u: number): string =>
    formatQuantity(value, "length", { system: units, ...(u > 0 ? { u } : {}) });
  const at = (t: number): string => (t - r.log.from).toFixed(1);
  const words = traceWords(units, (t) => `${at(t)} s`);
  const parts = [
    `${traced.place}: ${logText(traced)}\n`,
    openText(traced, force),
    ...trackClockWords(traced.clock).map((line) => `${line}\n`),
    ...(traced.apart === null
      ? []
      : [
          `Note: ${quoted(traced.apart.place)}: ${trackApartText(traced.apart.seconds)} (--track-clock TIME states it)\n`,
        ]),
    `Zero: ${zeroText(r.zero, force, words)}\n`,
    `Filter: half the power at ${significant(r.filter.bandwidth, 2)} Hz${r.filter.limitedByLog ? ", the most this log allows" : ""}; of a peak's height it keeps ${r.filter.keeps
      .map((k) => `${Math.round(100 * k.share)} % at ${k.seconds} s`)
      .join(", ")}\n`,
    section(
      "Plateaus, s from the first reading",
      ["from", "to", "load", "changing a minute"],
      r.plateaus.map((p) => [
        at(p.from),
        at(p.to),
        force(p.load.value, p.load.u),
        perMinute(p.creep.value, p.creep.u, p.load.value),
      ]),
    ),
    section(
      `Peaks, readings as they are${r.peakCount > r.peaks.length ? ` (the highest ${r.peaks.length} of ${r.peakCount})` : ""}`,
      ["at", "load", "filtered", ...r.settings.peak.shares.map((s) => `s above ${Math.round(100 * s)} %`)],
      r.peaks.map((p) => [
        `${at(p.at)}${p.alone ? "?" : ""}`,
        force(p.load.value, p.load.u),
        force(p.filtered),
        ...p.above.map((a) => significant(a.seconds, 2)),
      ]),
    ),
    section(
      "Highest loads sustained, no reading below them meanwhile",
      ["for", "load", "from"],
      r.sustained.map((s) => [`${s.duration} s`, force(s.load.value, s.load.u), at(s.from)]),
    ),
    section(
      "Drags",
      ["from", "to", "gave way at", "lost", "went"],
      r.drags.map((d) => [
        at(d.from),
        at(d.to),
        force(d.load.value, d.load.u),
        d.lost ? force(d.lost.value, d.lost.u) : "",
        d.distance ? length(d.distance.value, d.distance.u) : "",
      ]),
    ) + r.drags.map((d) => `  ${at(d.from)}: ${words.mark(d.why)}\n`).join(""),
    r.protocol
      ? `\nSteps\n${textTable(
          ["planned", "for", "outcome"],
          r.protocol.steps.map((s) => stepRow(s, force)),
        )}`
      : "",
    r.reversals.map((v) => `\nReversal at ${at(v.from)} s: ${words.reversal(v)}\n`).join(""),
    `\n${firstMovementText(r.first, (t) => `${at(t)} s`, units)}\n`,
    r.set.kind === "measured"
      ? `\nThe anchor went ${length(r.set.distance.value, r.set.distance.u)} from a fifth of the first plateau's load up to it, the rode's own give taken off by ${r.set.give === "rig" ? "the rig's curve" : "a curve fitted to load and track"}\n`
      : `\nSet distance: not known, ${words.noSet(r.set.why)}\n`,
    wayText(r, { at, force, length }),
    traced.video === null
      ? ""
      : section(
          "On the video",
          ["at", "load", "anchor had gone", "what"],
          traced.video.map(({ from, to, text, load, way }) => [
            to === null ? at(from) : `${at(from)} to ${at(to)}`,
            load === null ? "outside" : force(load),
            way ? length(way.value, way.u) : "",
            text,
          ]),
        ),
    loneText(r, at),
    correctedText(r),
    `\n${heldText(r.held, force, words)}\n${holdRuleText({ ...r.settings, tracked: r.path !== null }, units)}\n${carriedText(traced, force)}`,
    `${CAUTION}\n`,
  ];
  return parts.join("");
}

/** How far the anchor had gone by the end of each load held. */
function wayText(
  r: TraceReduction,
  say: Record<"at", (t: number) => string> & Record<"force" | "length", (value: number, u: number) => string>,
): string {
  return r.way.length > 1
    ? section(
        "Load against the anchor's movement, from when the rode bit",
        ["by", "load", "went"],
        r.way.map((w) => [say.at(w.at), say.force(w.load.value, w.load.u), say.length(w.way.value, w.way.u)]),
      )
    : "";
}

/** What of the log was left out, taken for granted, or is to be doubted. */
function openText({ rows }: Traced, force: (newtons: number) => string): string {
  const left = leftOutWords(rows.troubles);
  return [
    ...rows.remarks.map((remark) => `Taken for granted: ${grantedWords(remark)}\n`),
    ...(left.length === 0 ? [] : [`Left out: ${left.join(", ")}\n`]),
    ...loadWarnings(rows.seen, rows.troubles, force).map((warning) => `Note: ${warning}\n`),
    ...endedWords(rows.ended).map((words) => `Reading ${words}\n`),
  ].join("");
}

function logText({ reduction: r, made }: Traced): string {
  const rate = 1 / r.log.interval;
  const part = made.parts > 1 ? `, part ${made.part} of ${made.parts} (its clock ran back)` : "";
  const gaps = r.log.gaps.length === 0 ? "" : `, ${r.log.gaps.length === 1 ? "a gap" : `${r.log.gaps.length} gaps`}`;
  const lasted = r.log.to - r.log.from;
  return `${r.log.readings} readings of ${made.channel} in ${lasted < 600 ? `${lasted.toFixed(1)} s` : `${(lasted / 60).toFixed(1)} min`}, ${significant(rate, 3)} a second${part}${gaps}; read at the ${r.readAt}`;
}

function section(title: string, head: readonly string[], rows: readonly (readonly string[])[]): string {
  return rows.length === 0 ? `\n${title.split(",")[0]}: none\n` : `\n${title}\n${textTable(head, rows)}`;
}

function perMinute(slope: number, u: number, load: number): string {
  const [value, sure] = [(6000 * slope) / load, (6000 * u) / Math.abs(load)];
  if (!(sure > 0)) return `${significant(value, 2)} %`;
  const rounded = roundToUncertainty(value, sure);
  return `${rounded.value} ± ${rounded.u} %`;
}

function stepRow({ planned, outcome }: MatchedStep, force: (value: number) => string): string[] {
  const plan = [force(planned.load), `${significant(planned.hold, 3)} s`];
  if (outcome.kind === "notReached") return [...plan, "not reached"];
  const off = `${significant(Math.abs(100 * outcome.off), 2)} % ${outcome.off < 0 ? "below" : "above"} plan`;
  return [...plan, `${outcome.kind === "held" ? "held" : "cut short at"} ${outcome.held.toFixed(1)} s, ${off}`];
}

function loneText(r: TraceReduction, at: (t: number) => string): string {
  const lone = r.corrected.marks.filter((m) => m.kind === "spike");
  if (lone.length === 0) return "";
  const times = lone.slice(0, 8).map((m) => at(m.from));
  return `\n${lone.length} ${lone.length === 1 ? "reading stands" : "readings stand"} alone and ${lone.length === 1 ? "is" : "are"} left out of means: at ${times.join(", ")}${lone.length > 8 ? " …" : ""} s\n`;
}

function correctedText(r: TraceReduction): string {
  const changed = r.corrected.marks.filter((m) => m.origin !== "automatic").length + r.corrected.takenAway.length;
  if (changed === 0 && r.corrected.unmatched.length === 0) return "";
  const lost = r.corrected.unmatched.length;
  return `\n${changed} ${changed === 1 ? "mark is" : "marks are"} as corrected by hand${lost === 0 ? "" : `; ${lost === 1 ? "one correction finds" : `${lost} corrections find`} no mark`}\n`;
}

function carriedText({ carried, deployment, units }: Traced, force: (value: number, u?: number) => string): string {
  if (carried === null || deployment === null) return "";
  const angle = formatQuantity(carried.angleToBottom.value, "angle", {
    system: units,
    ...(carried.angleToBottom.u > 0 ? { u: carried.angleToBottom.u } : {}),
  });
  const doubts = [...deployment.doubts, ...carried.doubts].map((doubt) => `- ${doubtLine(doubt, units)}\n`);
  return `By the rig that is ${force(carried.anchor.value, carried.anchor.u)} at the anchor, ${angle} above the ${groundWord(deployment.rig.setting.medium)} there, and ${force(carried.bow.value, carried.bow.u)} at the bow\n${doubts.join("")}`;
}
