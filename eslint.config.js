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

const NAMED_WHERE_USED =
  "MemberExpression, NewExpression, CallExpression, TSTypeReference, TSQualifiedName, BinaryExpression[operator='instanceof']";

const OF_TESTS = "[object.name=/^(it|test|describe|suite|bench)$/]";
const ALONE = "the others would not be run, and nobody would know";
const NEVER = "a test that is not run proves nothing: mend it, or take it away; what a machine lacks is told by skipIf";

export default tseslint.config(
  {
    files: [
      ...["src/**/*.ts", "src/**/*.tsx", "test/**/*.ts", "test/**/*.tsx", "bench/**/*.ts", "scripts/**/*.ts", "*.config.ts"],
      ...["bench/**/*.mjs", "scripts/**/*.mjs"],
    ],
    linterOptions: { reportUnusedDisableDirectives: "off" },
    languageOptions: {
      parser: tseslint.parser,
      parserOptions: { project: ["./tsconfig.json", "./tsconfig.web.json", "./tsconfig.scripts.json"] },
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
        // Without a date the formatter takes the clock's.
        { selector: "CallExpression[callee.property.name=/^format(ToParts)?$/][arguments.length=0]", message: `The time ${HANDED_IN}.` },
        // By another name, or handed on, neither could be followed.
        {
          selector: `:not(${NAMED_WHERE_USED}) > Identifier[name=/^(Date|Math)$/]`,
          message: "Date and Math are used by their own names in a pure room, so that a clock and a random number are seen",
        },
        {
          selector: "CallExpression > Identifier.arguments[name=/^(Date|Math)$/]",
          message: "Date and Math are not handed on in a pure room, so that a clock and a random number are seen",
        },
      ],
    },
  },
  {
    files: ["test/**/*.ts", "test/**/*.tsx"],
    rules: {
      "no-restricted-syntax": [
        "error",
        { selector: "MemberExpression[property.name='only']", message: ALONE },
        { selector: `MemberExpression[property.name=/^(todo|fails)$/]${OF_TESTS}`, message: NEVER },
        { selector: "CallExpression > ObjectExpression.arguments > Property[key.name='only'][value.value=true]", message: ALONE },
        {
          selector: "CallExpression > ObjectExpression.arguments > Property[key.name=/^(skip|todo|fails)$/][value.value=true]",
          message: NEVER,
        },
        // `context.skip()` stands under the condition that it tells of.
        {
          selector:
            "CallExpression[callee.property.name='skip'][callee.object.name!=/^(it|test|describe|suite|bench)$/]:not(IfStatement *):not(ConditionalExpression *)",
          message: NEVER,
        },
        { selector: `:not(ConditionalExpression) > MemberExpression[property.name='skip']${OF_TESTS}`, message: NEVER },
        { selector: "CallExpression[callee.property.name=/^(skipIf|runIf)$/] > Literal.arguments", message: NEVER },
      ],
    },
  },
);
