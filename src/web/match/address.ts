/** Two rigs as fields of one address: the second's names begin with `o-`. */
import { longestLine, type Rig } from "../../rode/index.ts";
import { readRigFields, rigFields } from "../rig/address.ts";
import type { Codec } from "../state/address.ts";
import { FieldReader } from "../state/fields.ts";
import { type MatchState, usualMatch } from "./state.ts";

const OTHER = "o-";

export const matchCodec: Codec<MatchState> = {
  name: "match",
  write: (state) => ({
    ...rigFields(state.one),
    ...Object.fromEntries(Object.entries(rigFields(state.other)).map(([name, text]) => [OTHER + name, text])),
    part: String(state.paid.one),
    [`${OTHER}part`]: String(state.paid.other),
    load: String(Number(state.load.toPrecision(9))),
    map: state.map,
  }),
  read(given) {
    const fields = new FieldReader(given);
    if (!fields.has("rode", "in", "map", "part", `${OTHER}rode`, `${OTHER}in`)) return { kind: "none" };
    const others = fields.under(OTHER);
    return fields.read(() => {
      const [one, other] = [readRigFields(fields), readRigFields(others)];
      return {
        one,
        other,
        paid: { one: partOf(fields, one), other: partOf(others, other) },
        load: fields.numberOr("load", usualMatch.load, 1e-6, 1e9),
        map: fields.wordOr("map", ["load", "scope"], "load"),
      };
    });
  },
};

/** The part named, which is a line of the rig; its longest line where none is named. */
function partOf(fields: FieldReader, rig: Rig): number {
  if (!fields.has("part")) return longestLine(rig);
  const part = fields.number("part", 1, rig.rode.length);
  if (rig.rode[part - 1]?.kind !== "line" && fields.problems.length === 0)
    fields.refuse("part", fields.text("part"), "the number of a line of the rode is expected");
  return part;
}
