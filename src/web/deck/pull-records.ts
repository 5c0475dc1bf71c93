/** A pull as records of the book: with its ids made before, so that they are the same each time they are sent. */
import type { WrittenRecord } from "../../record/index.ts";
import type { gapsOf, LiveSource } from "./live/reading.ts";
import { type DeckPull, standing, stepsHeld } from "./pull.ts";

/** A moment as records tell it. */
export const iso = (ms: number) => new Date(ms).toISOString();

/** The date of a moment on this device's own clock. */
export function dateOf(ms: number): string {
  const at = new Date(ms);
  const two = (value: number) => String(value).padStart(2, "0");
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

const make = (kind: string, id: string, set: Record<string, unknown>): WrittenRecord => ({
  kind,
  id,
  makes: true,
  set,
});

/** Records of a pull that begins. */
export function beginRecords(pull: DeckPull): WrittenRecord[] {
  const { ids, known, rig, deployed } = pull;
  return [
    ...(known.day ? [] : [make("day", ids.day, { date: dateOf(pull.begunAt) })]),
    ...(known.anchor || pull.anchor === "" ? [] : [make("anchor", ids.anchor, { name: pull.anchor, shape: "other" })]),
    make("rig", ids.rig, { name: rig.name }),
    make("rigVersion", ids.rigVersion, { rig: ids.rig, file: rig.file }),
    make("pull", ids.pull, {
      day: ids.day,
      ...(pull.anchor === "" ? {} : { anchor: ids.anchor }),
      rigVersion: ids.rigVersion,
      startedAt: iso(pull.begunAt),
      depth_m: deployed.depth ?? null,
      paidOut_m: deployed.paidOut ?? null,
      loadAt: "bow",
      ...(pull.heldFor === undefined ? {} : { heldFor_s: pull.heldFor }),
      ...(pull.heldWithin === undefined ? {} : { heldWithin_m: pull.heldWithin }),
      ...(pull.code === null ? {} : { remarks: `planned pull ${pull.code}` }),
    }),
  ];
}

/** The log of loads that were typed. */
export const typedLogRecords = ({ ids, helps }: Pick<DeckPull, "ids" | "helps">): WrittenRecord[] => [
  make("log", ids.log, {
    pull: ids.pull,
    name: helps ? "Loads read on deck by a second device" : "Loads read on deck",
    source: "typed on deck",
    channels: [{ name: "load", quantity: "load", unit: "N", precision: "double" }],
  }),
];

/** The log of an instrument this device reads itself. */
export const portLogRecords = (
  { ids }: Pick<DeckPull, "ids">,
  { log, name, channels }: LiveSource,
): WrittenRecord[] => [make("log", log!, { pull: ids.pull, name: `${name} on deck`, source: name, channels })];

/** A log that marks are laid on, and how far this device's clock is ahead of its own, ms. */
export interface MarkedLog {
  readonly log: string;
  readonly clock: number;
}

/**
 * Steps, marks and result of a pull that ended.
 * @param markId the id of the n-th mark
 * @param on the log the marks are laid on
 */
export function endRecords(
  pull: DeckPull,
  markId: (n: number) => string,
  on: MarkedLog = { log: pull.ids.log, clock: 0 },
): WrittenRecord[] {
  const { ids, ended } = pull;
  if (ended === null) return [];
  const mark = (
    n: number,
    kind: string,
    at: number,
    remarks: string,
    detail?: Record<string, unknown>,
  ): WrittenRecord => ({
    kind: "mark",
    id: markId(n),
    makes: true,
    set: {
      log: on.log,
      kind,
      from_s: (at - on.clock) / 1000,
      origin: "by hand",
      remarks,
      ...(detail === undefined ? {} : { detail }),
    },
  });
  const stepMark = (n: number, at: number, step: number) => {
    const { kind = "on", paidOut } = pull.steps[step] ?? {};
    return mark(n, "step", at, `step ${step + 1}: ${kind}`, paidOut === undefined ? undefined : { paidOut_m: paidOut });
  };
  const marks = standing(pull).flatMap((one) => {
    switch (one.kind) {
      case "gaveWay":
        return [mark(one.n, "drag", one.at, "gave way, by touch on deck")];
      case "moved":
        return [mark(one.n, "note", one.at, "moved, by touch on deck")];
      case "stop":
        return [mark(one.n, "note", one.at, "stop, by touch on deck")];
      case "step":
        return [stepMark(one.n, one.at, one.step)];
      case "angle":
        return [mark(one.n, "note", one.at, "angle of the rode by the device", { angle_rad: one.angle, u_rad: one.u })];
      default:
        return [];
    }
  });
  // Whoever runs the pull says what it held.
  if (pull.helps) return marks;
  const result =
    ended.kind === "none"
      ? { kind: "none" }
      : {
          kind: ended.kind,
          ...(ended.load === null
            ? {}
            : {
                load_N: ended.load,
                u_N: pull.loadU,
                ...(ended.paidOut === undefined ? {} : { paidOut_m: ended.paidOut }),
              }),
        };
  const endedBy =
    ended.kind === "gaveWay" ? "drag" : standing(pull).some(({ kind }) => kind === "stop") ? "stopped by tester" : null;
  return [
    {
      kind: "pull",
      id: ids.pull,
      makes: false,
      set: { steps: ended.steps ?? stepsHeld(pull), result, ...(endedBy === null ? {} : { endedBy }) },
    },
    ...marks,
  ];
}

/** Ids of marks, made from the end's own: the same each time it is written. Their last twelve signs count them. */
export const markIdOf =
  ({ ids }: Pick<DeckPull, "ids">) =>
  (n: number): string =>
    `${ids.end.slice(0, 24)}${n.toString(16).padStart(12, "0")}`;

/** The transaction that makes the log of typed loads: the beginning's id with its last signs counted on. */
export const typedLogOf = ({ ids }: Pick<DeckPull, "ids">): string =>
  `${ids.begin.slice(0, 24)}${"1".padStart(12, "0")}`;

/** The transaction that marks them. */
export const gapsOfId = ({ begin }: LiveSource): string => `${begin.slice(0, 24)}${"1".padStart(12, "0")}`;

/** Stretches in which an instrument brought nothing, as marks on its log. */
export const gapRecords = ({ log, begin }: LiveSource, gaps: ReturnType<typeof gapsOf>): WrittenRecord[] =>
  gaps.map(({ from, to }, n) =>
    make("mark", `${begin.slice(0, 24)}${(n + 2).toString(16).padStart(12, "0")}`, {
      log,
      kind: "gap",
      from_s: from,
      to_s: to,
      origin: "automatic",
      remarks: "no reading came from the instrument",
    }),
  );
