import { randomUUID } from "node:crypto";
import { Temporal } from "temporal-polyfill";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { z } from "zod";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
process.env["LEHRBOOK_API_PER_MINUTE"] = "600";
const { closeDatabase } = await import("@/lib/server/db");
const { makeToken } = await import("@/lib/server/commands/make-token");
const { revokeToken } = await import("@/lib/server/commands/revoke-token");
const { MOST_BODY_BYTES, MOST_DEPTH } = await import("@/lib/server/api/read-body");
const { bookedRun, describedCasting, firstOffer, later, must, PEBBLE } = await import("@/tests/helpers/booking");
const { call } = await import("@/tests/helpers/api/call");
const { documentedBy } = await import("@/tests/helpers/api/as-documented");
const { asDocumented } = documentedBy((await call("/openapi.json")).body);

let shed: MadeWorkshop;
let stranger: MadeWorkshop;

beforeAll(async () => {
  shed = await makeWorkshop(database.ownerUrl);
  stranger = await makeWorkshop(database.ownerUrl, { name: "Dune Glass Room" });
});
afterAll(async () => {
  await closeDatabase();
  await database.drop();
});

const ALL = ["read", "plan", "book"];
async function tokenOf(who: MadeWorkshop["member"], scopes = ALL): Promise<string> {
  const made = must(await makeToken(who, { name: "Script", scopes }));
  return made.token;
}

const Document = z.object({ type: z.string(), status: z.number(), instance: z.string(), detail: z.string(), problems: z.array(z.looseObject({ code: z.string(), field: z.string().optional() })) });
function refusal({ status, body }: { readonly status: number; readonly body: unknown }) {
  const document = Document.parse(body);
  expect(document.status).toBe(status);
  return { status, type: document.type.replace("http://localhost:3000/api/v1/problems/", ""), codes: document.problems.map(({ code }) => code), fields: document.problems.map(({ field }) => field) };
}

