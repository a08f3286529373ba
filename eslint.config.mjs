import reactHooks from "eslint-plugin-react-hooks";
import tseslint from "typescript-eslint";

/** Clock and chance are handed in, so that the same drawing gives the same answer every time. */
const IMPURE = [
  { object: "Date", property: "now", message: "core is pure: let the caller pass the clock in." },
  { object: "Math", property: "random", message: "core is pure: let the caller pass the random source in." },
];

const NO_CLOCK = {
  selector: "NewExpression[callee.name='Date'][arguments.length=0]",
  message: "core is pure: let the caller pass the time in.",
};

const NO_DEFAULT_EXPORT = {
  selector: "ExportDefaultDeclaration",
  message: "Name what you export: a default export gets a different name in every file that imports it.",
};

export default tseslint.config(
  {
    ignores: ["node_modules/", "dist/", "out/", ".cache/", "coverage/", "test-results/", "tests/architecture/planted/"],
  },
  {
    // A comment cannot switch a rule off here: a rule is either right for everybody or changed in this file.
    linterOptions: { noInlineConfig: true },
  },
  {
    files: ["**/*.ts", "**/*.tsx"],
    languageOptions: { parser: tseslint.parser, parserOptions: { projectService: true } },
    plugins: { "@typescript-eslint": tseslint.plugin },
    rules: {
      "@typescript-eslint/no-floating-promises": "error",
      "@typescript-eslint/no-misused-promises": "error",
      "@typescript-eslint/await-thenable": "error",
      "@typescript-eslint/switch-exhaustiveness-check": ["error", { considerDefaultExhaustiveForUnions: true }],
      "@typescript-eslint/no-explicit-any": "error",
      "@typescript-eslint/ban-ts-comment": "error",
      "@typescript-eslint/consistent-type-imports": "error",
      "@typescript-eslint/no-unnecessary-type-assertion": "error",
      "@typescript-eslint/no-base-to-string": "error",
      "max-lines": ["error", { max: 400 }],
      "no-restricted-syntax": ["error", NO_DEFAULT_EXPORT],
      eqeqeq: ["error", "always", { null: "ignore" }],
      "no-var": "error",
      "prefer-const": "error",
    },
  },
  {
    files: ["**/core/**/*.ts"],
    ignores: ["tests/core/**"],
    rules: {
      "no-restricted-properties": ["error", ...IMPURE],
      "no-restricted-syntax": ["error", NO_DEFAULT_EXPORT, NO_CLOCK],
    },
  },
  {
    files: ["**/*.tsx"],
    plugins: { "react-hooks": reactHooks },
    rules: { "react-hooks/rules-of-hooks": "error", "react-hooks/exhaustive-deps": "error" },
  },
  {
    files: ["**/*.mjs"],
    rules: {
      "max-lines": ["error", { max: 400 }],
      eqeqeq: ["error", "always", { null: "ignore" }],
      "no-var": "error",
      "prefer-const": "error",
    },
  },
  {
    // The tool itself asks for a default export here.
    files: ["vitest.config.ts", "vite.config.ts"],
    rules: { "no-restricted-syntax": "off" },
  },
);
