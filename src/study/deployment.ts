/**
 * The rig of a pull in the pull's own water. A rig file says how a rig is put together; how deep it lay and how much of it
 * was paid out belong to the pull. Depth and length change the rig; scope is the length of the rode over the height of the
 * bow roller above the anchor.
 *
 * Which line is made shorter: the last (bow-most) one that is long enough, as a snubber stays on while its chain is taken
 * in; unless less would stay out of it than of the lines between it and the bow, or none is long enough: then the rode is
 * taken in from the bow, whole lines coming aboard. Which line is made longer: the last. All other ways are possible too.
 */
import type { Measured } from "../pull/index.ts";
import { InputError } from "../quantity/index.ts";
import { lengthOf, type Part, perturbed, type Rig, riseOf } from "../rode/index.ts";
import { ASSUMED } from "./assumptions.ts";
import type { Doubt, PaidOutAt } from "./doubt.ts";

/** What a pull's records tell of how its rig lay; SI, absent or null where nobody wrote it. */
export interface DeploymentRecord {
  /** Surface above the anchor at the time of the pull, m. */
  readonly depth?: number | null | undefined;
  /** Depth by soundings of other pulls on this ground and the level of the day, m. */
  readonly depthByLevel?: (Measured & { readonly soundings: number }) | null | undefined;
  /** Length of the rode over the height of the bow roller above the anchor. */
  readonly scope?: number | null | undefined;
  /** Length of rode from anchor to roller, m; it is believed before the scope. */
  readonly paidOut?: number | null | undefined;
}

/** How much rode lay out: told in metres, by the scope (then it follows the rise), or as in the rig file. */
export type PaidOut =
  | { readonly told: "length" | "filed"; readonly metres: number; readonly share: number }
  | { readonly told: "scope"; readonly scope: number; readonly share: number };

/** A rig file put into a pull's own water, with what is not known of it: plain data. */
export interface Deployment {
  /** The rig as its file has it. */
  readonly filed: Rig;
  /** The rig as deployed. */
  readonly rig: Rig;
  /** Height of the upper end above the anchor, m, and how it came to be known. */
  readonly rise: Measured & { readonly from: "recorded" | "level" | "filed" };
  /** Standard uncertainty of mass per length, as a share. */
  readonly uMass: number;
  readonly paidOut: PaidOut;
  /** Length of the rode as deployed and its standard uncertainty at a given rise, m. */
  readonly length: Measured;
  /** Where the rode was made shorter or longer; null where it was not. */
  readonly part: PaidOutAt | null;
  /** Where else that may have been. */
  readonly otherParts: readonly PaidOutAt[];
  readonly doubts: readonly Doubt[];
}

/** Lengths that differ by less than this share, or by this much (m), agree. */
const AGREES = { share: 0.01, metres: 0.05 };

/** A rig just as its file has it: nobody told of another water, and nothing beyond the file's own ± is in doubt. */
export function asFiled(filed: Rig): Deployment {
  const length = rodeLength(filed);
  return {
    filed,
    rig: filed,
    rise: { value: riseOf(filed.setting), u: filed.uncertainty.rise ?? 0, from: "filed" },
    uMass: filed.uncertainty.massPerLength ?? 0,
    paidOut: { told: "filed", metres: length, share: 0 },
    length: { value: length, u: 0 },
    part: null,
    otherParts: [],
    doubts: [],
  };
}

/**
 * A rig file in the water of one pull. What the records do not tell is taken from the file with an assumed ± and a doubt;
 * what contradicts the file wins over it, with a doubt.
 * @throws InputError for a depth, length or scope that is not above zero
 */
export function deploymentOf(filed: Rig, record: DeploymentRecord): Deployment {
  above(record.depth, 0, "depth", "a depth above 0 m");
  above(record.paidOut, 0, "paidOut", "a length above 0 m");
  above(record.scope, 0, "scope", "a scope above 0");
  const doubts: Doubt[] = [];
  const rise = riseOfPull(filed, record, doubts);
  contradictedScope(record, rise, doubts);
  const filedLength = rodeLength(filed);
  const told = toldLength(record, filedLength);
  const toldMetres = told.told === "scope" ? told.scope * rise.value : told.metres;
  // Told as the file has it but for rounding, and a scope is rounded: the file's length is the finer one.
  const changed = !agree(toldMetres, filedLength, told.told === "scope" ? ASSUMED.scope : AGREES.share);
  const metres = changed ? toldMetres : filedLength;
  const paidOut: PaidOut = told.told === "scope" ? { ...told, scope: metres / rise.value } : { ...told, metres };
  if (paidOut.told === "filed")
    doubts.push({ kind: "lengthUnknown", taken: metres, u: ASSUMED.unknownLength * metres });
  const ways = changed ? waysTo(filed.rode, metres) : [];
  const part = ways[0] ?? null;
  const otherParts = ways.slice(1);
  if (part !== null) {
    const kind = metres > filedLength ? "longerThanRode" : "lengthDiffers";
    doubts.push({ kind, paidOut: metres, filed: filedLength, part });
    if (otherParts.length > 0) doubts.push({ kind: "lineUnknown", part, others: otherParts });
  }
  const base: Omit<Deployment, "rig"> = {
    filed,
    rise,
    uMass: filed.uncertainty.massPerLength ?? 0,
    paidOut,
    length: { value: metres, u: paidOut.share * metres },
    part,
    otherParts,
    doubts,
  };
  const rig = deployed({ ...base, rig: filed }, {}) ?? filed;
  return { ...base, rig: { ...rig, uncertainty: { ...filed.uncertainty, rise: rise.u } } };
}

