/** What a pull is set up with before it begins: kept on the device and in the address, as every place's state is. */
import { parseQuantity } from "../../quantity/index.ts";
import { createStore } from "../state/store.ts";

export interface Setup {
  readonly anchor: string;
  /** m */
  readonly depth: number;
  readonly paidOut: number;
  /** Loads at the anchor as they are written: "500 N, 1 kN". */
  readonly loads: string;
  /** s */
  readonly hold: number;
  /** Standard uncertainty of a load read, N. */
  readonly loadU: number;
  /** Code of a planned pull; empty for none. */
  readonly code: string;
}

export const usualSetup: Setup = {
  anchor: "",
  depth: 7,
  paidOut: 35,
  loads: "500 N, 1 kN, 1.5 kN, 2 kN",
  hold: 60,
  loadU: 20,
  code: "",
};

export const setupStore = createStore<Setup>(usualSetup);

/** Loads from their text, N. @throws InputError naming the one that is none */
export function loadsTyped(text: string): number[] {
  return text
    .split(/[,;]/)
    .map((one) => one.trim())
    .filter((one) => one !== "")
    .map((one) => parseQuantity(one, "force", "loads"));
}
