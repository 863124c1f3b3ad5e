import { readFileSync } from "node:fs";
import path from "node:path";
import type { APIResponse, Browser, BrowserContext } from "@playwright/test";
import { SCENARIO_PASSWORD, makeWorkshop } from "@/tests/helpers/scenario";
import { expect, test } from "./test";
import { allRoutes, demoIds, filled } from "./pages";
import { signIn, signInAs, type DemoName } from "./people";
import { rows } from "./rows";

/** Open to everybody; all others ask who is there. */
const OPEN = ["/sign-in", "/forgotten", "/reset/[token]", "/invitation/[token]"];
/** What each role may not see; everything else it may. */
const FORBIDDEN: Readonly<Record<string, readonly RegExp[]>> = {
  member: [/^\/clashes/, /^\/workshop/],
  assistant: [/^\/clashes/, /^\/workshop/, /^\/castings/, /\/move$/],
  manager: [],
};
/** Seal, resting is Yuki's and Wader Mette's: another member does not find them, as little as one that never was. */
const NOT_THEIRS: Readonly<Record<string, readonly RegExp[]>> = { member: [/\/move$/], assistant: [], manager: [] };
const DEMO_WORDS = /Saltmarsh|Mette|Ingrid|Tomasz|Odile|Kwame|Yuki|Reed bowl|Seal, resting|Wader|Heron|Curlew/;

async function as(browser: Browser, name: DemoName): Promise<BrowserContext> {
  const context = await browser.newContext({ baseURL: process.env["LEHRBOOK_E2E_URL"] ?? "" });
  const page = await context.newPage();
  await signInAs(page, name);
  return context;
}

async function get(context: BrowserContext, address: string): Promise<APIResponse> {
  return context.request.get(address, { maxRedirects: 0 });
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
    if (route !== "/sign-in") expect({ route, leak: DEMO_WORDS.exec(body)?.[0] }).toEqual({ route, leak: undefined });
  }
});

for (const [role, name] of [["member", "mette"], ["assistant", "tomasz"], ["manager", "ingrid"]] as const) {
  test(`${role}: sees what the role may and nothing else`, async ({ browser }) => {
    const context = await as(browser, name);
    const ids = await demoIds();
    for (const route of allRoutes().filter((one) => !OPEN.includes(one) && one !== "/no-workshop")) {
      const page = await context.newPage();
      const answer = await page.goto(filled(route, ids));
      const forbidden = FORBIDDEN[role]?.some((pattern) => pattern.test(route)) === true;
      const hidden = NOT_THEIRS[role]?.some((pattern) => pattern.test(route)) === true;
      await expect(page.locator("main h1, main h2").first()).toBeVisible();
      const heading = await page.title();
      const seen = heading.startsWith("Not found") || (await page.getByText(/is not here|no such page|cannot be found|not found/i).count()) > 0 ? "not found" : (await page.getByText(/does not allow|not for your role|may not/i).count()) > 0 ? "forbidden" : "seen";
      expect({ route, seen, crashed: (answer?.status() ?? 500) >= 500 }).toEqual({ route, seen: forbidden ? "forbidden" : hidden ? "not found" : "seen", crashed: false });
      await page.close();
    }
  });
}

test("a stranger of another workshop reaches no page, action or byte of this one", async ({ browser }) => {
  const other = await makeWorkshop(process.env["LEHRBOOK_E2E_DATABASE_URL"] ?? "", { name: "Dune Glass Room" });
  const context = await browser.newContext({ baseURL: process.env["LEHRBOOK_E2E_URL"] ?? "" });
  const page = await context.newPage();
  await signIn(page, other.manager.email, SCENARIO_PASSWORD);
  const ids = await demoIds();
  for (const route of allRoutes().filter((one) => !OPEN.includes(one) && one !== "/no-workshop")) {
    const answer = await context.request.get(filled(route, ids));
    const body = await answer.text();
    expect({ route, leak: DEMO_WORDS.exec(body)?.[0], crashed: answer.status() >= 500 }).toEqual({ route, leak: undefined, crashed: false });
  }
});

