import type { CarriedLoad } from "../../study/index.ts";
import { Asked, AskedNumbers } from "../controls/asked.tsx";
import { carriedShares } from "../days/carried-shares.ts";

/** Asked of the numbers of a pull under way. @param carried the load of the moment; null before there is one */
export function WhatTheseAre({ carried }: { readonly carried: CarriedLoad | null }) {
  return (
    <Asked>
      <AskedNumbers
        intro="± is one standard uncertainty."
        numbers={[
          {
            name: "load at the bow",
            means: "The last load read, typed or sent by an instrument.",
            sure: "± is the one you stated for a load read.",
          },
          {
            name: "load at the anchor",
            means: "The same load at the anchor, worked out at rest with the rode and the water of this pull.",
            sure: "± holds what the bars name. It does not hold a snatch, or a rode on the move.",
            shares: carried === null ? [] : carriedShares(carried, "anchor"),
          },
          {
            name: "angle at the anchor",
            means: "How steeply the rode pulls at the anchor under that load, above the bottom.",
            sure: "Shown to a tenth of a degree: nobody lays a rode closer.",
            shares: carried === null ? [] : carriedShares(carried, "angleToBottom"),
          },
          {
            name: "held",
            means:
              "How long the load has been at what this step asks, or above. Below it, what the hold rule of this pull makes of it.",
            sure: "How far the anchor went is by how far the boat came along the pull, the rode's own give taken off; its ± is that of the positions.",
          },
          {
            name: "of the working load limit",
            means: "The load of the part nearest its limit, as a share of that limit. It has no ±: keep well below.",
          },
        ]}
      />
    </Asked>
  );
}
