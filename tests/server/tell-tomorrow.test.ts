import pg from "pg";
import { Temporal } from "temporal-polyfill";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import type { Who } from "@/lib/server/who";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";
import { writeFiring } from "@/tests/helpers/written-firing";

const database = await useFreshDatabase();
const { atInstant } = await import("@/lib/server/clock");
const { closeDatabase } = await import("@/lib/server/db");
const { tellTomorrow } = await import("@/lib/server/jobs/tell-tomorrow");
const { setTomorrowHour } = await import("@/lib/server/commands/set-tomorrow-hour");
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

/** A run whose mould is lifted and whose kiln is loaded at this instant. */
async function loadAt(from: string, who: Who = shed.member, { kiln = shed.northKiln, title = "Tall heron", hours = 168 } = {}): Promise<void> {
  const to = Temporal.Instant.from(from).add({ hours }).toString();
  const firingId = await writeFiring(owner, { owner: who, title, bookings: [{ purpose: "kiln", equipmentId: kiln.equipmentId, from, to }] });
  await owner.query(
    `INSERT INTO lift (workshop_id, firing_id, casting_id, trolley_id, what, starts_at, ends_at, kg, hands, mould_state, hot, wet, flag, from_place, to_place, why)
     SELECT workshop_id, firing_id, casting_id, $2, 'load', $3, $3::timestamptz + interval '30 minutes', 34.2, 2, 'wet', false, true, 'amber', 'mould bench', 'North kiln', 'x'
       FROM firing_casting WHERE firing_id = $1`,
    [firingId, shed.trolley.equipmentId, from],
  );
}
const tellAt = (instant: string, ...ids: readonly string[]) => atInstant(Temporal.Instant.from(instant), () => tellTomorrow(ids.length > 0 ? ids : [shed.workshopId]));
async function mails(who: Who) {
  const { rows } = await owner.query("SELECT subject, body, kind FROM mail WHERE member_id = $1 ORDER BY for_day", [who.memberId]);
  return rows;
}
const choose = (who: Who, kind: string, mailed: boolean) => owner.query("INSERT INTO mail_choice VALUES ($1, $2, $3, $4)", [who.workshopId, who.memberId, kind, mailed]);

const FIVE = "2027-03-01T16:00:00Z";
const TOMORROW_NINE = "2027-03-02T08:00:00Z";

