/** The rig on the bench: what the place Rig shows and other places may take and put there. */
import { keptStore } from "../state/address.ts";
import { rigCodec } from "./address.ts";
import { usualState } from "./state.ts";

export const rigStore = keptStore(usualState, rigCodec);
