import { afterAll, beforeEach, describe, expect, it, vi } from "vitest";
import { auditRows } from "@/tests/helpers/audit-rows";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, SCENARIO_PASSWORD, type MadeWorkshop } from "@/tests/helpers/scenario";

const token: { now: unknown } = { now: null };
const chosen: { workshop: string | undefined } = { workshop: undefined };
vi.mock("next-auth", () => ({ getServerSession: async () => token.now }));
vi.mock("next/headers", () => ({ cookies: async () => ({ get: () => (chosen.workshop === undefined ? undefined : { value: chosen.workshop }) }) }));
vi.mock("next/server", () => ({ connection: async () => undefined }));

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { changePassword } = await import("@/lib/server/accounts/change-password");
const { endSessions } = await import("@/lib/server/accounts/end-sessions");
const { deactivateMember } = await import("@/lib/server/commands/deactivate-member");
const { currentPerson, currentWho } = await import("@/lib/server/session");
const { signIn } = await import("@/lib/server/sign-in");

afterAll(async () => {
  await closeDatabase();
  await database.drop();
});

let made: MadeWorkshop;
beforeEach(async () => {
  made = await makeWorkshop(database.ownerUrl);
  token.now = { personId: made.member.personId, sessionVersion: 1 };
  chosen.workshop = undefined;
});

const member = () => ({ personId: made.member.personId, email: made.member.email });

describe("a session", () => {
  it("stands for the person while its version is theirs", async () => {
    expect(await currentPerson()).toEqual(member());
    expect(await currentWho()).toEqual(made.member);
  });

  it.each([
    ["of an earlier version", { sessionVersion: 0 }],
    ["of a version still to come", { sessionVersion: 2 }],
    ["of nobody", { personId: "0b0e7d0c-6a3a-4c42-9a5f-1f2a3b4c5d6e" }],
    ["without a version", { sessionVersion: undefined }],
    ["with an id that is none", { personId: "1 OR 1=1" }],
  ])("%s stands for nobody", async (_name, change) => {
    token.now = { personId: made.member.personId, sessionVersion: 1, ...change };
    expect(await currentPerson()).toBeNull();
    expect(await currentWho()).toBeNull();
  });

  it("ends everywhere when the person says so, with a line in the record", async () => {
    await endSessions(made.member.personId);
    expect(await currentPerson()).toBeNull();
    token.now = { personId: made.member.personId, sessionVersion: 2 };
    expect(await currentPerson()).toEqual(member());
    expect(await auditRows(database.ownerUrl, made.workshopId)).toMatchObject([{ action: "end-sessions", member_id: made.member.memberId }]);
  });

  it("leads nowhere once the membership is ended, without waiting for it to run out", async () => {
    expect(await deactivateMember(made.manager, { memberId: made.member.memberId })).toMatchObject({ ok: true });
    expect(await currentPerson()).toEqual(member());
    expect(await currentWho()).toBeNull();
  });

  it("works in a chosen workshop only when the person belongs to it", async () => {
    chosen.workshop = (await makeWorkshop(database.ownerUrl, { name: "Ebb Street Casters" })).workshopId;
    expect(await currentWho()).toEqual(made.member);
  });
});

describe("changing the password", () => {
  const NEW_PASSWORD = "kiln door is closed";

  it("needs the old one, ends every session and leaves a line in the record", async () => {
    expect(await changePassword(member(), { oldPassword: SCENARIO_PASSWORD, password: NEW_PASSWORD }, "unknown")).toMatchObject({ ok: true });
    expect(await currentPerson()).toBeNull();
    expect(await signIn(made.member.email, NEW_PASSWORD, "unknown")).toMatchObject({ sessionVersion: 2 });
    expect(await auditRows(database.ownerUrl, made.workshopId)).toMatchObject([{ action: "change-password" }]);
  });

  it("is refused with a wrong old one or a short new one, and changes nothing", async () => {
    const wrong = await changePassword(member(), { oldPassword: "not it at all", password: NEW_PASSWORD }, "unknown");
    const short = await changePassword(member(), { oldPassword: SCENARIO_PASSWORD, password: "too short" }, "unknown");
    expect(wrong).toMatchObject({ ok: false, problems: [{ field: "oldPassword" }] });
    expect(short).toMatchObject({ ok: false, problems: [{ field: "password" }] });
    expect(await currentPerson()).toEqual(member());
    expect(await auditRows(database.ownerUrl, made.workshopId)).toEqual([]);
  });

  it("counts wrong old passwords like failed sign-ins", async () => {
    const guess = () => changePassword(member(), { oldPassword: "not it at all", password: NEW_PASSWORD }, "unknown");
    for (let i = 0; i < 5; i++) expect(await guess()).toMatchObject({ ok: false, problems: [{ code: "wrong-password" }] });
    expect(await changePassword(member(), { oldPassword: SCENARIO_PASSWORD, password: NEW_PASSWORD }, "unknown")).toMatchObject({
      ok: false,
      problems: [{ code: "limited", message: expect.stringContaining("15 minutes") }],
    });
  });
});
