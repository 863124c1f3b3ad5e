import { randomUUID } from "node:crypto";
import { Validator } from "@seriousme/openapi-schema-validator";
import type { Page } from "@playwright/test";
import { z } from "zod";
import { OPERATIONS } from "@/lib/contracts/api/operations";
import { documentedBy, type Documented } from "@/tests/helpers/api/as-documented";
import { makeWorkshop, SCENARIO_PASSWORD, type MadeWorkshop } from "@/tests/helpers/scenario";
import { signIn } from "./people";
import { castingOf, firingOf } from "./rows";
import { expect, test } from "./test";

type Sent = { readonly json?: unknown; readonly key?: string };

/** A request over the wire, as a script makes it: no browser, no cookie. */
async function ask(address: string, token: string | null, { json, key }: Sent = {}) {
  const answer = await fetch(new URL(`/api/v1${address}`, process.env["LEHRBOOK_E2E_URL"]), {
    method: json === undefined ? "GET" : "POST",
    headers: {
      ...(token === null ? {} : { Authorization: `Bearer ${token}` }),
      ...(json === undefined ? {} : { "Content-Type": "application/json" }),
      ...(key === undefined ? {} : { "Idempotency-Key": key }),
    },
    ...(json === undefined ? {} : { body: JSON.stringify(json) }),
  });
  const body: unknown = await answer.json();
  return { status: answer.status, headers: answer.headers, body };
}

/** The printed description, held against the answers from then on. */
async function description(): Promise<Documented> {
  const printed = await ask("/openapi.json", null);
  expect(printed.status).toBe(200);
  expect(await new Validator().validate(structuredClone(printed.body) as Record<string, unknown>)).toEqual({ valid: true });
  return documentedBy(printed.body);
}

/** Makes a token on the profile page, as its owner would. */
async function makeToken(page: Page, { email }: MadeWorkshop["member"], name: string): Promise<string> {
  await signIn(page, email, SCENARIO_PASSWORD);
  await page.goto("/profile");
  await expect(page.getByText("No script has a token")).toBeVisible();
  await page.getByLabel("Name of the script").fill(name);
  for (const scope of [/^Plan:/, /^Book:/]) await page.getByLabel(scope).check();
  await page.getByRole("button", { name: "Make a token" }).click();
  const token = await page.getByLabel("Token, shown this once").inputValue();
  await expect(page.getByRole("row", { name: new RegExp(name) })).toBeVisible();
  await page.reload();
  await expect(page.getByRole("row", { name: new RegExp(name) })).toBeVisible();
  expect(await page.content()).not.toContain(token);
  return token;
}

const PIECE = {
  glass: "lead-crystal-45", piece: { shape: "ball", sizeMm: [80] }, cooling: "all-round",
  mould: { wallMm: 30, plasterSilicaWater: [1, 1, 1] }, feeder: { diameterMm: 30, lengthMm: 40 }, stress: "careful",
};
const Offers = z.object({ version: z.number().optional(), kilns: z.array(z.object({ kilnId: z.string(), runs: z.array(z.object({ kilnFrom: z.string(), steamFrom: z.string().nullable() })) })) });

function offered(body: unknown, at: number) {
  const { kilns, version } = Offers.parse(body);
  const [kiln] = kilns;
  const run = kiln?.runs[at];
  if (kiln === undefined || run === undefined) throw new Error("nothing offered");
  return { kilnId: kiln.kilnId, kilnFrom: run.kilnFrom, ...(run.steamFrom === null ? {} : { steamFrom: run.steamFrom }), ...(version === undefined ? {} : { version }) };
}

test("a script's day over HTTP: a token, a plan, a run booked once, moved and cancelled, all as it is described", async ({ page }) => {
  const shed = await makeWorkshop(process.env["LEHRBOOK_E2E_DATABASE_URL"] ?? "", { name: "Script Shed" });
  const { asDocumented, answered } = await description();
  const token = await makeToken(page, shed.member, "Kiln log");
  const key = () => randomUUID();

  asDocumented("listEquipment", await ask("/equipment", token));
  asDocumented("planCasting", await ask("/plans", token, { json: PIECE }));
  const made = asDocumented("createCasting", await ask("/castings", token, { json: { title: "Pebble", input: PIECE }, key: key() }));
  const { castingId } = z.object({ castingId: z.string() }).parse(made.body);
  asDocumented("listCastings", await ask("/castings", token));
  const times = asDocumented("findTime", await ask(`/castings/${castingId}/times`, token));

  const wish = { json: { castingId, ...offered(times.body, 0) }, key: key() };
  const booked = asDocumented("bookRun", await ask("/runs", token, wish));
  const again = asDocumented("bookRun", await ask("/runs", token, wish));
  expect([booked.status, again.status, again.body]).toEqual([201, 201, booked.body]);
  const another = asDocumented("bookRun", await ask("/runs", token, { ...wish, json: { ...wish.json, ...offered(times.body, 1) } }));
  expect(another.status).toBe(422);
  const run = (booked.headers.get("location") ?? "").replace("/api/v1", "");

  const moves = asDocumented("findMove", await ask(`${run}/times`, token));
  const moved = asDocumented("moveRun", await ask(`${run}/move`, token, { json: offered(moves.body, 1), key: key() }));
  expect(asDocumented("readRun", await ask(run, token)).body).toMatchObject({ ...z.object({ kilnFrom: z.string() }).parse(moved.body), status: "planned", version: 2 });
  expect(asDocumented("listBookings", await ask("/bookings?mine=true", token)).body).toMatchObject({ bookings: { length: 4 } });
  asDocumented("listLifts", await ask("/lifts", token));
  asDocumented("cancelRun", await ask(`${run}/cancel`, token, { json: { reason: "The wax broke." }, key: key() }));
  expect(asDocumented("listBookings", await ask("/bookings", token)).body).toMatchObject({ bookings: [] });
  expect(answered()).toEqual(Object.keys(OPERATIONS).sort());

  await page.reload();
  await page.getByRole("row", { name: /Kiln log/ }).getByRole("button", { name: "Revoke" }).click();
  await page.getByRole("dialog").getByRole("button", { name: "Revoke it" }).click();
  await expect(page.getByText("No script has a token")).toBeVisible();
  const refused = asDocumented("listBookings", await ask("/bookings", token));
  expect([refused.status, refused.headers.get("www-authenticate")]).toEqual([401, 'Bearer realm="Lehrbook", error="invalid_token"']);
});

test("a script of another workshop finds nothing of this one @phone", async ({ page }) => {
  const ownerUrl = process.env["LEHRBOOK_E2E_DATABASE_URL"] ?? "";
  const { asDocumented } = await description();
  const stranger = await makeWorkshop(ownerUrl, { name: "Dune Glass Room" });
  const token = await makeToken(page, stranger.manager, "Elsewhere");
  for (const address of ["/equipment", "/castings?all=true", "/bookings?to=2030-01-01", "/lifts"]) {
    const { status, body } = await ask(address, token);
    expect(status).toBe(200);
    expect(JSON.stringify(body)).not.toMatch(/Saltmarsh|Mette|Ingrid|Heron|Wader|Seal/);
  }
  const theirs = { run: await firingOf("Seal, resting"), casting: await castingOf("Wader") };
  expect(asDocumented("readRun", await ask(`/runs/${theirs.run}`, token)).status).toBe(404);
  expect(asDocumented("findTime", await ask(`/castings/${theirs.casting}/times`, token)).status).toBe(404);
  expect(asDocumented("cancelRun", await ask(`/runs/${theirs.run}/cancel`, token, { json: {} })).status).toBe(404);
});