describe("who asks", () => {
  it("must send a token: without one, 401 says how", async () => {
    const answer = asDocumented("listEquipment", await call("/equipment"));
    expect(refusal(answer)).toMatchObject({ status: 401, type: "token-needed" });
    expect(answer.headers.get("www-authenticate")).toBe('Bearer realm="Lehrbook"');
  });

  it("is not told by a cookie, nor by the address", async () => {
    const token = await tokenOf(shed.member);
    for (const answer of [await call("/equipment", { headers: { Cookie: `next-auth.session-token=${token}` } }), await call(`/equipment?access_token=${token}`)]) expect(answer.status).toBe(401);
  });

  it("is nobody with a token that was revoked", async () => {
    const { token, tokenId } = must(await makeToken(shed.member, { name: "Old", scopes: ALL }));
    expect((await call("/equipment", { token })).status).toBe(200);
    must(await revokeToken(shed.member, { tokenId }));
    const answer = asDocumented("listEquipment", await call("/equipment", { token }));
    expect(answer.status).toBe(401);
    expect(answer.headers.get("www-authenticate")).toContain('error="invalid_token"');
  });

  it("may do what the token's scopes cover, and nothing else", async () => {
    const castingId = await describedCasting(shed.member);
    const by = { read: await tokenOf(shed.member, ["read"]), plan: await tokenOf(shed.member, ["plan"]), book: await tokenOf(shed.member, ["book"]) };
    const asks = [
      ["listEquipment", "read", (token: string) => call("/equipment", { token })],
      ["listBookings", "read", (token: string) => call("/bookings", { token })],
      ["planCasting", "plan", (token: string) => call("/plans", { token, json: PEBBLE })],
      ["findTime", "plan", (token: string) => call(`/castings/${castingId}/times`, { token })],
      ["createCasting", "book", (token: string) => call("/castings", { token, json: { title: "Gull", input: PEBBLE } })],
      ["bookRun", "book", (token: string) => call("/runs", { token, json: {} })],
    ] as const;
    for (const [id, needs, ask] of asks) {
      for (const scope of ["read", "plan", "book"] as const) {
        const answer = asDocumented(id, await ask(by[scope]));
        expect({ id, scope, refused: answer.status === 403 }).toEqual({ id, scope, refused: scope !== needs });
        if (scope !== needs) expect(answer.headers.get("www-authenticate")).toContain(`error="insufficient_scope", scope="${needs}"`);
      }
    }
  });

  it("may not do more than the owner's role allows, whatever the scopes", async () => {
    const token = await tokenOf(shed.assistant);
    expect(refusal(asDocumented("listCastings", await call("/castings", { token })))).toMatchObject({ status: 403, type: "not-allowed" });
    expect(refusal(asDocumented("createCasting", await call("/castings", { token, json: { title: "Gull", input: PEBBLE } })))).toMatchObject({ status: 403, type: "not-allowed" });
    expect((await call("/bookings", { token })).status).toBe(200);
  });

  it("of another workshop sees nothing of this one: its ids are not found, its lists are empty", async () => {
    const { castingId, firingId } = await bookedRun(shed.member, shed.southKiln.equipmentId, "Tern");
    const token = await tokenOf(stranger.manager);
    const move = { kilnId: shed.northKiln.equipmentId, kilnFrom: "2030-01-08T10:00:00Z", version: 1 };
    const asks = [
      ["findTime", await call(`/castings/${castingId}/times`, { token })],
      ["readRun", await call(`/runs/${firingId}`, { token })],
      ["findMove", await call(`/runs/${firingId}/times`, { token })],
      ["bookRun", await call("/runs", { token, json: { castingId, kilnId: move.kilnId, kilnFrom: move.kilnFrom } })],
      ["moveRun", await call(`/runs/${firingId}/move`, { token, json: { ...move, reason: "A reason that is long enough." } })],
      ["cancelRun", await call(`/runs/${firingId}/cancel`, { token, json: {} })],
    ] as const;
    for (const [id, answer] of asks) expect({ id, ...refusal(asDocumented(id, answer)) }).toMatchObject({ id, status: 404, type: "not-found" });
    for (const address of ["/bookings?to=2099-01-01", "/castings?all=true", "/equipment", "/lifts"]) {
      expect(JSON.stringify((await call(address, { token })).body)).not.toMatch(new RegExp(`Tern|${firingId}|${castingId}|${shed.northKiln.equipmentId}`));
    }
  });

  it("cannot book another workshop's kiln for a casting of their own", async () => {
    const castingId = await describedCasting(stranger.member);
    const answer = await call("/runs", { token: await tokenOf(stranger.member), json: { castingId, kilnId: shed.northKiln.equipmentId, kilnFrom: "2030-01-08T10:00:00Z" } });
    expect(refusal(asDocumented("bookRun", answer))).toMatchObject({ status: 404, fields: ["kilnId"] });
  });
});

function isSaturday(iso: string): boolean {
  return Temporal.Instant.from(iso).toZonedDateTimeISO("Europe/Copenhagen").dayOfWeek === 6;
}

