/** Two rigs as fields of one address: the second's names begin with `o-`. */
import { longestLine, type Rig } from "../../rode/index.ts";
import { rigFields, rigOfFields } from "../rig/address.ts";
import type { Codec, Fields } from "../state/address.ts";
import { type MatchState, usualMatch } from "./desk.ts";

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
  read(fields) {
    const one = rigOfFields(fields);
    const other = rigOfFields(
      Object.fromEntries(
        Object.entries(fields).flatMap(([name, text]) =>
          name.startsWith(OTHER) ? [[name.slice(OTHER.length), text]] : [],
        ),
      ) as Fields,
    );
    if (one === null || other === null) return null;
    const load = Number(fields.load);
    return {
      one,
      other,
      paid: { one: partOf(one, fields.part), other: partOf(other, fields[`${OTHER}part`]) },
      load: load > 0 && load < 1e9 ? load : usualMatch.load,
      map: fields.map === "scope" ? "scope" : "load",
    };
  },
};

/** The part named, where it is a line of the rig; else its longest line. */
function partOf(rig: Rig, text: string | undefined): number {
  const part = Number(text);
  return rig.rode[part - 1]?.kind === "line" ? part : longestLine(rig);
}
