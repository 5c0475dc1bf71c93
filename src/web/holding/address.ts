/** What is looked at, as fields of the address. */
import { PRIOR_FIELDS, PRIOR_RANGE, USUAL_PRIORS } from "../../holding/index.ts";
import { DEGREE } from "../../quantity/index.ts";
import type { Codec } from "../state/address.ts";
import { FieldReader } from "../state/fields.ts";
import { type HoldingState, usualHolding } from "./state.ts";

const TEXTS = ["series", "seabed", "site", "from", "to"] as const;
const DATE = /^\d{4}-\d{2}-\d{2}$/;

export const holdingCodec: Codec<HoldingState> = {
  name: "holding",
  write: (state) => ({
    ...Object.fromEntries(TEXTS.flatMap((name) => (state[name] === "" ? [] : [[name, state[name]]]))),
    ...(state.anchors.length === 0 ? {} : { anchors: JSON.stringify(state.anchors) }),
    ...(state.angle === null ? {} : { angle: String(Number((state.angle / DEGREE).toPrecision(9))) }),
    ...(state.mass === null ? {} : { mass: String(Number(state.mass.toPrecision(9))) }),
    ...(state.load === null ? {} : { load: String(Number(state.load.toPrecision(9))) }),
    ...Object.fromEntries(
      PRIOR_FIELDS.flatMap(({ name, of }) =>
        of(state.priors) === of(USUAL_PRIORS) ? [] : [[`prior.${name}`, String(of(state.priors))]],
      ),
    ),
    chance: String(state.chance),
    seed: String(state.seed),
  }),
  read(given) {
    const fields = new FieldReader(given);
    if (
      !fields.has(
        ...TEXTS,
        "anchors",
        "angle",
        "mass",
        "load",
        "chance",
        "seed",
        ...PRIOR_FIELDS.map(({ name }) => `prior.${name}`),
      )
    )
      return { kind: "none" };
    return fields.read(() => {
      const angle = fields.numberOr("angle", null, -90, 90);
      const date = (name: "from" | "to"): string => {
        const text = fields.nameOr(name, "");
        if (text !== "" && !DATE.test(text)) fields.refuse(name, text, "a date such as 2031-05-17 is expected");
        return text;
      };
      return {
        series: fields.nameOr("series", ""),
        anchors: anchorsFrom(fields),
        seabed: fields.nameOr("seabed", ""),
        site: fields.nameOr("site", ""),
        from: date("from"),
        to: date("to"),
        chance: fields.numberOr("chance", usualHolding.chance, 0.01, 0.999),
        angle: angle === null ? null : angle * DEGREE,
        mass: fields.numberOr("mass", null, 0.01, 1e6),
        load: fields.numberOr("load", null, 1e-3, 1e9),
        priors: PRIOR_FIELDS.reduce(
          (priors, { name, isMiddle, of, put }) =>
            put(
              priors,
              fields.numberOr(
                `prior.${name}`,
                of(USUAL_PRIORS),
                isMiddle ? -PRIOR_RANGE.most : PRIOR_RANGE.least,
                PRIOR_RANGE.most,
              ),
            ),
          USUAL_PRIORS,
        ),
        seed: Math.round(fields.numberOr("seed", usualHolding.seed, 0, 2 ** 31)),
      };
    });
  },
};

function anchorsFrom(fields: FieldReader): string[] {
  const text = fields.text("anchors");
  if (text === undefined) return [];
  try {
    const list: unknown = JSON.parse(text);
    if (Array.isArray(list) && list.length <= 1000 && list.every((name) => typeof name === "string")) return list;
  } catch {
    // told below
  }
  fields.refuse("anchors", text, 'a list of names such as ["Scoop"] is expected');
  return [];
}
