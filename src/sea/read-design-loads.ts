/** The file of published design loads, `rodebench/design-loads@1`: YAML or JSON. */
import * as z from "zod";
import { quoted } from "../quantity/index.ts";
import type { DesignLoadTable } from "./design-loads.ts";
import { group, line, list, quantity, readFields, refuse, word } from "./field-check.ts";

/** Format of a file of design loads. */
export const DESIGN_LOADS_FORMAT = "rodebench/design-loads@1";

const table = group(
  {
    name: line(),
    source: line(),
    standing: word(["seen", "recalled"]),
    holds: line(),
    rows: list(
      group(
        {
          length: quantity("length"),
          beam: quantity("length").optional(),
          loads: list(
            group({ wind: quantity("speed"), load: quantity("force") }, "a group of wind and load"),
            "a list of loads",
          ),
        },
        "a group with length and loads",
      ),
      "a list of rows",
    ),
  },
  "a group with name, source, standing, holds and rows",
);

const file = group(
  {
    format: z.any().superRefine((value, context) => {
      if (value !== DESIGN_LOADS_FORMAT) refuse(context, [], quoted(value), `${DESIGN_LOADS_FORMAT} is expected`);
    }),
    tables: list(table, "a list of tables"),
  },
  "a file of design loads",
);

/** Reads the tables of `data/published/design-loads.json`, or a user's own in the same form. @throws InputError */
export function readDesignLoads(text: string, place: string): readonly DesignLoadTable[] {
  return readFields(text, place, file).tables as readonly DesignLoadTable[];
}
