/** What the ± of a figure of the bench are, or that it has none: the sentence that leaves with it. */
import type { FigureKindName } from "../../publish/index.ts";

const ONE_RUN = "No ± is drawn: one run of gusts and waves; another has other peaks.";
const AS_STATED = "No ± is drawn: both rigs are taken as they are stated.";
const READ =
  "Bars and bands: one standard uncertainty to either side, of a reading and of theory with the fitted unknowns.";

/** By kind, for figures whose frame does not say it of their own data. */
export const uncertainOf: Readonly<Record<FigureKindName, string>> = {
  rode: "A ± is one standard uncertainty; a number without one has none worked out.",
  together: AS_STATED,
  ladder: "A band is one standard uncertainty to either side; a line without one has none worked out.",
  map: AS_STATED,
  angle: READ,
  movement: READ,
  trace: "Readings as they were logged; a ± beside a mark is one standard uncertainty.",
  way: "Bars: one standard uncertainty of each load and of each way; the ways share their error.",
  weather: "A band holds the load 95 times in 100; the wind is taken as exact.",
  ride: ONE_RUN,
  shares: ONE_RUN,
  moment: ONE_RUN,
  give: "No ± is drawn: give at the mean load of each wind, of the rig as it is stated.",
  snubbers: "No ± is drawn: limits, load and surge are taken as stated.",
  bridle: "No ± is drawn: beam, heading and legs are taken as stated.",
  water: "No ± is drawn: rodes, boat and sites are taken as the series states them.",
  sites: "Places as the book has them; no ± is stated with them.",
  "one-pull": "A ± is one standard uncertainty, as it was noted.",
  pulls: "No ± of a load is drawn; a bar reaches from what was held to what it gave way by.",
  held: "A band, where one is drawn, holds 95 %.",
  holding: "The band holds 95 % for its anchor, at a site and on a day not pulled at yet.",
  chance: "The band holds 95 % for its anchor, at a site and on a day not pulled at yet.",
};
