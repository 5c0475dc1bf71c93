/** How many pulls would tell, by draws of the model on the book's pulls. */
import { oneDrawing } from "../holding/one-drawing.ts";
import type { SeriesPosterior } from "./series-work.ts";

export const posterior = oneDrawing<SeriesPosterior>(1, () => "how many pulls would tell is worked out");
