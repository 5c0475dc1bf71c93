import type { Pull } from "../../holding/index.ts";
import type { PullMark } from "./draw-pulls.ts";

/** A row an anchor, in the order asked: its pulls as marks. @param to the load, N, in the unit of the axis */
export function pullRows(
  pulls: readonly Pull[],
  anchors: readonly string[],
  to: (newtons: number) => number,
): { readonly name: string; readonly marks: readonly PullMark[] }[] {
  return anchors.map((anchor) => ({
    name: anchor,
    marks: pulls
      .filter((pull) => pull.anchor === anchor)
      .map(
        ({ hold }): PullMark =>
          hold.kind === "between"
            ? { kind: "between", from: to(hold.heldTo), to: to(hold.gaveWayBy) }
            : { kind: hold.kind, load: to(hold.newtons) },
      ),
  }));
}
