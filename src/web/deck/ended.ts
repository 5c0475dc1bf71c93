/** A pull that ended on this device, as its figure is made of it. */
import type { OnePullDrawn } from "../../publish/index.ts";
import type { EndedPull } from "./keep.ts";
import { type DeckEvent, standing } from "./pull.ts";

/** Loads and what was touched, in order, by this device's clock. */
export function onePullOf({ events, steps, anchor, loadU, ended }: EndedPull): OnePullDrawn {
  const stood = standing({ events });
  const loads = stood.filter((one) => one.kind === "load");
  const text = (one: DeckEvent): string | null => {
    switch (one.kind) {
      case "gaveWay":
        return "gave way";
      case "moved":
        return "moved";
      case "stop":
        return "stop";
      case "step":
        return `step ${one.step + 1}: ${steps[one.step]?.kind ?? "on"}`;
      default:
        return null;
    }
  };
  return {
    name: anchor === "" ? "An anchor" : anchor,
    at: "bow",
    time: loads.map(({ at }) => at / 1000),
    load: loads.map(({ newtons }) => newtons),
    marks: stood.flatMap((one) => {
      const said = text(one);
      return said === null ? [] : [{ time: one.at / 1000, text: said }];
    }),
    result: ended.kind === "none" || ended.load === null ? null : { kind: ended.kind, newtons: ended.load, u: loadU },
  };
}
