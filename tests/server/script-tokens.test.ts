import pg from "pg";
import { Temporal } from "temporal-polyfill";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
process.env["LEHRBOOK_API_PER_MINUTE"] = "120";
const { closeDatabase, inWorkshop } = await import("@/lib/server/db");
const { atInstant } = await import("@/lib/server/clock");
const { makeToken, MOST_TOKENS } = await import("@/lib/server/commands/make-token");
const { revokeToken } = await import("@/lib/server/commands/revoke-token");
const { deactivateMember } = await import("@/lib/server/commands/deactivate-member");
const { bearerOf } = await import("@/lib/server/api/bearer");
const { codeOf, must } = await import("@/tests/helpers/booking");

/** Half a minute's worth at 120 a minute. */
const BURST = 60;
const AT = Temporal.Instant.from("2027-03-11T09:00:00Z");
const at = (seconds: number) => AT.add({ milliseconds: Math.round(seconds * 1000) });

let owner: pg.Client;
let shed: MadeWorkshop;

beforeAll(async () => {
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
  shed = await makeWorkshop(database.ownerUrl);
});
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

async function made(who = shed.member, scopes = ["read"]) {
  return must(await makeToken(who, { name: "Kiln log", scopes }));
}

const ask = (token: string, seconds = 0) => atInstant(at(seconds), () => bearerOf(`Bearer ${token}`));

describe("a script's token", () => {
  it("is shown once: the database keeps its hash and its first characters only", async () => {
    const { tokenId, token } = await made();
    expect(token).toMatch(/^lbk_[\w-]{43}$/);
    const { rows } = await owner.query("SELECT t::text AS whole, prefix, token_hash FROM access_token t WHERE token_id = $1", [tokenId]);
    expect(rows[0].whole).not.toContain(token);
    expect(token.startsWith(rows[0].prefix)).toBe(true);
    expect(rows[0].prefix).toHaveLength(10);
    const record = await owner.query("SELECT a::text AS whole FROM audit a WHERE workshop_id = $1", [shed.workshopId]);
    const receipts = await owner.query("SELECT 1 FROM receipt WHERE workshop_id = $1", [shed.workshopId]);
    expect(record.rows.filter(({ whole }) => whole.includes(token))).toEqual([]);
    expect(receipts.rows).toEqual([]);
  });

  it("opens its owner's workshop with its scopes, in the order of the scopes", async () => {
    const { token } = await made(shed.member, ["book", "read"]);
    const bearer = await ask(token);
    expect(bearer).toMatchObject({ is: "known", scopes: ["read", "book"], who: { memberId: shed.member.memberId, workshopId: shed.workshopId, timeZone: "Europe/Copenhagen", roles: ["member"], token: { name: "Kiln log" } } });
  });

  it.each([["nothing", null], ["another scheme", "Basic dXNlcjpwYXNz"], ["a session's cookie", "next-auth.session-token=x"], ["no token", "Bearer "], ["a token of elsewhere", "Bearer abc"], ["a token that is none", `Bearer lbk_${"x".repeat(43)}`], ["two", "Bearer lbk_a lbk_b"], ["a quote", "Bearer lbk_'; DROP TABLE person--"]])("opens nothing with %s", async (_what, header) => {
    expect((await bearerOf(header)).is).toBe(header === null ? "nobody" : "worthless");
  });

  it("is worth nothing from the request after it was revoked, and is revoked once", async () => {
    const { token, tokenId } = await made();
    expect((await ask(token)).is).toBe("known");
    must(await revokeToken(shed.member, { tokenId }));
    expect((await ask(token)).is).toBe("worthless");
    expect(codeOf(await revokeToken(shed.member, { tokenId }))).toBe("already-revoked");
  });

  it("is revoked by its owner only", async () => {
    const { token, tokenId } = await made();
    const stranger = await makeWorkshop(database.ownerUrl);
    for (const who of [shed.otherMember, shed.manager, stranger.manager]) expect(codeOf(await revokeToken(who, { tokenId }))).toBe("not-found");
    expect((await ask(token)).is).toBe("known");
  });

  it("is worth nothing once its owner has left the workshop", async () => {
    const own = await makeWorkshop(database.ownerUrl);
    const { token } = await made(own.member);
    must(await deactivateMember(own.manager, { memberId: own.member.memberId }));
    expect((await ask(token)).is).toBe("worthless");
  });

  it("can be made up to the most, and not beyond; a revoked one makes room", async () => {
    const own = await makeWorkshop(database.ownerUrl);
    let last = "";
    for (let i = 0; i < MOST_TOKENS; i += 1) last = (await made(own.member)).tokenId;
    expect(codeOf(await makeToken(own.member, { name: "One more", scopes: ["read"] }))).toBe("too-many-tokens");
    must(await revokeToken(own.member, { tokenId: last }));
    await made(own.member);
  });

  it("makes no other token", async () => {
    const { token } = await made(shed.member, ["book"]);
    const bearer = await ask(token);
    if (bearer.is !== "known") throw new Error(bearer.is);
    expect(codeOf(await makeToken(bearer.who, { name: "Another", scopes: ["book"] }))).toBe("not-allowed");
  });

  it.each([["no name", { name: " ", scopes: ["read"] }], ["no scope", { name: "x", scopes: [] }], ["an unknown scope", { name: "x", scopes: ["everything"] }], ["61 characters", { name: "x".repeat(61), scopes: ["read"] }]])("is refused with %s", async (_what, input) => {
    expect((await makeToken(shed.member, input)).ok).toBe(false);
  });

  it("remembers when it was last used, to the minute", async () => {
    const { token, tokenId } = await made();
    const used = async () => (await owner.query("SELECT last_used_at FROM access_token WHERE token_id = $1", [tokenId])).rows[0].last_used_at?.toISOString();
    expect(await used()).toBeUndefined();
    await ask(token, 0);
    await ask(token, 60);
    expect(await used()).toBe("2027-03-11T09:00:00.000Z");
    await ask(token, 61);
    expect(await used()).toBe("2027-03-11T09:01:01.000Z");
  });
});

