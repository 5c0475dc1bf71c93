/** The boat file written back as YAML, each quantity with its unit in SI; it reads back as the same boat, to the last digit. */
import { stringify } from "yaml";
import type { Boat, MeasuredPoint, Windage } from "./boat.ts";
import { BOAT_FORMAT } from "./boat-file.ts";

/** Unit of each field by its name, wherever it stands; `load`, `wind` and `peak` mean the same in `uncertainty`. */
const units: Readonly<Record<string, string>> = {
  ...each(
    "m",
    "length",
    "waterline",
    "beam",
    "draught",
    "bodyDraught",
    "bowRollerHeight",
    "freeboard",
    "width",
    "height",
  ),
  ...each("m", "foot", "top", "thickness", "chord", "diameter", "windHeight"),
  ...each("kg", "displacement"),
  ...each("N", "engineThrust", "load", "peak"),
  ...each("m/s", "wind"),
  ...each("rad", "angle", "amplitude"),
  ...each("s", "period"),
};

/** A boat as the text of a boat file that reads back the same. */
export function writeBoat(boat: Boat): string {
  const { measured, uncertainty, windage, ...rest } = boat;
  return stringify({
    format: BOAT_FORMAT,
    ...withUnits(rest),
    ...(windage === undefined ? {} : { windage: windageText(windage) }),
    ...(measured.length === 0 ? {} : { measured: measured.map(pointText) }),
    // Relative uncertainties: `area` and `drag` are bare here.
    ...(Object.keys(uncertainty).length === 0 ? {} : { uncertainty: withUnits(uncertainty) }),
  });
}

function windageText(windage: Windage): object {
  const heading = windage.byHeading === undefined ? {} : { byHeading: windage.byHeading.map((row) => withUnits(row)) };
  if (windage.kind === "shapes") {
    return { shapes: windage.shapes.map(({ kind, ...fields }) => ({ [kind]: withAreas(fields) })), ...heading };
  }
  return { front: withAreas(windage.front), side: withAreas(windage.side), ...heading };
}

function pointText({ uncertainty, ...point }: MeasuredPoint): object {
  return {
    ...withUnits(point),
    ...(Object.keys(uncertainty).length === 0 ? {} : { uncertainty: withUnits(uncertainty) }),
  };
}

/** `front`, `side` and `area` are areas in windage only. */
function withAreas(fields: object): object {
  return withUnits(fields, { ...units, ...each("m2", "front", "side", "area") });
}

function withUnits(fields: object, by: Readonly<Record<string, string>> = units): object {
  return Object.fromEntries(
    Object.entries(fields).map(([name, value]) => {
      if (typeof value === "number") return [name, by[name] === undefined ? value : `${value} ${by[name]}`];
      return [name, typeof value === "object" ? withUnits(value, by) : value];
    }),
  );
}

function each(unit: string, ...names: string[]): Record<string, string> {
  return Object.fromEntries(names.map((name) => [name, unit]));
}