describe("what stands in the way", () => {
  it("is said with who holds the kiln, until when, and the next start that would do", async () => {
    const mine = await describedCasting(shed.member, "Gull");
    const theirs = await describedCasting(shed.otherMember, "Plover");
    const offer = await firstOffer(shed.member, mine, shed.northKiln.equipmentId);
    expect((await call("/runs", { token: await tokenOf(shed.member), json: offer })).status).toBe(201);
    // A day later the trolley is free again and only the kiln is not.
    const kilnFrom = later(offer.kilnFrom, isSaturday(offer.kilnFrom) ? 2 : 1);
    const { steamFrom: _steam, ...rest } = { ...offer, castingId: theirs };
    const answer = asDocumented("bookRun", await call("/runs", { token: await tokenOf(shed.otherMember), json: { ...rest, kilnFrom } }));
    expect(refusal(answer)).toMatchObject({ status: 409, type: "conflict", codes: ["kiln-taken"], fields: ["kilnFrom"] });
    expect(answer.body).toMatchObject({ problems: [{ heldBy: [expect.stringContaining("Gull")], until: expect.stringMatching(/Z$/), nextKilnFrom: expect.stringMatching(/Z$/) }] });
    const next = (answer.body as { problems: { nextKilnFrom: string }[] }).problems[0]?.nextKilnFrom;
    expect((await call("/runs", { token: await tokenOf(shed.otherMember), json: { ...rest, kilnFrom: next } })).status).toBe(201);
  });

  it("is a conflict when the casting has a run, the run was changed meanwhile, or is no longer planned", async () => {
    const own = await makeWorkshop(database.ownerUrl);
    const token = await tokenOf(own.member);
    const { castingId, firingId } = await bookedRun(own.member, own.northKiln.equipmentId);
    const start = { kilnId: own.northKiln.equipmentId, kilnFrom: "2030-01-08T10:00:00Z" };
    expect(refusal(asDocumented("bookRun", await call("/runs", { token, json: { castingId, ...start } })))).toMatchObject({ status: 409, codes: ["already-booked"] });
    expect(refusal(asDocumented("findTime", await call(`/castings/${castingId}/times`, { token })))).toMatchObject({ status: 409, codes: ["already-booked"] });
    expect(refusal(asDocumented("moveRun", await call(`/runs/${firingId}/move`, { token, json: { ...start, version: 7 } })))).toMatchObject({ status: 409, codes: ["changed-meanwhile"] });
    expect((await call(`/runs/${firingId}/cancel`, { token, method: "POST" })).status).toBe(200);
    expect(refusal(asDocumented("cancelRun", await call(`/runs/${firingId}/cancel`, { token, json: {} })))).toMatchObject({ status: 409, codes: ["not-planned"] });
    expect(refusal(asDocumented("findMove", await call(`/runs/${firingId}/times`, { token })))).toMatchObject({ status: 404 });
  });

  it("names every field at fault with its value and what would be allowed", async () => {
    const token = await tokenOf(shed.member);
    const planned = asDocumented("planCasting", await call("/plans", { token, json: { ...PEBBLE, mould: { ...PEBBLE.mould, wallMm: 500 }, piece: { shape: "ball", sizeMm: [-1] } } }));
    expect(planned.body).toMatchObject({ status: 422, problems: expect.arrayContaining([expect.objectContaining({ field: "mould.wallMm", value: 500, allowed: expect.any(String) }), expect.objectContaining({ field: "piece.sizeMm.0", value: -1 })]) });
    const below = await call("/castings", { token, json: { title: "Gull", input: { ...PEBBLE, mould: { ...PEBBLE.mould, wallMm: 500 } } } });
    expect(refusal(asDocumented("createCasting", below))).toMatchObject({ status: 422, fields: ["input.mould.wallMm"] });
    const unknown = await call("/runs", { token, json: { castingId: "x", kilnFrom: "tomorrow", surprise: 1 } });
    expect(new Set(refusal(asDocumented("bookRun", unknown)).fields)).toEqual(new Set(["castingId", "kilnId", "kilnFrom", "surprise"]));
    for (const [id, address, field] of [["listBookings", "/bookings?from=2027-02-30", "from"], ["listBookings", "/bookings?limit=0", "limit"], ["listBookings", "/bookings?limit=1001", "limit"], ["listBookings", "/bookings?from=2027-05-01&to=2027-05-01", "to"], ["listBookings", "/bookings?after=x", "after"], ["listLifts", "/lifts?day=today", "day"], ["listLifts", "/lifts?when=2027-05-01", "when"], ["findTime", `/castings/${await describedCasting(shed.member)}/times?notBefore=2001-01-01`, "notBefore"]] as const) {
      expect({ address, ...refusal(asDocumented(id, await call(address, { token }))) }).toMatchObject({ address, status: 422, fields: [field] });
    }
  });

  it("does not read a mesh from the server's own files", async () => {
    const answer = await call("/plans", { token: await tokenOf(shed.member), json: { ...PEBBLE, piece: { shape: "mesh", file: "/etc/passwd" } } });
    expect(refusal(asDocumented("planCasting", answer))).toMatchObject({ status: 422, codes: ["mesh-not-read"], fields: ["piece.file"] });
  });
});

