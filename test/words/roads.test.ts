import { expect, it } from "vitest";
import type { RoadsBeside, TablesBeside } from "../../src/sea/index.ts";
import { roadsSentence, tablesSentence } from "../../src/words/index.ts";

const shown = { system: "metric" as const, force: "N", speed: "kn" };
const roads = (points: number, agree: boolean): RoadsBeside => ({
  at: "bow",
  windage: { value: 600, u: 60 },
  swinging: true,
  points: { value: points, u: 40 },
  agree,
});
const tables = (printed: number[], agree: boolean): TablesBeside => ({
  wind: (15 * 1852) / 3600,
  printed,
  own: { value: 380, u: 45 },
  agree,
});

it.each([
  [
    roadsSentence(roads(640, true), shown),
    "The two roads agree: the mean loads by her own points at the bow and by windage (swinging) are the same within their ±.",
  ],
  [
    roadsSentence(roads(900, false), shown),
    /^The two roads differ: .* is 300 ± 72 N more than by windage \(swinging\); windage knows no/,
  ],
  [roadsSentence(roads(300, false), shown), /300 ± 72 N less .*; her stated area or drag may be too large/],
  [
    tablesSentence(tables([1330], false), shown),
    /^At 15 kn the tables print 1330 N, 3\.5 times the 380 ± 45 N of her own points: they hold yaw, surge and a margin/,
  ],
  [tablesSentence(tables([760, 1140], false), shown), /760 N to 1140 N, 2 to 3 times the/],
  [tablesSentence(tables([200], false), shown), /0\.53 times .*: she pulls more than boats of her length/],
  [tablesSentence(tables([400], true), shown), /which her own points' 380 ± 45 N do not contradict\.$/],
])("%s", (sentence, expected) => {
  expect(sentence).toMatch(expected);
});
