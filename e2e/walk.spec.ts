import type { APIResponse, Browser, BrowserContext, Page } from "@playwright/test";
import { SCENARIO_PASSWORD, makeWorkshop } from "@/tests/helpers/scenario";
import { AGAIN } from "./again";
import { expect, test } from "./test";
import { allRouteHandlers, allRoutes, demoIds, filled } from "./pages";
import { newBrowser, signIn, signInAs, type DemoName } from "./people";

/** Open to everybody; all others ask who is there. */
const OPEN = ["/sign-in", "/forgotten", "/reset/[token]", "/invitation/[token]"];
/** What describes the scripts' interface says nothing of any workshop. */
const OPEN_TO_SCRIPTS = ["/api/v1/openapi.json", "/api/v1/problems/[type]"];
/** What each role may not see; everything else it may. */
const FORBIDDEN: Readonly<Record<string, readonly RegExp[]>> = {
  member: [/^\/clashes/, /^\/workshop/],
  assistant: [/^\/clashes/, /^\/asks/, /^\/workshop/, /^\/castings/, /\/(move|plan-anew)$/, /\/share\//],
  manager: [],
};
/** In the demo workshop nobody has proposed to share a firing, and nothing was settled. */
const NOTHING_PROPOSED = /^\/(joinings|settlements)/;
/** Seal, resting is Yuki's and Wader Mette's: another member does not find them, as little as one that never was. */
const NOT_THEIRS: Readonly<Record<string, readonly RegExp[]>> = { member: [/\/(move|plan-anew)$/, NOTHING_PROPOSED], assistant: [NOTHING_PROPOSED], manager: [/\/share\//, NOTHING_PROPOSED] };
const DEMO_WORDS = /Saltmarsh|Mette|Ingrid|Tomasz|Odile|Kwame|Yuki|Reed bowl|Seal, resting|Wader|Heron|Curlew/;

async function as(browser: Browser, name: DemoName): Promise<BrowserContext> {
  const context = await browser.newContext({ baseURL: process.env["LEHRBOOK_E2E_URL"] ?? "" });
  const page = await context.newPage();
  await signInAs(page, name);
  return context;
}

async function get(context: BrowserContext, address: string): Promise<APIResponse> {
  return context.request.get(address, { ...AGAIN, maxRedirects: 0 });
}

/** What stands on the page once it has arrived whole. */
async function seenOn(page: Page): Promise<"seen" | "forbidden" | "not found"> {
  const heading = page.locator("main h1").first();
  await expect(heading).toBeVisible();
  const text = await heading.innerText();
  return text === "Nothing stands here" ? "not found" : text === "Not for your role" ? "forbidden" : "seen";
}

/** A page as a browser fetches it when a link is followed inside the product. */
async function getPart(context: BrowserContext, address: string): Promise<APIResponse> {
  return context.request.get(address, { ...AGAIN, maxRedirects: 0, headers: { RSC: "1" } });
}

test("nobody is sent to sign in from every page but the four that are open", async ({ browser }) => {
  const context = await browser.newContext({ baseURL: process.env["LEHRBOOK_E2E_URL"] ?? "" });
  const ids = await demoIds();
  const routes = allRoutes();
  expect(routes.length).toBeGreaterThan(20);
  for (const route of routes) {
    const answer = await get(context, filled(route, ids));
    const body = await answer.text();
    if (OPEN.includes(route)) expect({ route, status: answer.status() }).toEqual({ route, status: 200 });
    else {
      // A page that has begun to stream says "go to sign-in" in its body instead of in its head.
      const sent = answer.status() === 307 ? answer.headers()["location"] : /NEXT_REDIRECT;\w+;(\/sign-in[^;]*)/.exec(body)?.[1];
      expect({ route, sent: sent?.includes("/sign-in") }).toEqual({ route, sent: true });
    }
    const part = await (await getPart(context, filled(route, ids))).text();
    if (route !== "/sign-in") expect({ route, leak: DEMO_WORDS.exec(body + part)?.[0] }).toEqual({ route, leak: undefined });
  }
});

for (const [role, name] of [["member", "mette"], ["assistant", "tomasz"], ["manager", "ingrid"]] as const) {
  test(`${role}: sees what the role may and nothing else`, async ({ browser }) => {
    const context = await as(browser, name);
    const ids = await demoIds();
    const page = await context.newPage();
    for (const route of allRoutes().filter((one) => !OPEN.includes(one) && one !== "/no-workshop")) {
      const answer = await page.goto(filled(route, ids));
      const forbidden = FORBIDDEN[role]?.some((pattern) => pattern.test(route)) === true;
      const hidden = NOT_THEIRS[role]?.some((pattern) => pattern.test(route)) === true;
      expect({ route, seen: await seenOn(page), crashed: (answer?.status() ?? 500) >= 500 }).toEqual({ route, seen: forbidden ? "forbidden" : hidden ? "not found" : "seen", crashed: false });
    }
  });
}

test("a stranger of another workshop finds nothing of this one behind its addresses", async ({ browser }) => {
  const other = await makeWorkshop(process.env["LEHRBOOK_E2E_DATABASE_URL"] ?? "", { name: "Dune Glass Room" });
  const page = await newBrowser(browser);
  await signIn(page, other.manager.email, SCENARIO_PASSWORD);
  const ids = await demoIds();
  for (const route of allRoutes().filter((one) => !OPEN.includes(one) && one !== "/no-workshop")) {
    const address = filled(route, ids);
    for (const answer of [await page.context().request.get(address, AGAIN), await getPart(page.context(), address)]) {
      const body = await answer.text();
      expect({ route, leak: DEMO_WORDS.exec(body)?.[0], crashed: answer.status() >= 500 }).toEqual({ route, leak: undefined, crashed: false });
    }
    await page.goto(address);
    expect({ route, seen: await seenOn(page) }).toEqual({ route, seen: route.includes("[") ? "not found" : "seen" });
  }
});

test("an address that names nothing is not found, and breaks nothing", async ({ browser }) => {
  const page = await newBrowser(browser);
  await signInAs(page, "ingrid");
  const strange = ["/castings/", "/firings/", "/settlements/", "/workshop/equipment/"].flatMap((before) => ["00000000-0000-4000-8000-000000000000", "1", "%27%3B--", "new%2F..%2F"].map((id) => before + id));
  for (const address of [...strange, "/no-such-page"]) {
    const answer = await page.goto(address);
    expect({ address, seen: await seenOn(page), crashed: (answer?.status() ?? 500) >= 500 }).toEqual({ address, seen: "not found", crashed: false });
  }
  for (const address of ["/lifts?day=%00", "/calendar?view=x&day=2027-02-30&of=", "/wall?from=never", "/workshop/record?text=%25%27", "/sign-in?from=https://elsewhere.example"]) {
    const answer = await page.goto(address);
    expect({ address, crashed: (answer?.status() ?? 500) >= 500, host: new URL(page.url()).host }).toEqual({ address, crashed: false, host: new URL(process.env["LEHRBOOK_E2E_URL"] ?? "").host });
    await expect(page.locator("main h1").first()).toBeVisible();
  }
});

test("the only addresses besides the pages are those of signing in, of meshes, of calendar feeds and of scripts, which ask for a token of their own", async ({ browser }) => {
  const [scripts, others] = [allRouteHandlers().filter((one) => one.startsWith("/api/v1/")), allRouteHandlers().filter((one) => !one.startsWith("/api/v1/"))];
  expect(others).toEqual(["/api/auth/[...nextauth]", "/api/meshes", "/api/meshes/[meshId]", "/api/meshes/[meshId]/drawing", "/feeds/[secret]/calendar.ics"]);
  expect(scripts.length).toBeGreaterThan(10);
  const manager = await as(browser, "ingrid");
  const ids = await demoIds();
  for (const route of scripts.filter((one) => !OPEN_TO_SCRIPTS.includes(one))) {
    for (const method of ["GET", "POST", "PUT", "DELETE"]) {
      const answer = await manager.request.fetch(filled(route, ids), { ...AGAIN, method, data: method === "GET" ? undefined : {} });
      const body = await answer.text();
      const refused = [401, 404, 405].includes(answer.status());
      expect({ route, method, refused, kind: answer.headers()["content-type"], leak: DEMO_WORDS.exec(body)?.[0] }).toEqual({ route, method, refused: true, kind: "application/problem+json", leak: undefined });
    }
  }
});
