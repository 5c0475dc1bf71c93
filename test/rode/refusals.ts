/** Whether a refusal to settle is founded: the limit it names must part what settles from what does not. */
import { type NoEquilibrium, type Pull, type Rig, riseOf, settle } from "../../src/rode/index.ts";

/** How far on either side of a named limit is looked, relative. A load above what hangs makes √2·STEP of it horizontal. */
const STEP = 1e-6;

/** Null when the refusal stands; else what speaks against it. */
export function unfounded(rig: Rig, pull: Pull, none: NoEquilibrium): string | null {
  const { setting, rode } = rig;
  const length = rode.reduce((sum, part) => sum + (part.kind === "line" ? part.length : 0), 0);
  switch (none.cause) {
    case "shorterThanRise":
      return length <= riseOf(setting) ? null : "the rode is longer than the rise";
    case "lighterThanHanging":
    case "lighterThanResting": {
      if (pull.at === "span") return "no load was given";
      if (!(pull.newtons <= none.limit)) return `the load ${pull.newtons} is above the limit ${none.limit}`;
      const above = settle(rig, { at: pull.at, newtons: none.limit * (1 + STEP) + 1e-12 });
      if (above.kind !== "settled" && above.cause !== "aground")
        return `a load just above the limit ends as ${above.cause}`;
      return passed(rig, pull.at, pull.newtons);
    }
    case "tooNear": {
      if (pull.at !== "span") return "no span was given";
      if (Math.tan(setting.bottomSlope) + setting.bottomFriction >= 0) return "rode at rest would lie slack";
      if (!(pull.metres <= none.limit)) return `the span ${pull.metres} is above the limit ${none.limit}`;
      const beyond = settle(rig, { at: "span", metres: none.limit * (1 + STEP) + 1e-9 * length });
      return beyond.kind === "settled" ? null : `a span just above the limit ends as ${beyond.cause}`;
    }
    case "beyondReach": {
      if (pull.at !== "span") return "no span was given";
      if (rode.some((part) => part.kind === "line" && part.stretch.kind !== "rigid")) return "the rode stretches";
      return pull.metres > none.limit * (1 - STEP) ? null : `the span is within ${none.limit}`;
    }
    case "aground": {
      const meets = (setting.medium === "water" ? setting.depth : setting.rise) / Math.tan(setting.bottomSlope);
      if (!(setting.bottomSlope > 0)) return "the bottom does not rise";
      if (Math.abs(none.limit / meets - 1) > 1e-12) return `the bottom meets the surface at ${meets}`;
      return pull.at === "span" ? null : passed(rig, pull.at, pull.newtons);
    }
    default:
      return "no heavy rode may end so";
  }
}

/** Looks for neighbouring pulls whose equilibria have what is stated of them on either side of the target. */
function passed(rig: Rig, at: "anchor" | "bow" | "horizontal", target: number): string | null {
  const mass = rig.rode.reduce(
    (all, part) => all + (part.kind === "line" ? part.length * part.massPerLength : part.mass),
    0,
  );
  let before = 0;
  for (let power = -10; power <= 6; power += 0.5) {
    const settled = settle(rig, { at: "horizontal", newtons: mass * 10 ** power });
    if (settled.kind !== "settled") continue;
    const stated = { anchor: settled.anchor.tension, bow: settled.bow.tension, horizontal: settled.horizontal }[at];
    const side = Math.sign(stated - target);
    if (before * side < 0) return `horizontal forces about ${settled.horizontal} N pass it`;
    before = side;
  }
  return null;
}
