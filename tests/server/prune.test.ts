import { randomUUID } from "node:crypto";
import { Logger, runOnce } from "graphile-worker";
import pg from "pg";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { KEPT_DAYS } from "@/lib/contracts/kept";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { createCasting } = await import("@/lib/server/commands/create-casting");
const { prune } = await import("@/lib/server/jobs/prune");
const { AT_SET_TIMES, CRONTAB, TASKS } = await import("@/lib/server/jobs/tasks");
const { must, PEBBLE } = await import("@/tests/helpers/booking");
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

const MINUTE_LESS = "1 minute";
const ago = (days: number, less = "0 minutes") => `now() - interval '${days} days' + interval '${less}'`;

/** One row of each kind, served so long ago; its name stands where people read it. */
async function write(name: string, less?: string, { workshopId, member } = shed): Promise<void> {
  const mail = (columns: string, served: string) =>
    owner.query(`INSERT INTO mail (workshop_id, member_id, address, kind, subject, body, created_at, ${columns}) VALUES ($1, $2, 'a@b.example', 'moved', $3, '', now() - interval '1 year', ${served})`, [workshopId, member.memberId, name]);
  await mail("sent_at", ago(KEPT_DAYS.mail, less));
  await mail("failed_at, failure", `${ago(KEPT_DAYS.mail, less)}, 'nobody there'`);
  await owner.query(`INSERT INTO account_mail (person_id, address, kind, subject, body, created_at, sent_at) VALUES ($1, 'a@b.example', 'password-reset', $2, '', now() - interval '1 year', ${ago(KEPT_DAYS.mail, less)})`, [member.personId, name]);
  await owner.query(`INSERT INTO notice (workshop_id, member_id, text, href, created_at, read_at) VALUES ($1, $2, $3, '/', now() - interval '1 year', ${ago(KEPT_DAYS.notice, less)})`, [workshopId, member.memberId, name]);
  const link = (columns: string, ends: string) => owner.query(`INSERT INTO invitation (workshop_id, email, name, roles, token_hash, ${columns}) VALUES ($1, 'a@b.example', $2, '{member}', $3, ${ends})`, [workshopId, name, randomUUID()]);
  const over = ago(KEPT_DAYS.link, less);
  await link("expires_at", over);
  await link("expires_at, used_at", `now() - interval '1 day', ${over}`);
  await link("expires_at, withdrawn_at", `now() - interval '1 day', ${over}`);
  await owner.query(`INSERT INTO password_reset (token_hash, person_id, expires_at) VALUES ($1, $2, ${over})`, [`${name} ${randomUUID()}`, member.personId]);
  await owner.query(`INSERT INTO receipt (workshop_id, member_id, request_key, command, answer, at) VALUES ($1, $2, $3, 'book-run', '{}', ${ago(KEPT_DAYS.receipt, less)})`, [workshopId, member.memberId, `${name} ${randomUUID()}`]);
}

async function left({ workshopId, member } = shed): Promise<readonly string[]> {
  const { rows } = await owner.query(
    `SELECT 'mail ' || subject AS what FROM mail WHERE workshop_id = $1 UNION ALL SELECT 'account mail ' || subject FROM account_mail WHERE person_id = $2
     UNION ALL SELECT 'notice ' || text FROM notice WHERE workshop_id = $1 UNION ALL SELECT 'receipt ' || split_part(request_key, ' ', 1) FROM receipt WHERE workshop_id = $1
     UNION ALL SELECT 'invitation ' || name FROM invitation WHERE workshop_id = $1 UNION ALL SELECT 'new password ' || split_part(token_hash, ' ', 1) FROM password_reset WHERE person_id = $2 ORDER BY 1`,
    [workshopId, member.personId],
  );
  return rows.map(({ what }) => what);
}
const ALL = (name: string) => [`account mail ${name}`, ...Array<string>(3).fill(`invitation ${name}`), `mail ${name}`, `mail ${name}`, `new password ${name}`, `notice ${name}`, `receipt ${name}`];

const work = () => prune((text) => owner.query(text));

describe("what has served", () => {
  it("is deleted once its days are over, and not a minute before", async () => {
    const other = await makeWorkshop(database.ownerUrl);
    await write("over");
    await write("young", MINUTE_LESS);
    await write("young", MINUTE_LESS, other);
    await work();
    expect(await left()).toEqual(ALL("young"));
    expect(await left(other)).toEqual(ALL("young"));
  });

  it("is not what waits still: a mail that is neither sent nor given up, a notice that nobody has read, a link that opens something", async () => {
    const { workshopId, member } = shed;
    await owner.query("INSERT INTO mail (workshop_id, member_id, address, kind, subject, body, created_at) VALUES ($1, $2, 'a@b.example', 'moved', 'waiting', '', now() - interval '1 year')", [workshopId, member.memberId]);
    await owner.query("INSERT INTO notice (workshop_id, member_id, text, href, created_at) VALUES ($1, $2, 'unread', '/', now() - interval '1 year')", [workshopId, member.memberId]);
    await owner.query("INSERT INTO invitation (workshop_id, email, name, roles, token_hash, expires_at, created_at) VALUES ($1, 'a@b.example', 'open', '{member}', 'open', now() + interval '1 day', now() - interval '1 year')", [workshopId]);
    await work();
    expect(await left()).toEqual(["invitation open", "mail waiting", "notice unread"]);
  });

  it("is deleted to the last, however much was left lying", async () => {
    await owner.query(`INSERT INTO receipt (workshop_id, member_id, request_key, command, answer, at) SELECT $1, $2, 'many ' || gen_random_uuid(), 'book-run', '{}', ${ago(KEPT_DAYS.receipt)} FROM generate_series(1, 4321)`, [shed.workshopId, shed.member.memberId]);
    await work();
    expect(await left()).toEqual([]);
  });
});

describe("a request key", () => {
  it("gives the first answer until it is forgotten; then it is a new one", async () => {
    const ask = async (title: string) => must(await createCasting(shed.member, { title, input: PEBBLE, neededBy: null, requestKey: key })).castingId;
    const key = randomUUID();
    const first = await ask("Gull");
    await work();
    expect(await ask("Gull")).toBe(first);
    await owner.query("ALTER TABLE receipt DISABLE TRIGGER is_immutable");
    await owner.query(`UPDATE receipt SET at = ${ago(KEPT_DAYS.receipt)} WHERE request_key = $1`, [key]);
    await owner.query("ALTER TABLE receipt ENABLE TRIGGER is_immutable");
    await work();
    expect(await ask("Gull")).not.toBe(first);
  });
});

describe("the job", () => {
  it("is called by its name once a day, and by every worker that starts", async () => {
    expect(CRONTAB).toMatch(/^\d+ \d+ \* \* \* prune /m);
    expect(AT_SET_TIMES).toContain("prune");
    await write("over");
    await owner.query("SELECT graphile_worker.add_job('prune', '{}'::json)");
    await runOnce({ connectionString: database.ownerUrl, taskList: { prune: TASKS["prune"] }, logger: new Logger(() => () => undefined), noHandleSignals: true });
    expect(await left()).toEqual([]);
  });
});
