import { randomUUID } from "node:crypto";
import pg from "pg";
import { afterAll, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
// A Wednesday; the next staffed day is Thursday 26 November.
process.env["LEHRBOOK_CLOCK_START"] = "2026-11-25T10:00:00Z";
const { readHome } = await import("@/lib/server/queries/home");
const { listCastings } = await import("@/lib/server/queries/castings");
const { readCastingScreen } = await import("@/lib/server/queries/casting");
const { listNotices } = await import("@/lib/server/queries/notices");
const { readShell } = await import("@/lib/server/queries/shell");
const { markNoticesRead } = await import("@/lib/server/commands/mark-notices-read");
const { createCasting } = await import("@/lib/server/commands/create-casting");
const { closeDatabase } = await import("@/lib/server/db");
const owner = new pg.Client({ connectionString: database.ownerUrl });
await owner.connect();

afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

const input = { glass: "soda-lime-casting", piece: { shape: "slab", sizeMm: [25] }, cooling: "all-round", stress: "careful" };

async function described(shed: Awaited<ReturnType<typeof makeWorkshop>>, title: string, neededBy: string | null = null): Promise<string> {
  const outcome = await createCasting(shed.member, { title, input, neededBy, requestKey: randomUUID() });
  if (!outcome.ok) throw new Error(outcome.problems[0].message);
  return outcome.value.castingId;
}

/** A run of the kiln alone from `loads` on, with a heavy lift and a check sheet of one open item. */
async function booked(shed: Awaited<ReturnType<typeof makeWorkshop>>, castingId: string, loads: string): Promise<string> {
  const [planId, firingId] = [randomUUID(), randomUUID()];
  const ids = [shed.workshopId, castingId, planId, shed.member.memberId, firingId, shed.northKiln.equipmentId, loads];
  await owner.query(
    `WITH ids AS (SELECT $1::uuid AS w, $2::uuid AS c, $3::uuid AS p, $4::uuid AS m, $5::uuid AS f, $6::uuid AS e, $7::timestamptz AS s),
      plan AS (INSERT INTO plan (workshop_id, plan_id, casting_id, calculation, inputs, outputs) SELECT w, p, c, 'test', '{}', '{}' FROM ids),
      firing AS (INSERT INTO firing (workshop_id, firing_id, plan_id, member_id, purposes, heating_hours) SELECT w, f, p, m, '{kiln}', 10 FROM ids),
      link AS (INSERT INTO firing_casting (workshop_id, firing_id, casting_id) SELECT w, f, c FROM ids),
      lift AS (INSERT INTO lift (workshop_id, firing_id, casting_id, what, starts_at, ends_at, kg, hands, mould_state, hot, wet, flag, from_place, to_place, why)
        SELECT w, f, c, 'load', s - interval '1 hour', s, 40, 2, 'dry', false, false, 'amber', 'bench', 'kiln', 'heavy' FROM ids),
      sheet AS (INSERT INTO check_sheet (workshop_id, firing_id, template_version) SELECT w, f, 'test' FROM ids)
     INSERT INTO booking (workshop_id, firing_id, equipment_id, purpose, starts_at, ends_at) SELECT w, f, e, 'kiln', s, s + interval '7 days' FROM ids`,
    ids,
  );
  return firingId;
}

describe("what needs somebody", () => {
  it("is a held run with what was told of it, however much was told since", async () => {
    const shed = await makeWorkshop(database.ownerUrl);
    const { workshopId, member } = shed;
    const firingId = await booked(shed, await described(shed, "Tide bowl"), "2026-12-01T10:00:00Z");
    await owner.query("UPDATE firing SET status = 'held', held_until = '2026-11-26T10:00:00Z' WHERE firing_id = $1", [firingId]);
    const tell = (text: string, href: string, minutes: number) => owner.query("INSERT INTO notice (workshop_id, member_id, text, href, created_at) VALUES ($1, $2, $3, $4, '2026-11-25T09:00:00Z'::timestamptz + make_interval(mins => $5))", [workshopId, member.memberId, text, href, minutes]);
    await tell("offered to you", `/firings/${firingId}`, 0);
    for (let minutes = 1; minutes <= 6; minutes += 1) await tell(`news ${minutes}`, "/", minutes);
    const home = await readHome(member, undefined);
    expect(home.ofHeld.map(({ text }) => text)).toEqual(["offered to you"]);
    expect(home.unread.map(({ text }) => text)).toEqual(["news 6", "news 5", "news 4", "news 3", "news 2"]);
  });

  it("is, for a member, castings without a run and the sheets of their own firings", async () => {
    const shed = await makeWorkshop(database.ownerUrl);
    await described(shed, "Reed", "2027-03-14");
    const firingId = await booked(shed, await described(shed, "Tide bowl"), "2026-11-26T10:00:00Z");
    const home = await readHome(shed.member, undefined);
    expect(home.castings?.map(({ title, step }) => [title, step])).toEqual([["Reed", "book-run"], ["Tide bowl", "load"]]);
    expect(home.sheets).toMatchObject([{ firingId, title: "Tide bowl", doing: "load", kiln: "North kiln" }]);
    expect(home.sheets[0]?.open).toBeGreaterThan(0);
    expect([home.heavyLifts, home.pendingInvitations]).toEqual([null, null]);
    expect((await readHome(shed.otherMember, undefined)).sheets).toEqual([]);
  });

  it("is, for an assistant, the next staffed day's heavy lifts and everybody's sheets of today and tomorrow", async () => {
    const shed = await makeWorkshop(database.ownerUrl);
    await booked(shed, await described(shed, "Tide bowl"), "2026-11-26T10:00:00Z");
    await booked(shed, await described(shed, "Far off"), "2027-01-10T10:00:00Z");
    const home = await readHome(shed.assistant, undefined);
    expect(home.heavyLifts).toEqual({ day: "2026-11-26", lifts: 1, heavy: 1 });
    expect(home.sheets.map(({ title }) => title)).toEqual(["Tide bowl"]);
    expect(home.castings).toBeNull();
  });

  it("ends tomorrow at midnight of the workshop's own zone", async () => {
    const shed = await makeWorkshop(database.ownerUrl);
    await booked(shed, await described(shed, "Just in"), "2026-11-26T22:59:00Z");
    const other = await makeWorkshop(database.ownerUrl);
    await booked(other, await described(other, "Just out"), "2026-11-26T23:00:00Z");
    expect((await readHome(shed.assistant, undefined)).sheets).toHaveLength(1);
    expect((await readHome(other.assistant, undefined)).sheets).toHaveLength(0);
  });

  it("is, for a manager, invitations that wait, until they lapse", async () => {
    const shed = await makeWorkshop(database.ownerUrl);
    for (const expires of ["2026-11-30T10:00:00Z", "2026-11-25T09:00:00Z"]) {
      await owner.query(
        "INSERT INTO invitation (workshop_id, email, name, roles, token_hash, expires_at) VALUES ($1, 'ida@saltmarsh.example', 'Ida', '{member}', $2, $3)",
        [shed.workshopId, randomUUID(), expires],
      );
    }
    expect((await readHome(shed.manager, undefined)).pendingInvitations).toBe(1);
  });
});

describe("the list of castings", () => {
  it("is one's own, and everybody's for a manager who asks", async () => {
    const shed = await makeWorkshop(database.ownerUrl);
    await described(shed, "Reed");
    expect((await listCastings(shed.member, { all: true })).castings).toHaveLength(1);
    expect(await listCastings(shed.otherMember, { all: true })).toMatchObject({ castings: [], maySeeAll: false, showsAll: false });
    expect((await listCastings(shed.manager, { all: false })).castings).toEqual([]);
    expect((await listCastings(shed.manager, { all: true })).castings.map(({ owner: whose }) => whose)).toEqual(["Jonas Brink"]);
  });

  it("opens a casting for its owner and the manager, for nobody else", async () => {
    const shed = await makeWorkshop(database.ownerUrl);
    const elsewhere = await makeWorkshop(database.ownerUrl);
    const castingId = await described(shed, "Reed", "2027-03-14");
    expect(await readCastingScreen(shed.member, castingId)).toMatchObject({ mine: true, version: 1, casting: { title: "Reed", input, neededBy: "2027-03-14" } });
    expect(await readCastingScreen(shed.manager, castingId)).toMatchObject({ mine: false, owner: "Jonas Brink" });
    expect(await readCastingScreen(shed.otherMember, castingId)).toBeNull();
    expect(await readCastingScreen(elsewhere.manager, castingId)).toBeNull();
  });
});

describe("notices", () => {
  it("are one's own and can be marked read up to the newest that was seen", async () => {
    const shed = await makeWorkshop(database.ownerUrl);
    const tell = (text: string) => owner.query("INSERT INTO notice (workshop_id, member_id, text, href) VALUES ($1, $2, $3, '/')", [shed.workshopId, shed.member.memberId, text]);
    await tell("Your run was moved.");
    const seen = await listNotices(shed.member, undefined);
    await new Promise((done) => setTimeout(done, 5));
    await tell("It was moved again.");
    expect(await readShell(shed.member, undefined)).toEqual({ unreadNotices: 2 });
    expect(await markNoticesRead(shed.member, { upTo: seen.upTo })).toEqual({ ok: true, value: { read: 1 } });
    const now = await listNotices(shed.member, undefined);
    expect(now.notices.map(({ text, read }) => [text, read])).toEqual([["It was moved again.", false], ["Your run was moved.", true]]);
    expect((await listNotices(shed.otherMember, undefined)).notices).toEqual([]);
  });
});
