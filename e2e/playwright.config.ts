import { defineConfig } from "@playwright/test";
import { presentBrowser } from "@/lib/cli/browser.mjs";

const executablePath = presentBrowser();
const quiet = ["--no-sandbox", "--disable-quic", "--disable-background-networking", "--disable-component-update", "--disable-sync"];

/**
 * Browser tests against the production build, on a server and a database of their own (see global-setup.ts).
 * All tests run at desk width; those tagged @phone run at phone width too; those tagged @worker after all others.
 */
export default defineConfig({
  testDir: ".",
  outputDir: "../test-results",
  globalSetup: "./global-setup.ts",
  workers: 2,
  fullyParallel: false,
  retries: 0,
  forbidOnly: process.env["CI"] !== undefined,
  timeout: 90_000,
  expect: { timeout: 15_000 },
  reporter: "line",
  use: {
    trace: "off",
    video: "off",
    screenshot: "only-on-failure",
    locale: "en-GB",
    timezoneId: "Europe/Copenhagen",
    launchOptions: { args: quiet, ...(executablePath === undefined ? {} : { executablePath }) },
  },
  projects: [
    { name: "desktop", grepInvert: /@worker/, use: { viewport: { width: 1440, height: 900 } } },
    { name: "phone", grep: /@phone/, use: { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true } },
    // Beside a process that does the jobs of everybody: alone, when all others are done.
    { name: "worker", grep: /@worker/, dependencies: ["desktop", "phone"], use: { viewport: { width: 1440, height: 900 } } },
  ],
});
