import type { MeasuredLoads, Weather } from "../../../sea/index.ts";
import { Asked, type AskedNumber, AskedNumbers } from "../../controls/asked.tsx";
import type { Share } from "../../controls/shares.ts";
import type { LoadsAt } from "../loads.ts";

/** What the inputs of a load by windage are called; those not named here are called as the budget calls them. */
const SOURCES: Readonly<Record<string, string>> = { wind: "the wind", area: "areas" };

/** Asked of the loads in the wind that is shown, and of the rode under them. */
export function WhatTheseAre({ now }: { readonly now: LoadsAt }) {
  return (
    <Asked>
      <AskedNumbers
        intro="All of it is for the mean wind shown, at 10 m. ± is one standard uncertainty; a band holds the load 95 times in 100."
        numbers={[...ofPoints(now.weather), ...ofWindage(now.weather), ...ofRode]}
      />
    </Asked>
  );
}

function ofPoints({ measured, wind }: Weather): AskedNumber[] {
  return measured.flatMap((own): AskedNumber[] => [
    {
      name: `mean load, own points (${own.at})`,
      means: "The mean load of this wind by a law of load over wind, laid through your own points.",
      sure: "± holds the ±s of wind and points, and how far the points lie off the law. It holds no current, sea or swing but those of the days you read them.",
      shares: pointShares(own, "mean", wind),
    },
    ...(own.peak === undefined
      ? []
      : [
          {
            name: `brief peaks, own points (${own.at})`,
            means: "The highest load of this wind by the same sort of law, through the peaks you read.",
            sure: "± as above. A longer wait may bring a higher peak.",
            shares: pointShares(own, "peak", wind),
          },
        ]),
  ]);
}

/** The part of the wind's own ±, and the rest, which is that of the law. */
function pointShares(own: MeasuredLoads, of: "mean" | "peak", wind: { value: number; u: number }): Share[] {
  const [load, law] = [own[of], own.calibration[of]];
  if (load === undefined || law === undefined || !(load.u > 0)) return [];
  const share = Math.min(1, ((law.exponent.value * wind.u) / wind.value / (load.u / load.value)) ** 2);
  return [
    { name: "the wind", share },
    { name: "points and law", share: 1 - share },
  ];
}

function ofWindage({ windage }: Weather): AskedNumber[] {
  if (windage === undefined) return [];
  const named = (shares: readonly Share[]) => shares.map(({ name, share }) => ({ name: SOURCES[name] ?? name, share }));
  return [
    {
      name: "steady load, windage",
      means: "The load of wind and current on the areas of the boat, at the yaw set.",
      sure: "± holds what the bars name. Gusts, swing and waves make a load larger: they are not in it.",
      shares: named(windage.steady.shares),
    },
    ...(windage.gust === undefined
      ? []
      : [
          {
            name: "in the gust, windage",
            means: "The same in the gust asked for, as if it lasted: no swing, and no time for the boat to give way.",
            sure: "± holds what the bars name, not how well the gust itself is known.",
            shares: named(windage.gust.shares),
          },
        ]),
  ];
}

const ofRode: readonly AskedNumber[] = [
  {
    name: "angle at the anchor",
    means: "How steeply the rode pulls at the anchor under that load, above the bottom, at rest.",
    sure: "The band is that of the load alone. What is unsure of the rode itself is asked in Rig.",
  },
];
