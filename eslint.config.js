// Only what needs types, or what biome has no rule for: a promise nobody waits for, a clock or a random number in a pure
// room, a test that runs alone or not at all. Everything else is biome's.
import tseslint from "typescript-eslint";

/** Rooms that take files, time and randomness as arguments. */
const PURE = [
  ...["quantity", "numeric", "statistics", "gear", "rode", "sea", "motion", "sizing", "log", "pull", "holding"],
  ...["record", "study", "series", "figure", "words"],
];
const HANDED_IN = "is handed in as an argument: this room is pure";
const MACHINE = [
  ...["performance", "crypto", "fetch", "setTimeout", "setInterval", "setImmediate", "queueMicrotask", "process"],
  ...["globalThis", "window", "self", "document", "navigator", "localStorage", "XMLHttpRequest", "WebSocket"],
  ...["requestAnimationFrame", "console"],
];

const OF_TESTS = "[object.name=/^(it|test|describe|suite|bench)$/]";
const ALONE = "the others would not be run, and nobody would know";
const NEVER = "a test that is not run proves nothing: mend it, or take it away; what a machine lacks is told by skipIf";

export default tseslint.config(
  {
    files: ["src/**/*.ts", "src/**/*.tsx", "test/**/*.ts", "test/**/*.tsx", "bench/**/*.ts", "scripts/**/*.ts", "*.config.ts"],
    linterOptions: { reportUnusedDisableDirectives: "off" },
    languageOptions: {
      parser: tseslint.parser,
      parserOptions: { project: ["./tsconfig.json", "./tsconfig.web.json"] },
    },
    plugins: { "@typescript-eslint": tseslint.plugin },
    rules: {
      "@typescript-eslint/no-floating-promises": "error",
      "@typescript-eslint/no-misused-promises": ["error", { checksVoidReturn: false }],
    },
  },
  {
    files: PURE.map((room) => `src/${room}/**/*.ts`),
    rules: {
      "no-restricted-globals": ["error", ...MACHINE.map((name) => ({ name, message: `It ${HANDED_IN}.` }))],
      "no-restricted-properties": [
        "error",
        { object: "Date", property: "now", message: `The time ${HANDED_IN}.` },
        { object: "Math", property: "random", message: `Randomness ${HANDED_IN}.` },
      ],
      "no-restricted-syntax": [
        "error",
        { selector: "NewExpression[callee.name='Date'][arguments.length=0]", message: `The time ${HANDED_IN}.` },
        { selector: "CallExpression[callee.name='Date']", message: `The time ${HANDED_IN}.` },
      ],
    },
  },
  {
    files: ["test/**/*.ts", "test/**/*.tsx"],
    rules: {
      "no-restricted-syntax": [
        "error",
        { selector: "MemberExpression[property.name='only']", message: ALONE },
        { selector: `MemberExpression[property.name='todo']${OF_TESTS}`, message: NEVER },
        { selector: `:not(ConditionalExpression) > MemberExpression[property.name='skip']${OF_TESTS}`, message: NEVER },
        { selector: "CallExpression[callee.property.name=/^(skipIf|runIf)$/] > Literal.arguments", message: NEVER },
      ],
    },
  },
);