describe("a token's allowance", () => {
  it("lets a burst through, and then says how long to wait", async () => {
    const { token } = await made();
    for (let i = 0; i < BURST; i += 1) expect((await ask(token)).is).toBe("known");
    expect(await ask(token)).toEqual({ is: "too-fast", waitSeconds: 1 });
  });

  it("comes back at two a second: not just before, and at that time", async () => {
    const { token } = await made();
    for (let i = 0; i < BURST; i += 1) await ask(token);
    expect((await ask(token, 0.49)).is).toBe("too-fast");
    expect((await ask(token, 0.5)).is).toBe("known");
    expect((await ask(token, 0.5)).is).toBe("too-fast");
    expect((await ask(token, 30.4)).is).toBe("known");
  });

  it("holds no more than a burst, however long it was left alone", async () => {
    const { token } = await made();
    await ask(token);
    let known = 0;
    while ((await ask(token, 86_400)).is === "known") known += 1;
    expect(known).toBe(BURST);
  });

  it("gives nothing back twice when another process's clock is behind", async () => {
    const { token } = await made();
    for (let i = 0; i < BURST; i += 1) await ask(token, 100);
    for (const seconds of [0, 50, 100, 0]) expect((await ask(token, seconds)).is).toBe("too-fast");
  });

  it("is one for all who ask at the same instant", async () => {
    const { token } = await made();
    const answers = await Promise.all(Array.from({ length: BURST + 15 }, () => ask(token)));
    expect(answers.filter(({ is }) => is === "known")).toHaveLength(BURST);
  });

  it("is each token's own", async () => {
    const [one, other] = [await made(), await made()];
    for (let i = 0; i <= BURST; i += 1) await ask(one.token);
    expect((await ask(other.token)).is).toBe("known");
  });
});

describe("what the lookup leaves open", () => {
  it("names no workshop beyond its own statement", async () => {
    const { token } = await made();
    const app = new pg.Client({ connectionString: database.appUrl });
    await app.connect();
    const { createHash } = await import("node:crypto");
    const hash = createHash("sha256").update(token).digest("hex");
    await app.query("BEGIN");
    expect((await app.query("SELECT member_id FROM use_token($1, now(), 60, 2)", [hash])).rows).toHaveLength(1);
    expect((await app.query("SELECT 1 FROM member")).rows).toEqual([]);
    expect((await app.query("SELECT 1 FROM access_token")).rows).toEqual([]);
    await app.query("ROLLBACK");
    await app.end();
  });

  it("cannot be changed by the application into a token of more: neither scopes nor owner", async () => {
    for (const column of ["scopes", "member_id", "token_hash"] as const) {
      const change = inWorkshop(shed.workshopId, (tx) => tx.$executeRawUnsafe(`UPDATE access_token SET ${column} = ${column}`));
      await expect(change, column).rejects.toThrow(/permission denied/);
    }
  });
});
