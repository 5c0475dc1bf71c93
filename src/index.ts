/**
 * rodebench as a library: the mechanics, the statistics and the records behind the command. Everything is SI and radians;
 * text with units is read and written by `quantity`.
 */
export * as chance from "./chance/index.ts";
export * as gear from "./gear/index.ts";
export * as pull from "./pull/index.ts";
export * as quantity from "./quantity/index.ts";
export * as rode from "./rode/index.ts";
export * as sea from "./sea/index.ts";
export * as sizing from "./sizing/index.ts";
