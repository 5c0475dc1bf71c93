/** Lines of what is concluded of anchors and of what their pulls say by themselves, as every figure of them draws them. */
import type { AnchorInWind, AnchorPulls, AngleCurve } from "../../holding/index.ts";
import { DEGREES, inUnit } from "../../quantity/index.ts";
import type { Layer } from "../xy/spec.ts";

/** More lines than these are not drawn. */
export const MOST_LINES = 9;

/** How the k-th line is drawn, from 0. */
export type LineStyle = (k: number) => Pick<Extract<Layer, { kind: "line" }>, "role" | "stroke">;

/** The anchor asked about first among so many lines, so that it is never the one left out. */
function firstAmong<T extends { readonly anchor: string }>(all: readonly T[], anchor: string): T[] {
  const mine = all.filter((one) => one.anchor === anchor);
  return [...mine, ...all.filter((one) => one.anchor !== anchor)].slice(0, MOST_LINES);
}

/** A line an anchor over the angle, °: the load half the pulls hold, with the band of one. @param to the load, N, in the axis' unit */
export function angleLines(
  curves: readonly AngleCurve[],
  anchor: string,
  to: (newtons: number) => number,
  style: LineStyle,
): Layer[] {
  return firstAmong(curves, anchor).flatMap(({ anchor: name, points }, k): Layer[] => {
    const x = points.map(({ angle }) => angle * DEGREES);
    const [low, high] = [points.map((one) => to(one.low)), points.map((one) => to(one.high))];
    return [
      ...(name === anchor ? [{ kind: "band" as const, x, low, high, role: style(k).role }] : []),
      { kind: "line", x, y: points.map(({ middle }) => to(middle)), ...style(k), label: name },
    ];
  });
}

/** A line an anchor over the mean wind, kn: the chance that its largest load stays below what is held, with the band of one. */
export function chanceLines(inWind: readonly AnchorInWind[], anchor: string, style: LineStyle): Layer[] {
  return firstAmong(inWind, anchor).flatMap(({ anchor: name, points }, k): Layer[] => {
    const known = points.flatMap((point) => (point.kind === "chance" ? [point] : []));
    const x = known.map(({ wind }) => inUnit(wind, "kn", "speed"));
    const [low, high] = [known.map((one) => one.low), known.map((one) => one.high)];
    return [
      ...(name === anchor ? [{ kind: "band" as const, x, low, high, role: style(k).role }] : []),
      { kind: "line", x, y: known.map(({ chance }) => chance), ...style(k), label: name },
    ];
  });
}

/**
 * The chance to hold more than a load as a step line from the load 0, falling where a pull gave way, on to the highest load.
 * @returns corners of the line and of its limits, which lie on it where none are known
 */
export function heldSteps({ curve, highest }: AnchorPulls, to: (newtons: number) => number) {
  const [x, y, low, high] = [[0], [1], [1], [1]] as [number[], number[], number[], number[]];
  const step = (load: number, next: readonly [number, number, number]): void => {
    x.push(to(load), to(load));
    for (const [i, line] of [y, low, high].entries()) line.push(line.at(-1)!, next[i]!);
  };
  for (const one of curve) step(one.load, [one.chance, one.low ?? one.chance, one.high ?? one.chance]);
  x.push(to(Math.max(highest, curve.at(-1)?.load ?? 0)));
  for (const line of [y, low, high]) line.push(line.at(-1)!);
  return { x, y, low, high };
}
