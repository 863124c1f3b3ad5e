import tseslint from "typescript-eslint";

export default tseslint.config(
  { ignores: [".next/**", ".lehrbook/**", "node_modules/**", "lib/server/prisma-client/**", "next-env.d.ts", "test-results/**", "playwright-report/**"] },
  ...tseslint.configs.strict,
  {
    rules: {
      "@typescript-eslint/no-explicit-any": "error",
      "@typescript-eslint/consistent-type-imports": "error",
      "@typescript-eslint/consistent-type-definitions": ["error", "type"],
      "@typescript-eslint/no-unused-vars": ["error", { argsIgnorePattern: "^_", varsIgnorePattern: "^_" }],
      eqeqeq: "error",
      "max-lines": ["error", { max: 400, skipBlankLines: true, skipComments: true }],
    },
  },
  {
    // The settling engine lives on typed arrays, read inside their length in inner loops.
    files: ["lib/domain/settling/**"],
    rules: { "@typescript-eslint/no-non-null-assertion": "off" },
  },
);
