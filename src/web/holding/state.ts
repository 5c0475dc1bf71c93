/** Which pulls are looked at and what is asked of them; all of it stands in the address. */
import { type Priors, USUAL_PRIORS } from "../../holding/index.ts";
import { createStore } from "../state/store.ts";

export interface HoldingState {
  /** Id of a series; empty: all. */
  readonly series: string;
  /** Names of anchors looked at; empty: all. */
  readonly anchors: readonly string[];
  readonly seabed: string;
  readonly site: string;
  /** Dates, both included; empty: no end. */
  readonly from: string;
  readonly to: string;
  /** Chance of holding asked about. */
  readonly chance: number;
  /** rad; null: the middle of the pulls. */
  readonly angle: number | null;
  /** kg, of every anchor; null: each its own. */
  readonly mass: number | null;
  /** N: what size of each shape would hold it; null: not asked. */
  readonly load: number | null;
  /** What is believed before any pull. */
  readonly priors: Priors;
  readonly seed: number;
}

export const usualHolding: HoldingState = {
  series: "",
  anchors: [],
  seabed: "",
  site: "",
  from: "",
  to: "",
  chance: 0.9,
  angle: null,
  mass: null,
  load: null,
  priors: USUAL_PRIORS,
  seed: 1,
};

export const holdingStore = createStore<HoldingState>(usualHolding);
