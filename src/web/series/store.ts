import { keptStore } from "../state/address.ts";
import { seriesCodec } from "./address.ts";
import { usualSeries } from "./state.ts";

/** The series of the place Series; Deck lays its pulls out by their codes. */
export const seriesStore = keptStore(usualSeries, seriesCodec);
