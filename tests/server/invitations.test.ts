import pg from "pg";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { auditRows } from "@/tests/helpers/audit-rows";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, SCENARIO_PASSWORD, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { acceptInvitation } = await import("@/lib/server/accounts/accept-invitation");
const { readInvitation } = await import("@/lib/server/accounts/read-invitation");
const { invitePerson } = await import("@/lib/server/commands/invite-person");
const { withdrawInvitation } = await import("@/lib/server/commands/withdraw-invitation");
const { membershipsOf } = await import("@/lib/server/session");
const { signIn } = await import("@/lib/server/sign-in");
const owner = new pg.Client({ connectionString: database.ownerUrl });
await owner.connect();

afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

const NOBODY = { personId: null, address: "unknown" };
const PASSWORD = "wax runs out with steam";
let made: MadeWorkshop;
let email: string;
let count = 0;
beforeEach(async () => {
  made = await makeWorkshop(database.ownerUrl);
  email = `liv.${(count += 1)}@saltmarsh.example`;
});

async function invite(to = email, roles: readonly string[] = ["member"]): Promise<{ token: string; invitationId: string }> {
  const invited = await invitePerson(made.manager, { name: "Liv Holm", email: to, roles });
  if (!invited.ok) throw new Error(invited.problems[0].message);
  return { token: invited.value.link.split("/").at(-1) ?? "", invitationId: invited.value.invitationId };
}

const codeOf = (outcome: { ok: true } | { ok: false; problems: readonly { code: string }[] }) => (outcome.ok ? "ok" : outcome.problems[0]?.code);
const peopleWith = async (address: string) => (await owner.query("SELECT person_id FROM person WHERE email = $1", [address])).rowCount;
const record = async () => (await auditRows(database.ownerUrl, made.workshopId)).map((row) => row.action);

describe("inviting", () => {
  it("makes a link that names the workshop, the person and the roles, and keeps only its hash", async () => {
    const { token } = await invite(email, ["member", "assistant"]);
    expect(await readInvitation(token)).toMatchObject({
      state: "open", workshopName: "Saltmarsh Glass Sheds", name: "Liv Holm", email, roles: ["member", "assistant"], personId: null,
    });
    expect(JSON.stringify(await auditRows(database.ownerUrl, made.workshopId))).not.toContain(token);
  });

  it("is refused for who is a member, who is invited already, no address, no name and no role", async () => {
    await invite();
    const codes = await Promise.all(
      [
        { name: "Jonas", email: made.member.email.toUpperCase(), roles: ["member"] },
        { name: "Liv", email, roles: ["member"] },
        { name: "Liv", email: "liv", roles: ["member"] },
        { name: "  ", email: "liv@saltmarsh.example", roles: ["member"] },
        { name: "Liv", email: "liv@saltmarsh.example", roles: [] },
        { name: "Liv", email: "liv@saltmarsh.example", roles: ["owner"] },
      ].map(async (input) => codeOf(await invitePerson(made.manager, input))),
    );
    expect(codes).toEqual(["already-member", "already-invited", "not-allowed", "out-of-range", "out-of-range", "not-one-of"]);
    expect(await record()).toEqual(["invite-person"]);
  });
});

