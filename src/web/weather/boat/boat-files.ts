/** Boat files read and written; comes only when a file does (the schema and YAML weigh as much as the rest of the bench). */
import demo from "../../../../data/boats/marsh-tern.yaml?raw";
import { type Boat, readBoat, writeBoat } from "../../../sea/index.ts";

/** @throws InputError of one line */
export const boatOfText = (text: string, place: string): Boat => readBoat(text, place);
export const demoBoat = (): Boat => readBoat(demo, "marsh-tern.yaml");
export const textOfBoat = (boat: Boat): string => writeBoat(boat);
