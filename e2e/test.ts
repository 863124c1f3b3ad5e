import { test as base } from "@playwright/test";

export { expect } from "@playwright/test";

/** Playwright's test, at the address the tests' own server got. Import it instead of Playwright's. */
export const test = base.extend<{ othersLeave: undefined }>({
  baseURL: async ({}, use) => {
    const address = process.env["LEHRBOOK_E2E_URL"];
    if (address === undefined) throw new Error("The browser tests need their global set-up: run them with --config e2e/playwright.config.ts.");
    await use(address);
  },
  // Playwright closes only the browsers it opened itself; the others would go on drawing through all tests to come.
  othersLeave: [
    async ({ browser }, use) => {
      await use(undefined);
      for (const context of browser.contexts()) await context.close();
    },
    { auto: true },
  ],
});
