import { DEGREE, DEGREES } from "../../quantity/index.ts";
import { type Bounds, bounds } from "../../record/index.ts";
import type { Codec } from "../state/address.ts";
import { FieldReader } from "../state/fields.ts";
import { type Setup, usualSetup } from "./setup-state.ts";

const ruleOf = (fields: FieldReader, name: string, { least, most }: Bounds): number | null =>
  fields.has(name) ? fields.numberOr(name, least, least, most) : null;

/** A pull as it is set up; what happens in it is no part of an address. */
export const setupCodec: Codec<Setup> = {
  name: "deck",
  write: ({ anchor, depth, paidOut, loads, hold, heldFor, heldWithin, loadU, direction, code }) => ({
    depth: String(depth),
    out: String(paidOut),
    loads,
    hold: String(hold),
    ...(heldFor === null ? {} : { "held-for": String(heldFor) }),
    ...(heldWithin === null ? {} : { "held-within": String(heldWithin) }),
    "u-load": String(loadU),
    ...(direction === null ? {} : { direction: String(direction * DEGREES) }),
    ...(anchor === "" ? {} : { anchor }),
    ...(code === "" ? {} : { code }),
  }),
  read(given) {
    const fields = new FieldReader(given);
    if (!fields.has("depth", "out", "loads")) return { kind: "none" };
    return fields.read(() => ({
      anchor: (fields.text("anchor") ?? "").slice(0, 200),
      depth: fields.numberOr("depth", usualSetup.depth, 1e-3, 1e4),
      paidOut: fields.numberOr("out", usualSetup.paidOut, 1e-3, 1e5),
      loads: (fields.text("loads") ?? usualSetup.loads).slice(0, 2000),
      hold: fields.numberOr("hold", usualSetup.hold, 0, 1e5),
      heldFor: ruleOf(fields, "held-for", bounds.pull.heldFor_s),
      heldWithin: ruleOf(fields, "held-within", bounds.pull.heldWithin_m),
      loadU: fields.numberOr("u-load", usualSetup.loadU, 0, 1e9),
      direction: fields.has("direction") ? DEGREE * fields.numberOr("direction", 0, 0, 360) : null,
      code: (fields.text("code") ?? "").slice(0, 20),
    }));
  },
};
