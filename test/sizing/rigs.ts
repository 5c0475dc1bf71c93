import { type Rig, readRig, type Settled, settle } from "../../src/rode/index.ts";

export const lbf = 4.4482216152605;
export const inch = 0.0254;
export const foot = 0.3048;

export function rigOf(setting: string, ...rode: string[]): Rig {
  return readRig(
    `format: rodebench/rig@1\nsetting: { ${setting} }\nrode:\n${rode.map((part) => `  - ${part}\n`).join("")}`,
    "rig.yaml",
  );
}

const afloat = "medium: water, depth: 8 m, rollerHeight: 1.5 m";
export const allChain = rigOf(afloat, "chain: { grade: 30, size: 10 mm, length: 45 m }");
export const rubbing = rigOf(`${afloat}, bottomFriction: 0.7`, "chain: { grade: 30, size: 10 mm, length: 45 m }");
export const mixed = rigOf(
  afloat,
  "chain: { grade: 30, size: 10 mm, length: 40 m }",
  "weight: { mass: 12 kg, density: 7850 }",
  "rope: { fibre: polyamide, lay: three-strand, diameter: 14 mm, length: 9 m }",
);
export const kelleted = rigOf(
  "medium: water, depth: 6 m, rollerHeight: 1.2 m",
  "chain: { grade: 30, size: 8 mm, length: 8 m }",
  "rope: { fibre: polyamide, lay: three-strand, diameter: 14 mm, length: 12 m }",
  "weight: { mass: 15 kg, density: 7850 }",
  "rope: { fibre: polyamide, lay: three-strand, diameter: 14 mm, length: 22 m }",
);
export const inAir = rigOf("medium: air, rise: 9 m", "chain: { grade: 30, size: 10 mm, length: 32 m }");
export const straightRope = rigOf(
  "medium: water, depth: 5 m, rollerHeight: 1 m",
  "line: { length: 30 m, massPerLength: 0.12 kg/m, density: 1140, stiffness: 90 kN }",
);

export function settled(rig: Rig, horizontal: number): Settled {
  const answer = settle(rig, { at: "horizontal", newtons: horizontal });
  if (answer.kind !== "settled") throw new Error(answer.cause);
  return answer;
}