const COUNTS = ["member", "invitation", "staffed_hours", "closure", "equipment", "outage", "casting", "plan", "firing", "booking", "lift", "ask", "check_answer", "notice", "audit"];

/** How many rows the demo workshop has in every table. */
async function counted(): Promise<Record<string, unknown>> {
  const demo = "(SELECT workshop_id FROM member WHERE email = 'mette@saltmarsh.example')";
  const [row] = await rows(`SELECT ${COUNTS.map((table) => `(SELECT count(*)::int FROM ${table} WHERE workshop_id = ${demo}) AS ${table}`).join(", ")}`);
  return row ?? {};
}

/** A form as the browser's runtime sends it to an action: alone, or behind the state that useActionState keeps. */
function multipart(fields: Readonly<Record<string, string>>, behindState: boolean): FormData {
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) form.append(`_1_${name}`, value);
  // The arguments come last: they are read as soon as they arrive.
  form.append("0", behindState ? '[{"problems":[]},"$K1"]' : '["$K1"]');
  return form;
}

/** One action signs its person out everywhere; the stranger then comes back. */
async function backAgain(stranger: BrowserContext, email: string): Promise<void> {
  const [session] = await rows<{ session_version: number }>("SELECT session_version FROM person WHERE email = $1", email);
  if (session?.session_version === 1) return;
  await rows("UPDATE person SET session_version = 1 WHERE email = $1", email);
  await stranger.clearCookies();
  await signIn(await stranger.newPage(), email, SCENARIO_PASSWORD);
}

test("no action answers a hand-made request of nobody or of a stranger with a change", async ({ browser }) => {
  const base = process.env["LEHRBOOK_E2E_URL"] ?? "";
  const manifest = JSON.parse(readFileSync(path.resolve(import.meta.dirname, "..", ".next", "server", "server-reference-manifest.json"), "utf8")) as { node: Record<string, unknown> };
  const actions = Object.keys(manifest.node);
  expect(actions.length).toBeGreaterThan(20);
  const other = await makeWorkshop(process.env["LEHRBOOK_E2E_DATABASE_URL"] ?? "", { name: "Dune Glass Room" });
  const nobody = await browser.newContext({ baseURL: base });
  const stranger = await browser.newContext({ baseURL: base });
  await signIn(await stranger.newPage(), other.manager.email, SCENARIO_PASSWORD);
  const ids = await demoIds();
  const fields = {
    firingId: ids["firingId"] ?? "", castingId: ids["castingId"] ?? "", equipmentId: ids["equipmentId"] ?? "", kilnId: ids["equipmentId"] ?? "",
    memberId: ids["castingId"] ?? "", askId: ids["castingId"] ?? "", reason: "a reason that is long enough", code: "L1", kind: "tick", requestKey: "a-key-made-by-hand",
    kilnFrom: "2027-06-07T08:00:00Z", at: "2027-06-07T08:00", kilnTo: "2027-06-07T08:00", version: "1",
  };
  const before = await counted();
  for (const action of actions) {
    await backAgain(stranger, other.manager.email);
    for (const context of [nobody, stranger]) {
      for (const behindState of [true, false]) {
        const answer = await context.request.post(`/firings/${ids["firingId"] ?? ""}`, {
          headers: { "Next-Action": action, Origin: base },
          multipart: multipart(fields, behindState),
          maxRedirects: 0,
        });
        const body = await answer.text();
        expect({ action, leak: DEMO_WORDS.exec(body)?.[0] }).toEqual({ action, leak: undefined });
      }
    }
  }
  expect(await counted()).toEqual(before);

  // The same hand-made request does change the stranger's own workshop: it was understood, and refused for what it asked.
  const own = { ...fields, equipmentId: other.southKiln.equipmentId };
  for (const action of actions) {
    await backAgain(stranger, other.manager.email);
    await stranger.request.post("/workshop/equipment", { headers: { "Next-Action": action, Origin: base }, multipart: multipart(own, true), maxRedirects: 0 });
  }
  const changes = await rows("SELECT 1 FROM audit WHERE workshop_id = $1 AND action IN ('begin-outage', 'retire-equipment')", other.workshopId);
  expect(changes.length).toBeGreaterThan(0);
});
