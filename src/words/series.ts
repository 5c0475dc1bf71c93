/** What a planned series says: what stands against a pull, what to know before it, why one is the next best. */
import { DEGREES, formatQuantity, type UnitSystem } from "../quantity/index.ts";
import type { Against, CodeTrouble, NextReason, PullWarning, QuestionKind } from "../series/index.ts";
import { countText } from "./counts.ts";

/** The question of a series. */
export const questionWords: Readonly<Record<QuestionKind, string>> = {
  compare: "which of these anchors holds more",
  letsGo: "how holding falls as the angle grows",
  afterVeer: "whether it holds as much after a veer",
};

const metres = (value: number, system: UnitSystem) => formatQuantity(value, "length", { system, digits: 3 });
const newtons = (value: number, system: UnitSystem) => formatQuantity(value, "force", { system, digits: 3 });
/** An angle with one place, as it is planned. */
export const degreesText = (angle: number): string => `${(angle * DEGREES).toFixed(1).replace(/\.0$/, "")}°`;

/** What stands against a pull, without its full stop. */
export function againstLine(one: Against, system: UnitSystem): string {
  switch (one.kind) {
    case "engineTooSmall":
      return `too little engine: ${newtons(one.needed, system)} level at the bow, and the boat pulls ${newtons(one.most, system)}`;
    case "rodeTooShort":
      return `rode too short: ${one.needed === null ? "no length of its last line would do" : `${metres(one.needed, system)} would do`}, and ${metres(one.aboard, system)} is aboard`;
    case "noRoom":
      return `no room: the boat reaches ${metres(one.needed, system)} from the anchor, and ${metres(one.room, system)} is free`;
    case "pastWorkingLoad":
      return `past the working load limit: ${one.part} would carry ${newtons(one.load, system)}, and ${newtons(one.limit, system)} is its limit here`;
    case "tooSteep":
      return "steeper than this rode gives at any length";
    case "tooShallow":
      return `too little water: ${metres(one.depth, system)}, and the boat wants ${metres(one.needed, system)}`;
  }
}

/** What is to be known before a pull, without its full stop. */
export function pullWarningLine(one: PullWarning, system: UnitSystem): string {
  if (one.kind === "tideMovesAngle")
    return `the tide moves the angle by ${degreesText(Math.abs(one.by))} ${one.by < 0 ? "down" : "up"} while it is pulled, more than the gauge's ± ${degreesText(one.gauge)}: read the depth at each load`;
  const why = one.against.map((against) => againstLine(against, system)).join("; ");
  return `only to ${newtons(one.load, system)} of ${newtons(one.asked, system)}${why === "" ? "" : `: ${why}`}`;
}

/** Why a pull stands where it does among those that could come next. */
export function nextReasonLine(one: NextReason): string {
  switch (one.kind) {
    case "leastPulled":
      return `of this anchor fewest pulls are held (${countText(one.pulls, "pull", "pulls")})`;
    case "farAngle":
      return "an angle at the end of the range tells most of what the angle does";
    case "likelyEnded":
      return `${Math.round(one.chance * 100)} % chance that it ends while the anchor holds, and then it tells little`;
    case "evenly":
      return "it tells about as much as the others: keep the numbers even";
  }
}

/** Engine speed as a rev counter shows it. */
export const engineText = (hertz: number): string => `${Math.round((hertz * 60) / 10) * 10} rpm`;

/** Hours and minutes of a moment, s since 1970 on the clock meant. */
export function clockText(seconds: number): string {
  const minutes = Math.round(seconds / 60) % 1440;
  const two = (value: number) => String(value).padStart(2, "0");
  return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}

/** Why what was typed is no code of a pull, without its full stop. */
export function codeTroubleLine(trouble: CodeTrouble): string {
  switch (trouble.kind) {
    case "length":
      return `${countText(trouble.signs, "sign", "signs")}, and a code has five`;
    case "noSign":
      return `${trouble.sign} stands in no code${trouble.meant === null ? "" : `; ${trouble.meant} does, if the other signs are right`}`;
    case "wrongSign":
      return "a sign is wrong, or two are swapped";
    case "otherSeries":
      return "a code of another series, or of this one by another name or seed";
    case "noSuchPull":
      return `pull ${trouble.number}, and this series has ${trouble.pulls}`;
  }
}
