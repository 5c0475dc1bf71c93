import type { CarriedLoad, PullEvidence, UncertaintySource } from "../../study/index.ts";
import { Asked, AskedNumbers } from "../controls/asked.tsx";
import { carriedShares } from "./carried-shares.ts";

/** Asked of a pull's result: the reading, what it is at the other end, and how sure. */
export function WhatTheseAre({ evidence }: { readonly evidence: PullEvidence }) {
  return (
    <Asked>
      <Told evidence={evidence} />
    </Asked>
  );
}

function Told({ evidence }: { readonly evidence: PullEvidence }) {
  const { heldTo, gaveWayBy, readAt, from } = evidence;
  const carried = [gaveWayBy, heldTo].find((one): one is CarriedLoad => one?.kind === "carried");
  const other = readAt === "bow" ? "anchor" : "bow";
  const shares = (of: keyof Omit<UncertaintySource, "input">) =>
    carried === undefined ? [] : carriedShares(carried, of);
  return (
    <AskedNumbers
      intro="± is one standard uncertainty."
      numbers={[
        {
          name: `load, read at the ${readAt}`,
          means:
            from === "log"
              ? "The load of the result as the log has it: the mean of what was held, with the zero of the cell taken off."
              : "The load of the result as it was written down, at the end it was read.",
          sure:
            from === "log"
              ? "± holds readings, zero and cell. How the load itself swung is no part of it."
              : "± is the one written down with it. A cell that reads wrong by more is not in it.",
        },
        ...(carried === undefined
          ? []
          : [
              {
                name: `at the ${other}`,
                means:
                  "The same load at the other end of the rode, worked out at rest: with the rig, the water and the length out of this pull.",
                sure: "± holds what the bars name. It does not hold a rode on the move, or another seabed under it.",
                shares: shares(other),
              },
              {
                name: "angle at the anchor",
                means: "How steeply the rode pulled at the anchor under that load, above the bottom.",
                shares: shares("angleToBottom"),
              },
            ]),
      ]}
    />
  );
}
