import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import pg from "pg";
import { afterAll, afterEach, beforeEach, expect, it, vi } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";
import { startSmtp } from "@/tests/helpers/smtp";

type Moment = "address" | "taken";

const database = await useFreshDatabase();
/** What happens to the worker at which moment of handing over, once each. */
const blows: Moment[] = [];
let workers: ChildProcess[] = [];
let atTaken: () => Promise<void> = async () => undefined;
const smtp = await startSmtp({
  onAddress: () => strike("address"),
  onTaken: async () => {
    strike("taken");
    await atTaken();
    return undefined;
  },
});
process.env["LEHRBOOK_SMTP_URL"] = smtp.url;
const { now } = await import("@/lib/server/clock");
const { closeDatabase, inWorkshop } = await import("@/lib/server/db");
const { tell } = await import("@/lib/server/tell");
const owner = new pg.Client({ connectionString: database.ownerUrl });
await owner.connect();
let shed: MadeWorkshop;

beforeEach(async () => {
  smtp.received.length = 0;
  blows.length = 0;
  atTaken = async () => undefined;
  shed = await makeWorkshop(database.ownerUrl);
});
afterEach(() => {
  for (const worker of workers) worker.kill("SIGKILL");
  workers = [];
});
afterAll(async () => {
  await smtp.stop();
  await owner.end();
  await closeDatabase();
  await database.drop();
});

function strike(moment: Moment): undefined {
  if (blows[0] !== moment) return;
  blows.shift();
  for (const worker of workers) worker.kill("SIGKILL");
}

function startWorker(): ChildProcess {
  const worker = spawn(process.execPath, ["--no-deprecation", "--import", "tsx", "lib/cli/work.ts"], {
    env: { ...process.env, NODE_ENV: "test", DATABASE_URL: database.ownerUrl, APP_DATABASE_URL: database.appUrl },
    stdio: "ignore",
  });
  workers.push(worker);
  return worker;
}

async function write(): Promise<string> {
  await inWorkshop(shed.workshopId, (tx) => tell({ tx, now: now(), who: shed.manager }, { to: [shed.member.memberId], kind: "moved", text: "Your run was moved.", href: "/" }));
  const { rows } = await owner.query("SELECT mail_id FROM mail WHERE workshop_id = $1", [shed.workshopId]);
  return rows[0].mail_id;
}
const mail = async (mailId: string) => (await owner.query("SELECT handed_over, sent_at IS NOT NULL AS sent, failure FROM mail WHERE mail_id = $1", [mailId])).rows[0];
const ended = (mailId: string) => vi.waitFor(async () => expect((await mail(mailId)).sent || (await mail(mailId)).failure !== null).toBe(true), { timeout: 60_000, interval: 100 });

async function killedAt(...moments: readonly Moment[]): Promise<string> {
  blows.push(...moments);
  const mailId = await write();
  for (const _ of moments) {
    const worker = startWorker();
    if (worker.exitCode === null && worker.signalCode === null) await once(worker, "exit");
    expect(worker.signalCode).toBe("SIGKILL");
  }
  startWorker();
  await ended(mailId);
  return mailId;
}

it("sends again what a worker had handed over when it was killed: twice, and recognisably the same", async () => {
  const mailId = await killedAt("taken");
  expect(smtp.received.map((one) => one.messageId)).toEqual([`<${mailId}@localhost>`, `<${mailId}@localhost>`]);
  expect(smtp.received[0]?.raw).toBe(smtp.received[1]?.raw);
  expect(await mail(mailId)).toEqual({ handed_over: 2, sent: true, failure: null });
}, 120_000);

it("sends once what a worker had not handed over yet when it was killed, however often", async () => {
  const mailId = await killedAt("address", "address");
  expect(smtp.received).toHaveLength(1);
  expect(await mail(mailId)).toEqual({ handed_over: 1, sent: true, failure: null });
}, 120_000);

it("sends nothing a third time when two workers were killed with it in hand, and tells the manager", async () => {
  const mailId = await killedAt("taken", "taken");
  expect(smtp.received).toHaveLength(2);
  expect(await mail(mailId)).toMatchObject({ handed_over: 2, sent: false, failure: expect.stringContaining("may have arrived") });
  const { rows } = await owner.query("SELECT text FROM notice WHERE member_id = $1", [shed.manager.memberId]);
  expect(rows).toHaveLength(1);
}, 120_000);

it("finishes the mail in hand before it stops", async () => {
  const first = await write();
  const worker = startWorker();
  const gone = new Promise<void>((done) => (atTaken = async () => {
    worker.kill("SIGTERM");
    done();
    await new Promise((later) => setTimeout(later, 500));
  }));
  await gone;
  await once(worker, "exit");
  expect(worker.exitCode).toBe(0);
  expect(smtp.received).toHaveLength(1);
  expect(await mail(first)).toEqual({ handed_over: 1, sent: true, failure: null });
}, 120_000);

it("shares the mails among several workers, each mail once", async () => {
  const { manager, workshopId, member, otherMember, assistant } = shed;
  startWorker();
  startWorker();
  const to = [member.memberId, otherMember.memberId, assistant.memberId];
  for (let n = 0; n < 10; n++) await inWorkshop(workshopId, (tx) => tell({ tx, now: now(), who: manager }, { to, kind: "moved", text: `Moved ${n}.`, href: "/" }));
  const { rows } = await owner.query<{ mail_id: string }>("SELECT mail_id FROM mail WHERE workshop_id = $1", [workshopId]);
  await vi.waitFor(async () => expect((await owner.query("SELECT 1 FROM mail WHERE workshop_id = $1 AND sent_at IS NULL", [workshopId])).rows).toEqual([]), { timeout: 60_000, interval: 200 });
  expect(smtp.received.map((one) => one.messageId).sort()).toEqual(rows.map((one) => `<${one.mail_id}@localhost>`).sort());
}, 120_000);
