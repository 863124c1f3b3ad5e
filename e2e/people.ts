import type { Browser, Cookie, Page } from "@playwright/test";
import { DEMO_PASSWORD } from "@/lib/contracts/demo-sign-ins";
import { rows } from "./rows";

export type DemoName = "mette" | "ingrid" | "tomasz" | "odile" | "kwame" | "yuki";

export async function signIn(page: Page, email: string, password: string): Promise<void> {
  await page.goto("/sign-in");
  await page.getByLabel("Email").fill(email);
  await page.getByLabel("Password").fill(password);
  await page.getByRole("button", { name: "Sign in" }).click();
  await page.waitForURL((url) => !url.pathname.startsWith("/sign-in"));
}

/** What each person's browser was given when they first signed in; raising the version of their sessions ends it. */
const sessions = new Map<string, readonly Cookie[]>();

/** Comes to the first page as this person: by the form the first time, with the session they have from then on. */
export async function signInAs(page: Page, name: DemoName): Promise<void> {
  const email = `${name}@saltmarsh.example`;
  const [person] = await rows<{ session_version: number }>("SELECT session_version FROM person WHERE email = $1", email);
  const session = `${name} ${person?.session_version ?? 0}`;
  const cookies = sessions.get(session);
  if (cookies === undefined) {
    await signIn(page, email, DEMO_PASSWORD);
    sessions.set(session, await page.context().cookies());
  } else {
    await page.context().addCookies([...cookies]);
    await page.goto("/");
  }
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
