/** Files as a stranger might hand them in, and how one word of them is got wrong. */

export const RIG = `format: rodebench/rig@1
name: Rig
setting: { medium: air, rise: 9 m }
rode:
  - chain: { grade: "30", size: 10 mm, length: 30 m }
uncertainty: { massPerLength: 2 % }
`;
export const SEA = `format: rodebench/rig@1
name: Sea
setting: { medium: water, depth: 8 m, rollerHeight: 1 m }
rode:
  - chain: { grade: "30", size: 10 mm, length: 40 m }
`;
export const RUN = `format: rodebench/run@1
rig: rig.yaml
loadCellAt: bow
units: { load: N, angle: deg, movement: mm }
uncertainty: { load: 20 N, angle: 0.5 deg }
readings:
  - { load: 1500, angle: 5.1 }
  - { load: 2000, angle: 7.6 }
`;
export const BOAT = `format: rodebench/boat@1
name: Boat
length: 11 m
waterline: 10 m
beam: 3.6 m
draught: 1.8 m
displacement: 7 t
bowRollerHeight: 1.3 m
windage: { front: { area: 9 m2, drag: 0.9, height: 2.5 m }, side: { area: 25 m2, drag: 1.1, height: 2 m } }
`;
export const PLAN = `format: rodebench/plan@1
name: Plan
load: { mean: 3 kN, at: bow }
setting: { depth: 8 m, rollerHeight: 1 m }
candidates:
  - { name: one, rig: sea.yaml }
`;
export const FILES = { "rig.yaml": RIG, "sea.yaml": SEA, "run.yaml": RUN, "boat.yaml": BOAT, "plan.yaml": PLAN };

export function changed(text: string, from: string, to: string): string {
  if (!text.includes(from)) throw new Error(`nothing to change: ${from}`);
  return text.replace(from, () => to);
}
