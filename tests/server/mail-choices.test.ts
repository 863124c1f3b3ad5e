import pg from "pg";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { CHOOSABLE, type MailKind } from "@/lib/contracts/told";
import type { Who } from "@/lib/server/who";
import { auditRows } from "@/tests/helpers/audit-rows";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { now } = await import("@/lib/server/clock");
const { requestReset } = await import("@/lib/server/accounts/request-reset");
const { chooseMail } = await import("@/lib/server/commands/choose-mail");
const { invitePerson } = await import("@/lib/server/commands/invite-person");
const { closeDatabase, inWorkshop } = await import("@/lib/server/db");
const { mailChoices } = await import("@/lib/server/queries/mail-choices");
const { writtenMails } = await import("@/lib/server/queries/mails");
const { tell } = await import("@/lib/server/tell");
const owner = new pg.Client({ connectionString: database.ownerUrl });
await owner.connect();
let shed: MadeWorkshop;

beforeEach(async () => {
  shed = await makeWorkshop(database.ownerUrl);
});
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

const mailed = async (who: Who) => (await mailChoices(who, undefined)).choices.filter((one) => one.mailed).map((one) => one.kind);
const kept = async (who: Who) => (await owner.query("SELECT kind, mailed FROM mail_choice WHERE member_id = $1", [who.memberId])).rows;
const say = (to: Who) => inWorkshop(to.workshopId, (tx) => tell({ tx, now: now(), who: to }, { to: [to.memberId], kind: "moved", text: `Your run was moved, ${to.name}.`, href: "/" }));

describe("what is mailed to a person", () => {
  it("is, until they choose, what concerns their runs; and every lift to assistants alone", async () => {
    expect(await mailed(shed.member)).toEqual(expect.arrayContaining(["booked", "moved", "cancelled", "offered", "hold-lapsing", "answered", "clash", "tomorrow-own"]));
    for (const kind of ["firing", "casting", "membership", "tomorrow-lifts"]) expect(await mailed(shed.member)).not.toContain(kind);
    expect(await mailed(shed.assistant)).toContain("tomorrow-lifts");
    expect(await mailed(shed.manager)).not.toContain("tomorrow-lifts");
  });

  it("is what they choose, one or none, kept in the record; another's choice stays", async () => {
    expect(await chooseMail(shed.member, { mailed: ["casting"] })).toMatchObject({ ok: true });
    expect(await mailed(shed.member)).toEqual(["casting"]);
    expect(await chooseMail(shed.member, { mailed: [] })).toMatchObject({ ok: true });
    expect(await mailed(shed.member)).toEqual([]);
    await say(shed.member);
    expect((await owner.query("SELECT 1 FROM mail WHERE member_id = $1", [shed.member.memberId])).rows).toEqual([]);
    expect((await owner.query("SELECT 1 FROM notice WHERE member_id = $1", [shed.member.memberId])).rows).toHaveLength(1);
    expect(await kept(shed.otherMember)).toEqual([]);
    const rows = (await auditRows(database.ownerUrl, shed.workshopId)).filter(({ action }) => action === "choose-mail");
    expect(rows.map(({ before, after }) => [before, after])).toEqual(expect.arrayContaining([[{ mailed: ["casting"] }, { mailed: [] }]]));
  });

  it("is kept only where it differs from the usual, so that a better usual reaches who never chose", async () => {
    const usual = await mailed(shed.member);
    await chooseMail(shed.member, { mailed: [...usual, "firing"] });
    expect(await kept(shed.member)).toEqual([{ kind: "firing", mailed: true }]);
    await chooseMail(shed.member, { mailed: usual });
    expect(await kept(shed.member)).toEqual([]);
  });

  it("refuses a kind that is none, and one that is never mailed", async () => {
    for (const kind of ["weather", "undelivered"]) expect(await chooseMail(shed.member, { mailed: [kind] })).toMatchObject({ ok: false });
  });

  it("is the later of two choices that come at the same instant, whole", async () => {
    const all: readonly (readonly MailKind[])[] = [CHOOSABLE, [], ["moved"], ["firing", "casting"]];
    const outcomes = await Promise.all(all.map((one) => chooseMail(shed.member, { mailed: one })));
    expect(outcomes.every(({ ok }) => ok)).toBe(true);
    expect(all.map((one) => [...one].sort().join())).toContain([...(await mailed(shed.member))].sort().join());
  });
});

describe("the page of written mail", () => {
  it("shows a manager everything of the workshop, others their own, and nobody another workshop's", async () => {
    const other = await makeWorkshop(database.ownerUrl, { name: "Other sheds" });
    for (const who of [shed.member, shed.otherMember, other.member]) await say(who);
    const texts = async (who: Who) => (await writtenMails(who, undefined)).map(({ address }) => address);
    expect((await texts(shed.manager)).sort()).toEqual([shed.member.email, shed.otherMember.email].sort());
    expect(await texts(shed.member)).toEqual([shed.member.email]);
    expect(await texts(shed.assistant)).toEqual([]);
    expect(await texts(other.manager)).toEqual([other.member.email]);
  });

  it("shows a link for a new password to nobody but its owner, and an invitation's to the manager who sees it anyway", async () => {
    await requestReset(shed.member.email);
    const made = await invitePerson(shed.manager, { name: "Runa Holt", email: `runa.${shed.workshopId.slice(0, 8)}@else.example`, roles: ["member"] });
    if (!made.ok) throw new Error("not invited");
    const [own] = await writtenMails(shed.member, undefined);
    expect(own?.text).toMatch(/\/reset\/[\w-]{43}/);
    const manager = await writtenMails(shed.manager, undefined);
    expect(manager.map(({ text }) => text)).toEqual([expect.stringContaining(made.value.link)]);
    expect(await writtenMails(shed.otherMember, undefined)).toEqual([]);
  });

  it("is in order of time, newest first, and says what waits and what failed", async () => {
    await say(shed.member);
    await say(shed.otherMember);
    await owner.query("UPDATE mail SET sent_at = now() WHERE member_id = $1", [shed.member.memberId]);
    const [newest, older] = await writtenMails(shed.manager, undefined);
    expect(newest).toMatchObject({ address: shed.otherMember.email, file: null, failure: null });
    expect(older?.file).toMatch(/^\d{4}-\d\d-\d\dT[\d-]{8}-[0-9a-f]{8}\.eml$/);
  });
});