describe("tomorrow's loads and lifts", () => {
  it("are mailed at five on the workshop's clock: all to assistants, to owners their own, to nobody else", async () => {
    await loadAt(TOMORROW_NINE);
    await loadAt("2027-03-02T10:30:00Z", shed.otherMember, { kiln: shed.southKiln, title: "Low tide" });
    await tellAt("2027-03-01T15:59:59Z");
    expect(await mails(shed.assistant)).toEqual([]);
    await tellAt(FIVE);
    const [all] = await mails(shed.assistant);
    expect(all.subject).toBe("Tomorrow's loads and lifts, Tue 2 Mar (Saltmarsh Glass Sheds)");
    expect(all.body).toContain("- 09:00 North kiln: Tall heron (Jonas Brink), until Tue 9 Mar, 09:00\n- 11:30 South kiln: Low tide (Selma Krog), until Tue 9 Mar, 11:30");
    expect(all.body).toContain("- 09:00 Load the kiln: Tall heron (Jonas Brink), 34 kg, 2 people, Blue trolley, mould bench to North kiln. Wet. Heavy.");
    expect(all.body).toContain("http://localhost:3000/lifts?day=2027-03-02");
    const [own] = await mails(shed.member);
    expect(own.body).toContain("Tall heron");
    expect(own.body).not.toContain("Low tide");
    expect(await mails(shed.otherMember)).toHaveLength(1);
    expect(await mails(shed.manager)).toEqual([]);
  });

  it("are mailed once a day to each, however often and by however many at once it runs", async () => {
    await loadAt(TOMORROW_NINE);
    await Promise.all([1, 2, 3, 4].map(() => tellAt(FIVE)));
    await tellAt("2027-03-01T22:59:00Z");
    expect(await mails(shed.assistant)).toHaveLength(1);
    expect(await mails(shed.member)).toHaveLength(1);
    const { rows } = await owner.query("SELECT 1 FROM graphile_worker._private_jobs job JOIN graphile_worker._private_tasks task ON task.id = job.task_id WHERE task.identifier = 'send-mail' AND payload ->> 'workshopId' = $1", [shed.workshopId]);
    expect(rows).toHaveLength(2);
  });

  it("catch up the same evening after a late start, and not the next morning", async () => {
    await loadAt(TOMORROW_NINE);
    await tellAt("2027-03-01T22:59:59Z");
    expect(await mails(shed.member)).toHaveLength(1);
    const late = await makeWorkshop(database.ownerUrl);
    shed = late;
    await loadAt(TOMORROW_NINE);
    await tellAt("2027-03-01T23:00:00Z");
    expect(await mails(late.member)).toEqual([]);
  });

  it("reach who has heard nothing yet when they are booked later in the evening", async () => {
    await loadAt(TOMORROW_NINE);
    await tellAt(FIVE);
    await loadAt("2027-03-02T10:30:00Z", shed.otherMember, { kiln: shed.southKiln });
    await tellAt("2027-03-01T19:00:00Z");
    expect(await mails(shed.otherMember)).toHaveLength(1);
    expect(await mails(shed.assistant)).toHaveLength(1);
  });

  it("are what begins from midnight to midnight of a day of 23 hours", async () => {
    const short = { hours: 1 };
    await loadAt("2027-03-27T22:59:00Z", shed.member, { ...short, title: "The day before" });
    await loadAt("2027-03-27T23:00:00Z", shed.member, { ...short, kiln: shed.southKiln, title: "First of the day" });
    await loadAt("2027-03-28T21:59:00Z", shed.member, { ...short, kiln: shed.southKiln, title: "Last of the day" });
    await loadAt("2027-03-28T22:00:00Z", shed.member, { ...short, title: "First of the next" });
    await tellAt("2027-03-27T16:00:00Z");
    await tellAt("2027-03-28T14:59:59Z");
    expect(await mails(shed.assistant)).toHaveLength(1);
    await tellAt("2027-03-28T15:00:00Z");
    const [sunday, monday] = await mails(shed.assistant);
    expect(sunday.subject).toContain("Sun 28 Mar");
    expect(sunday.body).toContain("- 00:00 South kiln: First of the day");
    expect(sunday.body).toContain("- 23:59 South kiln: Last of the day");
    expect(sunday.body).not.toMatch(/The day before|First of the next/);
    expect(monday.body).toContain("- 00:00 North kiln: First of the next");
    expect(monday.body).not.toContain("Last of the day");
  });

  it("are mailed at the hour that the workshop has chosen, across a change of the clocks, and once though it is changed in between", async () => {
    await loadAt("2027-03-27T10:00:00Z", shed.member, { hours: 1 });
    await loadAt("2027-03-28T10:00:00Z", shed.member, { hours: 1 });
    await loadAt("2027-03-29T10:00:00Z", shed.member, { hours: 1 });
    expect(await setTomorrowHour(shed.manager, { hour: "7" })).toEqual({ ok: true, value: { hour: 7 } });
    // Seven in the morning is 06:00Z before the clocks go forward on the 28th, and 05:00Z on that day.
    for (const [early, due] of [["2027-03-26T05:59:59Z", "2027-03-26T06:00:00Z"], ["2027-03-27T05:59:59Z", "2027-03-27T06:00:00Z"], ["2027-03-28T04:59:59Z", "2027-03-28T05:00:00Z"]] as const) {
      const before = (await mails(shed.member)).length;
      await tellAt(early);
      expect(await mails(shed.member)).toHaveLength(before);
      await tellAt(due);
      expect(await mails(shed.member)).toHaveLength(before + 1);
    }
    await setTomorrowHour(shed.manager, { hour: "19" });
    await tellAt("2027-03-28T17:00:00Z");
    expect(await mails(shed.member)).toHaveLength(3);
  });

  it("follow what each person chose, and are one mail for whoever chose both", async () => {
    await loadAt(TOMORROW_NINE, shed.assistant);
    await loadAt("2027-03-02T10:30:00Z", shed.otherMember, { kiln: shed.southKiln });
    await choose(shed.manager, "tomorrow-lifts", true);
    await choose(shed.otherMember, "tomorrow-own", false);
    await tellAt(FIVE);
    expect(await mails(shed.manager)).toHaveLength(1);
    expect(await mails(shed.otherMember)).toEqual([]);
    expect((await mails(shed.assistant)).map(({ kind }) => kind)).toEqual(["tomorrow-lifts"]);
  });

  it("are not mailed when there are none", async () => {
    await tellAt(FIVE);
    expect(await mails(shed.assistant)).toEqual([]);
  });

  it("name nothing of another workshop, and a workshop that is none holds up nobody", async () => {
    const other = await makeWorkshop(database.ownerUrl, { name: "Other sheds" });
    await loadAt(TOMORROW_NINE);
    await expect(tellAt(FIVE, "not-an-id", shed.workshopId, other.workshopId)).rejects.toThrow(/1 of 3 workshops/);
    expect(await mails(shed.assistant)).toHaveLength(1);
    expect(await mails(other.assistant)).toEqual([]);
  });
});
