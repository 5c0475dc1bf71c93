/** The place Days as fields of an address: `at=log ID&from=…&to=…`, `at=record pull ID`, `find=scoop`. */
import { type Codec, stringifySearch } from "../state/address.ts";
import { FieldReader, type Fields } from "../state/fields.ts";
import { isFormed, type Kept, kept } from "./kinds.ts";
import { type At, type DaysState, shelves, usualDays } from "./state.ts";

const ID = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[0-9a-f]{4}-[0-9a-f]{12}$/;
export const daysCodec: Codec<DaysState> = {
  name: "days",
  pageOf: (fields) => pageOf(fields),
  write: ({ shelf, narrow, at }) => ({
    shelf,
    ...(narrow.find === "" ? {} : { find: narrow.find }),
    ...(narrow.site === null ? {} : { site: narrow.site }),
    ...(narrow.anchor === null ? {} : { anchor: narrow.anchor }),
    ...(narrow.series === null ? {} : { series: narrow.series }),
    ...(narrow.aside ? { aside: "shown" } : {}),
    ...atFields(at),
  }),
  read(given) {
    const fields = new FieldReader(given);
    if (!fields.has("shelf", "at")) return { kind: "none" };
    return fields.read(() => ({
      shelf: fields.wordOr("shelf", shelves, usualDays.shelf),
      narrow: {
        find: fields.text("find") ?? "",
        site: idOf(fields, "site"),
        anchor: idOf(fields, "anchor"),
        series: idOf(fields, "series"),
        aside: fields.text("aside") === "shown",
      },
      at: atOf(fields),
    }));
  },
};

/** Where the page of one record is, behind the path. */
export const recordSearch = (kind: Kept, id: string): string =>
  stringifySearch(daysCodec.write({ ...usualDays, at: { page: "record", kind, id } }));

/** Shelves and pages: each is a step of its own; what is looked for, and the window of a log, is none. */
const pageOf = ({ shelf = "", at = "", about = "" }: Fields) => ({
  name: at === "" ? shelf : `${at} ${about}`,
  passing: /^(?:new|edit) /.test(at),
});

/** The id that a field names; null where it is absent. */
function idOf(fields: FieldReader, field: string, text = fields.text(field)): string | null {
  if (text === undefined || ID.test(text)) return text ?? null;
  fields.refuse(field, text, "the id of a record is expected");
  return null;
}

function atFields(at: At): Record<string, string> {
  switch (at.page) {
    case "book":
      return {};
    case "record":
      return { at: `record ${at.kind} ${at.id}` };
    case "form":
      return {
        at: at.id === null ? `new ${at.kind}` : `edit ${at.kind} ${at.id}`,
        ...(at.about === null ? {} : { about: at.about }),
      };
    case "log":
      return {
        at: `log ${at.id}`,
        ...(at.from === null || at.to === null ? {} : { from: at.from.toFixed(3), to: at.to.toFixed(3) }),
        ...(at.channels === null ? {} : { channels: at.channels.join(",") }),
        ...(at.mark === null ? {} : { mark: at.mark }),
        ...(at.fit ? { height: "fit" } : {}),
      };
    case "bring in":
      return {
        at: "bring in",
        ...(at.sent === null ? {} : { sent: at.sent }),
        ...(at.pull === null ? {} : { pull: at.pull }),
      };
    case "books":
    case "devices":
      return { at: at.page };
  }
}

function atOf(fields: FieldReader): At {
  const at = fields.text("at");
  if (at === undefined) return { page: "book" };
  if (at === "books" || at === "devices") return { page: at };
  if (at === "bring in") {
    const sent = fields.text("sent") ?? null;
    if (sent !== null && !/^[\w-]{1,64}$/.test(sent)) fields.refuse("sent", sent, "the id of a sent file is expected");
    return { page: "bring in", sent, pull: idOf(fields, "pull") };
  }
  const [what = "", kind = "", last] = at.split(" ");
  if (what === "log" && ID.test(kind)) return logOf(fields, kind);
  const known = kept.find((one) => one === kind);
  const id = last !== undefined && ID.test(last) ? last : null;
  if (what === "record" && known !== undefined && id !== null) return { page: "record", kind: known, id };
  if (isFormed(kind) && (what === "new" || (what === "edit" && id !== null))) {
    const about = fields.text("about") ?? null;
    if (about !== null && !ID.test(/^[A-Za-z]+:(.+)$/.exec(about)?.[1] ?? ""))
      fields.refuse("about", about, "a field and the id of a record are expected");
    return { page: "form", kind, id: what === "new" ? null : id, about };
  }
  fields.refuse("at", at, "a page of the book is expected, such as a record by its kind and id");
  return { page: "book" };
}

function logOf(fields: FieldReader, id: string): At {
  const from = fields.numberOr("from", null, -1e12, 1e12);
  const to = fields.numberOr("to", null, -1e12, 1e12);
  if ((from === null) !== (to === null) || (from !== null && to !== null && to <= from))
    fields.refuse("to", fields.text("to"), "a window that ends after it begins is expected");
  return {
    page: "log",
    id,
    from,
    to,
    channels:
      fields
        .text("channels")
        ?.split(",")
        .filter((name) => name !== "") ?? null,
    mark: idOf(fields, "mark"),
    fit: fields.text("height") === "fit",
  };
}
