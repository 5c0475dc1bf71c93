/** `compare --boat BOAT --rig RIG --wind FROM..TO/STEP`: how likely the load of a wind stays below what an anchor holds. */
import type { AnchorInWind, WindAsked } from "../holding/index.ts";
import {
  DEGREES,
  formatQuantity,
  InputError,
  inUnit,
  parseQuantity,
  quoted,
  significant,
  type UnitSystem,
} from "../quantity/index.ts";
import { readBoat } from "../sea/index.ts";
import { sayChance, sayShares } from "../words/index.ts";
import type { Io } from "./io.ts";
import { placeOf, rigAt } from "./options.ts";
import { textTable } from "./text-table.ts";

/** The three go together. */
export async function windAsked(
  io: Io,
  options: { readonly boat?: string; readonly rig?: string; readonly wind?: string },
): Promise<WindAsked | undefined> {
  const { boat, rig, wind } = options;
  if (boat === undefined && rig === undefined && wind === undefined) return undefined;
  for (const [name, value] of Object.entries({ "--boat": boat, "--rig": rig, "--wind": wind })) {
    if (value === undefined) throw new InputError(name, "", "--boat, --rig and --wind are expected together");
  }
  return { winds: windsFrom(wind!), boat: readBoat(await io.read(boat!), placeOf(boat!)), rig: await rigAt(rig!, io) };
}

/** `FROM..TO/STEP unit`, at most 200 winds. */
function windsFrom(text: string): number[] {
  const expected = 'winds as FROM..TO/STEP with a unit are expected, such as "10..40/5kn"';
  const found = /^\s*([\d.]+)\s*\.\.\s*([\d.]+)\s*\/\s*([\d.]+)\s*(\S.*)$/.exec(text);
  if (found === null) throw new InputError("--wind", quoted(text), expected);
  const speed = (number: string): number => parseQuantity(`${number} ${found[4]!}`, "speed", "--wind");
  const [from, to, step] = [speed(found[1]!), speed(found[2]!), speed(found[3]!)];
  const count = Math.floor((to - from) / step + 1e-9) + 1;
  if (!(from > 0 && to >= from && step > 0 && to <= 100 && count <= 200)) {
    throw new InputError(
      "--wind",
      quoted(text),
      "at most 200 winds that rise from above zero to 100 m/s at most are expected",
    );
  }
  return Array.from({ length: count }, (_, k) => from + k * step);
}

export function inWindText(
  asked: WindAsked,
  found: readonly AnchorInWind[],
  hasAngle: boolean,
  units: UnitSystem,
): string {
  if (found.length === 0) return "";
  const load = (newtons: number, u?: number): string =>
    formatQuantity(newtons, "force", { system: units, ...(u === undefined || u === 0 ? { digits: 3 } : { u }) });
  const tables = found.map(({ anchor, points }) => {
    const rows = points.map((point) => {
      const wind = `${significant(inUnit(point.wind, "kn", "speed"), 3)} kn`;
      if (point.kind !== "chance") {
        const why = point.kind === "noLoad" ? "no load is known for it" : "the rode has no equilibrium in it";
        return [wind, why, "", "", "", ""];
      }
      const { peak, anchorLoad, anchorAngle, chance, low, high, shares, beyondAngles } = point;
      return [
        wind,
        load(peak.value, peak.u),
        `${load(anchorLoad)} at ${significant(anchorAngle.value * DEGREES, 2)}°${beyondAngles ? "*" : ""}`,
        sayChance(chance),
        sayChance(low) === sayChance(high) ? sayChance(low) : `${sayChance(low)} to ${sayChance(high)}`,
        sayShares(shares),
      ];
    });
    return `${anchor}\n${textTable(["wind", "peak load", "at the anchor", "stays below", "95 %", "the band comes of"], rows)}`;
  });
  const beyond = found.some(({ points }) => points.some((point) => point.kind === "chance" && point.beyondAngles));
  return `Chance that the largest load of a wind stays below what the anchor holds: ${asked.boat.name} on ${asked.rig.name}\n${tables.join("\n")}${
    beyond ? "* beyond the angles pulled at: the effect of the angle is drawn on, not seen\n" : ""
  }${hasAngle ? "" : "The angle is no term of these fits: its effect is not in this\n"}`;
}

export function inWindFields(found: readonly AnchorInWind[]): object[] {
  return found.map(({ anchor, points }) => ({
    anchor,
    points: points.map((point) =>
      point.kind !== "chance"
        ? { kind: point.kind, wind_m_per_s: point.wind }
        : {
            kind: point.kind,
            wind_m_per_s: point.wind,
            peak_N: { value: point.peak.value, u: point.peak.u, at: point.peak.at, from: point.peak.from },
            anchor_N: point.anchorLoad,
            anchorAngle_deg: {
              value: point.anchorAngle.value * DEGREES,
              u: point.anchorAngle.u * DEGREES,
            },
            beyondAngles: point.beyondAngles,
            chance: point.chance,
            low: point.low,
            high: point.high,
            shares: point.shares,
          },
    ),
  }));
}
