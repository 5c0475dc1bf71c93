/** What the pulls of Holding allow to be said, by draws. */
import { oneDrawing } from "./one-drawing.ts";
import type { InquiryAnswer } from "./work.ts";

/** Both laws, and the better one with priors half and twice as wide. */
const MODELS = 4;

export const sampling = oneDrawing<InquiryAnswer>(MODELS, ({ sentences }) => sentences[0] ?? "worked out");
