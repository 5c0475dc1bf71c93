/** Readings as fields of an address: the rig's own, and the rows as `load,angle;…` in SI, an angle in degrees. */
import { rigFields, rigOfFields } from "../rig/address.ts";
import type { Codec } from "../state/address.ts";
import type { ReadingRow, ReadingsState, ReleaseRow } from "./desk.ts";

const DEGREES = 180 / Math.PI;
const MOST_ROWS = 2000;

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
  read(fields) {
    const rig = rigOfFields(fields);
    if (rig === null || fields.read === undefined) return null;
    const [load = null, angle = null, movement = null, zero = null] = numbers(fields.u ?? "20,0.5,0.005");
    return {
      name: (fields.run ?? "New readings").slice(0, 200),
      rig,
      loadCellAt: fields.cell === "bow" ? "bow" : "anchor",
      angleAt: fields.gauge === "bow" ? "bow" : "anchor",
      u: {
        load: stated(load),
        angle: stated(angle) / DEGREES,
        movement: stated(movement),
        gaugeZero: stated(zero) / DEGREES,
      },
      readings: rowsOf(fields.read).map((row): ReadingRow => {
        const [at = null, deg = null] = numbers(row);
        return { load: at, angle: deg === null ? null : deg / DEGREES, liftoff: row.endsWith(",lift") };
      }),
      release: rowsOf(fields.release ?? "").map((row): ReleaseRow => {
        const [at = null, moved = null] = numbers(row);
        return { load: at, movement: moved };
      }),
    };
  },
};

function rowsOf(field: string): string[] {
  return field === "" ? [] : field.split(";").slice(0, MOST_ROWS);
}

function numbers(row: string): (number | null)[] {
  return row.split(",").map((cell) => {
    const value = cell.trim() === "" ? Number.NaN : Number(cell);
    return Number.isFinite(value) ? value : null;
  });
}

/** An uncertainty: 0 where none is stated. */
function stated(value: number | null): number {
  return value !== null && value > 0 ? value : 0;
}
