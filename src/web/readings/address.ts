/** Readings as fields of an address: the rig's own, and the rows as `load,angle;…` in SI, an angle in degrees. */
import { DEGREES } from "../../quantity/index.ts";
import { readRigFields, rigFields } from "../rig/address.ts";
import type { Codec } from "../state/address.ts";
import { FieldReader } from "../state/fields.ts";
import type { ReadingRow, ReadingsState, ReleaseRow } from "./state.ts";

/** More than anybody reads by hand. */
const MOST_ROWS = 10_000;

/** Short, and sharper than any gauge. */
const text = (value: number | null): string => (value === null ? "" : String(Number(value.toPrecision(9))));

export const readingsCodec: Codec<ReadingsState> = {
  name: "readings",
  write: (state) => ({
    run: state.name,
    ...rigFields(state.rig),
    cell: state.loadCellAt,
    gauge: state.angleAt,
    u: [state.u.load, state.u.angle * DEGREES, state.u.movement, state.u.gaugeZero * DEGREES].map(text).join(","),
    read: state.readings
      .map(
        (row) =>
          `${text(row.load)},${text(row.angle === null ? null : row.angle * DEGREES)}${row.liftoff ? ",lift" : ""}`,
      )
      .join(";"),
    release: state.release.map((row) => `${text(row.load)},${text(row.movement)}`).join(";"),
  }),
  read(given) {
    const fields = new FieldReader(given);
    if (!fields.has("read", "run", "rode", "in")) return { kind: "none" };
    return fields.read(() => {
      const [load, angle, movement, zero] = (fields.text("u") ?? "20,0.5,0.005").split(",");
      const stated = (text: string | undefined, of: string): number =>
        fields.withinOr(`u, ${of}`, text, 0, 0, Number.MAX_VALUE);
      return {
        name: fields.nameOr("run", "New readings"),
        rig: readRigFields(fields),
        loadCellAt: fields.wordOr("cell", ["anchor", "bow"], "anchor"),
        angleAt: fields.wordOr("gauge", ["anchor", "bow"], "anchor"),
        u: {
          load: stated(load, "load"),
          angle: stated(angle, "angle") / DEGREES,
          movement: stated(movement, "movement"),
          gaugeZero: stated(zero, "zero of the gauge") / DEGREES,
        },
        readings: rowsOf(fields, "read").map((row, i): ReadingRow => {
          const [at = "", deg = "", lift] = row.split(",");
          const angleDeg = cell(fields, `read, row ${i + 1}`, deg);
          fields.wordOr(`read, row ${i + 1}`, ["lift"], "lift", lift);
          return {
            load: cell(fields, `read, row ${i + 1}`, at),
            angle: angleDeg === null ? null : angleDeg / DEGREES,
            liftoff: lift === "lift",
          };
        }),
        release: rowsOf(fields, "release").map((row, i): ReleaseRow => {
          const [at = "", moved = ""] = row.split(",");
          return {
            load: cell(fields, `release, row ${i + 1}`, at),
            movement: cell(fields, `release, row ${i + 1}`, moved),
          };
        }),
      };
    });
  },
};

function rowsOf(fields: FieldReader, name: string): string[] {
  const text = fields.text(name) ?? "";
  const rows = text === "" ? [] : text.split(";");
  if (rows.length <= MOST_ROWS) return rows;
  fields.refuseAs(name, `${rows.length} rows`, `at most ${MOST_ROWS} rows are expected`);
  return [];
}

/** A cell of a row being entered: null where nothing stands yet. */
const cell = (fields: FieldReader, place: string, given: string): number | null =>
  fields.withinOr(place, given.trim(), null, -Number.MAX_VALUE, Number.MAX_VALUE);
