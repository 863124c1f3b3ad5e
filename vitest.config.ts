import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const root = fileURLToPath(new URL(".", import.meta.url));
const shared = {
  resolve: { alias: { "@": root.replace(/\/$/, "") } },
  test: { setupFiles: ["tests/helpers/no-stray-errors.ts"] },
};

export default defineConfig({
  test: {
    projects: [
      {
        ...shared,
        test: {
          ...shared.test,
          name: "domain",
          include: ["tests/domain/**/*.test.ts", "tests/contracts/**/*.test.ts", "tests/cli/**/*.test.ts", "tests/app/**/*.test.ts", "tests/architecture.test.ts"],
          testTimeout: 30_000,
        },
      },
      {
        ...shared,
        test: {
          ...shared.test,
          name: "server",
          include: ["tests/server/**/*.test.ts"],
          globalSetup: ["tests/helpers/postgres-global-setup.ts"],
          testTimeout: 30_000,
          hookTimeout: 60_000,
        },
      },
    ],
  },
});
