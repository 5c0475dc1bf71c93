/** Said once wherever a load is planned. */
export const CAUTION =
  "Loaded gear hurts people: stay clear of a rode under load, keep below the working load limits, and put makers' limits, local rules and licensed practice first. An estimate, not a promise that anything holds.";

/** Said once where a wind or a boat's load is planned, and nothing is pulled yet. */
export const PLANNING_CAUTION =
  "These are estimates for planning, not a promise that a boat stays put: check the working load limits of the gear, and put the maker's limits, local rules and licensed practice first.";

/** What stands in everything that leaves a book of invented data, such as the demonstration: the one sentence of it. */
export const INVENTED = "Invented data: a demonstration, nothing of it was measured.";
