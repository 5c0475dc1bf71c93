/** Numbers out of a drawing: what its lines and labels say, read by its own axes. */

/** All numbers of an attribute. */
export const numbersOf = (text: string): number[] => (text.match(/-?\d*\.?\d+(?:e-?\d+)?/g) ?? []).map(Number);

/**
 * From px to the values of the axes, by the labels of their ticks: labels at one height are of the axis across, those at
 * one distance from the left of the axis up.
 */
export function scaleOf(figure: Element): { x: (px: number) => number; y: (px: number) => number } {
  const ticks = [...figure.querySelectorAll("text")].filter((one) => /^−?-?[\d.,]+$/.test(one.textContent!.trim()));
  const label = (one: Element) => ({
    x: Number(one.getAttribute("x")),
    y: Number(one.getAttribute("y")),
    value: Number(one.textContent!.trim().replace("−", "-").replaceAll(",", "")),
    end: one.getAttribute("text-anchor"),
  });
  const labels = ticks.map(label);
  const up = labels.filter(({ end }) => end === "end");
  const across = labels.filter(({ end }) => end === "middle");
  const along = (pairs: readonly [number, number][]): ((px: number) => number) => {
    if (pairs.length < 2) throw new Error("fewer than two ticks");
    const [a, b] = [pairs[0]!, pairs.at(-1)!];
    const value = (px: number) => a[1] + ((px - a[0]) / (b[0] - a[0])) * (b[1] - a[1]);
    for (const [px, is] of pairs)
      if (Math.abs(value(px) - is) > 1e-6 * Math.abs(b[1] - a[1]) + 1e-9)
        throw new Error(`a tick of ${is} stands at ${value(px)}`);
    return value;
  };
  // A label stands four px under its line.
  return { x: along(across.map(({ x, value }) => [x, value])), y: along(up.map(({ y, value }) => [y - 4, value])) };
}

/** The points of a line of a kind. */
export function lineOf(figure: Element, kind: string): [number, number][] {
  const d = figure.querySelector(`path[data-kind="${kind}"]`)?.getAttribute("d") ?? "";
  const numbers = numbersOf(d);
  return Array.from({ length: numbers.length / 2 }, (_, i) => [numbers[2 * i]!, numbers[2 * i + 1]!]);
}