describe("a mesh", () => {
  it("of another person is not found, for a plan and for a casting, and its field is named as it was sent", async () => {
    const token = await tokenOf(shed.member);
    const input = { ...PEBBLE, piece: { shape: "mesh", meshId: randomUUID() } };
    expect(refusal(asDocumented("planCasting", await call("/plans", { token, json: input })))).toMatchObject({ status: 404, fields: ["piece.meshId"] });
    expect(refusal(asDocumented("createCasting", await call("/castings", { token, json: { title: "Gull", input } })))).toMatchObject({ status: 404, fields: ["input.piece.meshId"] });
  });
});

describe("a repeated request", () => {
  it("gets the first answer by its key, whatever the order of its keys; another one is refused by it", async () => {
    const token = await tokenOf(shed.member);
    const headers = { "Idempotency-Key": randomUUID() };
    const first = await call("/castings", { token, json: { title: "Gull", input: PEBBLE, neededBy: null }, headers });
    const again = await call("/castings", { token, json: { neededBy: null, input: PEBBLE, title: "Gull" }, headers });
    expect(first.status).toBe(201);
    expect(again.body).toEqual(first.body);
    for (const json of [{ title: "Tern", input: PEBBLE, neededBy: null }, { title: "Gull", input: PEBBLE }]) {
      expect(refusal(asDocumented("createCasting", await call("/castings", { token, json, headers })))).toMatchObject({ status: 422, type: "key-reused", fields: ["Idempotency-Key"] });
    }
    expect(refusal(asDocumented("bookRun", await call("/runs", { token, json: { castingId: randomUUID(), kilnId: randomUUID(), kilnFrom: "2030-01-08T10:00:00Z" }, headers })))).toMatchObject({ status: 422, type: "key-reused" });
  });

  it("under another person's same key is another request", async () => {
    const headers = { "Idempotency-Key": randomUUID() };
    const json = { title: "Gull", input: PEBBLE };
    const one = await call("/castings", { token: await tokenOf(shed.member), json, headers });
    const other = await call("/castings", { token: await tokenOf(shed.otherMember), json, headers });
    expect([one.status, other.status]).toEqual([201, 201]);
    expect(other.body).not.toEqual(one.body);
  });

  it("does it once although many arrive at the same instant", async () => {
    const own = await makeWorkshop(database.ownerUrl);
    const token = await tokenOf(own.member);
    const offer = await firstOffer(own.member, await describedCasting(own.member), own.northKiln.equipmentId);
    const headers = { "Idempotency-Key": randomUUID() };
    const answers = await Promise.all(Array.from({ length: 8 }, () => call("/runs", { token, json: offer, headers })));
    expect(new Set(answers.map(({ status, body }) => JSON.stringify([status, body]))).size).toBe(1);
    expect(answers[0]?.status).toBe(201);
  });

  it("may be tried again with the same key after it was refused", async () => {
    const token = await tokenOf(shed.member);
    const headers = { "Idempotency-Key": randomUUID() };
    const refused = await call("/castings", { token, json: { title: "Gull", input: { ...PEBBLE, processC: 5000 } }, headers });
    expect(refused.status).toBe(422);
    expect((await call("/castings", { token, json: { title: "Gull", input: PEBBLE }, headers })).status).toBe(201);
  });

  it.each([[7, 400], [8, 201], [200, 201], [201, 400]])("has a key of %i characters: %i", async (length, status) => {
    const answer = await call("/castings", { token: await tokenOf(shed.member), json: { title: "Gull", input: PEBBLE }, headers: { "Idempotency-Key": "k".repeat(length) } });
    expect(asDocumented("createCasting", answer).status).toBe(status);
  });
});

