import type { Browser, Page } from "@playwright/test";
import { DEMO_PASSWORD } from "@/lib/contracts/demo-sign-ins";

export type DemoName = "mette" | "ingrid" | "tomasz" | "odile" | "kwame" | "yuki";

export async function signIn(page: Page, email: string, password: string): Promise<void> {
  await page.goto("/sign-in");
  await page.getByLabel("Email").fill(email);
  await page.getByLabel("Password").fill(password);
  await page.getByRole("button", { name: "Sign in" }).click();
  await page.waitForURL((url) => !url.pathname.startsWith("/sign-in"));
}

export async function signInAs(page: Page, name: DemoName): Promise<void> {
  await signIn(page, `${name}@saltmarsh.example`, DEMO_PASSWORD);
}

const DESK = { width: 1440, height: 900 };

/** A browser of their own for one more person who is not signed in, as wide as the test's own page. */
export async function newBrowser(browser: Browser, like?: Page): Promise<Page> {
  const context = await browser.newContext({ baseURL: process.env["LEHRBOOK_E2E_URL"] ?? "", viewport: like?.viewportSize() ?? DESK });
  return context.newPage();
}

export async function otherBrowser(browser: Browser, name: DemoName, like?: Page): Promise<Page> {
  const page = await newBrowser(browser, like);
  await signInAs(page, name);
  return page;
}
