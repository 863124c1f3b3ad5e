import { mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { runOnce, Logger } from "graphile-worker";
import pg from "pg";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";
import { startSmtp } from "@/tests/helpers/smtp";

const database = await useFreshDatabase();
let refuseAddress: { readonly code: number; readonly words: string } | undefined;
let refuseContent: { readonly code: number; readonly words: string } | undefined;
let beforeAddress: () => void = () => undefined;
const smtp = await startSmtp({ onAddress: () => (beforeAddress(), refuseAddress), onTaken: async () => refuseContent });
process.env["LEHRBOOK_SMTP_URL"] = smtp.url;
const { now } = await import("@/lib/server/clock");
const { closeDatabase, inWorkshop } = await import("@/lib/server/db");
const { invitePerson } = await import("@/lib/server/commands/invite-person");
const { requestReset } = await import("@/lib/server/accounts/request-reset");
const { acceptInvitation } = await import("@/lib/server/accounts/accept-invitation");
const { withdrawInvitation } = await import("@/lib/server/commands/withdraw-invitation");
const { resetPassword, resetState } = await import("@/lib/server/accounts/reset-password");
const { TASKS } = await import("@/lib/server/jobs/tasks");
const { tell } = await import("@/lib/server/tell");
let owner: pg.Client;
let shed: MadeWorkshop;

beforeAll(async () => {
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
});
beforeEach(async () => {
  refuseAddress = refuseContent = undefined;
  beforeAddress = () => undefined;
  smtp.received.length = 0;
  shed = await makeWorkshop(database.ownerUrl);
});
afterAll(async () => {
  await smtp.stop();
  await owner.end();
  await closeDatabase();
  await database.drop();
});

async function write(): Promise<string> {
  await inWorkshop(shed.workshopId, (tx) => tell({ tx, now: now(), who: shed.manager }, { to: [shed.member.memberId], kind: "moved", text: "Your run for Søren’s heron was moved.", href: "/firings/1" }));
  const { rows } = await owner.query("SELECT mail_id FROM mail WHERE workshop_id = $1", [shed.workshopId]);
  return rows[0].mail_id;
}
const work = () => runOnce({ connectionString: database.ownerUrl, taskList: TASKS, logger: new Logger(() => () => undefined), noHandleSignals: true });
const mail = async (mailId: string) => (await owner.query("SELECT handed_over, sent_at, failed_at, failure FROM mail WHERE mail_id = $1", [mailId])).rows[0];
const job = async (mailId: string) => (await owner.query("SELECT attempts, last_error, run_at > now() AS later FROM graphile_worker.jobs WHERE key = $1", [`mail:${mailId}`])).rows[0];
const again = (mailId: string) => owner.query("UPDATE graphile_worker._private_jobs SET run_at = now() WHERE key = $1", [`mail:${mailId}`]);
const notices = async () => (await owner.query("SELECT text FROM notice WHERE member_id = $1", [shed.manager.memberId])).rows.map(({ text }) => text);

describe("a mail that is taken", () => {
  it("goes out once, in plain text under its own Message-ID, and its job is gone", async () => {
    const mailId = await write();
    await work();
    await work();
    expect(smtp.received).toHaveLength(1);
    expect(smtp.received[0]).toMatchObject({ to: shed.member.email, messageId: `<${mailId}@localhost>` });
    expect(smtp.received[0]?.raw).toMatch(/^Auto-Submitted: auto-generated\r$/m);
    expect(smtp.received[0]?.raw).toMatch(/^Content-Type: text\/plain; charset=utf-8\r$/m);
    expect(await mail(mailId)).toMatchObject({ handed_over: 1, sent_at: expect.any(Date), failed_at: null });
    expect(await job(mailId)).toBeUndefined();
  });
});

describe("a server that does not take it now", () => {
  it.each(["address", "content"])("is asked again later, and nothing counts as handed over (%s refused)", async (what) => {
    const mailId = await write();
    if (what === "address") refuseAddress = { code: 451, words: "Try later" };
    else refuseContent = { code: 452, words: "No room" };
    await work();
    expect(await mail(mailId)).toEqual({ handed_over: 0, sent_at: null, failed_at: null, failure: null });
    expect(await job(mailId)).toMatchObject({ attempts: 1, later: true });
    refuseAddress = refuseContent = undefined;
    await again(mailId);
    await work();
    expect(smtp.received).toHaveLength(1);
    expect(await mail(mailId)).toMatchObject({ handed_over: 1, sent_at: expect.any(Date) });
  });

  it("is asked for two days; then the manager is told", async () => {
    const mailId = await write();
    refuseAddress = { code: 451, words: "Try later" };
    await owner.query("UPDATE mail SET created_at = now() - interval '47 hours 59 minutes' WHERE mail_id = $1", [mailId]);
    await work();
    expect(await notices()).toEqual([]);
    await owner.query("UPDATE mail SET created_at = now() - interval '48 hours' WHERE mail_id = $1", [mailId]);
    await again(mailId);
    await work();
    expect(await notices()).toEqual([expect.stringContaining(shed.member.email)]);
    expect(await job(mailId)).toBeUndefined();
  });
});

describe("a worker that was thought dead and is not", () => {
  it("leaves a mail that another has in hand, and its job, alone", async () => {
    const mailId = await write();
    const { deliver } = await import("@/lib/server/mail/deliver");
    let others = Promise.resolve<unknown>(undefined);
    // While the server considers the address, another worker begins to hand the mail over.
    beforeAddress = () => void (others = owner.query("UPDATE mail SET handed_over = 1 WHERE mail_id = $1", [mailId]));
    await expect(deliver({ mailId, workshopId: shed.workshopId })).rejects.toThrow(/another worker/);
    await others;
    expect(smtp.received).toEqual([]);
    expect(await mail(mailId)).toMatchObject({ handed_over: 1, sent_at: null });
    await work();
    expect(smtp.received).toHaveLength(1);
  });
});

describe("a server that will never take it", () => {
  it("is asked once, and the manager is told what it said", async () => {
    const mailId = await write();
    refuseAddress = { code: 550, words: "Nobody of that name here" };
    await work();
    expect(await mail(mailId)).toMatchObject({ handed_over: 0, sent_at: null, failed_at: expect.any(Date), failure: expect.stringContaining("Nobody of that name here") });
    expect(await notices()).toEqual([expect.stringMatching(/^A mail to jonas.*\(Your run was moved.*\) could not be delivered: .*Nobody of that name here/)]);
    expect(await job(mailId)).toBeUndefined();
    const { rows } = await owner.query("SELECT 1 FROM mail WHERE workshop_id = $1", [shed.workshopId]);
    expect(rows).toHaveLength(1);
  });
});

describe("a mail whose fate is unknown", () => {
  it("was handed over once: goes out a second time", async () => {
    const mailId = await write();
    await owner.query("UPDATE mail SET handed_over = 1 WHERE mail_id = $1", [mailId]);
    await work();
    expect(smtp.received).toHaveLength(1);
    expect(await mail(mailId)).toMatchObject({ handed_over: 2, sent_at: expect.any(Date) });
  });

  it("was handed over twice: not a third time, and the manager is told that it may have arrived", async () => {
    const mailId = await write();
    await owner.query("UPDATE mail SET handed_over = 2 WHERE mail_id = $1", [mailId]);
    await work();
    expect(smtp.received).toEqual([]);
    expect(await notices()).toEqual([expect.stringContaining("It may have arrived")]);
    await expect(owner.query("UPDATE mail SET handed_over = 3 WHERE mail_id = $1", [mailId])).rejects.toMatchObject({ code: "23514" });
  });
});

describe("a mail about an account", () => {
  const reset = async () => {
    await requestReset(shed.member.email);
    const { rows } = await owner.query("SELECT mail_id FROM account_mail WHERE person_id = $1", [shed.member.personId]);
    return rows[0].mail_id;
  };
  const stored = async (mailId: string) => (await owner.query("SELECT handed_over, sent_at, failure FROM account_mail WHERE mail_id = $1", [mailId])).rows[0];

  it("carries a link that works, which stands nowhere but in the mail", async () => {
    const mailId = await reset();
    await work();
    const token = /\/reset\/([\w-]+)/.exec(smtp.received[0]?.raw.replaceAll("=\r\n", "") ?? "")?.[1] ?? "";
    expect(await resetState(token)).toBe("usable");
    expect(await stored(mailId)).toEqual({ handed_over: 1, sent_at: expect.any(Date), failure: null });
  });

  it("is not sent once its link is over; the manager of the person's workshop is told", async () => {
    const mailId = await reset();
    await owner.query("UPDATE account_mail SET useless_at = now() WHERE mail_id = $1", [mailId]);
    await work();
    expect(smtp.received).toEqual([]);
    expect(await notices()).toEqual([expect.stringMatching(/Set a new password.*too late/)]);
  });
});

describe("an invitation", () => {
  it("is mailed with the link that the manager sees, which stands in no table", async () => {
    const made = await invitePerson(shed.manager, { name: "Runa Holt", email: `runa.${shed.workshopId.slice(0, 8)}@else.example`, roles: ["member"] });
    if (!made.ok) throw new Error("not invited");
    const token = made.value.link.split("/").at(-1) ?? "";
    for (const table of ["mail", "invitation", "audit", "graphile_worker._private_jobs"]) {
      const { rows } = await owner.query(`SELECT 1 FROM ${table} AS r WHERE r::text LIKE '%' || $1 || '%'`, [token]);
      expect({ table, rows }).toEqual({ table, rows: [] });
    }
    await work();
    expect(smtp.received).toHaveLength(1);
    expect(smtp.received[0]?.raw.replaceAll("=\r\n", "")).toContain(made.value.link);
  });
});

describe("a mail that waits while its link is spent", () => {
  const invited = async () => {
    const email = `runa.${shed.workshopId.slice(0, 8)}@else.example`;
    const made = await invitePerson(shed.manager, { name: "Runa Holt", email, roles: ["member"] });
    if (!made.ok) throw new Error("not invited");
    const { rows } = await owner.query("SELECT mail_id FROM mail WHERE address = $1 ORDER BY created_at DESC LIMIT 1", [email]);
    return { ...made.value, email, token: made.value.link.split("/").at(-1) ?? "", mailId: rows[0].mail_id as string };
  };
  const ended = async (mailId: string, failure: string) => {
    expect(await mail(mailId)).toEqual({ handed_over: 0, sent_at: null, failed_at: expect.any(Date), failure });
    expect(await job(mailId)).toBeUndefined();
  };

  it("is not sent when the invitation was withdrawn; the one made in its place is, and nobody is told", async () => {
    const first = await invited();
    await withdrawInvitation(shed.manager, { invitationId: first.invitationId });
    const second = await invited();
    await work();
    expect(smtp.received.map(({ messageId }) => messageId)).toEqual([`<${second.mailId}@localhost>`]);
    await ended(first.mailId, "The invitation was withdrawn before it was sent.");
    expect(await notices()).toEqual([]);
  });

  it("is not sent when the invitation was accepted by the link on the manager's screen", async () => {
    const { token, mailId } = await invited();
    expect(await acceptInvitation({ token, password: "wax runs out with steam" }, { personId: null, address: "unknown" })).toMatchObject({ ok: true });
    await work();
    expect(smtp.received).toEqual([]);
    await ended(mailId, "The invitation was accepted before it was sent.");
  });

  it("is not sent when another link has set the password", async () => {
    await requestReset(shed.member.email);
    await work();
    await requestReset(shed.member.email);
    const [mailed] = smtp.received;
    const token = /\/reset\/([\w-]+)/.exec(mailed?.raw.replaceAll("=\r\n", "") ?? "")?.[1] ?? "";
    expect(await resetPassword({ token, password: "a pot above the mould" })).toMatchObject({ ok: true });
    await work();
    expect(smtp.received).toEqual([mailed]);
    const { rows } = await owner.query("SELECT failure FROM account_mail WHERE person_id = $1 AND sent_at IS NULL", [shed.member.personId]);
    expect(rows).toEqual([{ failure: "A new password was set before it was sent." }]);
  });

  it("is not sent when its link opens nothing, and the manager is told", async () => {
    const { invitationId, mailId } = await invited();
    await owner.query("UPDATE invitation SET token_hash = repeat('0', 64) WHERE invitation_id = $1", [invitationId]);
    await work();
    expect(smtp.received).toEqual([]);
    await ended(mailId, "Its link opens nothing, because AUTH_SECRET was changed before it was sent.");
    expect(await notices()).toEqual([expect.stringContaining("AUTH_SECRET was changed")]);
  });
});

describe("a mail that has become useless", () => {
  it("is not sent from that instant on", async () => {
    const mailId = await write();
    await owner.query("UPDATE mail SET useless_at = now() WHERE mail_id = $1", [mailId]);
    await work();
    expect(smtp.received).toEqual([]);
    expect(await mail(mailId)).toMatchObject({ failure: "It would have come too late." });
  });
});

it("writes mail to a folder while no server is set, readable by its owner alone", async () => {
  const { readEnv } = await import("@/lib/server/env");
  const folder = await mkdtemp(path.join(tmpdir(), "mail-"));
  try {
    const { compose } = await import("@/lib/server/mail/compose");
    const { putIntoFolder } = await import("@/lib/server/mail/folder");
    const letter = { mailId: "1", from: "Lehrbook <l@h.example>", to: "a@b.example", subject: "Käfer", text: "Hallo", writtenAt: new Date(0), publicUrl: "http://localhost" };
    const { raw } = await compose(letter);
    expect(raw).toEqual((await compose(letter)).raw);
    await putIntoFolder(path.join(folder, "sub", "one.eml"), raw);
    expect(await readdir(path.join(folder, "sub"))).toEqual(["one.eml"]);
    expect(await readFile(path.join(folder, "sub", "one.eml"), "utf8")).toContain("Message-ID: <1@localhost>");
  } finally {
    await rm(folder, { recursive: true });
  }
  const base = { AUTH_SECRET: "x".repeat(32), APP_DATABASE_URL: "postgres://h/d", LEHRBOOK_MAIL_PAGE: "1" };
  expect(readEnv(base).mailPage).toBe(true);
  expect(readEnv({ ...base, LEHRBOOK_SMTP_URL: "smtp://h" }).mailPage).toBe(false);
});
