export type { Dimension } from "./dimension.ts";
export { checkShape, fieldPath, LONGEST_FILE, readDocument } from "./document.ts";
export { InputError, quoted } from "./errors.ts";
export { type Format, formatQuantity } from "./format.ts";
export { nearestName } from "./nearest-name.ts";
export { parseQuantity } from "./parse.ts";
export { type Rounded, roundToUncertainty, significant } from "./rounding.ts";
export { told } from "./told.ts";
export { fromUnit, inUnit, type UnitSystem, unitChoices, unitFor } from "./units.ts";
