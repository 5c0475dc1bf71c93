import { keptStore } from "../state/address.ts";
import { matchCodec } from "./address.ts";
import { usualMatch } from "./state.ts";

/** The two setups of the place Match; Rig puts its rig there. */
export const matchStore = keptStore(usualMatch, matchCodec);