/** How far a deployment is moved from its estimate: factors on mass and length, m of rise, and another line. */
export interface DeploymentShift {
  readonly mass?: number;
  readonly rise?: number;
  readonly length?: number;
  readonly part?: PaidOutAt;
}

/** The rig of a deployment, moved; null where no rode of that length can be made, or no water is left. */
export function deployed(deployment: Deployment, shift: DeploymentShift): Rig | null {
  const { filed, paidOut } = deployment;
  const rise = deployment.rise.value + (shift.rise ?? 0);
  if (!(rise > 0)) return null;
  const inWater = perturbed(filed, shift.mass ?? 1, rise - riseOf(filed.setting));
  if (inWater.setting.medium === "water" && !(inWater.setting.depth > 0)) return null;
  const metres = (paidOut.told === "scope" ? paidOut.scope * rise : paidOut.metres) * (shift.length ?? 1);
  const by = metres - rodeLength(filed);
  if (Math.abs(by) <= 1e-12 * metres) return inWater;
  const part = shift.part ?? deployment.part ?? waysTo(filed.rode, metres)[0];
  const rode = part === undefined ? null : rodeOf(inWater.rode, metres, part);
  return rode === null ? null : { ...inWater, rode };
}

/** Every way to a rode of that length, the likeliest first. */
function waysTo(rode: readonly Part[], metres: number): PaidOutAt[] {
  const by = metres - lengthOfRode(rode);
  const lines = rode.flatMap((part, i) => (part.kind === "line" && part.length + by > 0 ? [i + 1] : [])).reverse();
  if (by > 0) return lines;
  const first = lines[0];
  const bowward = first === undefined ? 0 : lengthOfRode(rode.slice(first));
  const stays = first !== undefined && (bowward === 0 || lengthOf(rode[first - 1]!) + by >= bowward);
  // Taken in from the bow and the last line made shorter are one and the same while the last line is long enough.
  if (stays && bowward === 0) return lines;
  return stays ? [...lines, "bow"] : ["bow", ...lines];
}

/** The rode made that long in one way; null where it cannot be. */
function rodeOf(rode: readonly Part[], metres: number, way: PaidOutAt): readonly Part[] | null {
  if (way !== "bow") {
    const line = rode[way - 1]!;
    const length = lengthOf(line) + metres - lengthOfRode(rode);
    return line.kind === "line" && length > 0
      ? rode.map((part, i) => (i === way - 1 ? { ...line, length } : part))
      : null;
  }
  const out: Part[] = [];
  let left = metres;
  for (const part of rode) {
    if (!(left > 0)) return out;
    out.push(part.kind === "line" && part.length > left ? { ...part, length: left } : part);
    left -= lengthOf(part);
  }
  return left > 1e-9 * metres ? null : out;
}

function toldLength(record: DeploymentRecord, filed: number): PaidOut {
  if (typeof record.paidOut === "number") return { told: "length", metres: record.paidOut, share: ASSUMED.paidOut };
  if (typeof record.scope === "number") return { told: "scope", scope: record.scope, share: ASSUMED.scope };
  return { told: "filed", metres: filed, share: ASSUMED.unknownLength };
}

/** Length and scope tell of the same thing: where they differ by more than twice what both leave open, that is said. */
function contradictedScope({ paidOut, scope }: DeploymentRecord, rise: Measured, doubts: Doubt[]): void {
  if (typeof paidOut !== "number" || typeof scope !== "number" || !(rise.value > 0)) return;
  const ofLength = paidOut / rise.value;
  const u = Math.hypot(ASSUMED.paidOut, ASSUMED.scope, rise.u / rise.value);
  if (Math.abs(Math.log(ofLength / scope)) > 2 * u)
    doubts.push({ kind: "lengthAndScopeDiffer", paidOut, scope, ofLength });
}

function riseOfPull(filed: Rig, record: DeploymentRecord, doubts: Doubt[]): Deployment["rise"] {
  const { setting, uncertainty } = filed;
  const stated = uncertainty.rise ?? 0;
  if (setting.medium === "air") {
    if (typeof record.depth === "number") doubts.push({ kind: "depthOnLand", recorded: record.depth });
    return { value: setting.rise, u: stated, from: "filed" };
  }
  if (typeof record.depth === "number") {
    const u = stated || ASSUMED.soundedDepth;
    if (Math.abs(record.depth - setting.depth) > u)
      doubts.push({ kind: "depthDiffers", recorded: record.depth, filed: setting.depth });
    return { value: record.depth + setting.rollerHeight, u, from: "recorded" };
  }
  if (record.depthByLevel) {
    const { value, soundings } = record.depthByLevel;
    const u = Math.max(record.depthByLevel.u, ASSUMED.depthFromLevel);
    doubts.push({ kind: "depthFromLevel", taken: value, u, soundings });
    return { value: value + setting.rollerHeight, u: Math.hypot(u, stated), from: "level" };
  }
  const u = Math.hypot(ASSUMED.unknownDepth * setting.depth, stated);
  doubts.push({ kind: "depthUnknown", taken: setting.depth, u });
  return { value: riseOf(setting), u, from: "filed" };
}

function rodeLength(rig: Rig): number {
  return lengthOfRode(rig.rode);
}

function lengthOfRode(rode: readonly Part[]): number {
  return rode.reduce((sum, part) => sum + lengthOf(part), 0);
}

function above(value: number | null | undefined, least: number, field: string, expected: string): void {
  if (typeof value === "number" && !(value > least && value < Number.POSITIVE_INFINITY))
    throw new InputError(field, String(value), `${expected} is expected`);
}

function agree(a: number, b: number, share: number): boolean {
  return Math.abs(a - b) <= Math.max(AGREES.metres, share * Math.max(a, b));
}
