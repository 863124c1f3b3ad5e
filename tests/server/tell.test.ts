import pg from "pg";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { ToldKind } from "@/lib/contracts/told";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { now } = await import("@/lib/server/clock");
const { closeDatabase, inWorkshop } = await import("@/lib/server/db");
const { tell, tellAll } = await import("@/lib/server/tell");
let owner: pg.Client;
let shed: MadeWorkshop;

beforeAll(async () => {
  shed = await makeWorkshop(database.ownerUrl);
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
});
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

type MailRow = { readonly mail_id: string; readonly address: string; readonly subject: string; readonly body: string };

async function mailsTo(memberId: string): Promise<readonly MailRow[]> {
  const { rows } = await owner.query<MailRow>("SELECT mail_id, address, subject, body FROM mail WHERE member_id = $1 ORDER BY created_at", [memberId]);
  return rows;
}

/** The mails that jobs are there for. */
async function jobs(): Promise<readonly string[]> {
  const { rows } = await owner.query<{ mail: string }>("SELECT payload ->> 'mailId' AS mail FROM graphile_worker._private_jobs ORDER BY id");
  return rows.map(({ mail }) => mail);
}

async function choose(memberId: string, kind: string, mailed: boolean): Promise<void> {
  await owner.query("INSERT INTO mail_choice SELECT workshop_id, member_id, $2, $3 FROM member WHERE member_id = $1", [memberId, kind, mailed]);
}

async function textsOf(memberId: string): Promise<readonly string[]> {
  const { rows } = await owner.query("SELECT text FROM notice WHERE member_id = $1 ORDER BY created_at", [memberId]);
  return rows.map(({ text }) => text);
}

it("leaves one notice for each member, however often one is named, and the reason behind the sentence", async () => {
  const { member, otherMember, manager } = shed;
  await inWorkshop(shed.workshopId, (tx) =>
    tell({ tx, now: now(), who: manager }, { to: [member.memberId, otherMember.memberId, member.memberId], kind: "moved", text: "It was moved.", href: "/", reason: "A door jams." }),
  );
  expect(await textsOf(member.memberId)).toEqual(["It was moved: A door jams."]);
  expect(await textsOf(otherMember.memberId)).toEqual(["It was moved: A door jams."]);
  expect(await textsOf(manager.memberId)).toEqual([]);
});

it("tells several things at once, each to its own and by the choice for its own kind", async () => {
  const { member, otherMember, manager, workshopId } = await makeWorkshop(database.ownerUrl);
  await choose(member.memberId, "booked", false);
  await choose(member.memberId, "moved", true);
  await choose(otherMember.memberId, "booked", true);
  const all = [
    { to: [member.memberId], kind: "moved", text: "One was moved.", href: "/", reason: "A door jams." },
    { to: [member.memberId, otherMember.memberId], kind: "booked", text: "One was booked.", href: "/" },
  ] as const;
  await inWorkshop(workshopId, (tx) => tellAll({ tx, now: now(), who: manager }, all));
  expect([...(await textsOf(member.memberId))].sort()).toEqual(["One was booked.", "One was moved: A door jams."]);
  expect(await textsOf(otherMember.memberId)).toEqual(["One was booked."]);
  expect((await mailsTo(member.memberId)).map(({ body }) => body.includes("One was moved: A door jams."))).toEqual([true]);
  expect((await mailsTo(otherMember.memberId)).map(({ body }) => body.includes("One was booked."))).toEqual([true]);
});

it("leaves no notice, no mail and no job when the transaction is rolled back", async () => {
  const failing = inWorkshop(shed.workshopId, async (tx) => {
    await tell({ tx, now: now(), who: shed.manager }, { to: [shed.assistant.memberId], kind: "booked", text: "It was booked.", href: "/" });
    throw new Error("rolled back");
  });
  const before = await jobs();
  await expect(failing).rejects.toThrow("rolled back");
  expect(await textsOf(shed.assistant.memberId)).toEqual([]);
  expect(await mailsTo(shed.assistant.memberId)).toEqual([]);
  expect(await jobs()).toEqual(before);
});

describe("mail", () => {
  let made: MadeWorkshop;
  beforeAll(async () => {
    made = await makeWorkshop(database.ownerUrl);
  });
  const say = (kind: ToldKind, ...to: readonly string[]) =>
    inWorkshop(made.workshopId, (tx) => tell({ tx, now: now(), who: made.manager }, { to, kind, text: "Marit Toft moved your run for Tall heron to North kiln, Mon 7 Dec, 09:30.", href: "/firings/1", reason: "A door jams." }));

  it("says what happened, what to do, where, and how to get fewer; one job for each, which names it and says nothing of it", async () => {
    const before = await jobs();
    await say("moved", made.member.memberId);
    const [mail] = await mailsTo(made.member.memberId);
    expect(mail).toMatchObject({ address: made.member.email, subject: "Your run was moved (Saltmarsh Glass Sheds)" });
    expect(mail?.body.split("\n\n")).toEqual([
      "Jonas Brink,",
      "Marit Toft moved your run for Tall heron to North kiln, Mon 7 Dec, 09:30: A door jams.",
      "Look at the new times, and say so soon if they do not suit.\nhttp://localhost:3000/firings/1",
      "Saltmarsh Glass Sheds. Times are on the workshop's clock (Europe/Copenhagen).\nYou choose what is mailed to you: http://localhost:3000/profile#mail",
    ]);
    expect((await jobs()).slice(before.length)).toEqual([mail?.mail_id]);
    const { rows } = await owner.query("SELECT payload, identifier FROM graphile_worker._private_jobs j JOIN graphile_worker._private_tasks t ON t.id = task_id WHERE key = $1", [`mail:${mail?.mail_id ?? ""}`]);
    expect(rows).toEqual([{ payload: { mailId: mail?.mail_id, workshopId: made.workshopId }, identifier: "send-mail" }]);
  });

  it("follows what each person chose for the kind, and the usual where nothing was chosen", async () => {
    const { otherMember, assistant, manager } = made;
    await choose(otherMember.memberId, "clash", false);
    await choose(assistant.memberId, "firing", true);
    await say("clash", otherMember.memberId, manager.memberId);
    await say("firing", assistant.memberId, otherMember.memberId);
    expect(await mailsTo(otherMember.memberId)).toEqual([]);
    expect(await mailsTo(manager.memberId)).toHaveLength(1);
    expect(await mailsTo(assistant.memberId)).toHaveLength(1);
    expect(await textsOf(otherMember.memberId)).toHaveLength(2);
  });

  it("is of no use any more when what it tells of is over", async () => {
    const until = now().add({ hours: 2 });
    await inWorkshop(made.workshopId, (tx) => tell({ tx, now: now(), who: made.manager }, { to: [made.manager.memberId], kind: "offered", text: "North kiln is free.", href: "/", until }));
    const { rows } = await owner.query("SELECT useless_at FROM mail WHERE member_id = $1 AND kind = 'offered'", [made.manager.memberId]);
    expect(rows).toEqual([{ useless_at: new Date(until.epochMilliseconds) }]);
  });

  it("goes to nobody who is deactivated", async () => {
    await owner.query("UPDATE member SET active = false WHERE member_id = $1", [made.otherMember.memberId]);
    await say("moved", made.otherMember.memberId);
    expect(await mailsTo(made.otherMember.memberId)).toEqual([]);
  });

  it("is never about mail that failed", async () => {
    await choose(made.manager.memberId, "undelivered", false);
    const before = await jobs();
    await say("undelivered", made.manager.memberId);
    expect(await jobs()).toEqual(before);
  });
});
