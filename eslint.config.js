// Only what needs types: a promise nobody waits for. Everything else is biome's.
import tseslint from "typescript-eslint";

export default tseslint.config({
  files: ["src/**/*.ts", "src/**/*.tsx"],
  linterOptions: { reportUnusedDisableDirectives: "off" },
  languageOptions: {
    parser: tseslint.parser,
    parserOptions: { project: ["./tsconfig.json", "./tsconfig.web.json"] },
  },
  plugins: { "@typescript-eslint": tseslint.plugin },
  rules: { "@typescript-eslint/no-floating-promises": "error", "@typescript-eslint/no-misused-promises": ["error", { checksVoidReturn: false }] },
});
