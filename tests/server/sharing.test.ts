import { randomUUID } from "node:crypto";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { answerJoining } = await import("@/lib/server/commands/answer-joining");
const { withdrawJoining } = await import("@/lib/server/commands/withdraw-joining");
const { lapseJoiningInTime } = await import("@/lib/server/jobs/joining-jobs");
const { leaveFiring } = await import("@/lib/server/commands/leave-firing");
const { cancelRun } = await import("@/lib/server/commands/cancel-run");
const { releaseRun } = await import("@/lib/server/commands/release-run");
const { moveRun } = await import("@/lib/server/commands/move-run");
const { changeCasting } = await import("@/lib/server/commands/change-casting");
const { bookRun } = await import("@/lib/server/commands/book-run");
const { setExpectedEnd } = await import("@/lib/server/commands/set-expected-end");
const { lengthenBooking } = await import("@/lib/server/commands/lengthen-booking");
const { firingScreen } = await import("@/lib/server/queries/firing");
const { moveTimes } = await import("@/lib/server/queries/move-times");
const { bookedRun, codeOf, describedCasting, firstOffer, later, must, PEBBLE } = await import("@/tests/helpers/booking");
const { BOULDER, LATER, propose, proposed, shared, versionOf } = await import("@/tests/helpers/sharing");

let owner: pg.Client;
let shed: MadeWorkshop;

beforeAll(async () => {
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
});
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

async function fresh(): Promise<MadeWorkshop> {
  shed = await makeWorkshop(database.ownerUrl);
  return shed;
}

async function rows(sql: string, ...values: unknown[]) {
  return (await owner.query(sql, values)).rows;
}

const said = async (memberId: string) => (await rows("SELECT text FROM notice WHERE member_id = $1 ORDER BY created_at, text", memberId)).map((row) => String(row.text));
const statusOf = async (joiningId: string) => (await rows("SELECT status, ended_because FROM joining WHERE joining_id = $1", joiningId))[0];
const purposes = async (firingId: string) => (await rows("SELECT purpose FROM booking WHERE firing_id = $1 AND standing ORDER BY purpose", firingId)).map((row) => row.purpose);
const LONG_MS = 60_000;

