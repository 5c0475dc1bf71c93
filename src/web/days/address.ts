/** The place Days as fields of an address: `at=log ID&from=…&to=…`, `at=record pull ID`, `find=scoop`. */
import type { Codec } from "../state/address.ts";
import { type At, type DaysState, shelves, usualDays } from "./desk.ts";
import { isFormed, kept } from "./kinds.ts";

const ID = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[0-9a-f]{4}-[0-9a-f]{12}$/;
const idOf = (text: string | undefined): string | null => (text !== undefined && ID.test(text) ? text : null);
const secondsOf = (text: string | undefined): number | null => {
  const value = text === undefined || text.trim() === "" ? Number.NaN : Number(text);
  return Math.abs(value) <= 1e12 ? value : null;
};

export const daysCodec: Codec<DaysState> = {
  name: "days",
  write: ({ shelf, narrow, at }) => ({
    shelf,
    ...(narrow.find === "" ? {} : { find: narrow.find }),
    ...(narrow.site === null ? {} : { site: narrow.site }),
    ...(narrow.anchor === null ? {} : { anchor: narrow.anchor }),
    ...(narrow.series === null ? {} : { series: narrow.series }),
    ...(narrow.aside ? { aside: "shown" } : {}),
    ...atFields(at),
  }),
  read(fields) {
    const shelf = shelves.find((one) => one === fields.shelf);
    if (shelf === undefined && fields.at === undefined) return null;
    return {
      shelf: shelf ?? usualDays.shelf,
      narrow: {
        find: (fields.find ?? "").slice(0, 200),
        site: idOf(fields.site),
        anchor: idOf(fields.anchor),
        series: idOf(fields.series),
        aside: fields.aside === "shown",
      },
      at: atOf(fields),
    };
  },
};

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
    case "devices":
      return { at: "devices" };
  }
}

function atOf(fields: Readonly<Record<string, string>>): At {
  const [what, kind = "", last] = (fields.at ?? "").split(" ");
  const id = idOf(last);
  if (what === "record") {
    const known = kept.find((one) => one === kind);
    if (known !== undefined && id !== null) return { page: "record", kind: known, id };
  } else if ((what === "new" || what === "edit") && isFormed(kind) && (what === "new" || id !== null)) {
    const about = /^[A-Za-z]+:(.+)$/.exec(fields.about ?? "");
    return {
      page: "form",
      kind,
      id: what === "new" ? null : id,
      about: about !== null && idOf(about[1]) !== null ? fields.about! : null,
    };
  } else if (what === "log" && idOf(kind) !== null) {
    const [from, to] = [secondsOf(fields.from), secondsOf(fields.to)];
    const whole = from === null || to === null || !(to > from);
    return {
      page: "log",
      id: kind,
      from: whole ? null : from,
      to: whole ? null : to,
      channels: fields.channels === undefined ? null : fields.channels.split(",").filter((name) => name !== ""),
      mark: idOf(fields.mark),
      fit: fields.height === "fit",
    };
  } else if (fields.at === "bring in") {
    const sent = fields.sent;
    return {
      page: "bring in",
      sent: sent !== undefined && /^[\w-]{1,64}$/.test(sent) ? sent : null,
      pull: idOf(fields.pull),
    };
  } else if (what === "devices") return { page: "devices" };
  return { page: "book" };
}
