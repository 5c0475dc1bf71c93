// The rooms of src/, highest first: a room may use only rooms before it, through their doors.
const rooms = [
  "quantity", "numeric", "statistics", "gear", "rode", "sea", "motion", "sizing", "log", "pull", "holding", "record",
  "study", "series", "book", "figure", "words", "publish", "server", "cli",
];
const pure = [...rooms.slice(0, rooms.indexOf("series") + 1), "words"];

const upward = rooms.map((room, i) => ({
  name: `${room}-uses-only-rooms-before-it`,
  severity: "error",
  from: { path: `^src/${room}/` },
  to: { path: `^src/(${[...rooms.slice(i + 1), "web"].join("|")})/` },
}));

module.exports = {
  forbidden: [
    ...upward.filter((rule) => !rule.to.path.includes("()")),
    {
      name: "web-uses-no-server-side-room",
      severity: "error",
      from: { path: "^src/web/", pathNot: "^src/web/api/client\\.ts$" },
      to: { path: "^src/(server|cli)/" },
    },
    {
      name: "the-client-of-the-bench-knows-types-of-the-server-only",
      comment: "It is typed by the server's routes; nothing of the server comes into the browser.",
      severity: "error",
      from: { path: "^src/web/api/client\\.ts$" },
      to: { path: "^src/(server|cli)/", dependencyTypesNot: ["type-only"] },
    },
    {
      name: "through-the-door",
      comment: "Another room is entered by its index.ts only.",
      severity: "error",
      from: { path: "^src/([^/]+)/" },
      to: { path: "^src/([^/]+)/.+", pathNot: ["^src/$1/", "^src/[^/]+/index\\.ts$"] },
    },
    {
      name: "pure-rooms-touch-no-machine",
      comment: "No files, clock, network or DOM: the same code runs in Node, a worker and the browser.",
      severity: "error",
      from: { path: `^src/(${pure.join("|")})/` },
      to: { dependencyTypes: ["core"] },
    },
    { name: "no-circles", severity: "error", from: {}, to: { circular: true } },
    { name: "no-dev-packages-in-src", severity: "error", from: { path: "^src/", pathNot: "^src/web/" }, to: { dependencyTypes: ["npm-dev"], pathNot: "^node_modules/pdfkit/" } },
    // The build brings it into the command (scripts/bundle-command.mjs); the library is handed it.
    { name: "pdf-writer-in-the-command-alone", severity: "error", from: { path: "^src/", pathNot: "^src/cli/figure-tools.ts$" }, to: { path: "^node_modules/pdfkit/" } },
    { name: "nothing-unresolved", severity: "error", from: {}, to: { couldNotResolve: true, pathNot: "^virtual:" } },
  ],
  options: {
    tsConfig: { fileName: "tsconfig.json" },
    tsPreCompilationDeps: true,
    doNotFollow: { path: "node_modules" },
    enhancedResolveOptions: { exportsFields: ["exports"], conditionNames: ["import", "types", "node", "default"] },
  },
};