describe("a proposal to join a firing", () => {
  it("books nothing, tells everybody in it, and holds the joined plan that they are shown", async () => {
    const { member, otherMember, northKiln } = await fresh();
    const { firingId, joiningId, guestCasting } = await proposed(member, otherMember, northKiln.equipmentId);
    expect(await rows("SELECT 1 FROM firing_casting WHERE casting_id = $1", guestCasting)).toHaveLength(0);
    expect(await statusOf(joiningId)).toMatchObject({ status: "open" });
    expect((await said(member.memberId)).at(-1)).toMatch(/Selma Krog asks to add Tern to the firing of Gull in North kiln\. It would then hold the kiln until .* answer is wanted by/);
    const [plan] = await rows("SELECT p.outputs, f.plan_id = j.plan_id AS taken FROM joining j JOIN plan p USING (workshop_id, plan_id) JOIN firing f ON f.firing_id = j.firing_id WHERE joining_id = $1", joiningId);
    expect(plan?.taken).toBe(false);
    expect(plan?.outputs.castings).toHaveLength(2);
    const screen = await firingScreen(member, firingId);
    expect(plan?.outputs.reservation.hours).toBeGreaterThan(screen?.plan.reservation.hours ?? Infinity);
  }, LONG_MS);

  it("accepted by the last, books all of it at once: plan, longer kiln, steam-out, lifts, sheet, ask, audit, notices", async () => {
    const { member, otherMember, northKiln } = await fresh();
    const { firingId, joiningId, guestCasting, hostCasting } = await proposed(member, otherMember, northKiln.equipmentId);
    const before = await firingScreen(member, firingId);
    const items = await rows("SELECT code FROM check_item WHERE firing_id = $1", firingId);
    expect(must(await answerJoining(member, { joiningId, accepts: true }))).toMatchObject({ status: "agreed" });
    const after = await firingScreen(otherMember, firingId);
    expect(after?.title).toBe("Gull with Tern");
    // Two moulds take an hour to load, and the workshop opens no sooner.
    expect(Date.parse(after?.kiln.from ?? "") - Date.parse(before?.kiln.from ?? "")).toBe(30 * 60_000);
    expect(Date.parse(after?.kiln.to ?? "")).toBeGreaterThan(Date.parse(before?.kiln.to ?? ""));
    expect(await purposes(firingId)).toEqual(["kiln", "load", "steam-out", "steam-out", "unload"]);
    const steam = await rows("SELECT casting_id FROM booking WHERE firing_id = $1 AND standing AND purpose = 'steam-out'", firingId);
    expect(steam.map((row) => row.casting_id).sort()).toEqual([hostCasting, guestCasting].sort());
    const lifts = await rows("SELECT what, casting_id, starts_at, ends_at FROM lift WHERE firing_id = $1 AND standing ORDER BY starts_at", firingId);
    expect(lifts).toHaveLength(8);
    const [first, second] = lifts.filter((lift) => lift.what === "load");
    expect(first?.ends_at).toEqual(second?.starts_at);
    expect(second?.ends_at.toISOString()).toBe(after?.kiln.from);
    expect((await rows("SELECT code FROM check_item WHERE firing_id = $1 AND replaced_at IS NULL", firingId)).length).toBe(items.length);
    const [l5] = await rows("SELECT code, detail FROM check_item WHERE firing_id = $1 AND replaced_at IS NULL AND code LIKE 'L4%'", firingId);
    expect(l5).toMatchObject({ code: "L4/2" });
    expect(l5?.detail).toMatch(/^(Gull: dry .*Tern: dry|Tern: dry .*Gull: dry)/);
    expect((await rows("SELECT action FROM audit WHERE subject_id = $1 ORDER BY audit_id", firingId)).map((row) => row.action)).toEqual(["book-run", "answer-joining"]);
    expect((await said(otherMember.memberId)).at(-1)).toMatch(/Tern now shares the firing of Gull in North kiln, until/);
  }, LONG_MS);

  it("declined by one, is over, and the firing stays as it is", async () => {
    const { member, otherMember, northKiln } = await fresh();
    const { firingId, joiningId, guestCasting } = await proposed(member, otherMember, northKiln.equipmentId);
    const version = await versionOf(member, firingId);
    must(await answerJoining(member, { joiningId, accepts: false }));
    expect(await statusOf(joiningId)).toEqual({ status: "declined", ended_because: "Jonas Brink declined." });
    expect(await versionOf(member, firingId)).toBe(version);
    expect((await said(otherMember.memberId)).at(-1)).toMatch(/Jonas Brink declined that Tern joins Gull/);
    expect(codeOf(await answerJoining(member, { joiningId, accepts: true }))).toBe("proposal-over");
    expect(codeOf(await propose(otherMember, firingId, guestCasting))).toBe("ok");
  }, LONG_MS);

  it("is nobody else's to answer, and another workshop's does not exist", async () => {
    const stranger = (await makeWorkshop(database.ownerUrl, { name: "Elsewhere" })).member;
    const { member, otherMember, manager, northKiln } = await fresh();
    const { joiningId, firingId } = await proposed(member, otherMember, northKiln.equipmentId);
    expect(codeOf(await answerJoining(otherMember, { joiningId, accepts: true }))).toBe("not-allowed");
    expect(codeOf(await answerJoining(manager, { joiningId, accepts: true }))).toBe("not-allowed");
    expect(codeOf(await answerJoining(stranger, { joiningId, accepts: true }))).toBe("not-found");
    expect(codeOf(await withdrawJoining(member, { joiningId }))).toBe("not-allowed");
    expect(codeOf(await withdrawJoining(stranger, { joiningId }))).toBe("not-found");
    expect(codeOf(await leaveFiring(stranger, { firingId, castingId: randomUUID() }))).toBe("not-found");
  }, LONG_MS);

  it("lapses when the firing is moved, and says so; a new one may follow", async () => {
    const { member, otherMember, northKiln } = await fresh();
    const { firingId, joiningId, guestCasting, hostCasting } = await proposed(member, otherMember, northKiln.equipmentId);
    const times = await moveTimes(member, { firingId });
    const other = times?.offers.kilns.find((kiln) => kiln.kilnId === northKiln.equipmentId)?.runs[1];
    must(await moveRun(member, { firingId, kilnId: northKiln.equipmentId, kilnFrom: other?.kilnFrom ?? "", version: await versionOf(member, firingId), requestKey: randomUUID() }));
    expect(await statusOf(joiningId)).toEqual({ status: "lapsed", ended_because: "Lapsed, since the firing was moved." });
    expect((await said(otherMember.memberId)).at(-1)).toMatch(/has lapsed, since the firing was moved/);
    expect(codeOf(await answerJoining(member, { joiningId, accepts: true }))).toBe("proposal-over");
    expect(codeOf(await propose(otherMember, firingId, guestCasting))).toBe("ok");
    expect(hostCasting).toBeTruthy();
  }, LONG_MS);

  it("lapses with the firing, with its time, and with a casting that is changed, whoever writes", async () => {
    const { member, otherMember, northKiln } = await fresh();
    const first = await proposed(member, otherMember, northKiln.equipmentId);
    must(await cancelRun(member, { firingId: first.firingId }));
    expect(await statusOf(first.joiningId)).toMatchObject({ status: "lapsed" });
    const second = await proposed(member, otherMember, northKiln.equipmentId);
    await rows("UPDATE joining SET expires_at = now() - interval '1 minute' WHERE joining_id = $1", second.joiningId);
    expect(codeOf(await answerJoining(member, { joiningId: second.joiningId, accepts: true }))).toBe("proposal-over");
    expect(codeOf(await propose(otherMember, second.firingId, second.guestCasting))).toBe("ok");
    expect(await statusOf(second.joiningId)).toMatchObject({ status: "lapsed", ended_because: "Lapsed, since not everybody answered in time." });
    const third = (await rows("SELECT joining_id FROM joining WHERE firing_id = $1 AND status = 'open'", second.firingId))[0];
    must(await changeCasting(otherMember, { castingId: second.guestCasting, version: 1, title: "Tern", input: PEBBLE, neededBy: null }));
    expect(codeOf(await answerJoining(member, { joiningId: third?.joining_id, accepts: true }))).toBe("proposal-over");
    await rows("UPDATE firing SET status = 'started', version = version + 1 WHERE firing_id = $1", second.firingId);
    expect(await statusOf(third?.joining_id)).toEqual({ status: "lapsed", ended_because: "The firing started." });
  }, LONG_MS);

  it("is ended by its job at its deadline, once, and who is concerned is told; before it, the job comes again", async () => {
    const { workshopId, member, otherMember, northKiln } = await fresh();
    const { joiningId } = await proposed(member, otherMember, northKiln.equipmentId);
    expect(await rows("SELECT 1 FROM graphile_worker.jobs WHERE task_identifier = 'lapse-joining' AND key = $1", `joining:${joiningId}`)).toHaveLength(1);
    expect(await lapseJoiningInTime({ workshopId, joiningId })).toBeInstanceOf(Date);
    expect(await statusOf(joiningId)).toMatchObject({ status: "open" });
    await rows("UPDATE joining SET expires_at = now() - interval '1 minute' WHERE joining_id = $1", joiningId);
    expect(await lapseJoiningInTime({ workshopId, joiningId })).toBeUndefined();
    expect(await lapseJoiningInTime({ workshopId, joiningId })).toBeUndefined();
    expect(await statusOf(joiningId)).toMatchObject({ status: "lapsed" });
    for (const { memberId } of [member, otherMember]) expect((await said(memberId)).filter((text) => text.includes("is over. Lapsed, since not everybody answered in time."))).toHaveLength(1);
  }, LONG_MS);

  it("waits alone: a second one for the same firing is refused by name until the first is over", async () => {
    const { member, otherMember, northKiln } = await fresh();
    const { firingId, joiningId } = await proposed(member, otherMember, northKiln.equipmentId);
    const knot = await describedCasting(otherMember, "Knot");
    const refused = await propose(otherMember, firingId, knot);
    expect(codeOf(refused)).toBe("other-proposal");
    if (!refused.ok) expect(refused.problems[0].message).toMatch(/Selma Krog's proposal for Tern waits for its answers first, until/);
    must(await withdrawJoining(otherMember, { joiningId }));
    expect((await said(member.memberId)).at(-1)).toMatch(/took back the proposal that Tern joins Gull/);
    expect(codeOf(await propose(otherMember, firingId, knot))).toBe("ok");
  }, LONG_MS);

  it("is refused for a casting that is another's, booked, withdrawn, in it already, or does not suit", async () => {
    const { member, otherMember, northKiln, southKiln } = await fresh();
    const { firingId, castingId } = await bookedRun(member, northKiln.equipmentId, "Gull", LATER);
    expect(codeOf(await propose(otherMember, firingId, castingId))).toBe("not-allowed");
    expect(codeOf(await propose(member, firingId, castingId))).toBe("already-in");
    const other = await bookedRun(otherMember, southKiln.equipmentId, "Tern");
    expect(codeOf(await propose(otherMember, firingId, other.castingId))).toBe("already-booked");
    const float = await describedCasting(otherMember, "Float", { ...PEBBLE, glass: "soda-lime-float", feeder: { diameterMm: 50, lengthMm: 30 } });
    const refused = await propose(otherMember, firingId, float);
    expect(codeOf(refused)).toBe("no-common-soak");
    expect(codeOf(await propose(otherMember, randomUUID(), float).catch(() => ({ ok: false, problems: [{ code: "gone", message: "" }] }) as never))).toBe("gone");
  }, LONG_MS);

  it("of one's own second casting is agreed at once", async () => {
    const { member, northKiln } = await fresh();
    const { firingId } = await bookedRun(member, northKiln.equipmentId, "Gull", LATER);
    const knot = await describedCasting(member, "Knot");
    expect(must(await propose(member, firingId, knot))).toMatchObject({ agreed: true });
    expect((await firingScreen(member, firingId))?.title).toBe("Gull with Knot");
  }, LONG_MS);

  it("needs a yes of everybody in it, when there are more", async () => {
    const { member, otherMember, manager, northKiln } = await fresh();
    const { firingId } = await shared(member, otherMember, northKiln.equipmentId, PEBBLE);
    const knot = await describedCasting(manager, "Knot");
    const { joiningId } = must(await propose(manager, firingId, knot));
    expect(must(await answerJoining(otherMember, { joiningId, accepts: true }))).toMatchObject({ status: "open" });
    expect(codeOf(await answerJoining(otherMember, { joiningId, accepts: true }))).toBe("already-answered");
    expect(await rows("SELECT 1 FROM firing_casting WHERE casting_id = $1", knot)).toHaveLength(0);
    expect(must(await answerJoining(member, { joiningId, accepts: true }))).toMatchObject({ status: "agreed" });
    expect((await firingScreen(member, firingId))?.title).toBe("Gull with Knot and Tern");
  }, LONG_MS);

  it("is refused at the last yes, naming who holds the kiln, when somebody has it by the new end; nothing is half done", async () => {
    const { member, otherMember, northKiln } = await fresh();
    const { firingId, joiningId } = await proposed(member, otherMember, northKiln.equipmentId);
    const before = await firingScreen(member, firingId);
    const next = await describedCasting(otherMember, "Heron");
    const offer = await firstOffer(otherMember, next, northKiln.equipmentId);
    must(await bookRun(otherMember, { ...offer, requestKey: randomUUID() }));
    const refused = await answerJoining(member, { joiningId, accepts: true });
    expect(refused.ok).toBe(false);
    if (!refused.ok) expect(refused.problems[0].message).toMatch(/Selma Krog for Heron/);
    expect(await statusOf(joiningId)).toMatchObject({ status: "open" });
    expect(await rows("SELECT 1 FROM joining_answer WHERE joining_id = $1", joiningId)).toHaveLength(0);
    expect({ ...(await firingScreen(member, firingId)), nowMs: before?.nowMs }).toEqual(before);
  }, LONG_MS);
});

describe("at the same instant", () => {
  it("ten yeses book once", async () => {
    const { member, otherMember, northKiln } = await fresh();
    const { firingId, joiningId } = await proposed(member, otherMember, northKiln.equipmentId);
    const codes = (await Promise.all(Array.from({ length: 10 }, () => answerJoining(member, { joiningId, accepts: true })))).map(codeOf).sort();
    expect(codes.filter((code) => code === "ok")).toHaveLength(1);
    expect(codes.filter((code) => code !== "ok" && code !== "proposal-over" && code !== "already-answered")).toEqual([]);
    expect(await purposes(firingId)).toEqual(["kiln", "load", "steam-out", "steam-out", "unload"]);
  }, LONG_MS);

  it("a yes and a cancellation leave either a shared firing or none", async () => {
    const { member, otherMember, northKiln } = await fresh();
    const { firingId, joiningId, guestCasting } = await proposed(member, otherMember, northKiln.equipmentId);
    const [yes, gone] = await Promise.all([answerJoining(member, { joiningId, accepts: true }), cancelRun(member, { firingId, reason: "the mould broke yesterday" })]);
    expect(codeOf(gone)).toBe("ok");
    expect(["ok", "proposal-over"]).toContain(codeOf(yes));
    expect(await purposes(firingId)).toEqual([]);
    expect(await rows("SELECT 1 FROM firing_casting WHERE casting_id = $1 AND standing", guestCasting)).toHaveLength(0);
  }, LONG_MS);

  it("a yes and the proposer's withdrawal end in one of the two", async () => {
    const { member, otherMember, northKiln } = await fresh();
    const { firingId, joiningId } = await proposed(member, otherMember, northKiln.equipmentId);
    const [yes, back] = await Promise.all([answerJoining(member, { joiningId, accepts: true }), withdrawJoining(otherMember, { joiningId })]);
    expect([codeOf(yes), codeOf(back)].sort()).toEqual(["ok", "proposal-over"]);
    expect((await purposes(firingId)).length).toBe(yes.ok ? 5 : 4);
  }, LONG_MS);
});

describe("a shared firing", () => {
  it("is planned anew for the rest when a casting is taken out, and the others are told", async () => {
    const { member, otherMember, northKiln } = await fresh();
    const { firingId, guestCasting } = await shared(member, otherMember, northKiln.equipmentId);
    const joint = await firingScreen(member, firingId);
    expect(codeOf(await leaveFiring(member, { firingId, castingId: guestCasting }))).toBe("not-allowed");
    must(await leaveFiring(otherMember, { firingId, castingId: guestCasting }));
    const alone = await firingScreen(member, firingId);
    expect(alone).toMatchObject({ title: "Gull", owner: "Jonas Brink", kiln: { from: joint?.kiln.from } });
    expect(Date.parse(alone?.kiln.to ?? "")).toBeLessThan(Date.parse(joint?.kiln.to ?? ""));
    expect(await purposes(firingId)).toEqual(["kiln", "load", "steam-out", "unload"]);
    expect((await said(member.memberId)).at(-1)).toMatch(/Selma Krog took Tern out of the firing in North kiln\. It is planned anew/);
    const { joiningId } = must(await propose(otherMember, firingId, guestCasting));
    must(await answerJoining(member, { joiningId, accepts: true }));
    expect((await firingScreen(member, firingId))?.title).toBe("Gull with Tern");
    expect((await rows("SELECT code FROM check_item WHERE firing_id = $1 AND replaced_at IS NULL AND code LIKE 'L4%'", firingId)).map((row) => row.code)).toEqual(["L4/4"]);
  }, LONG_MS);

  it("passes to who is left when its owner takes theirs out", async () => {
    const { member, otherMember, northKiln } = await fresh();
    const { firingId, hostCasting, guestCasting } = await shared(member, otherMember, northKiln.equipmentId);
    must(await leaveFiring(member, { firingId, castingId: hostCasting }));
    expect(await firingScreen(otherMember, firingId)).toMatchObject({ title: "Tern", owner: "Selma Krog", mine: true, castingId: guestCasting });
    expect(codeOf(await cancelRun(otherMember, { firingId }))).toBe("ok");
  }, LONG_MS);

  it("is cancelled for all by its owner alone, with a reason that all are told; the manager releases it", async () => {
    const { member, otherMember, manager, northKiln } = await fresh();
    const { firingId, guestCasting } = await shared(member, otherMember, northKiln.equipmentId);
    expect(codeOf(await cancelRun(otherMember, { firingId, reason: "I do not need it now" }))).toBe("not-allowed");
    expect(codeOf(await cancelRun(member, { firingId }))).toBe("reason-too-short");
    must(await cancelRun(member, { firingId, reason: "the mould broke yesterday" }));
    expect((await said(otherMember.memberId)).at(-1)).toMatch(/Jonas Brink cancelled the firing that you shared.*the mould broke yesterday/);
    expect(await rows("SELECT 1 FROM firing_casting WHERE casting_id = $1 AND standing", guestCasting)).toHaveLength(0);
    const again = await shared(member, otherMember, northKiln.equipmentId);
    must(await releaseRun(manager, { firingId: again.firingId, reason: "the kiln is needed for a course" }));
    expect((await said(otherMember.memberId)).at(-1)).toMatch(/Marit Toft released your run for Gull with Tern/);
  }, LONG_MS);

  it("moves as one on its own kiln, by its owner with a reason, and keeps its plan", async () => {
    const { member, otherMember, northKiln, southKiln } = await fresh();
    const { firingId } = await shared(member, otherMember, northKiln.equipmentId);
    const before = await firingScreen(member, firingId);
    const version = await versionOf(member, firingId);
    const to = { firingId, kilnId: northKiln.equipmentId, version, kilnFrom: later(before?.kiln.from ?? "", 7) };
    expect(codeOf(await moveRun(otherMember, { ...to, reason: "I am away that week", requestKey: randomUUID() }))).toBe("not-allowed");
    expect(codeOf(await moveRun(member, { ...to, requestKey: randomUUID() }))).toBe("reason-too-short");
    const reason = "the glass comes a week later";
    expect(codeOf(await moveRun(member, { ...to, kilnId: southKiln.equipmentId, reason, requestKey: randomUUID() }))).toBe("other-kiln");
    must(await moveRun(member, { ...to, reason, requestKey: randomUUID() }));
    const after = await firingScreen(otherMember, firingId);
    expect(after?.kiln.from).toBe(later(before?.kiln.from ?? "", 7).replace("Z", ".000Z").replace(".000.000Z", ".000Z"));
    expect(after?.plan).toEqual(before?.plan);
    expect(await purposes(firingId)).toEqual(["kiln", "load", "steam-out", "steam-out", "unload"]);
    expect((await said(otherMember.memberId)).at(-1)).toMatch(/moved your run for Gull with Tern to North kiln.*the glass comes a week later/);
  }, LONG_MS);

  it("is lengthened with its liftings one after another, and expected by anybody in it", async () => {
    const { member, otherMember, northKiln } = await fresh();
    const { firingId } = await shared(member, otherMember, northKiln.equipmentId);
    const before = await firingScreen(member, firingId);
    must(await lengthenBooking(otherMember, { firingId, kilnTo: later(before?.kiln.to ?? "", 2) }));
    const unload = await rows("SELECT starts_at, ends_at FROM lift WHERE firing_id = $1 AND standing AND what = 'unload' ORDER BY starts_at", firingId);
    expect(unload).toHaveLength(2);
    expect(unload[0]?.ends_at).toEqual(unload[1]?.starts_at);
    expect(codeOf(await setExpectedEnd(otherMember, { firingId, at: later(before?.kiln.to ?? "", 3), reason: "it is cold outside" }))).toBe("ok");
    expect((await said(member.memberId)).at(-1)).toMatch(/Selma Krog expects Gull with Tern/);
  }, LONG_MS);

  it("is whole or not at all: a steam-out cannot be taken from it by hand", async () => {
    const { member, otherMember, northKiln } = await fresh();
    const { firingId, guestCasting } = await shared(member, otherMember, northKiln.equipmentId);
    await expect(rows("UPDATE booking SET standing = false WHERE firing_id = $1 AND casting_id = $2", firingId, guestCasting)).rejects.toThrow(/is not whole/);
    expect(BOULDER.piece.sizeMm).toEqual([130]);
  }, LONG_MS);
});
