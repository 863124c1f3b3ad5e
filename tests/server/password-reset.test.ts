import pg from "pg";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { auditRows } from "@/tests/helpers/audit-rows";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, SCENARIO_PASSWORD, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { MAX_LIVE_RESETS, requestReset } = await import("@/lib/server/accounts/request-reset");
const { resetPassword, resetState } = await import("@/lib/server/accounts/reset-password");
const { signIn } = await import("@/lib/server/sign-in");
const { withLinkToken } = await import("@/lib/server/tokens");
const owner = new pg.Client({ connectionString: database.ownerUrl });
await owner.connect();

afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

const NEW_PASSWORD = "a pot above the mould";
let made: MadeWorkshop;
beforeEach(async () => {
  made = await makeWorkshop(database.ownerUrl);
  await owner.query("DELETE FROM account_mail");
});

/** The mails that wait to be sent, as they will be read. */
async function mails(): Promise<readonly { readonly to: string; readonly text: string }[]> {
  const { rows } = await owner.query("SELECT mail_id, kind, address, body FROM account_mail ORDER BY created_at");
  return rows.map(({ mail_id: mailId, kind, address, body }) => ({ to: address, text: withLinkToken({ kind, body, mailId }) }));
}

async function mailedToken(): Promise<string> {
  await requestReset(made.member.email);
  return /\/reset\/([\w-]+)/.exec((await mails()).at(-1)?.text ?? "")?.[1] ?? "";
}

/** Makes every open link of the member end this many seconds from now. */
async function endsIn(seconds: number): Promise<void> {
  await owner.query("UPDATE password_reset SET expires_at = now() + make_interval(secs => $2) WHERE person_id = $1", [made.member.personId, seconds]);
}

const codeOf = (outcome: Awaited<ReturnType<typeof resetPassword>>) => (outcome.ok ? "ok" : outcome.problems[0].code);

describe("asking for a new password", () => {
  it("mails one link to whoever has the address, typed in any case", async () => {
    await requestReset(` ${made.member.email.toUpperCase()}`);
    expect(await mails()).toHaveLength(1);
    expect((await mails())[0]).toMatchObject({ to: made.member.email, text: expect.stringContaining("http://localhost:3000/reset/") });
  });

  it("keeps only the hash of the link, with the mail and with its job too", async () => {
    const token = await mailedToken();
    expect(token.length).toBeGreaterThan(40);
    for (const table of ["password_reset", "account_mail", "graphile_worker._private_jobs"]) {
      const { rows } = await owner.query(`SELECT 1 FROM ${table} AS r WHERE r::text LIKE '%' || $1 || '%'`, [token]);
      expect({ table, rows }).toEqual({ table, rows: [] });
    }
  });

  it.each(["nobody@saltmarsh.example", "not an address", "", null, 7])("does nothing, and says nothing else, for %j", async (typed) => {
    expect(await requestReset(typed)).toBeUndefined();
    expect(await mails()).toEqual([]);
  });

  it("sends up to the limit within the hour, no more, and again when the links are over", async () => {
    for (let i = 0; i < MAX_LIVE_RESETS + 2; i++) await requestReset(made.member.email);
    expect(await mails()).toHaveLength(MAX_LIVE_RESETS);
    await endsIn(-1);
    await requestReset(made.member.email);
    expect(await mails()).toHaveLength(MAX_LIVE_RESETS + 1);
  });
});

describe("setting a new password by the mailed link", () => {
  it("works once; the old password no longer does, and every session is ended", async () => {
    const token = await mailedToken();
    expect(await resetState(token)).toBe("usable");
    expect(await resetPassword({ token, password: NEW_PASSWORD })).toEqual({ ok: true, value: { email: made.member.email } });
    expect(await signIn(made.member.email, SCENARIO_PASSWORD, "unknown")).toBeUndefined();
    expect(await signIn(made.member.email, NEW_PASSWORD, "unknown")).toMatchObject({ sessionVersion: 2 });
    expect(await resetState(token)).toBe("used");
    expect(codeOf(await resetPassword({ token, password: "another password" }))).toBe("link-used");
    expect(await auditRows(database.ownerUrl, made.workshopId)).toMatchObject([{ action: "reset-password", member_id: made.member.memberId }]);
  });

  it("spends the person's other open links as well", async () => {
    const earlier = await mailedToken();
    await resetPassword({ token: await mailedToken(), password: NEW_PASSWORD });
    expect(codeOf(await resetPassword({ token: earlier, password: "another password" }))).toBe("link-used");
  });

  it("lets a person in who was locked out by failed attempts", async () => {
    for (let i = 0; i < 6; i++) await signIn(made.member.email, "wrong", "unknown");
    expect(await signIn(made.member.email, SCENARIO_PASSWORD, "unknown")).toBe("limited");
    await resetPassword({ token: await mailedToken(), password: NEW_PASSWORD });
    expect(await signIn(made.member.email, NEW_PASSWORD, "unknown")).toMatchObject({ email: made.member.email });
  });

  it("is refused after the hour, not before it", async () => {
    const token = await mailedToken();
    await endsIn(-1);
    expect(await resetState(token)).toBe("expired");
    expect(codeOf(await resetPassword({ token, password: NEW_PASSWORD }))).toBe("link-expired");
    await endsIn(5);
    expect(codeOf(await resetPassword({ token, password: NEW_PASSWORD }))).toBe("ok");
  });

  it("is refused for a link nobody was sent", async () => {
    expect(await resetState("made-up")).toBe("unknown");
    expect(codeOf(await resetPassword({ token: "made-up", password: NEW_PASSWORD }))).toBe("link-unknown");
  });

  it("asks for ten characters, says so, and leaves the link usable", async () => {
    const token = await mailedToken();
    const refused = await resetPassword({ token, password: "nine char" });
    expect(refused).toMatchObject({ ok: false, problems: [{ field: "password", message: expect.stringContaining("at least 10 characters") }] });
    expect(JSON.stringify(refused)).not.toContain("nine char");
    expect(codeOf(await resetPassword({ token, password: "ten chars!" }))).toBe("ok");
  });

  it("lets one of two uses at the same instant win", async () => {
    const token = await mailedToken();
    const passwords = ["the first password", "the second password"];
    const outcomes = await Promise.all(passwords.map((password) => resetPassword({ token, password })));
    expect(outcomes.map(codeOf).sort()).toEqual(["link-used", "ok"]);
    const signIns = await Promise.all(passwords.map((password) => signIn(made.member.email, password, "unknown")));
    expect(signIns.map((known) => typeof known === "object")).toEqual(outcomes.map((outcome) => outcome.ok));
  });
});