describe("what is sent", () => {
  const json = { "Content-Type": "application/json" };
  it.each([
    ["no JSON", json, "{", 400], ["nothing where JSON was promised", json, "", 400], ["bytes that are no UTF-8", json, new Uint8Array([34, 255, 34]), 400],
    ["a form", { "Content-Type": "application/x-www-form-urlencoded" }, "a=1", 415], ["text", { "Content-Type": "text/plain" }, "{}", 415],
    ["another charset", { "Content-Type": "application/json; charset=utf-16" }, "{}", 415], ["something compressed", { ...json, "Content-Encoding": "gzip" }, "{}", 415],
    ["an array", json, "[]", 422], ["null", json, "null", 422], ["a prototype", json, '{"__proto__":{"glass":1}}', 422],
    ["the deepest that is read", json, "[".repeat(MOST_DEPTH) + "]".repeat(MOST_DEPTH), 422], ["one deeper", json, "[".repeat(MOST_DEPTH + 1) + "]".repeat(MOST_DEPTH + 1), 400],
    ["one that would overflow a stack", json, "[".repeat(30_000) + "]".repeat(30_000), 400],
    ["the largest body", json, `"${"x".repeat(MOST_BODY_BYTES - 2)}"`, 422], ["one byte more", json, `"${"x".repeat(MOST_BODY_BYTES - 1)}"`, 413],
    ["too much that lies about its length", { ...json, "Content-Length": "2" }, `"${"x".repeat(MOST_BODY_BYTES)}"`, 413],
  ])("%s", async (_what, headers, raw, status) => {
    const answer = asDocumented("planCasting", await call("/plans", { token: await tokenOf(await nobodyBusy()), headers, raw }));
    expect(answer.status).toBe(status);
  });

  let fresh: MadeWorkshop["member"] | undefined;
  async function nobodyBusy() {
    fresh ??= (await makeWorkshop(database.ownerUrl)).member;
    return fresh;
  }

  it("to an address with another method is told what is allowed", async () => {
    for (const [address, method, allow] of [["/equipment", "POST", "GET, HEAD, OPTIONS"], ["/runs", "GET", "POST, OPTIONS"], ["/runs", "DELETE", "POST, OPTIONS"], ["/castings", "PUT", "GET, HEAD, POST, OPTIONS"]] as const) {
      const answer = await call(address, { method });
      expect({ address, method, ...refusal(answer), allow: answer.headers.get("allow") }).toMatchObject({ address, method, status: 405, type: "method-not-allowed", allow });
    }
    const options = await call("/runs", { method: "OPTIONS", headers: { Origin: "https://elsewhere.example", "Access-Control-Request-Method": "POST" } });
    expect([options.status, options.headers.get("allow")]).toEqual([204, "POST, OPTIONS"]);
    expect([...options.headers.keys()].filter((name) => name.startsWith("access-control"))).toEqual([]);
  });

  it("to an address that is none, or with an id that can be none, is not found", async () => {
    const token = await tokenOf(shed.member);
    for (const address of ["", "/kilns", "/runs/1", `/runs/${randomUUID()}`, "/castings/%27%3B--/times", "/runs/a/b/c", "/problems/none"]) {
      expect({ address, ...refusal(await call(address, { token })) }).toMatchObject({ address, status: 404, type: "not-found" });
    }
  });

  it("too often is told when to come back", async () => {
    const token = await tokenOf(stranger.member);
    const answers = await Promise.all(Array.from({ length: 340 }, () => call("/lifts", { token })));
    const slow = answers.find(({ status }) => status === 429);
    if (slow === undefined) throw new Error("never too fast");
    expect(refusal(asDocumented("listLifts", slow))).toMatchObject({ type: "too-fast" });
    expect(Number(slow.headers.get("retry-after"))).toBeGreaterThanOrEqual(1);
  });
});

describe("what describes the interface", () => {
  it("is open to everybody: the description itself and every kind of refusal", async () => {
    expect((await call("/openapi.json")).body).toMatchObject({ openapi: "3.1.1", paths: { "/runs": {} } });
    const refused = await call("/equipment");
    const { pathname } = new URL(Document.parse(refused.body).type);
    expect((await call(pathname.replace("/api/v1", ""))).body).toMatchObject({ type: Document.parse(refused.body).type, status: 401 });
  });
});
