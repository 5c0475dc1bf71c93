/** How a mark is drawn: where it stands in the strip above the trace, its sign, and as much of its words as fits. */

/** Height of the strip in which marks lie, px. */
export const STRIP = 84;
/** Where moments and stretches stand in it, px: apart, so that a peak never hides its plateau. */
export const MOMENTS = 17;
export const BARS = 49;

export const rowOf = (mark: { readonly from: number; readonly to: number }): number =>
  mark.to > mark.from ? BARS : MOMENTS;

/** As much of "plateau 2626.3 ± 8.1 N" as there is room for. */
export const fitting = (text: string, room: number): string => {
  const most = Math.floor((room - 12) / 7.6);
  const [kind = "", ...rest] = text.split(" ");
  const value = rest.join(" ").replace(/ ± \S+/, "");
  return [text, `${kind} ${value}`, value, kind].find((one) => one !== "" && one.length <= most) ?? "";
};

/** A sign for each kind of a moment: told apart by shape. */
export function signOf(kind: string): string {
  switch (kind) {
    case "peak":
      return "M0-9L7 7H-7Z";
    case "spike":
      return "M-6-6L6 6M6-6L-6 6";
    case "easing":
      return "M-9-7L6 7M6 7V-2M6 7H-3";
    case "drag":
      return "M-8-5L4-5M-8 5L4 5M2-10L9 0L2 10";
    case "reversal":
      return "M6-6A7 7 0 1 0 7 4M7-10V-4H1";
    default:
      return "M0-8L8 0L0 8L-8 0Z";
  }
}
