/** What a pull is set up with before it begins: kept on the device and in the address, as every place's state is. */
import { InputError, parseQuantity, quoted } from "../../quantity/index.ts";
import { createStore } from "../state/store.ts";
import type { DeckStep } from "./pull.ts";

export interface Setup {
  readonly anchor: string;
  /** m */
  readonly depth: number;
  readonly paidOut: number;
  /** Steps as they are written, loads at the anchor: "500 N, 1 kN, veer 45 m, 1 kN". */
  readonly loads: string;
  /** s */
  readonly hold: number;
  /** The hold rule, s and m; null where nobody states one: as the pull's series says, or as it is usual. */
  readonly heldFor: number | null;
  readonly heldWithin: number | null;
  /** Standard uncertainty of a load read, N. */
  readonly loadU: number;
  /** The way the boat is pulled, rad from true north; null where nobody says. */
  readonly direction: number | null;
  /** Code of a planned pull; empty for none. */
  readonly code: string;
}

export const usualSetup: Setup = {
  anchor: "",
  depth: 7,
  paidOut: 35,
  loads: "500 N, 1 kN, 1.5 kN, 2 kN",
  hold: 60,
  heldFor: null,
  heldWithin: null,
  loadU: 20,
  direction: null,
  code: "",
};

export const setupStore = createStore<Setup>(usualSetup);

/**
 * Steps from their text, after that of setting the anchor: loads at the anchor to raise to and hold, a veer with the length
 * then out, a reset of the anchor: "500 N, 1 kN, veer 45 m, 1 kN, reset, 500 N".
 * @param hold s each load is held
 * @throws InputError naming the one that is none
 */
export function stepsTyped(text: string, hold: number): DeckStep[] {
  const steps = text
    .split(/[,;]/)
    .map((one) => one.trim())
    .filter((one) => one !== "")
    .map((one): DeckStep => {
      const [, kind, rest = ""] = /^(veer|reset)\b\s*(?:to\s+)?(.*)$/i.exec(one) ?? [];
      if (kind === undefined) return { kind: "hold", load: parseQuantity(one, "force", "loads"), hold };
      if (kind.toLowerCase() === "veer")
        return { kind: "veer", load: null, hold: 0, paidOut: parseQuantity(rest, "length", "loads: veer") };
      if (rest !== "") throw new InputError("loads: reset", quoted(rest), "nothing behind it is expected");
      return { kind: "reset", load: null, hold: 0 };
    });
  return [{ kind: "set", load: null, hold: 0 }, ...steps];
}