describe("accepting an invitation", () => {
  it("makes an account and a member of a new person, once, with lines in the record", async () => {
    const { token, invitationId } = await invite();
    const joined = await acceptInvitation({ token, password: PASSWORD }, NOBODY);
    expect(joined).toMatchObject({ ok: true, value: { email, workshopId: made.workshopId } });
    const known = await signIn(email, PASSWORD, "unknown");
    const [who] = typeof known === "object" ? await membershipsOf(known.personId) : [];
    expect(who).toMatchObject({ name: "Liv Holm", email, roles: ["member"], workshopId: made.workshopId });
    expect(codeOf(await acceptInvitation({ token, password: PASSWORD }, NOBODY))).toBe("invitation-used");
    expect(await auditRows(database.ownerUrl, made.workshopId)).toMatchObject([
      { action: "invite-person", subject_id: invitationId, member_id: made.manager.memberId },
      { action: "accept-invitation", member_id: who?.memberId, after: { roles: ["member"], invitationId } },
    ]);
  });

  it("asks a new person for ten characters, and leaves the invitation open", async () => {
    const { token } = await invite();
    for (const password of ["", "nine char", undefined]) {
      expect(await acceptInvitation({ token, password }, NOBODY)).toMatchObject({ ok: false, problems: [{ field: "password" }] });
    }
    expect((await readInvitation(token))?.state).toBe("open");
    expect(await peopleWith(email)).toBe(0);
  });

  it("asks a person with an account elsewhere for its password, and makes no second account", async () => {
    const elsewhere = await makeWorkshop(database.ownerUrl, { name: "Ebb Street Casters" });
    const { token } = await invite(elsewhere.member.email);
    expect(codeOf(await acceptInvitation({ token, password: PASSWORD }, NOBODY))).toBe("wrong-password");
    expect(codeOf(await acceptInvitation({ token }, { ...NOBODY, personId: made.member.personId }))).toBe("missing");
    expect(codeOf(await acceptInvitation({ token, password: SCENARIO_PASSWORD }, NOBODY))).toBe("ok");
    expect((await membershipsOf(elsewhere.member.personId)).map((who) => who.workshopName)).toEqual(["Ebb Street Casters", "Saltmarsh Glass Sheds"]);
  });

  it("needs no password from that person when they are signed in", async () => {
    const elsewhere = await makeWorkshop(database.ownerUrl);
    const { token } = await invite(elsewhere.member.email);
    expect(codeOf(await acceptInvitation({ token }, { ...NOBODY, personId: elsewhere.member.personId }))).toBe("ok");
  });

  it("counts wrong passwords of an existing account like failed sign-ins", async () => {
    const elsewhere = await makeWorkshop(database.ownerUrl);
    const { token } = await invite(elsewhere.member.email);
    for (let i = 0; i < 5; i++) await acceptInvitation({ token, password: PASSWORD }, NOBODY);
    expect(codeOf(await acceptInvitation({ token, password: SCENARIO_PASSWORD }, NOBODY))).toBe("limited");
  });

  it("is refused after seven days, not before", async () => {
    const { token, invitationId } = await invite();
    const endsIn = (seconds: number) =>
      owner.query("UPDATE invitation SET expires_at = now() + make_interval(secs => $2) WHERE invitation_id = $1", [invitationId, seconds]);
    const { rows } = await owner.query("SELECT extract(epoch FROM expires_at - created_at)::int AS s FROM invitation WHERE invitation_id = $1", [invitationId]);
    expect(rows[0].s).toBe(7 * 24 * 3600);
    await endsIn(-1);
    expect(codeOf(await acceptInvitation({ token, password: PASSWORD }, NOBODY))).toBe("invitation-expired");
    await endsIn(5);
    expect(codeOf(await acceptInvitation({ token, password: PASSWORD }, NOBODY))).toBe("ok");
  });

  it("is refused once withdrawn, and says so; a used one cannot be withdrawn", async () => {
    const { token, invitationId } = await invite();
    expect(codeOf(await withdrawInvitation(made.manager, { invitationId, reason: "Moved away" }))).toBe("ok");
    expect(codeOf(await acceptInvitation({ token, password: PASSWORD }, NOBODY))).toBe("invitation-withdrawn");
    expect(codeOf(await withdrawInvitation(made.manager, { invitationId }))).toBe("invitation-withdrawn");
    const again = await invite();
    await acceptInvitation({ token: again.token, password: PASSWORD }, NOBODY);
    expect(codeOf(await withdrawInvitation(made.manager, { invitationId: again.invitationId }))).toBe("invitation-used");
    expect(await record()).toEqual(["invite-person", "withdraw-invitation", "invite-person", "accept-invitation"]);
  });

  it("is refused for a link that is none", async () => {
    expect(await readInvitation("made-up")).toBeNull();
    expect(codeOf(await acceptInvitation({ token: "made-up", password: PASSWORD }, NOBODY))).toBe("invitation-unknown");
  });

  it("lets one of many uses at the same instant win, with one account and one member", async () => {
    const { token } = await invite();
    const passwords = Array.from({ length: 6 }, (_, i) => `${PASSWORD} ${i}`);
    const outcomes = await Promise.all(passwords.map((password) => acceptInvitation({ token, password }, NOBODY)));
    const codes = outcomes.map(codeOf);
    expect(codes.filter((code) => code === "ok")).toHaveLength(1);
    expect(new Set(codes)).toEqual(new Set(["ok", "invitation-used"]));
    expect(await peopleWith(email)).toBe(1);
    expect(await signIn(email, passwords[codes.indexOf("ok")] ?? "", "unknown")).toMatchObject({ email });
    expect(await record()).toEqual(["invite-person", "accept-invitation"]);
  });

  it("makes one account when two workshops' invitations are accepted at the same instant", async () => {
    const other = await makeWorkshop(database.ownerUrl);
    const here = await invite();
    const there = await invitePerson(other.manager, { name: "Liv Holm", email, roles: ["member"] });
    const tokens = [here.token, there.ok ? (there.value.link.split("/").at(-1) ?? "") : ""];
    const outcomes = await Promise.all(tokens.map((token) => acceptInvitation({ token, password: PASSWORD }, NOBODY)));
    expect(outcomes.some((outcome) => outcome.ok)).toBe(true);
    expect(await peopleWith(email)).toBe(1);
    const refused = outcomes.findIndex((outcome) => !outcome.ok);
    if (refused >= 0) {
      expect(codeOf(outcomes[refused] ?? { ok: true })).toBe("account-just-made");
      expect(codeOf(await acceptInvitation({ token: tokens[refused], password: PASSWORD }, NOBODY))).toBe("ok");
    }
  });
});
