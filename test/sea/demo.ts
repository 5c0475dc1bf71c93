import { readFileSync } from "node:fs";
import { type Boat, readBoat } from "../../src/sea/index.ts";

/** The invented demo boat. */
export const ternText = readFileSync(new URL("../../data/boats/marsh-tern.yaml", import.meta.url), "utf8");
export const tern: Boat = readBoat(ternText, "marsh-tern.yaml");

/** A boat with little but its size. */
export const plain: Boat = {
  name: "Plain",
  length: 12,
  beam: 3.8,
  draught: 1.8,
  displacement: 9000,
  bowRollerHeight: 1.3,
  measured: [],
  uncertainty: {},
};

export const kn = 1852 / 3600;
export const lbf = 4.4482216152605;
