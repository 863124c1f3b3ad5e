import { randomUUID } from "node:crypto";
import pg from "pg";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { auditRows } from "@/tests/helpers/audit-rows";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { changeRoles } = await import("@/lib/server/commands/change-roles");
const { deactivateMember } = await import("@/lib/server/commands/deactivate-member");
const { reactivateMember } = await import("@/lib/server/commands/reactivate-member");
const { membershipsOf } = await import("@/lib/server/session");
const owner = new pg.Client({ connectionString: database.ownerUrl });
await owner.connect();

afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

let made: MadeWorkshop;
beforeEach(async () => {
  made = await makeWorkshop(database.ownerUrl);
});

const codeOf = (outcome: { ok: true } | { ok: false; problems: readonly { code: string }[] }) => (outcome.ok ? "ok" : outcome.problems[0]?.code);
const record = () => auditRows(database.ownerUrl, made.workshopId);

async function managersNow(): Promise<number> {
  const { rows } = await owner.query("SELECT count(*)::int AS n FROM member WHERE workshop_id = $1 AND active AND 'manager' = ANY (roles)", [made.workshopId]);
  return rows[0].n;
}

describe("changing roles", () => {
  it("counts from the next request on, tells the person, and is recorded with before and after", async () => {
    const { memberId, personId } = made.member;
    expect(await changeRoles(made.manager, { memberId, roles: ["assistant", "member", "member"] })).toMatchObject({ ok: true });
    expect((await membershipsOf(personId))[0]?.roles.toSorted()).toEqual(["assistant", "member"]);
    expect(await record()).toMatchObject([
      { action: "change-roles", subject_id: memberId, member_id: made.manager.memberId, before: { roles: ["member"] }, after: { roles: ["assistant", "member"] } },
    ]);
    const { rows } = await owner.query("SELECT text FROM notice WHERE member_id = $1", [memberId]);
    expect(rows).toEqual([{ text: "Marit Toft changed your roles to assistant, member." }]);
  });

  it("is refused without a role, for somebody unknown and for somebody of another workshop", async () => {
    const other = await makeWorkshop(database.ownerUrl);
    expect(codeOf(await changeRoles(made.manager, { memberId: made.member.memberId, roles: [] }))).toBe("out-of-range");
    expect(codeOf(await changeRoles(made.manager, { memberId: randomUUID(), roles: ["member"] }))).toBe("not-found");
    expect(codeOf(await changeRoles(made.manager, { memberId: other.member.memberId, roles: ["manager"] }))).toBe("not-found");
    expect((await membershipsOf(other.member.personId))[0]?.roles).toEqual(["member"]);
    expect(await record()).toEqual([]);
  });
});

describe("the last active manager", () => {
  it("cannot lay down the role or be deactivated, and the refusal says what to do first", async () => {
    const { memberId } = made.manager;
    const laidDown = await changeRoles(made.manager, { memberId, roles: ["member"] });
    const deactivated = await deactivateMember(made.manager, { memberId });
    expect([codeOf(laidDown), codeOf(deactivated)]).toEqual(["last-manager", "last-manager"]);
    expect(laidDown).toMatchObject({ problems: [{ message: expect.stringContaining("Make somebody else a manager first") }] });
    expect(await record()).toEqual([]);
  });

  it("may take a further role, and may go once there is another", async () => {
    const { memberId } = made.manager;
    expect(codeOf(await changeRoles(made.manager, { memberId, roles: ["manager", "member"] }))).toBe("ok");
    expect(codeOf(await changeRoles(made.manager, { memberId: made.member.memberId, roles: ["manager"] }))).toBe("ok");
    expect(codeOf(await deactivateMember(made.manager, { memberId }))).toBe("ok");
    expect(await managersNow()).toBe(1);
  });

  it("is not somebody whose membership was ended", async () => {
    await changeRoles(made.manager, { memberId: made.member.memberId, roles: ["manager"] });
    await deactivateMember(made.manager, { memberId: made.member.memberId });
    expect(codeOf(await deactivateMember(made.manager, { memberId: made.manager.memberId }))).toBe("last-manager");
  });

  it("remains when two managers take the role from each other at the same instant", async () => {
    await changeRoles(made.manager, { memberId: made.member.memberId, roles: ["manager"] });
    const second = { ...made.member, roles: ["manager"] as const };
    const codes = (
      await Promise.all([
        changeRoles(made.manager, { memberId: second.memberId, roles: ["member"] }),
        deactivateMember(second, { memberId: made.manager.memberId }),
      ])
    ).map(codeOf);
    expect(codes.sort()).toEqual(["last-manager", "ok"]);
    expect(await managersNow()).toBe(1);
  });
});

describe("ending and resuming a membership", () => {
  it("keeps the person's roles, is recorded with the reason, and can be done once each", async () => {
    const input = { memberId: made.assistant.memberId, reason: "Left for the winter" };
    expect(await deactivateMember(made.manager, input)).toEqual({ ok: true, value: { name: "Aksel Lund", standingRuns: 0 } });
    expect(codeOf(await deactivateMember(made.manager, input))).toBe("already-deactivated");
    expect(await membershipsOf(made.assistant.personId)).toEqual([]);
    expect(codeOf(await reactivateMember(made.manager, { memberId: input.memberId }))).toBe("ok");
    expect(codeOf(await reactivateMember(made.manager, { memberId: input.memberId }))).toBe("already-active");
    expect(await membershipsOf(made.assistant.personId)).toEqual([made.assistant]);
    expect(await record()).toMatchObject([
      { action: "deactivate-member", before: { active: true }, after: { active: false }, reason: "Left for the winter" },
      { action: "reactivate-member", before: { active: false }, after: { active: true } },
    ]);
  });

  it("is not found for another workshop's people", async () => {
    const other = await makeWorkshop(database.ownerUrl);
    expect(codeOf(await deactivateMember(made.manager, { memberId: other.member.memberId }))).toBe("not-found");
    expect(codeOf(await reactivateMember(made.manager, { memberId: other.member.memberId }))).toBe("not-found");
    expect(await membershipsOf(other.member.personId)).toHaveLength(1);
  });
});
