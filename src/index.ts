/**
 * rodebench as a library: the mechanics and the statistics behind the command. Everything is SI and radians; text with
 * units is read and written by `quantity`. Each room is also a door of its own, `rodebench/rode`; the book, which needs
 * SQLite, is there only: `rodebench/book`.
 */

export * as figure from "./figure/index.ts";
export * as gear from "./gear/index.ts";
export * as holding from "./holding/index.ts";
export * as log from "./log/index.ts";
export * as motion from "./motion/index.ts";
export * as numeric from "./numeric/index.ts";
export * as publish from "./publish/index.ts";
export * as pull from "./pull/index.ts";
export * as quantity from "./quantity/index.ts";
export * as record from "./record/index.ts";
export * as rode from "./rode/index.ts";
export * as sea from "./sea/index.ts";
export * as series from "./series/index.ts";
export * as sizing from "./sizing/index.ts";
export * as statistics from "./statistics/index.ts";
export * as study from "./study/index.ts";
export * as words from "./words/index.ts";
