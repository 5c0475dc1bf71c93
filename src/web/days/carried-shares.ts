import type { CarriedLoad, UncertaintySource } from "../../study/index.ts";
import { type Share, sharesOf } from "../controls/shares.ts";

/** What makes a carried load unsure, as people call it. */
const SOURCES: Readonly<Record<UncertaintySource["input"], string>> = {
  load: "the load read",
  "mass per length": "mass per length",
  rise: "depth and roller",
  "length paid out": "length paid out",
  "line paid out": "which line is out",
  "end read": "which end was read",
};

/** What the ± of a carried load comes of: at one end, or of the angle at the anchor. */
export const carriedShares = ({ sources }: CarriedLoad, of: keyof Omit<UncertaintySource, "input">): Share[] =>
  sharesOf(sources.map((source) => ({ name: SOURCES[source.input], u: source[of] })));
