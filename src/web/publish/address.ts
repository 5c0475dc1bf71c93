/** What goes out, as fields of the address. */
import { LICENCES, PRIVATE } from "../../publish/index.ts";
import type { Codec } from "../state/address.ts";
import { FieldReader } from "../state/fields.ts";
import { FILM_FIELDS, filmFields, readFilmFields } from "./film/state.ts";
import { type PublishState, usualPublish } from "./state.ts";

const TEXTS = ["series", "title", "by", "note", "words"] as const;

export const publishCodec: Codec<PublishState> = {
  name: "publish",
  write: ({ sent, film }) => ({
    ...Object.fromEntries(TEXTS.flatMap((name) => (sent[name] === "" ? [] : [[name, sent[name]]]))),
    licence: sent.licence,
    ...(sent.chosen.length === 0 ? {} : { with: sent.chosen.join(",") }),
    ...(sent.rawLogs ? { logs: "raw" } : {}),
    ...filmFields(film),
  }),
  read(given) {
    const fields = new FieldReader(given);
    if (!fields.has(...TEXTS, "licence", "with", "logs", ...FILM_FIELDS)) return { kind: "none" };
    return fields.read(() => {
      const text = (name: (typeof TEXTS)[number]): string => fields.text(name) ?? "";
      const names = (fields.text("with") ?? "").split(",").filter((name) => name !== "");
      const chosen = PRIVATE.filter((name) => names.includes(name));
      if (chosen.length < names.length)
        fields.refuse("with", names.join(","), `some of ${PRIVATE.join(", ")} are expected`);
      const licence = fields.text("licence") ?? usualPublish.sent.licence;
      if (!Object.hasOwn(LICENCES, licence))
        fields.refuse("licence", licence, `one of ${Object.keys(LICENCES).join(", ")} is expected`);
      return {
        sent: {
          series: text("series"),
          title: text("title"),
          by: text("by"),
          note: text("note"),
          words: text("words"),
          licence,
          chosen,
          rawLogs: fields.wordOr("logs", ["none", "raw"], "none") === "raw",
        },
        film: readFilmFields(fields),
      };
    });
  },
};
