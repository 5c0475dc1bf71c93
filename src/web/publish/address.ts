/** What goes out, as fields of the address. */
import { LICENCES, PRIVATE } from "../../publish/index.ts";
import type { Codec } from "../state/address.ts";
import { FieldReader } from "../state/fields.ts";
import { type PublishState, usualPublish } from "./state.ts";

const TEXTS = ["series", "title", "by", "note", "words"] as const;

export const publishCodec: Codec<PublishState> = {
  name: "publish",
  write: (state) => ({
    ...Object.fromEntries(TEXTS.flatMap((name) => (state[name] === "" ? [] : [[name, state[name]]]))),
    licence: state.licence,
    ...(state.chosen.length === 0 ? {} : { with: state.chosen.join(",") }),
  }),
  read(given) {
    const fields = new FieldReader(given);
    if (!fields.has(...TEXTS, "licence", "with")) return { kind: "none" };
    return fields.read(() => {
      const text = (name: (typeof TEXTS)[number]): string => fields.text(name) ?? "";
      const names = (fields.text("with") ?? "").split(",").filter((name) => name !== "");
      const chosen = PRIVATE.filter((name) => names.includes(name));
      if (chosen.length < names.length)
        fields.refuse("with", names.join(","), `some of ${PRIVATE.join(", ")} are expected`);
      const licence = fields.text("licence") ?? usualPublish.licence;
      if (!Object.hasOwn(LICENCES, licence))
        fields.refuse("licence", licence, `one of ${Object.keys(LICENCES).join(", ")} is expected`);
      return {
        series: text("series"),
        title: text("title"),
        by: text("by"),
        note: text("note"),
        words: text("words"),
        licence,
        chosen,
      };
    });
  },
};
