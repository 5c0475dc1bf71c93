export { InputError, quoted } from "./errors.ts";
