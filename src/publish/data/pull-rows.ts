/** A pull of a book as a row of a package, and the pull again from the row alone: what is worked out, from what was read. */
import { fieldsOfHow, holdingRows, howJudged, type PullCase, type PullEvidence } from "../../study/index.ts";
import type { Private } from "./columns.ts";
import type { TableRow } from "./table.ts";

/** A pull that goes into a package, with what it says. */
export interface PackagedPull {
  readonly about: PullCase;
  readonly evidence: PullEvidence;
}

/** How a row is called by others, and who tested. */
export interface RowNames {
  readonly number: number;
  /** Path of its rig file within the package; null: no rig. */
  readonly rig: string | null;
  readonly tester: string;
}

/** @returns null for a pull that says nothing that can be compared */
export function rowOfPull(
  { about, evidence }: PackagedPull,
  names: RowNames,
  chosen: readonly Private[],
): TableRow | null {
  const [worked] = holdingRows([about]).rows;
  const { verdict, from, readAt } = evidence;
  if (worked === undefined || verdict.kind === "notKnown" || from === null) return null;
  const { pull, anchor, seabed, day, depthByLevel } = about;
  const held = verdict.kind === "between" ? verdict.heldTo : verdict.kind === "neverSet" ? null : verdict.load;
  const gave = verdict.kind === "between" ? verdict.gaveWayBy : verdict.kind === "neverSet" ? verdict.by : null;
  return {
    pull: names.number,
    anchor: worked.anchor,
    mass_kg: worked.mass_kg,
    flukeArea_m2: anchor?.flukeArea_m2 ?? null,
    seabed: worked.seabed,
    grain: seabed?.grain ?? null,
    site: worked.site,
    day: worked.day,
    ending: worked.ending,
    tester: names.tester === "" ? null : names.tester,
    rig: names.rig,
    depth_m: pull.depth_m,
    levelDepth_m: depthByLevel?.value ?? null,
    levelDepth_u_m: depthByLevel?.u ?? null,
    soundings: depthByLevel?.soundings ?? null,
    scope: pull.scope,
    paidOut_m: pull.paidOut_m,
    readAt,
    readAtTold: from === "log" || Boolean(pull.loadAt),
    verdict: verdict.kind,
    from,
    readHeldTo_N: held?.value ?? null,
    readGaveWayBy_N: gave?.value ?? null,
    read_u_N: (gave ?? held)?.u ?? null,
    ...judgedBy(about, from === "log"),
    ...(chosen.includes("positions") ? placeOf(about) : {}),
    heldTo_N: worked.heldTo_N,
    gaveWayBy_N: worked.gaveWayBy_N,
    uncertainty_N: worked.uncertainty_N,
    anchorAngle_deg: worked.anchorAngle_deg,
    anchorAngleHeld_deg: worked.anchorAngleHeld_deg,
    anchorAngleRise_deg: worked.anchorAngleRise_deg,
    ...(chosen.includes("people") ? { people: day?.testers ?? null } : {}),
    ...(chosen.includes("remarks") ? { remarks: pull.remarks } : {}),
  };
}

/** How the pull's log is judged, as records state it; where it was judged, by the usual hold rule where none is stated. */
function judgedBy(about: PullCase, byLog: boolean): TableRow {
  const fields = fieldsOfHow(howJudged(about, byLog));
  return {
    cell: byLog ? (about.log?.cell ?? null) : null,
    heldFor_s: fields.heldFor_s ?? null,
    heldWithin_m: fields.heldWithin_m ?? null,
    calibration: fields.calibration ?? null,
    tare_N: fields.tare_N ?? null,
    slackLoad_N: fields.slackLoad_N ?? null,
    boatPulled: fields.pulls ?? null,
    bearing_deg: fields.bearing_deg ?? null,
    trackClock_s: fields.trackClock_s ?? null,
  };
}

function placeOf({ pull }: PullCase): TableRow {
  return { anchorLatitude_deg: pull.anchorLatitude_deg, anchorLongitude_deg: pull.anchorLongitude_deg };
}

/** What a row says at the anchor, from its rig file and what was read alone; null where that says nothing. */
export function workedAgain(row: TableRow, rigFile: string | null): TableRow | null {
  const [worked] = holdingRows([caseOf(row, rigFile)]).rows;
  if (worked === undefined) return null;
  const { pull: _, ...rest } = worked;
  return rest;
}

function caseOf(row: TableRow, rigFile: string | null): PullCase {
  const text = (name: string): string | null => (typeof row[name] === "string" ? row[name] : null);
  const number = (name: string): number | null => (typeof row[name] === "number" ? row[name] : null);
  const [held, gave, u] = [number("readHeldTo_N"), number("readGaveWayBy_N"), number("read_u_N")];
  const level = number("levelDepth_m");
  const told = row.readAtTold === true ? (text("readAt") as "anchor" | "bow") : null;
  const kind = text("verdict");
  const uncertain = u === null ? {} : { u_N: u };
  const result =
    kind === "between"
      ? ({ kind: "gaveWay" } as const)
      : kind === "neverSet"
        ? ({ kind: "neverSet", ...(gave === null ? {} : { load_N: gave }), ...uncertain } as const)
        : ({ kind: kind as "gaveWay" | "heldTo", load_N: held ?? 0, ...uncertain } as const);
  const fromLog = row.from === "log";
  const nothing = { hidden: false, id: "again" } as const;
  return {
    pull: {
      ...nothing,
      ...{ day: null, series: null, anchor: null, seabed: null, rigVersion: null, number: null, startedAt: null },
      ...{ heading_deg: null, setDistance_m: null, remarks: null },
      pulls: text("boatPulled") as PullCase["pull"]["pulls"],
      heldFor_s: number("heldFor_s"),
      heldWithin_m: number("heldWithin_m"),
      calibration: number("calibration"),
      tare_N: number("tare_N"),
      slackLoad_N: number("slackLoad_N"),
      bearing_deg: number("bearing_deg"),
      trackClock_s: number("trackClock_s"),
      anchorLatitude_deg: number("anchorLatitude_deg"),
      anchorLongitude_deg: number("anchorLongitude_deg"),
      depth_m: number("depth_m"),
      scope: number("scope"),
      paidOut_m: number("paidOut_m"),
      loadAt: told,
      steps: kind === "between" ? [{ load_N: held ?? 0 }, { load_N: gave ?? 0 }] : null,
      result: fromLog ? null : result,
      endedBy: text("ending") as PullCase["pull"]["endedBy"],
    },
    series: null,
    day: null,
    site: null,
    seabed: null,
    anchor: {
      ...nothing,
      ...{ name: text("anchor"), shape: null, mass_kg: number("mass_kg"), flukeArea_m2: number("flukeArea_m2") },
      ...{ make: null, description: null },
    },
    rigFile,
    depthByLevel:
      level === null ? null : { value: level, u: number("levelDepth_u_m") ?? 0, soundings: number("soundings") ?? 0 },
    log:
      fromLog && (kind === "gaveWay" || kind === "heldTo")
        ? {
            held: { kind, newtons: held ?? 0, u: u ?? 0, at: told ?? "bow" } as NonNullable<PullCase["log"]>["held"],
            zeroFound: true,
            unmatched: 0,
          }
        : null,
  };
}
