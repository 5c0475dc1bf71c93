/** Load against the anchor's movement as a figure: of the answer of `rodebench trace --json`, whatever it was told. */
import * as z from "zod";
import { type FigureMade, wayFigure } from "../publish/index.ts";
import { TRACED_FORMAT } from "../pull/index.ts";
import { checkShape, readJson, type UnitSystem } from "../quantity/index.ts";
import { NoAnswer } from "./exit.ts";
import type { Io } from "./io.ts";
import { placeOf } from "./options.ts";

const expected = `an answer of rodebench trace --json is expected (${TRACED_FORMAT})`;
const number = (field: string) => z.number({ error: `${field} is expected` });

const traced = z.looseObject(
  {
    format: z.literal(TRACED_FORMAT, { error: expected }),
    readAt: z.enum(["anchor", "bow"], { error: "anchor or bow is expected" }),
    log: z.looseObject({ from_s: number("a time in s") }),
    way: z.array(
      z.looseObject({
        at_s: number("a time in s"),
        load: z.looseObject({ value_N: number("a load in N"), u_N: number("a load in N") }),
        way: z.looseObject({ value_m: number("a length in m"), u_m: number("a length in m") }),
      }),
      { error: "a list is expected" },
    ),
  },
  { error: expected },
);

/** @throws NoAnswer where the answer knows of no movement */
export async function figureOfWay(path: string, name: string, units: UnitSystem, io: Io): Promise<FigureMade> {
  const place = placeOf(path);
  const { readAt, log, way } = checkShape(readJson(await io.read(path), place, expected), traced, place);
  if (way.length === 0)
    throw new NoAnswer(`${place}: how far the anchor went is not known; the boat's track beside the log would tell it`);
  const rows = way.map((one) => ({
    at: one.at_s - log.from_s,
    load: { value: one.load.value_N, u: one.load.u_N },
    way: { value: one.way.value_m, u: one.way.u_m },
  }));
  return wayFigure(name, rows, readAt, units);
}
