import { Asked, AskedNumbers } from "../controls/asked.tsx";

/** Asked of the angles that can be had, and of how many pulls would tell. */
export function WhatTheseAre() {
  return (
    <Asked>
      <AskedNumbers
        intro="A plan: worked out from the rodes, the water and the engine you state. Nothing here is measured."
        numbers={[
          {
            name: "angle and load",
            means: "What is asked for at the anchor: how steeply it is pulled, above the bottom, and how hard.",
          },
          {
            name: "in water of",
            means: "The depths in which a rode you have gives that angle under that load, at rest.",
            sure: "No ±. The ring is where a wrong depth changes the angle least: lay the pull there.",
          },
          {
            name: "out, and at the bow",
            means: "Rode to pay out there, and what the load at the anchor then is at the bow.",
            sure: "No ±: ask it of the rode in Rig.",
          },
          {
            name: "tell it",
            means:
              "Under How many pulls: the share of made-up series in which a difference as large as you ask for shows, with 95 % chance.",
            sure: "Its 95 % limits are those of so many made-up series alone. They do not hold that anchors behave otherwise than was believed before.",
          },
          {
            name: "what the next pull would bring",
            means: "By how much one more pull would shrink the ± of what is asked.",
          },
        ]}
      />
    </Asked>
  );
}
