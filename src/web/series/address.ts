import type { Codec } from "../state/address.ts";
import { FieldReader } from "../state/fields.ts";
import type { SeriesState } from "./state.ts";

/** As long as a file that is read. */
const MOST = 262_144;

/** The text of the series as it stands: what is wrong with it is told in the place, not refused in the address. */
export const seriesCodec: Codec<SeriesState> = {
  name: "series",
  write: ({ text }) => ({ file: text }),
  read(given) {
    const fields = new FieldReader(given);
    const text = fields.text("file");
    if (text === undefined) return { kind: "none" };
    if (text.length > MOST)
      fields.refuse("file", `${text.length} characters`, `at most ${MOST} characters are expected`);
    return fields.read(() => ({ text }));
  },
};
