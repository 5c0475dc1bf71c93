/** Sizes a shape is begun with, to be corrected: assumed from yachts in general, of no one boat. */
import type { Boat, WindageShape } from "./boat.ts";

/** A shape as large as it usually is on a boat of that length and beam, two digits, SI; assumed, without a source. */
export function usualShape(
  kind: WindageShape["kind"],
  { length, beam, windage }: Pick<Boat, "length" | "beam" | "windage">,
): WindageShape {
  const hull = windage?.kind === "shapes" ? windage.shapes.find((shape) => shape.kind === "hull") : undefined;
  const freeboard = hull?.freeboard ?? 0.1 * length;
  switch (kind) {
    case "hull":
      return { kind, freeboard: round(0.1 * length) };
    case "deckhouse":
      return { kind, length: round(0.35 * length), width: round(0.6 * beam), height: 0.5 };
    case "mast":
      return { kind, thickness: 0.14, foot: round(freeboard), top: round(freeboard + 1.2 * length) };
    case "rigging":
      return { kind, length: round(7 * length), diameter: 0.008, foot: round(freeboard), top: round(1.3 * length) };
    case "part":
      return {
        kind,
        name: "something on deck",
        front: 1,
        side: 1,
        foot: round(freeboard),
        top: round(freeboard + 1),
      };
  }
}

const round = (value: number): number => Number(value.toPrecision(2));
