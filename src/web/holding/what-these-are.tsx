import { Asked, AskedNumbers } from "../controls/asked.tsx";

/** Asked of what may be concluded. @param chance of holding asked about, 0 to 1 */
export function WhatTheseAre({ chance }: { readonly chance: number }) {
  return (
    <Asked>
      <AskedNumbers
        intro="Worked out from the pulls looked at by one model of all anchors, in many draws. A load without a ± is followed by its 95 % limits: 95 of 100 draws lie between."
        numbers={[
          {
            name: "half hold",
            means: "The load that one pull in two of this anchor holds, at a site and on a day not pulled at yet.",
            sure: "The limits hold the ± of each pull, the spread of pulls, sites and days, and what was believed before. A pull let go while it held counts as at least.",
          },
          {
            name: `${Math.round(1000 * chance) / 10} % hold`,
            means: "The load that so many pulls in a hundred hold there.",
            sure: "The limits hold the same. They do not hold a seabed, a size or an angle unlike those of the pulls.",
          },
          {
            name: "best",
            means: "The share of draws in which this anchor holds more than all others looked at.",
          },
          {
            name: "chance that the first holds more",
            means:
              "The share of draws in which it does: in the mean of many pulls, or in one pull of each, where luck has its part.",
            sure: "Where the columns with priors halved and doubled differ much, what was believed speaks, not the pulls.",
          },
        ]}
      />
    </Asked>
  );
}
